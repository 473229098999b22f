// The wheels of a file that are listed one by one, in tables or in a CSV file.
#include "population_toml.hpp"

#include "csv.hpp"
#include "value.hpp"
#include "wingnose/words/text.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace wingnose::io::compare {
namespace {

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

} // namespace

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

} // namespace wingnose::io::compare
