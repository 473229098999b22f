#include "commands.hpp"
#include "print.hpp"

#include <nlohmann/json.hpp>

#include "wingnose/io/case_file.hpp"

#include <cmath>
#include <ostream>

namespace wingnose::cli {

namespace {

using Json = nlohmann::ordered_json;

// Measures in the order a run prints them; those this program does not know come last, by name.
std::vector<io::Measure> in_order(const io::StoredResult& stored) {
  std::vector<io::Measure> known;
  for (const auto& measure : io::geometry_measures()) {
    known.push_back(measure);
  }
  for (const auto& measure : io::passage_measures()) {
    known.push_back(measure);
  }
  std::vector<io::Measure> present;
  auto rest = stored.measures;
  for (auto& measure : known) {
    if (rest.erase(measure.key) > 0) {
      measure.unit = stored.measure_units.at(measure.key);
      present.push_back(measure);
    }
  }
  for (const auto& [key, value] : rest) {
    present.push_back({key, stored.measure_units.at(key), key, "", 3});
  }
  return present;
}

void print_json(std::ostream& out, const io::StoredResult& stored) {
  Json json;
  for (const auto& [name, text] : stored.attributes) {
    json[name] = text;
  }
  json["schema_version"] = stored.schema_version;
  for (const auto& measure : in_order(stored)) {
    const double value = stored.measures.at(measure.key);
    json[measure.key] = std::isfinite(value) ? Json(value) : Json(nullptr);
  }
  for (const auto& [path, lines] : stored.texts) {
    if (path.rfind("notes/", 0) == 0 || path == "case/inputs") {
      json[path] = lines;
    }
  }
  for (const auto& [path, array] : stored.arrays) {
    json["arrays"][path] = {{"unit", array.unit}, {"shape", array.shape}, {"description", array.description}};
  }
  out << json.dump(2, ' ', false, Json::error_handler_t::replace) << '\n';
}

void print_text(std::ostream& out, const std::filesystem::path& file, const io::StoredResult& stored) {
  const auto attribute = [&stored](const std::string& name) {
    const auto found = stored.attributes.find(name);
    return found == stored.attributes.end() ? std::string("unknown") : found->second;
  };
  print_rows(out, attribute("name"),
             {{"stored in", file.generic_string(), "", true},
              {"created", attribute("created"), "", true},
              {"by wingnose", stored.version + " (commit " + stored.commit + ")", "", true},
              {"excitation", attribute("excitation"), "", true},
              {"vehicle", attribute("vehicle"), "", true},
              {"method", attribute("method"), "", true}});
  std::vector<Row> rows;
  for (const auto& measure : in_order(stored)) {
    const double value = stored.measures.at(measure.key);
    if (std::isfinite(value) || measure.key == "first_peak_kN") {
      rows.push_back({measure.label, fixed(value, measure.decimals), measure.unit});
    }
  }
  print_rows(out, "Measures", rows);
  const auto texts = [&stored](const std::string& path) {
    const auto found = stored.texts.find(path);
    return found == stored.texts.end() ? std::vector<std::string>{} : found->second;
  };
  print_notes(out, "Warnings", texts("notes/warnings"));
  print_notes(out, "Notes", texts("notes/measures"));
  print_notes(out, "Input files (role, name, SHA-256)", texts("case/inputs"));
  std::vector<std::vector<std::string>> lines;
  for (const auto& [path, array] : stored.arrays) {
    lines.push_back({path, array.unit, std::to_string(array.values.size())});
  }
  print_columns(out, "Arrays", {"dataset", "unit", "values"}, lines);
  print_caution(out);
}

} // namespace

void show(const std::filesystem::path& result_file, bool json, std::ostream& out) {
  const io::StoredResult stored = io::read_result(result_file);
  json ? print_json(out, stored) : print_text(out, result_file, stored);
}

void keys(bool json, std::ostream& out) {
  if (json) {
    out << io::case_reference_json() << '\n';
    return;
  }
  out << io::case_reference() << '\n' << io::result_reference();
}

} // namespace wingnose::cli
