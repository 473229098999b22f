#include "wingnose/io/reference.hpp"

#include "wingnose/words/text.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace wingnose::io {
namespace {

using cases::Key;
using cases::KeysOf;
using cases::Schema;
using Json = nlohmann::ordered_json;

const cases::List* list_named(const Schema& schema, const std::string& section) {
  const auto found = std::find_if(schema.lists.begin(), schema.lists.end(),
                                  [&](const cases::List& list) { return list.section == section; });
  return found == schema.lists.end() ? nullptr : &*found;
}

// A section made so that what belongs to one of its choices applies, and then as it was.
class ChosenFor {
public:
  ChosenFor(const std::string& only, const std::string& section, const Schema& schema, void* of) : of_(of) {
    if (cases::applies(only, cases::selected(schema, section, of))) {
      return;
    }
    for (const Key& selector : schema.keys) {
      const auto* slot = std::get_if<cases::ChoiceSlot>(&selector.slot);
      if (selector.section == section && selector.selector && slot != nullptr) {
        slot_ = slot;
        before_ = slot->get(of);
        slot->set(of, split(only, '|').front());
      }
    }
  }
  ChosenFor(const ChosenFor&) = delete;
  ChosenFor(ChosenFor&&) = delete;
  ChosenFor& operator=(const ChosenFor&) = delete;
  ChosenFor& operator=(ChosenFor&&) = delete;
  ~ChosenFor() {
    if (slot_ != nullptr) {
      slot_->set(of_, before_);
    }
  }

private:
  void* of_;
  const cases::ChoiceSlot* slot_ = nullptr;
  std::string before_;
};

std::string default_text(const Key& key, const KeysOf& keys) {
  if (key.required) {
    return "required";
  }
  if (std::holds_alternative<cases::FileSlot>(key.slot)) {
    return "";
  }
  const auto* list = list_named(*keys.schema, key.section);
  const std::string section = list == nullptr ? key.section : cases::section_above(key.section);
  const ChosenFor chosen(list == nullptr ? key.only : list->only, section, *keys.schema, keys.defaults.get());
  return cases::value_text(key, list == nullptr ? keys.defaults.get() : list->append(keys.defaults.get()));
}

std::string cell(std::string text) {
  for (std::size_t at = text.find('|'); at != std::string::npos; at = text.find('|', at + 2)) {
    text.insert(at, "\\");
  }
  return text;
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (const auto& word : words) {
    text += (text.empty() ? "" : ", ") + word;
  }
  return text;
}

std::string allowed_cell(const Key& key) {
  return !key.choices.empty()                                ? listed(key.choices)
         : std::holds_alternative<cases::FileSlot>(key.slot) ? "file name"
         : std::holds_alternative<cases::TextSlot>(key.slot) ? "text"
         : std::holds_alternative<cases::FlagSlot>(key.slot)
             ? "true, false"
             : plain(key.range.least / key.unit.to_si) + " to " + plain(key.range.most / key.unit.to_si);
}

std::string meaning_cell(const Key& key) {
  return key.only.empty() ? key.meaning : key.meaning + " (" + listed(split(key.only, '|')) + " only)";
}

void append_keys(std::string& page, const KeysOf& keys) {
  for (const auto& [section, meaning, only] : keys.schema->sections) {
    const bool many = list_named(*keys.schema, section) != nullptr;
    std::string rows;
    for (const Key& key : keys.schema->keys) {
      if (key.section == section) {
        rows += "| `" + key.name + "` | " + std::string(key.unit.name) + " | " + cell(default_text(key, keys)) + " | " +
                cell(allowed_cell(key)) + " | " + cell(meaning_cell(key)) + " |\n";
      }
    }
    if (!rows.empty()) {
      const std::string open = many ? "[[" : "[", close = many ? "]]" : "]";
      page += "\n### " + (section.empty() ? "Top of the file" : "`" + open + section + close + "`") + ": " + meaning +
              (many ? " (may stand several times)" : "") +
              (only.empty() ? "" : " (" + listed(split(only, '|')) + " only)") + "\n\n";
      page += "| key | unit | default | allowed | meaning |\n| --- | --- | --- | --- | --- |\n" + rows;
    }
  }
}

std::string uses_of(const quantity::Quantity& q) {
  const auto& u = q.uses;
  return listed([&] {
    std::vector<std::string> uses;
    for (const auto& [may, what] : {std::pair{u.limit != quantity::Limit::none, "limit"},
                                    std::pair{u.compared, "compared"}, std::pair{u.swept, "swept"}}) {
      if (may) {
        uses.emplace_back(what);
      }
    }
    return uses;
  }());
}

void append_quantities(std::string& page) {
  page += "\n# Numbers that are told\n\nLimits of `speeds` are upper limits, that on minimum_force_kN is a lower one. "
          "Sweeps hold those of the steel when they ask for it (`steel = true`).\n\n"
          "| key | unit | name in print | may be | meaning |\n| --- | --- | --- | --- | --- |\n";
  for (const auto& q : quantity::quantities()) {
    page += "| `" + std::string(q.key) + "` | " + std::string(q.unit.name) + " | " + std::string(q.label) + " | " +
            uses_of(q) + " | " + cell(std::string(q.meaning)) + " |\n";
  }
}

void append_findings(std::string& page) {
  page +=
      "\n# Findings\n\nEvery answer carries them. What a grave one is about cannot happen, or hides what would: such "
      "a case counts as the worst, never as an ordinary one.\n\n| kind | gravity | meaning | what to do |\n"
      "| --- | --- | --- | --- |\n";
  for (const auto& w : finding_kinds()) {
    page += "| `" + std::string(w.key) + "` | " + std::string(name(w.gravity)) + " | " + std::string(w.meaning) +
            " | " + cell(std::string(w.advice)) + " |\n";
  }
}

std::string path_of(const quantity::Group& group, const quantity::Array& array) {
  return group.path.empty() ? array.name : group.path + "/" + array.name;
}

void append_answer(std::string& page, const quantity::Tree& answer) {
  page += "\n## " + answer.kind() + "\n\n| dataset | dimensions | unit | meaning |\n| --- | --- | --- | --- |\n";
  for (const auto& group : answer.groups()) {
    for (const auto& a : group.arrays) {
      page += "| `" + path_of(group, a) + "` | " + listed(a.dims) + " | " + (a.is_text ? "text" : a.unit) + " | " +
              cell(a.meaning) + " |\n";
    }
  }
}

Json key_json(const Key& key, const KeysOf& keys) {
  const bool ranged = std::isfinite(key.range.least) && std::isfinite(key.range.most);
  Json one{{"section", key.section}, {"key", key.name}, {"unit", key.unit.name}, {"required", key.required}};
  one["default"] = key.required ? Json(nullptr) : Json(default_text(key, keys));
  const auto end = [&](double si) { return ranged ? Json(std::stod(plain(si / key.unit.to_si))) : Json(nullptr); };
  one["least"] = end(key.range.least);
  one["most"] = end(key.range.most);
  one["choices"] = key.choices;
  one["only"] = key.only.empty() ? std::vector<std::string>{} : split(key.only, '|');
  one["meaning"] = key.meaning;
  return one;
}

} // namespace

std::string reference(std::span<const KeysOf> keys, std::span<const quantity::Tree> answers) {
  std::string page = "# Keys of the files you write\n\n"
                     "Files are TOML. The unit of a value is the last part of its key. File names are taken from "
                     "the folder of the file that names them. `base = \"other.toml\"` as the first line starts from "
                     "that file: single keys replace its keys, `[[...]]` tables replace all of its tables of that "
                     "name.\n";
  for (const KeysOf& one : keys) {
    page += "\n## A " + one.file + " file\n";
    append_keys(page, one);
  }
  page += "\n## CSV files\n\nA header line with column names, commas between columns, a point as decimal sign, `#` "
          "starts a comment line.\n\n| file | columns |\n| --- | --- |\n"
          "| crossing sections (`wing_csv`, `nose_csv`) | station_mm, y_mm, z_mm; the points of one section together, "
          "ordered across from the running edge |\n"
          "| wheel path (`path_csv`) | station_mm, height_mm |\n"
          "| wheel profile (`csv`) | y_mm, height_mm |\n";
  append_quantities(page);
  append_findings(page);
  page += "\n# What result files hold\n\nHDF5; every dataset has `unit`, `description`, `label` and the names of its "
          "`dims`; the file has `format`, `schema_version`, `version` and `commit`. Where a value does not exist it is "
          "NaN. `--json` prints the same without the long lists.\n";
  for (const auto& answer : answers) {
    append_answer(page, answer);
  }
  return page;
}

std::string reference_json(std::span<const KeysOf> keys, std::span<const quantity::Tree> answers) {
  Json json;
  for (const KeysOf& one : keys) {
    for (const Key& key : one.schema->keys) {
      json["keys"][one.file].push_back(key_json(key, one));
    }
  }
  for (const auto& q : quantity::quantities()) {
    json["quantities"].push_back({{"key", q.key},
                                  {"unit", q.unit.name},
                                  {"label", q.label},
                                  {"section", quantity::title(q.section)},
                                  {"may_be", uses_of(q)},
                                  {"meaning", q.meaning}});
  }
  for (const auto& w : finding_kinds()) {
    json["findings"].push_back(
        {{"kind", w.key}, {"gravity", name(w.gravity)}, {"meaning", w.meaning}, {"advice", w.advice}});
  }
  for (const auto& answer : answers) {
    for (const auto& group : answer.groups()) {
      for (const auto& a : group.arrays) {
        json["datasets"][answer.kind()].push_back({{"dataset", path_of(group, a)},
                                                   {"dims", a.dims},
                                                   {"unit", a.is_text ? "text" : a.unit},
                                                   {"meaning", a.meaning}});
      }
    }
  }
  return json.dump(2);
}

} // namespace wingnose::io
