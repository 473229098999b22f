// The wheels of a file: drawn from classes and distributions, or listed one by one, in tables or in a CSV file.
#include "wingnose/case/population.hpp"

#include "wingnose/words/text.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace wingnose::cases {
namespace {

constexpr const char* only_class = "all wheels"; // where a file has no [[class]]

KeyValue value_of_key(const Written& value, const std::string& name) {
  return one_value(value, value.where + ": " + name, "a number, a text in quotes, true or false", "Write one value.");
}

// --- drawn -----------------------------------------------------------------------------------------------------------

enum class Kind { normal, uniform, choice };
constexpr auto names(Kind) {
  return std::array{Name{Kind::normal, "normal"}, Name{Kind::uniform, "uniform"}, Name{Kind::choice, "choice"}};
}

ChoiceSpread choice_spread(const Sheet& table) {
  ChoiceSpread spread;
  for (const Written& value : table.list("values", "a list with at least one value, such as [80, 100, 120]")) {
    spread.values.push_back(value_of_key(value, "values"));
  }
  spread.weights.assign(spread.values.size(), 1.0);
  if (table.has("weights")) {
    const auto weights = table.list("weights", "one weight per value");
    if (weights.size() != spread.values.size()) {
      throw InputError(table.where("weights") + ": give one weight per value");
    }
    for (std::size_t i = 0; i < weights.size(); ++i) {
      if (weights[i].kind != Written::Kind::number) {
        refuse(table.where("weights"), weights[i], "numbers of 0 or more", "Write [1, 2, 1].");
      }
      spread.weights[i] = weights[i].number;
    }
  }
  return spread;
}

Variation read_variation(const Sheet& table) {
  const std::string unit = "a number in the unit of the key";
  Variation v;
  v.key = table.text("key", "the key that varies, such as \"passage.speed_km_h\"");
  switch (named<Kind>(table.text("distribution", one_of(names_of<Kind>())), table.where("distribution"))) {
  case Kind::normal: {
    table.refuse_others({"key", "distribution", "mean", "standard_deviation", "from", "to"});
    NormalSpread spread;
    spread.mean = table.needed_number("mean", unit);
    spread.deviation = table.needed_number("standard_deviation", unit);
    spread.from = table.number("from", unit).value_or(spread.from);
    spread.to = table.number("to", unit).value_or(spread.to);
    v.spread = spread;
    break;
  }
  case Kind::uniform:
    table.refuse_others({"key", "distribution", "from", "to"});
    v.spread = UniformSpread{table.needed_number("from", unit), table.needed_number("to", unit)};
    break;
  case Kind::choice:
    table.refuse_others({"key", "distribution", "values", "weights"});
    v.spread = choice_spread(table);
    break;
  }
  return v;
}

std::vector<Variation> read_variations(const Sheet& table) {
  std::vector<Variation> variations;
  for (const Sheet& one : table.tables("vary")) {
    variations.push_back(read_variation(one));
  }
  return variations;
}

// A case that lends its wheel: [wheel] as written, on any rail.
Document wheel_case(const Sheet& table, const std::string& class_name, Files& files) {
  const Written& wheel = *table.find("wheel");
  if (wheel.kind != Written::Kind::table) {
    refuse(table.where("wheel"), wheel, "a table", "Write wheel = { profile = \"S1002\", hollow_depth_mm = 2 }.");
  }
  const std::string name = "wheel of class \"" + class_name + "\"";
  for (const auto& [key, value] : wheel.table->entries()) {
    if (!shapes_wheel("wheel." + key)) {
      throw InputError(value.where + ": wheel." + key +
                       " says how a wheel is held; a class has a profile. Let the key vary over the wheels");
    }
  }
  const Sheet only_wheel(table.file(), wheel.where, {{"wheel", wheel}}, table.folder());
  const std::size_t before = files.inputs.size();
  Case c = with_place(table.where("wheel"), [&] { return case_of(only_wheel, name, files); });
  c.inputs.assign(files.inputs.begin() + static_cast<std::ptrdiff_t>(before), files.inputs.end());
  files.inputs.resize(before);
  return Document(std::move(c));
}

std::vector<WheelClass> read_classes(const Sheet& top, Files& files) {
  std::vector<WheelClass> classes;
  for (const Sheet& table : top.tables("class")) {
    table.refuse_others({"name", "share", "wheel", "vary"});
    WheelClass c;
    c.name = table.text("name", "a short name of these wheels in quotes");
    if (std::any_of(classes.begin(), classes.end(), [&](const WheelClass& other) { return other.name == c.name; })) {
      throw InputError(table.where("name") + ": two classes are called \"" + c.name + "\"; give each its own name");
    }
    c.share = table.number("share", "a number above 0").value_or(1.0);
    if (!(c.share > 0.0)) {
      throw InputError(table.where("share"), plain(c.share), "above 0", "Leave out a class that does not occur.");
    }
    if (table.has("wheel")) {
      c.wheel = wheel_case(table, c.name, files);
    }
    c.variations = read_variations(table);
    classes.push_back(std::move(c));
  }
  return classes;
}

PopulationRecipe read_recipe(const Sheet& table, std::vector<WheelClass> classes) {
  PopulationRecipe recipe;
  const auto count = table.whole("count", "the number of wheels");
  if (!count) {
    throw InputError(table.where("count") + " is missing; give the number of wheels to draw, or csv with a list");
  }
  recipe.count = *count;
  recipe.seed = table.whole("seed", "a whole number of 0 or more").value_or(recipe.seed);
  if (table.has("sampling")) {
    recipe.sampling = named<Sampling>(table.text("sampling", one_of(names_of<Sampling>())), table.where("sampling"));
  }
  recipe.variations = read_variations(table);
  recipe.classes = std::move(classes);
  if (recipe.classes.empty()) {
    recipe.classes.emplace_back().name = only_class;
  }
  return recipe;
}

// --- listed ----------------------------------------------------------------------------------------------------------

// Adds a wheel to those listed. A class is made where it is first named, unless [[class]] tables say which there are
// (given); where none is named it is the only one there is. where: of the class.
void add(Population& population, bool given, Member member, std::string class_name, const std::string& where) {
  auto& classes = population.classes;
  if (class_name.empty() && classes.size() > 1 && given) {
    throw InputError(where + " is missing; name one of the [[class]] tables");
  }
  if (class_name.empty()) {
    class_name = given ? classes.front().name : only_class;
  }
  const auto found =
      std::find_if(classes.begin(), classes.end(), [&](const WheelClass& c) { return c.name == class_name; });
  member.wheel_class = static_cast<std::size_t>(found - classes.begin());
  if (found == classes.end()) {
    if (given) {
      std::vector<std::string> known(classes.size());
      std::transform(classes.begin(), classes.end(), known.begin(), [](const WheelClass& c) { return c.name; });
      throw InputError(where + ": there is no class \"" + class_name + "\"; the [[class]] tables are " + one_of(known) +
                       ". " + suggestion(class_name, known));
    }
    classes.emplace_back().name = class_name;
  }
  if (member.name.empty()) {
    member.name = "wheel " + std::to_string(population.members.size() + 1);
  }
  population.members.push_back(std::move(member));
}

double checked_weight(double weight, const std::string& where) {
  if (!(weight >= 0.0)) {
    throw InputError(where, plain(weight), "0 or more", "A weight says how often such a wheel comes.");
  }
  return weight;
}

// wheel.lateral_offset_mm = 2 makes a table in a table; keys of cases are written with dots.
void add_values(const Sheet& table, const std::string& prefix, std::vector<Override>& values) {
  for (const auto& [key, value] : table.entries()) {
    const std::string name = prefix + key;
    if (value.kind == Written::Kind::table) {
      add_values(*value.table, name + ".", values);
    } else if (name.find('.') != std::string::npos) {
      values.push_back({name, value_of_key(value, name)});
    }
  }
}

Population read_tables(const std::vector<Sheet>& tables, std::vector<WheelClass> classes) {
  Population population{std::move(classes), {}};
  const bool given = !population.classes.empty();
  for (const Sheet& table : tables) {
    std::vector<std::string> known{"name", "weight", "class"};
    for (const auto& [key, value] : table.entries()) {
      if (value.kind == Written::Kind::table || key.find('.') != std::string::npos) {
        known.push_back(key);
      }
    }
    table.refuse_others(known);
    Member member;
    add_values(table, "", member.values);
    member.name = table.has("name") ? table.text("name", "a name in quotes") : "";
    member.weight = checked_weight(table.needed_number("weight", "how often such a wheel comes, a number of 0 or more"),
                                   table.where("weight"));
    add(population, given, std::move(member),
        table.has("class") ? table.text("class", "the name of a [[class]] in quotes") : "", table.where("class"));
  }
  return population;
}

KeyValue finite_value(const std::string& cell, const std::string& where) {
  KeyValue value = cell_value(cell);
  if (const double* number_of = std::get_if<double>(&value); number_of != nullptr && !std::isfinite(*number_of)) {
    throw InputError(where, '"' + cell + '"', "a finite number", "Leave the cell empty where the case's value holds.");
  }
  return value;
}

void check_header(const Rows& rows) {
  const std::string where = rows.name + ":" + std::to_string(rows.header_line);
  for (const std::string& name : rows.header) {
    if (name != "name" && name != "weight" && name != "class" && name.find('.') == std::string::npos) {
      throw InputError(where + ": unknown column \"" + name + "\". " + suggestion(name, {"name", "weight", "class"}) +
                       " Other columns are keys of cases, such as passage.speed_km_h");
    }
  }
  if (std::find(rows.header.begin(), rows.header.end(), "weight") == rows.header.end()) {
    throw InputError(where + ": the column weight is missing; it says how often each wheel comes");
  }
}

Population read_rows(const Rows& rows, std::vector<WheelClass> classes) {
  check_header(rows);
  if (rows.cells.empty()) {
    throw InputError(rows.name + ": no wheels; give a header line with weight and keys such as "
                                 "wheel.lateral_offset_mm, and one line per wheel");
  }
  Population population{std::move(classes), {}};
  const bool given = !population.classes.empty();
  for (std::size_t i = 0; i < rows.cells.size(); ++i) {
    Member member;
    std::string class_name;
    for (std::size_t c = 0; c < rows.header.size(); ++c) {
      const std::string &name = rows.header[c], &cell = rows.cells[i][c], where = rows.where(i) + ": " + name;
      if (name == "name") {
        member.name = cell;
      } else if (name == "class") {
        class_name = cell;
      } else if (name == "weight") {
        const KeyValue value = finite_value(cell, where);
        if (!std::holds_alternative<double>(value)) {
          throw InputError(where, '"' + cell + '"', "a number of 0 or more", "Correct this line.");
        }
        member.weight = checked_weight(std::get<double>(value), where);
      } else if (!cell.empty()) {
        member.values.push_back({name, finite_value(cell, where)});
      }
    }
    add(population, given, std::move(member), class_name, rows.where(i) + ": class");
  }
  return population;
}

void refuse_drawing(const Sheet& top) {
  for (const Sheet& table : top.tables("class")) {
    for (const char* word : {"share", "vary"}) {
      if (table.has(word)) {
        throw InputError(table.where(word) +
                         " belongs to wheels drawn with [population] count; these wheels are listed");
      }
    }
  }
}

} // namespace

KeyValue one_value(const Written& value, const std::string& where, const std::string& expected,
                   const std::string& advice) {
  switch (value.kind) {
  case Written::Kind::number:
    return value.number;
  case Written::Kind::flag:
    return std::string(value.flag ? "true" : "false");
  case Written::Kind::text:
    return value.text;
  default:
    refuse(where, value, expected, advice);
  }
}

KeyValue cell_value(const std::string& cell) {
  double value = 0.0;
  const auto [stop, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  return error == std::errc{} && stop == cell.data() + cell.size() ? KeyValue(value) : KeyValue(cell);
}

Wheels read_wheels(const Sheet& top, Files& files) {
  auto classes = read_classes(top, files);
  const auto listed = top.tables("wheel");
  const auto population = top.table("population");
  if (listed.empty() == !population.has_value()) {
    throw InputError(top.file() + ": give the wheels either drawn or from a CSV file ([population]), or one by one "
                                  "([[wheel]])");
  }
  if (!listed.empty()) {
    refuse_drawing(top);
    return read_tables(listed, std::move(classes));
  }
  if (population->has("csv")) {
    population->refuse_others({"csv"});
    refuse_drawing(top);
    return read_rows(named_rows(*population, top.folder(), "wheels", files), std::move(classes));
  }
  population->refuse_others({"count", "seed", "sampling", "vary", "csv"});
  return read_recipe(*population, std::move(classes));
}

Wheels read_population(const Sheet& sheet, Files& files) {
  for (const char* word : {"crossing", "compare"}) {
    if (sheet.has(word)) {
      throw InputError(sheet.where(word) + " belongs to a comparison; wheels of a traffic roll over the crossing of "
                                           "the case. Leave it out");
    }
  }
  sheet.refuse_others({"population", "class", "wheel"});
  return read_wheels(sheet, files);
}

} // namespace wingnose::cases
