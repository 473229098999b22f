// The wheels of a comparison file: classes, distributions, wheels one by one.
#include "compare_toml.hpp"

#include "csv.hpp"
#include "text.hpp"
#include "value.hpp"

#include "wingnose/error.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <sstream>

namespace wingnose::io::compare {

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

constexpr const char* only_class = "all wheels";

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

std::size_t place_of(const std::string& name, const std::string& where, bool classes_given,
                     std::vector<study::WheelClass>& classes) {
  const auto found = std::find_if(classes.begin(), classes.end(), [&](const auto& c) { return c.name == name; });
  if (found == classes.end() && classes_given) {
    std::vector<std::string> known;
    known.reserve(classes.size());
    for (const auto& c : classes) {
      known.push_back(c.name);
    }
    throw InputError(where + ": there is no class \"" + name + "\"; the [[class]] tables are " + one_of(known) + ". " +
                     suggestion(name, known));
  }
  const auto place = static_cast<std::size_t>(found - classes.begin());
  if (found == classes.end()) {
    study::WheelClass c;
    c.name = name;
    classes.push_back(std::move(c));
  }
  return place;
}

std::string default_class(const std::vector<study::WheelClass>& classes, bool classes_given, const std::string& where) {
  if (classes_given && classes.size() > 1) {
    throw InputError(where + " is missing; name one of the [[class]] tables");
  }
  return classes_given ? classes.front().name : only_class;
}

void check_weight(double weight, const std::string& where) {
  if (!(weight >= 0.0)) {
    throw InputError(where, plain(weight), "0 or more", "A weight says how often such a wheel comes.");
  }
}

// wheel.lateral_offset_mm = 2 makes a table in a table; keys of cases are written with dots.
void add_values(const Layer& layer, const toml::table& table, const std::string& prefix,
                std::vector<Override>& values) {
  for (const auto& [key, node] : table) {
    const std::string name = prefix + std::string(key.str());
    if (node.is_table()) {
      add_values(layer, *node.as_table(), name + ".", values);
    } else {
      values.push_back({name, value_of(layer, node, name)});
    }
  }
}

study::Population read_listed(const std::vector<Table>& tables, std::vector<study::WheelClass> classes) {
  study::Population population;
  const bool given = !classes.empty();
  for (const auto& table : tables) {
    study::Member member;
    std::string name = "wheel " + std::to_string(population.members.size() + 1);
    for (const auto& [key, node] : table.toml()) {
      const std::string word(key.str());
      if (word == "name" || word == "weight" || word == "class") {
        continue;
      }
      if (node.is_table()) {
        add_values(table.layer(), *node.as_table(), word + ".", member.values);
      } else if (word.find('.') != std::string::npos) {
        member.values.push_back({word, value_of(table.layer(), node, word)});
      } else {
        table.refuse_others({"name", "weight", "class"});
      }
    }
    member.name = table.has("name") ? table.text("name", "a name in quotes") : name;
    member.weight = table.needed_number("weight", "how often such a wheel comes, a number of 0 or more");
    check_weight(member.weight, table.where("weight"));
    member.wheel_class = place_of(table.has("class") ? table.text("class", "the name of a [[class]] in quotes")
                                                     : default_class(classes, given, table.where("class")),
                                  table.where("class"), given, classes);
    population.members.push_back(std::move(member));
  }
  population.classes = std::move(classes);
  return population;
}

KeyValue cell_value(const std::string& cell, const std::string& where) {
  double value = 0.0;
  const auto [stop, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  if (error != std::errc{} || stop != cell.data() + cell.size()) {
    return cell;
  }
  if (!std::isfinite(value)) {
    throw InputError(where, '"' + cell + '"', "a finite number", "Leave the cell empty where the case's value holds.");
  }
  return value;
}

study::Member read_row(const std::vector<std::string>& header, const std::vector<std::string>& cells,
                       const std::string& place, std::string& class_name) {
  study::Member member;
  for (std::size_t c = 0; c < header.size(); ++c) {
    const std::string cell(trim(cells[c]));
    if (header[c] == "name") {
      member.name = cell;
    } else if (header[c] == "class") {
      class_name = cell;
    } else if (header[c] == "weight") {
      const KeyValue value = cell_value(cell, place + ": weight");
      if (!std::holds_alternative<double>(value)) {
        throw InputError(place + ": weight", '"' + cell + '"', "a number of 0 or more", "Correct this line.");
      }
      member.weight = std::get<double>(value);
      check_weight(member.weight, place + ": weight");
    } else if (!cell.empty()) {
      member.values.push_back({header[c], cell_value(cell, place + ": " + header[c])});
    }
  }
  return member;
}

std::vector<std::string> read_header(const std::string_view line, const std::string& place) {
  std::vector<std::string> header;
  for (const auto& cell : split(line, ',')) {
    header.emplace_back(trim(cell));
    const std::string& name = header.back();
    if (name != "name" && name != "weight" && name != "class" && name.find('.') == std::string::npos) {
      throw InputError(place + ": unknown column \"" + name + "\". " + suggestion(name, {"name", "weight", "class"}) +
                       " Other columns are keys of cases, such as passage.speed_km_h");
    }
  }
  if (std::find(header.begin(), header.end(), "weight") == header.end()) {
    throw InputError(place + ": the column weight is missing; it says how often each wheel comes");
  }
  return header;
}

study::Population read_csv(const std::filesystem::path& file, const std::string& where,
                           std::vector<study::WheelClass> classes) {
  std::string text = read_text(file, where);
  if (text.rfind("\xEF\xBB\xBF", 0) == 0) { // byte order mark
    text.erase(0, 3);
  }
  study::Population population;
  const bool given = !classes.empty();
  std::vector<std::string> header;
  int line_number = 0;
  for (const auto& raw : split(text, '\n')) {
    ++line_number;
    const std::string_view line = trim(raw);
    if (line.empty() || line.front() == '#') {
      continue;
    }
    const std::string place = file.generic_string() + ":" + std::to_string(line_number);
    if (header.empty()) {
      header = read_header(line, place);
      continue;
    }
    const auto cells = split(line, ',');
    if (cells.size() != header.size()) {
      throw InputError(place + ": " + std::to_string(cells.size()) + " values where the header has " +
                       std::to_string(header.size()) + " columns; separate them by commas");
    }
    std::string class_name;
    study::Member member = read_row(header, cells, place, class_name);
    if (class_name.empty()) {
      class_name = default_class(classes, given, place + ": class");
    }
    member.wheel_class = place_of(class_name, place, given, classes);
    if (member.name.empty()) {
      member.name = "wheel " + std::to_string(population.members.size() + 1);
    }
    population.members.push_back(std::move(member));
  }
  if (population.members.empty()) {
    throw InputError(file.generic_string() + ": no wheels; give a header line with weight and keys such as "
                                             "wheel.lateral_offset_mm, and one line per wheel");
  }
  population.classes = std::move(classes);
  return population;
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

} // namespace wingnose::io::compare
