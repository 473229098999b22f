// Comparison files: what a user writes.
#include "compare_toml.hpp"
#include "population_toml.hpp"

#include "checksum.hpp"
#include "csv.hpp"
#include "value.hpp"
#include "wingnose/words/text.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::io {
namespace compare {

void Table::refuse_others(const std::vector<std::string>& known) const {
  for (const auto& [key, node] : *table_) {
    const std::string name(key.str());
    if (std::find(known.begin(), known.end(), name) == known.end()) {
      throw InputError(at(*layer_, node) + ": unknown key \"" + name + "\"" + (home_.empty() ? "" : " in " + home_) +
                       ". " + suggestion(name, known));
    }
  }
}

std::string Table::where(const std::string& name) const {
  const toml::node* found = table_->get(name);
  const toml::node& place = found != nullptr ? *found : *table_;
  const bool whole_file = found == nullptr && home_.empty();
  return (whole_file ? layer_->name : at(*layer_, place)) + ": " + (home_.empty() ? "" : home_ + ": ") + name;
}

std::string Table::text(const std::string& name, const std::string& meaning) const {
  const toml::node* found = table_->get(name);
  if (found == nullptr) {
    throw InputError(where(name) + " is missing; give " + meaning);
  }
  if (!found->is_string() || found->as_string()->get().empty()) {
    wrong_type(where(name), *found, meaning, "Write it in quotes.");
  }
  return found->as_string()->get();
}

std::optional<double> Table::number(const std::string& name, const std::string& meaning) const {
  const toml::node* found = table_->get(name);
  if (found == nullptr) {
    return std::nullopt;
  }
  const auto value = found->is_number() ? found->value<double>() : std::nullopt;
  if (!value || !std::isfinite(*value)) {
    wrong_type(where(name), *found, meaning, "Write a number without quotes.");
  }
  return value;
}

double Table::needed_number(const std::string& name, const std::string& meaning) const {
  const auto value = number(name, meaning);
  if (!value) {
    throw InputError(where(name) + " is missing; give " + meaning);
  }
  return *value;
}

std::optional<std::uint64_t> Table::whole(const std::string& name, const std::string& meaning) const {
  const toml::node* found = table_->get(name);
  if (found == nullptr) {
    return std::nullopt;
  }
  const auto value = found->is_integer() ? found->value<std::int64_t>() : std::nullopt;
  if (!value || *value < 0) {
    wrong_type(where(name), *found, meaning, "Write a whole number without quotes.");
  }
  return static_cast<std::uint64_t>(*value);
}

std::optional<bool> Table::yes_or_no(const std::string& name, const std::string& meaning) const {
  const toml::node* found = table_->get(name);
  if (found != nullptr && !found->is_boolean()) {
    wrong_type(where(name), *found, meaning, "Write it without quotes.");
  }
  return found == nullptr ? std::nullopt : found->value<bool>();
}

std::optional<Table> Table::table(const std::string& name) const {
  const toml::node* found = table_->get(name);
  if (found == nullptr) {
    return std::nullopt;
  }
  if (!found->is_table()) {
    wrong_type(where(name), *found, "a table headed [" + name + "]", "Write its keys below the heading.");
  }
  return Table(*layer_, *found->as_table(), "[" + name + "]");
}

std::vector<Table> Table::tables(const std::string& name) const {
  const toml::node* found = table_->get(name);
  std::vector<Table> list;
  if (found == nullptr) {
    return list;
  }
  const bool below = home_.size() > 2 && home_.front() == '[';
  const std::string inner =
      below ? home_.substr(home_.rfind('[') + 1, home_.find(']') - home_.rfind('[') - 1) + "." : "";
  const std::string heading = "[[" + inner + name + "]]";
  if (!found->is_array() || !found->as_array()->is_array_of_tables()) {
    wrong_type(where(name), *found, "tables headed " + heading, "Double square brackets start each one.");
  }
  for (const auto& element : *found->as_array()) {
    list.emplace_back(*layer_, *element.as_table(), heading);
  }
  return list;
}

namespace {

std::vector<study::ComparedCrossing> read_crossings(const Table& top) {
  std::vector<study::ComparedCrossing> crossings;
  for (const auto& table : top.tables("crossing")) {
    table.refuse_others({"name", "case"});
    const std::string name = table.text("name", "a short name of the crossing in quotes");
    const std::string file = table.text("case", "the name of a case file in quotes");
    try {
      crossings.push_back({name, read_case_document((top.layer().folder / file).lexically_normal())});
    } catch (const InputError& error) {
      throw InputError(table.where("case") + ": " + error.what());
    }
    const auto same = [&](const study::ComparedCrossing& c) { return c.name == name; };
    if (std::any_of(crossings.begin(), crossings.end() - 1, same)) {
      throw InputError(table.where("name") + ": two crossings are called \"" + name + "\"; give each its own name");
    }
  }
  if (crossings.size() < 2) {
    throw InputError(top.layer().name +
                     ": a comparison needs at least two [[crossing]] tables, each with name and "
                     "case; it has " +
                     std::to_string(crossings.size()));
  }
  return crossings;
}

study::CompareOptions read_options(const Table& top) {
  study::CompareOptions o;
  const auto table = top.table("compare");
  if (!table) {
    return o;
  }
  table->refuse_others({"thin_nose_mm", "confidence", "resamples", "seed", "envelope_step_mm", "envelope_from_m",
                        "envelope_to_m", "thickness_step_mm", "thickness_to_mm", "steel"});
  const auto read = [&](const char* name, double& value, double to_si, const char* meaning) {
    if (const auto number = table->number(name, meaning)) {
      value = *number * to_si;
    }
  };
  read("thin_nose_mm", o.thin_nose, 1e-3, "a thickness in mm below which a transfer is early");
  read("confidence", o.confidence, 1.0, "a number from 0.5 to 0.999");
  read("envelope_step_mm", o.envelope_step, 1e-3, "a length in mm");
  read("envelope_from_m", o.envelope_from, 1.0, "a station in m");
  read("envelope_to_m", o.envelope_to, 1.0, "a station in m");
  read("thickness_step_mm", o.thickness_step, 1e-3, "a thickness in mm");
  read("thickness_to_mm", o.thickness_to, 1e-3, "a thickness in mm");
  if (const auto number = table->whole("resamples", "a whole number from 100 to 100000")) {
    o.resamples = *number;
  }
  o.seed = table->whole("seed", "a whole number of 0 or more").value_or(o.seed);
  o.steel =
      table->yes_or_no("steel", "true or false: whether to tell what the landings do to the steel").value_or(o.steel);
  return o;
}

} // namespace
} // namespace compare

ComparisonFile read_comparison(const std::filesystem::path& file) {
  const std::string text = read_text(file, "");
  ComparisonFile comparison = parse_comparison(text, file.generic_string(), file.parent_path());
  auto& inputs = comparison.options.inputs;
  inputs.insert(inputs.begin(), {"comparison", file.filename().generic_string(), sha256(text)});
  return comparison;
}

ComparisonFile parse_comparison(std::string_view toml_text, const std::string& name,
                                const std::filesystem::path& folder) {
  const Document document = parse_document(toml_text, name, folder);
  const compare::Table top(document.top(), document.top().table, "");
  top.refuse_others({"crossing", "population", "class", "wheel", "compare"});
  ComparisonFile file;
  file.crossings = compare::read_crossings(top);
  file.wheels = compare::read_wheels(top);
  file.options = compare::read_options(top);
  file.options.inputs = compare::wheel_inputs(top);
  file.text = std::string(toml_text);
  return file;
}

} // namespace wingnose::io
