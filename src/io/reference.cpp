// The reference page of keys, made from the schema the reader checks against.
#include "schema.hpp"
#include "wingnose/words/text.hpp"

#include "wingnose/io/case_file.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace wingnose::io {

namespace {

std::string cell(std::string text) {
  for (std::size_t at = text.find('|'); at != std::string::npos; at = text.find('|', at + 2)) {
    text.insert(at, "\\");
  }
  return text;
}

std::string allowed_cell(const Key& key) {
  if (!key.choices.empty()) {
    std::string text;
    for (const auto& choice : key.choices) {
      text += (text.empty() ? "" : ", ") + choice;
    }
    return text;
  }
  if (std::holds_alternative<Slot<FileRef>>(key.slot)) {
    return "file name";
  }
  if (std::holds_alternative<Slot<std::string>>(key.slot)) {
    return "text";
  }
  if (std::holds_alternative<Slot<bool>>(key.slot)) {
    return "true, false";
  }
  return plain(key.least) + " to " + plain(key.most);
}

std::string meaning_cell(const Key& key) {
  if (key.only.empty()) {
    return key.text;
  }
  std::string only;
  for (const auto& choice : split(key.only, '|')) {
    only += (only.empty() ? "" : ", ") + choice;
  }
  return key.text + " (" + only + " only)";
}

void append_tables(std::string& page, const Schema& schema, Draft& draft) {
  for (const auto& [name, meaning] : schema.sections) {
    const std::string& section = name; // a plain name, which lambdas may capture
    const auto list = std::find_if(schema.lists.begin(), schema.lists.end(),
                                   [&](const ElementList& each) { return each.section == section; });
    const bool any =
        std::any_of(schema.keys.begin(), schema.keys.end(), [&](const Key& key) { return key.section == section; });
    if (!any) {
      continue;
    }
    const bool many = list != schema.lists.end();
    const std::string open = many ? "[[" : "[", close = many ? "]]" : "]";
    page += "\n### " + (section.empty() ? "Top of the file" : "`" + open + section + close + "`") + ": " + meaning +
            (many ? " (may stand several times)" : "") + "\n\n";
    page += "| key | unit | default | allowed | meaning |\n| --- | --- | --- | --- | --- |\n";
    if (many) {
      list->begin(draft);
    }
    for (const auto& key : schema.keys) {
      if (key.section == section) {
        std::string fallback = key.required ? "required" : value_text(key, draft);
        page += "| `" + key.name + "` | " + key.unit + " | " + cell(std::move(fallback)) + " | " +
                cell(allowed_cell(key)) + " | " + cell(meaning_cell(key)) + " |\n";
      }
    }
  }
}

} // namespace

std::string case_reference() {
  std::string page = "# Keys of a case file\n\n"
                     "A case file is TOML. The unit of a value is the last part of its key. File names are taken from "
                     "the folder of the file that names them. `base = \"other.toml\"` as the first line starts from "
                     "that file: single keys replace its keys, `[[...]]` tables replace all of its tables of that "
                     "name.\n\n## Case file\n";
  Draft defaults;
  defaults.c.name.clear(); // absent, the name is that of the file
  append_tables(page, case_schema(), defaults);
  page += "\n## Vehicle file (named by `vehicle.file`)\n";
  append_tables(page, vehicle_schema(), defaults);
  page += "\n## CSV files\n\nA header line with column names, commas between columns, a point as decimal sign, `#` "
          "starts a comment line.\n\n| file | columns |\n| --- | --- |\n"
          "| crossing sections (`wing_csv`, `nose_csv`) | station_mm, y_mm, z_mm; the points of one section together, "
          "ordered across from the running edge |\n"
          "| wheel path (`path_csv`) | station_mm, height_mm |\n"
          "| wheel profile (`csv`) | y_mm, height_mm |\n";
  return page;
}

std::string case_reference_json() {
  using Json = nlohmann::ordered_json;
  Draft defaults;
  defaults.c.name.clear();
  Json json;
  for (const auto& [file, schema] : {std::pair{"case", case_schema()}, std::pair{"vehicle", vehicle_schema()}}) {
    for (const auto& list : schema.lists) {
      list.begin(defaults);
    }
    for (const auto& key : schema.keys) {
      const bool ranged = std::isfinite(key.least) && std::isfinite(key.most);
      Json one{{"section", key.section}, {"key", key.name}, {"unit", key.unit}, {"required", key.required}};
      one["default"] = key.required ? Json(nullptr) : Json(value_text(key, defaults));
      one["least"] = ranged ? Json(key.least) : Json(nullptr);
      one["most"] = ranged ? Json(key.most) : Json(nullptr);
      one["choices"] = key.choices;
      one["only"] = key.only.empty() ? std::vector<std::string>{} : split(key.only, '|');
      one["meaning"] = key.text;
      json[file].push_back(one);
    }
  }
  return json.dump(2);
}

} // namespace wingnose::io
