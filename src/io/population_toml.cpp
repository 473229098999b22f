// The wheels of a file that are drawn: classes and distributions. Those listed: population_toml_listed.cpp.
#include "population_toml.hpp"

#include "checksum.hpp"
#include "csv.hpp"
#include "value.hpp"
#include "wingnose/words/text.hpp"

#include "wingnose/io/population_file.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <sstream>

namespace wingnose::io {
namespace compare {

KeyValue value_of(const Layer& layer, const toml::node& node, const std::string& where) {
  if (const auto number = node.is_number() ? node.value<double>() : std::nullopt) {
    return *number;
  }
  if (node.is_boolean()) {
    return std::string(node.as_boolean()->get() ? "true" : "false");
  }
  if (!node.is_string()) {
    wrong_type(at(layer, node) + ": " + where, node, "a number, a text in quotes, true or false", "Write one value.");
  }
  return node.as_string()->get();
}

study::Variation read_variation(const Table& table) {
  study::Variation v;
  v.key = table.text("key", "the key that varies, such as \"passage.speed_km_h\"");
  const std::string kind = table.text("distribution", "\"normal\", \"uniform\" or \"choice\"");
  const std::string unit = "a number in the unit of the key";
  if (kind == "normal") {
    table.refuse_others({"key", "distribution", "mean", "standard_deviation", "from", "to"});
    study::NormalSpread spread;
    spread.mean = table.needed_number("mean", unit);
    spread.deviation = table.needed_number("standard_deviation", unit);
    spread.from = table.number("from", unit).value_or(spread.from);
    spread.to = table.number("to", unit).value_or(spread.to);
    v.spread = spread;
  } else if (kind == "uniform") {
    table.refuse_others({"key", "distribution", "from", "to"});
    v.spread = study::UniformSpread{table.needed_number("from", unit), table.needed_number("to", unit)};
  } else if (kind == "choice") {
    table.refuse_others({"key", "distribution", "values", "weights"});
    study::ChoiceSpread spread;
    const toml::node *values = table.node("values"), *weights = table.node("weights");
    if (values == nullptr || !values->is_array() || values->as_array()->empty()) {
      throw InputError(table.where("values") + ": give a list with at least one value, such as [80, 100, 120]");
    }
    for (const auto& node : *values->as_array()) {
      spread.values.push_back(value_of(table.layer(), node, "values"));
    }
    spread.weights.assign(spread.values.size(), 1.0);
    if (weights != nullptr) {
      if (!weights->is_array() || weights->as_array()->size() != spread.values.size()) {
        throw InputError(table.where("weights") + ": give one weight per value");
      }
      for (std::size_t i = 0; i < spread.weights.size(); ++i) {
        const toml::node& node = *weights->as_array()->get(i);
        const auto weight = node.is_number() ? node.value<double>() : std::nullopt;
        if (!weight) {
          wrong_type(table.where("weights"), node, "numbers of 0 or more", "Write [1, 2, 1].");
        }
        spread.weights[i] = *weight;
      }
    }
    v.spread = std::move(spread);
  } else {
    throw InputError(table.where("distribution"), '"' + kind + '"', one_of({"normal", "uniform", "choice"}),
                     suggestion(kind, {"normal", "uniform", "choice"}));
  }
  return v;
}

namespace {

std::vector<study::Variation> read_variations(const Table& table) {
  std::vector<study::Variation> variations;
  for (const auto& one : table.tables("vary")) {
    variations.push_back(read_variation(one));
  }
  return variations;
}

// A case that lends its wheel: [wheel] as written, on any rail.
CaseDocument wheel_case(const Table& table, const std::string& class_name) {
  const toml::node& node = *table.node("wheel");
  if (!node.is_table()) {
    wrong_type(table.where("wheel"), node, "a table", "Write wheel = { profile = \"S1002\", hollow_depth_mm = 2 }.");
  }
  std::ostringstream text;
  text << toml::table{{"wheel", *node.as_table()}} << "\n[crossing]\nkind = \"joint\"\ndip_angle_mrad = 1\n";
  try {
    return parse_case_document(text.str(), "wheel of class \"" + class_name + "\"", table.layer().folder);
  } catch (const InputError& error) {
    throw InputError(table.where("wheel") + ": " + error.what());
  }
}

void refuse_drawing(const Table& top) {
  for (const auto& table : top.tables("class")) {
    for (const char* word : {"share", "vary"}) {
      if (table.has(word)) {
        throw InputError(table.where(word) +
                         " belongs to wheels drawn with [population] count; these wheels are listed");
      }
    }
  }
}

study::PopulationRecipe read_recipe(const Table& table, std::vector<study::WheelClass> classes) {
  study::PopulationRecipe recipe;
  const auto count = table.whole("count", "the number of wheels");
  if (!count) {
    throw InputError(table.where("count") + " is missing; give the number of wheels to draw, or csv with a list");
  }
  recipe.count = *count;
  recipe.seed = table.whole("seed", "a whole number of 0 or more").value_or(recipe.seed);
  if (table.has("sampling")) {
    const std::vector<std::string> known{"stratified", "simple"};
    const std::string word = table.text("sampling", one_of(known));
    if (std::find(known.begin(), known.end(), word) == known.end()) {
      throw InputError(table.where("sampling"), '"' + word + '"', one_of(known), suggestion(word, known));
    }
    recipe.sampling = word == "simple" ? study::Sampling::simple : study::Sampling::stratified;
  }
  recipe.variations = read_variations(table);
  recipe.classes = std::move(classes);
  if (recipe.classes.empty()) {
    recipe.classes.emplace_back().name = only_class;
  }
  return recipe;
}

} // namespace

std::vector<study::WheelClass> read_classes(const Table& top) {
  std::vector<study::WheelClass> classes;
  for (const auto& table : top.tables("class")) {
    table.refuse_others({"name", "share", "wheel", "vary"});
    study::WheelClass c;
    c.name = table.text("name", "a short name of these wheels in quotes");
    if (std::any_of(classes.begin(), classes.end(), [&](const auto& other) { return other.name == c.name; })) {
      throw InputError(table.where("name") + ": two classes are called \"" + c.name + "\"; give each its own name");
    }
    c.share = table.number("share", "a number above 0").value_or(1.0);
    if (!(c.share > 0.0)) {
      throw InputError(table.where("share"), plain(c.share), "above 0", "Leave out a class that does not occur.");
    }
    if (table.has("wheel")) {
      c.wheel = wheel_case(table, c.name);
    }
    c.variations = read_variations(table);
    classes.push_back(std::move(c));
  }
  return classes;
}

std::variant<study::PopulationRecipe, study::Population> read_wheels(const Table& top) {
  auto classes = read_classes(top);
  const auto listed = top.tables("wheel");
  const auto population = top.table("population");
  if (listed.empty() == !population.has_value()) {
    throw InputError(top.layer().name + ": give the wheels either drawn or from a CSV file ([population]), or one by "
                                        "one ([[wheel]])");
  }
  if (!listed.empty()) {
    refuse_drawing(top);
    return read_listed(listed, std::move(classes));
  }
  if (population->has("csv")) {
    population->refuse_others({"csv"});
    refuse_drawing(top);
    const std::string name = population->text("csv", "the name of a CSV file in quotes");
    return read_csv((top.layer().folder / name).lexically_normal(), population->where("csv"), std::move(classes));
  }
  population->refuse_others({"count", "seed", "sampling", "vary", "csv"});
  return read_recipe(*population, std::move(classes));
}

std::vector<study::InputFile> wheel_inputs(const Table& top) {
  const auto population = top.table("population");
  if (!population || !population->has("csv")) {
    return {};
  }
  const std::string name = population->text("csv", "the name of a CSV file in quotes");
  const auto file = (top.layer().folder / name).lexically_normal();
  return {{"wheels", std::filesystem::path(name).generic_string(), sha256(read_text(file, population->where("csv")))}};
}

} // namespace compare

namespace {

const std::vector<study::WheelClass>&
classes_of(const std::variant<study::PopulationRecipe, study::Population>& wheels) {
  return std::visit([](const auto& one) -> const std::vector<study::WheelClass>& { return one.classes; }, wheels);
}

} // namespace

PopulationFile read_population(const std::filesystem::path& file) {
  const std::string text = read_text(file, "");
  PopulationFile population = parse_population(text, file.generic_string(), file.parent_path());
  auto& inputs = population.inputs;
  inputs.insert(inputs.begin(), {"traffic", file.filename().generic_string(), sha256(text)});
  return population;
}

PopulationFile parse_population(std::string_view toml_text, const std::string& name,
                                const std::filesystem::path& folder) {
  const Document document = parse_document(toml_text, name, folder);
  const compare::Table top(document.top(), document.top().table, "");
  if (top.has("crossing") || top.has("compare")) {
    throw InputError(top.where(top.has("crossing") ? "crossing" : "compare") +
                     " belongs to a comparison; wheels of a traffic roll over the crossing of the case. Leave it out");
  }
  top.refuse_others({"population", "class", "wheel"});
  PopulationFile file{compare::read_wheels(top), std::string(toml_text), compare::wheel_inputs(top)};
  for (const auto& c : classes_of(file.wheels)) {
    if (c.wheel) {
      for (const auto& input : c.wheel->base().inputs) {
        file.inputs.push_back({"wheel class " + c.name + ": " + input.role, input.path, input.sha256});
      }
    }
  }
  return file;
}

} // namespace wingnose::io
