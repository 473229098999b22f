#include "wingnose/io/case_document.hpp"

#include "csv.hpp"
#include "document.hpp"
#include "draft.hpp"
#include "reader.hpp"
#include "value.hpp"
#include "wingnose/words/text.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <unordered_map>

namespace wingnose::io {

struct CaseDocument::Parts {
  std::filesystem::path folder;
  Schema schema;
  std::unordered_map<std::string, std::size_t> index; // "passage.speed_km_h" -> place in schema.keys
  Draft draft;                                        // as read, before choices are resolved
  study::Case base;
  std::unordered_map<std::string, std::string> selected; // section -> value of its selector
  std::optional<profile::WheelProfile> measured;         // a measured wheel before any hollow
};

namespace {

using Parts = CaseDocument::Parts;

std::string full_name(const Key& key) { return key.section.empty() ? key.name : key.section + "." + key.name; }

bool in_list(const Schema& schema, const Key& key) {
  return std::any_of(schema.lists.begin(), schema.lists.end(),
                     [&](const ElementList& list) { return list.section == key.section; });
}

bool can_vary(const Schema& schema, const Key& key) {
  const bool text = std::holds_alternative<Slot<std::string>>(key.slot) && key.choices.empty();
  return !text && !in_list(schema, key) && !std::holds_alternative<Slot<FileRef>>(key.slot) &&
         !std::holds_alternative<Slot<std::vector<std::string>>>(key.slot);
}

// The choice that decides which keys of each section apply; naming a file may be that choice.
std::unordered_map<std::string, std::string> selections(const Schema& schema, Draft& draft) {
  std::unordered_map<std::string, std::string> selected;
  for (const Key& key : schema.keys) {
    if (key.selector) {
      selected[key.section] = value_text(key, draft);
    }
  }
  for (const Key& key : schema.keys) {
    const auto* file = std::get_if<Slot<FileRef>>(&key.slot);
    if (!key.implies.empty() && file != nullptr && (*file)(draft).given()) {
      selected[key.section] = key.implies;
    }
  }
  return selected;
}

bool applies(const std::string& only, const std::string& choice) {
  return only.empty() || ('|' + only + '|').find('|' + choice + '|') != std::string::npos;
}

CaseDocument from_document(const Document& document, const std::filesystem::path& folder, study::Case base) {
  auto parts = std::make_shared<Parts>();
  parts->folder = folder;
  parts->schema = case_schema();
  for (std::size_t i = 0; i < parts->schema.keys.size(); ++i) {
    parts->index.emplace(full_name(parts->schema.keys[i]), i);
  }
  parts->draft.c.name = base.name;
  read_document(document, parts->schema, parts->draft);
  parts->selected = selections(parts->schema, parts->draft);
  parts->draft.c.inputs = base.inputs;
  parts->draft.where.clear(); // messages name the keys that vary, not the lines of the file
  if (parts->draft.wheel_profile == "measured") {
    Draft plain = parts->draft;
    plain.hollow.depth = 0.0;
    build_wheel(plain, folder);
    parts->measured = plain.c.wheel;
  }
  parts->base = std::move(base);
  return CaseDocument(std::move(parts));
}

const Key& find_key(const Parts& parts, std::string_view name) {
  const auto found = parts.index.find(std::string(name));
  if (found == parts.index.end()) {
    const std::size_t dot = name.rfind('.');
    const std::string_view last = dot == std::string_view::npos ? name : name.substr(dot + 1);
    std::vector<std::string> known;
    std::string same_name;
    for (const Key& key : parts.schema.keys) {
      if (can_vary(parts.schema, key)) {
        known.push_back(full_name(key));
        same_name = same_name.empty() && key.name == last ? known.back() : same_name;
      }
    }
    throw InputError("\"" + std::string(name) + "\" is no key of a case file. " +
                     (same_name.empty() ? suggestion(name, known) : "Did you mean \"" + same_name + "\"?"));
  }
  const Key& key = parts.schema.keys[found->second];
  if (!can_vary(parts.schema, key)) {
    throw InputError("\"" + std::string(name) +
                     "\" cannot vary; numbers, choices and true/false can, outside of lists ([[...]]) and file names");
  }
  const auto selected = parts.selected.find(key.section);
  if (selected != parts.selected.end() && !applies(key.only, selected->second)) {
    throw InputError("\"" + std::string(name) + "\" does not apply to \"" + parts.draft.document + "\": there, [" +
                     key.section + "] is of the kind \"" + selected->second + "\", and the key belongs to " +
                     one_of(split(key.only, '|')));
  }
  return key;
}

const Layer& values_given() {
  static const Layer layer{"", {}, {}, "", {}};
  return layer;
}

struct ToNode {
  const Key& key;
  std::unique_ptr<toml::node> operator()(double value) const { return std::make_unique<toml::value<double>>(value); }
  std::unique_ptr<toml::node> operator()(const std::string& text) const {
    if (std::holds_alternative<Slot<bool>>(key.slot) && (text == "true" || text == "false")) {
      return std::make_unique<toml::value<bool>>(text == "true");
    }
    return std::make_unique<toml::value<std::string>>(text);
  }
};

// What has to be built anew.
struct Touched {
  bool excitation = false, vehicle = false, profile = false;
};

// Another choice takes the keys along that belong to it: those of the old one are left behind, as under a `base`.
void choose(const Parts& parts, const Key& selector, Draft& draft) {
  const std::string chosen = value_text(selector, draft), &before = parts.selected.at(selector.section);
  for (const Key& key : parts.schema.keys) {
    if (key.section != selector.section || key.only.empty()) {
      continue;
    }
    if (!key.implies.empty() && before == key.implies) {
      throw InputError("\"" + full_name(selector) + "\" cannot vary here: the case names a file with " +
                       full_name(key));
    }
    const bool belongs = applies(key.only, chosen);
    if (belongs && key.required && !applies(key.only, before)) {
      throw InputError("\"" + full_name(selector) + "\" cannot be \"" + chosen + "\" here: that needs " +
                       full_name(key) + ", which the case does not give");
    }
    const auto* optional = std::get_if<Slot<std::optional<double>>>(&key.slot);
    if (!belongs && optional != nullptr) {
      (*optional)(draft).reset();
    }
  }
}

// Sections from files keep their points; only the numbers beside them change.
void vary_sections(Draft& draft, const study::Case& base) {
  auto shape = std::get<layout::SectionedShape>(base.excitation);
  shape.rate = draft.shape.rate;
  shape.gauge = draft.shape.gauge;
  shape.noise = draft.section_noise;
  draft.c.excitation = std::move(shape);
}

study::Case rebuild(Draft draft, const Touched& touched, const Parts& parts) {
  const study::Case& base = parts.base;
  if (touched.excitation && draft.kind == "sections" &&
      std::holds_alternative<layout::SectionedShape>(base.excitation)) {
    vary_sections(draft, base);
  } else if (touched.excitation && draft.kind != "path") {
    build_excitation(draft, parts.folder);
  } else {
    draft.c.excitation = base.excitation; // the rail a given path runs on stands in the case itself
  }
  if (touched.vehicle) {
    build_vehicle(draft, parts.folder);
  } else {
    draft.c.vehicle = base.vehicle;
  }
  if (!touched.profile) {
    draft.c.wheel = base.wheel;
  } else if (draft.wheel_profile == "measured" && parts.measured && draft.wheel_noise == parts.draft.wheel_noise) {
    draft.c.wheel = draft.hollow.depth > 0.0 ? profile::hollow_worn(*parts.measured, draft.hollow) : *parts.measured;
  } else {
    build_wheel(draft, parts.folder);
  }
  if (draft.wheel_radius) {
    for (auto& wheel : draft.c.vehicle.wheels) {
      wheel.radius = *draft.wheel_radius;
    }
  }
  build_track(draft);
  build_passage(draft);
  build_damage(draft);
  build_estimate(draft);
  draft.c.inputs = base.inputs;
  return std::move(draft.c);
}

int cost_of(const Key& key) {
  static const std::vector<std::string> of_path{"passage.from_m", "passage.to_m", "passage.direction",
                                                "passage.reported_wheel", "vehicle.preset"};
  const std::string section = key.section.substr(0, key.section.find('.'));
  if (section == "track") {
    return 3;
  }
  if (section == "crossing" || section == "wheel" || section == "kinematics" ||
      std::find(of_path.begin(), of_path.end(), full_name(key)) != of_path.end()) {
    return 2;
  }
  return section == "measures" || section == "estimate" ? 0 : 1;
}

struct KindOf {
  KeyInfo::Kind operator()(const Slot<double>&) const { return KeyInfo::Kind::number; }
  KeyInfo::Kind operator()(const Slot<std::optional<double>>&) const { return KeyInfo::Kind::number; }
  KeyInfo::Kind operator()(const Slot<int>&) const { return KeyInfo::Kind::whole_number; }
  KeyInfo::Kind operator()(const Slot<bool>&) const { return KeyInfo::Kind::flag; }
  template <class Other> KeyInfo::Kind operator()(const Other&) const { return KeyInfo::Kind::choice; }
};

KeyInfo info(const Key& key) {
  return {full_name(key), key.unit,  key.text, std::visit(KindOf{}, key.slot),
          key.choices,    key.least, key.most, cost_of(key)};
}

} // namespace

const std::filesystem::path& CaseDocument::folder() const { return parts_->folder; }
const study::Case& CaseDocument::base() const { return parts_->base; }

CaseDocument read_case_document(const std::filesystem::path& file) {
  return from_document(load_document(file, ""), file.parent_path(), read_case(file));
}

CaseDocument parse_case_document(std::string_view toml_text, std::string name, const std::filesystem::path& folder) {
  study::Case base = parse_case(toml_text, name, folder);
  return from_document(parse_document(toml_text, std::move(name), folder), folder, std::move(base));
}

study::Case vary(const CaseDocument& document, std::span<const Override> overrides) {
  const Parts& parts = document.parts();
  Draft draft = parts.draft;
  Touched touched;
  for (auto each = overrides.begin(); each != overrides.end(); ++each) {
    const Key& key = find_key(parts, each->key);
    if (std::any_of(overrides.begin(), each, [&](const Override& before) { return before.key == each->key; })) {
      throw InputError("\"" + each->key + "\" is given two values; leave one");
    }
    read_value(*std::visit(ToNode{key}, each->value), key, each->key, values_given(), draft);
    if (key.selector) {
      choose(parts, key, draft);
    }
    touched.excitation |= key.section == "crossing";
    touched.vehicle |= key.section == "vehicle";
    touched.profile |= shapes_wheel(each->key);
  }
  return rebuild(std::move(draft), touched, parts);
}

bool shapes_wheel(std::string_view key) {
  constexpr std::array<std::string_view, 4> held{"wheel.lateral_offset_mm", "wheel.roll_mrad", "wheel.yaw_mrad",
                                                 "wheel.radius_mm"};
  return key.starts_with("wheel.") && std::find(held.begin(), held.end(), key) == held.end();
}

void check_value(const CaseDocument& document, const Override& value) {
  const Key& key = find_key(document.parts(), value.key);
  Draft scratch = document.parts().draft;
  read_value(*std::visit(ToNode{key}, value.value), key, value.key, values_given(), scratch);
}

std::vector<KeyInfo> varying_keys(const CaseDocument& document) {
  const Parts& parts = document.parts();
  std::vector<KeyInfo> keys;
  for (const Key& key : parts.schema.keys) {
    const auto selected = parts.selected.find(key.section);
    if (can_vary(parts.schema, key) && (selected == parts.selected.end() || applies(key.only, selected->second))) {
      keys.push_back(info(key));
    }
  }
  return keys;
}

KeyInfo key_info(const CaseDocument& document, std::string_view key) { return info(find_key(document.parts(), key)); }

} // namespace wingnose::io
