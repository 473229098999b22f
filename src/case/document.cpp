#include "wingnose/case/document.hpp"

#include "wingnose/words/text.hpp"

#include <algorithm>
#include <array>

namespace wingnose::cases {
namespace {

bool in_list(const Key& key) {
  const auto& lists = case_schema().lists;
  return std::any_of(lists.begin(), lists.end(), [&](const List& list) { return list.section == key.section; });
}

bool can_vary(const Key& key) {
  const bool text = std::holds_alternative<TextSlot>(key.slot) && key.choices.empty();
  return !text && !in_list(key) && !std::holds_alternative<FileSlot>(key.slot) &&
         !std::holds_alternative<TextsSlot>(key.slot);
}

// Slots reach into what may change; what is only looked at stays as it is.
void* readable(const Case& c) { return const_cast<Case*>(&c); } // NOLINT(cppcoreguidelines-pro-type-const-cast)

const Key& find_key(const Case& c, std::string_view name) {
  const Schema& schema = case_schema();
  const auto found = std::find_if(schema.keys.begin(), schema.keys.end(), [&](const Key& key) {
    return name.size() == key.section.size() + 1 + key.name.size() && name.starts_with(key.section) &&
           name.ends_with(key.name) && name[key.section.size()] == '.';
  });
  if (found == schema.keys.end()) {
    const std::size_t dot = name.rfind('.');
    const std::string_view last = dot == std::string_view::npos ? name : name.substr(dot + 1);
    std::vector<std::string> known;
    std::string same_name;
    for (const Key& key : schema.keys) {
      if (can_vary(key)) {
        known.push_back(key.full_name());
        same_name = same_name.empty() && key.name == last ? known.back() : same_name;
      }
    }
    throw InputError("\"" + std::string(name) + "\" is no key of a case file. " +
                     (same_name.empty() ? suggestion(name, known) : "Did you mean \"" + same_name + "\"?"));
  }
  if (!can_vary(*found)) {
    throw InputError("\"" + std::string(name) +
                     "\" cannot vary; numbers, choices and true/false can, outside of lists ([[...]]) and file names");
  }
  const std::string kind = selected(schema, found->section, readable(c));
  if (!applies(found->only, kind)) {
    throw InputError("\"" + std::string(name) + "\" does not apply to \"" + c.name + "\": there, [" + found->section +
                     "] is of the kind \"" + kind + "\", and the key belongs to " + one_of(split(found->only, '|')));
  }
  return *found;
}

class NoFiles : public Files {
public:
  Rows rows(const std::filesystem::path& file, const std::string&, const std::string&) override { refuse(file); }
  Sheet sheet(const std::filesystem::path& file, const std::string&, const std::string&) override { refuse(file); }
  Case read_case(const std::filesystem::path& file) override { refuse(file); }

private:
  [[noreturn]] static void refuse(const std::filesystem::path& file) {
    throw InputError("\"" + file.generic_string() + "\": names of files cannot vary");
  }
};

Written written(const KeyValue& value) {
  return std::visit([](const auto& one) { return Written::of(one); }, value);
}

// Another choice takes the keys along that belong to it: those of the old one are left behind, as under a `base`.
void check_choice(const Key& selector, const std::string& chosen, const std::string& before) {
  for (const Key& key : case_schema().keys) {
    if (key.section != selector.section || key.only.empty()) {
      continue;
    }
    if (!key.implies.empty() && before == key.implies) {
      throw InputError("\"" + selector.full_name() + "\" cannot vary here: the case names a file with " +
                       key.full_name());
    }
    if (key.required && applies(key.only, chosen) && !applies(key.only, before)) {
      throw InputError("\"" + selector.full_name() + "\" cannot be \"" + chosen + "\" here: that needs " +
                       key.full_name() + ", which the case does not give");
    }
  }
}

int cost_of(const Key& key) {
  static constexpr std::array<std::string_view, 5> of_path{"passage.from_m", "passage.to_m", "passage.direction",
                                                           "passage.reported_wheel", "vehicle.preset"};
  const std::string section = key.section.substr(0, key.section.find('.'));
  if (section == "track") {
    return 3;
  }
  if (section == "crossing" || section == "wheel" || section == "kinematics" ||
      std::find(of_path.begin(), of_path.end(), key.full_name()) != of_path.end()) {
    return 2;
  }
  return section == "measures" || section == "estimate" || section == "turnout" ? 0 : 1;
}

// As it is documented: 500 km/h, not what conversions make of it.
double in_unit(double si, const Unit& unit) { return std::stod(plain(si / unit.to_si)); }

KeyInfo info(const Key& key) {
  using Kind = KeyInfo::Kind;
  const Kind kind = std::holds_alternative<WholeSlot>(key.slot)  ? Kind::whole_number
                    : std::holds_alternative<FlagSlot>(key.slot) ? Kind::flag
                    : key.choices.empty()                        ? Kind::number
                                                                 : Kind::choice;
  return {key.full_name(),
          std::string(key.unit.name),
          key.meaning,
          kind,
          key.choices,
          in_unit(key.range.least, key.unit),
          in_unit(key.range.most, key.unit),
          cost_of(key)};
}

// Ranges of single values are checked as they are read; here what contradicts what.
void check_whole(Case& c, const Sheet* sheet) {
  try {
    check(c);
  } catch (const InputError& error) {
    tell_by_keys(error, case_schema(), &c, sheet);
  }
}

} // namespace

Case case_of(const Sheet& sheet, std::string name, Files& files) {
  Case c;
  c.name = std::move(name);
  fill(case_schema(), sheet, &c, files);
  if (auto* measured = std::get_if<MeasuredWheel>(&c.wheel.shape)) {
    Wheel plain = c.wheel;
    plain.hollow = {};
    measured->fit = std::make_shared<const MeasuredWheel::Fit>(MeasuredWheel::Fit{measured->noise, profile_of(plain)});
  }
  check_whole(c, &sheet);
  return c;
}

Case vary(const Document& document, std::span<const Override> overrides) {
  Case c = document.base();
  c.source_text.clear();
  NoFiles no_files;
  for (auto each = overrides.begin(); each != overrides.end(); ++each) {
    const Key& key = find_key(document.base(), each->key);
    if (std::any_of(overrides.begin(), each, [&](const Override& before) { return before.key == each->key; })) {
      throw InputError("\"" + each->key + "\" is given two values; leave one");
    }
    if (key.selector) {
      const std::string before = selected(case_schema(), key.section, &c);
      Case trial = c;
      put(key, written(each->value), each->key, &trial, no_files);
      check_choice(key, value_text(key, &trial), before);
    }
    put(key, written(each->value), each->key, &c, no_files);
  }
  check_whole(c, nullptr);
  return c;
}

void check_value(const Document& document, const Override& value) {
  const Key& key = find_key(document.base(), value.key);
  Case scratch = document.base();
  NoFiles no_files;
  put(key, written(value.value), value.key, &scratch, no_files);
}

KeyValue value_of(const Case& c, std::string_view name) {
  const Key& key = find_key(c, name);
  if (const auto* slot = std::get_if<NumberSlot>(&key.slot)) {
    return std::stod(number((*slot)(readable(c)) / key.unit.to_si, digits_of_a_key));
  }
  const std::string text = value_text(key, readable(c));
  const bool numeric = std::holds_alternative<MaybeSlot>(key.slot) || std::holds_alternative<WholeSlot>(key.slot);
  return numeric && !text.empty() ? KeyValue(std::stod(text)) : KeyValue(text);
}

bool shapes_wheel(std::string_view key) {
  constexpr std::array<std::string_view, 4> held{"wheel.lateral_offset_mm", "wheel.roll_mrad", "wheel.yaw_mrad",
                                                 "wheel.radius_mm"};
  return key.starts_with("wheel.") && std::find(held.begin(), held.end(), key) == held.end();
}

namespace {

// Whether what the section above has chosen lets it be read.
bool is_open(const Schema& schema, const std::string& section, void* of) {
  const auto found = std::find_if(schema.sections.begin(), schema.sections.end(),
                                  [&](const Section& each) { return each.name == section; });
  return found == schema.sections.end() || found->only.empty() ||
         applies(found->only, selected(schema, section_above(section), of));
}

} // namespace

std::vector<KeyInfo> varying_keys(const Document& document) {
  std::vector<KeyInfo> keys;
  for (const Key& key : case_schema().keys) {
    void* of = readable(document.base());
    if (can_vary(key) && is_open(case_schema(), key.section, of) &&
        applies(key.only, selected(case_schema(), key.section, of))) {
      keys.push_back(info(key));
    }
  }
  return keys;
}

KeyInfo key_info(const Document& document, std::string_view key) { return info(find_key(document.base(), key)); }

namespace {

void append(std::vector<KeyText>& texts, const Schema& schema, const std::string& prefix, void* of) {
  for (const Section& section : schema.sections) {
    const auto list = std::find_if(schema.lists.begin(), schema.lists.end(),
                                   [&](const List& each) { return each.section == section.name; });
    const bool many = list != schema.lists.end();
    const std::string kind = selected(schema, many ? section_above(section.name) : section.name, of);
    if (many ? !applies(list->only, kind) : !is_open(schema, section.name, of)) {
      continue;
    }
    for (std::size_t i = 0; i < (many ? list->size(of) : 1); ++i) {
      void* element = many ? list->at(of, i) : of;
      const std::string number = many ? "[" + std::to_string(i + 1) + "]" : "";
      for (const Key& key : schema.keys) {
        if (key.section == section.name && applies(key.only, many ? "" : kind)) {
          const std::string home = section.name.empty() ? "" : section.name + number + ".";
          texts.push_back({prefix + home + key.name, value_text(key, element), std::string(key.unit.name)});
        }
      }
    }
  }
}

} // namespace

std::vector<KeyText> all_keys(const Case& c) {
  std::vector<KeyText> texts;
  append(texts, case_schema(), "", readable(c));
  VehicleFile table{vehicle_of(c), "one rail"};
  append(texts, vehicle_schema(), "vehicle.", &table);
  if (c.rung == Rung::spatial) {
    SpaceVehicleFile in_space = file_of(space_vehicle_of(c));
    append(texts, space_vehicle_schema(), "spatial.vehicle.", &in_space);
  }
  return texts;
}

std::vector<std::string> differing_keys(const Case& a, const Case& b) {
  const auto ours = all_keys(a), theirs = all_keys(b);
  std::vector<std::string> differing;
  for (const KeyText& one : ours) {
    const auto same = std::find_if(theirs.begin(), theirs.end(), [&](const KeyText& k) { return k.key == one.key; });
    if (same != theirs.end() && same->value != one.value) {
      differing.push_back(one.key);
    }
  }
  return differing;
}

} // namespace wingnose::cases
