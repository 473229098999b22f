// Sweep files: what a user writes.
#include "csv.hpp"
#include "document.hpp"
#include "value.hpp"
#include "wingnose/words/text.hpp"

#include "wingnose/io/sweep_file.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace wingnose::io {

namespace {

void refuse_others(const Layer& layer, const toml::table& table, const std::string& home,
                   const std::vector<std::string>& known) {
  for (const auto& [key, node] : table) {
    const std::string name(key.str());
    if (std::find(known.begin(), known.end(), name) == known.end()) {
      throw InputError(at(layer, node) + ": unknown key \"" + name + "\"" + home + ". " + suggestion(name, known));
    }
  }
}

std::string text_of(const Layer& layer, const toml::table& table, const std::string& name, const std::string& meaning) {
  const toml::node* node = table.get(name);
  if (node == nullptr) {
    const int line = static_cast<int>(table.source().begin.line);
    throw InputError(layer.name + (line > 1 ? ":" + std::to_string(line) : "") + ": " + name + " is missing; give " +
                     meaning);
  }
  if (!node->is_string() || node->as_string()->get().empty()) {
    wrong_type(at(layer, *node) + ": " + name, *node, meaning, "Write it in quotes.");
  }
  return node->as_string()->get();
}

KeyValue value_of(const Layer& layer, const toml::node& node) {
  if (const auto number = node.is_number() ? node.value<double>() : std::nullopt) {
    return *number;
  }
  if (node.is_boolean()) {
    return std::string(node.as_boolean()->get() ? "true" : "false");
  }
  if (!node.is_string()) {
    wrong_type(at(layer, node) + ": values", node, "numbers, texts in quotes, true or false", "Write [1, 2, 3].");
  }
  return node.as_string()->get();
}

double number_of(const Layer& layer, const toml::table& table, const std::string& name) {
  const toml::node* node = table.get(name);
  const auto number = node != nullptr && node->is_number() ? node->value<double>() : std::nullopt;
  if (!number || !std::isfinite(*number)) {
    throw InputError(at(layer, table) + ": [[vary]] needs values = [...], or from, to and count as numbers");
  }
  return *number;
}

SweepColumn read_column(const Layer& layer, const toml::table& table) {
  refuse_others(layer, table, " in [[vary]]", {"key", "values", "from", "to", "count"});
  SweepColumn column{text_of(layer, table, "key", "the key that varies, such as \"passage.speed_km_h\""), {}};
  if (const toml::node* values = table.get("values")) {
    if (!values->is_array() || values->as_array()->empty()) {
      wrong_type(at(layer, *values) + ": values", *values, "a list with at least one value", "Write [1, 2, 3].");
    }
    if (table.contains("from") || table.contains("to") || table.contains("count")) {
      throw InputError(at(layer, *values) + ": values stand beside from, to or count; leave one or the other");
    }
    for (const auto& node : *values->as_array()) {
      column.values.push_back(value_of(layer, node));
    }
    return column;
  }
  const double from = number_of(layer, table, "from"), to = number_of(layer, table, "to");
  const double count = number_of(layer, table, "count");
  if (count != std::floor(count) || count < 2 || count > 10e6) {
    throw InputError(at(layer, *table.get("count")) + ": count", plain(count), "a whole number from 2 to 10 million",
                     "Both ends are included.");
  }
  for (double i = 0; i < count; ++i) {
    column.values.emplace_back(i == count - 1 ? to : from + (to - from) * (i / (count - 1)));
  }
  return column;
}

KeyValue cell_value(const std::string& cell) {
  double value = 0.0;
  const auto [stop, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  return error == std::errc{} && stop == cell.data() + cell.size() ? KeyValue(value) : KeyValue(cell);
}

std::vector<SweepColumn> read_points(const CaseDocument& document, const std::filesystem::path& file,
                                     const std::string& where) {
  std::string text = read_text(file, where);
  if (text.rfind("\xEF\xBB\xBF", 0) == 0) { // byte order mark
    text.erase(0, 3);
  }
  std::vector<SweepColumn> columns;
  int line_number = 0;
  for (const auto& raw : split(text, '\n')) {
    ++line_number;
    const std::string_view line = trim(raw);
    if (line.empty() || line.front() == '#') {
      continue;
    }
    const std::string place = file.generic_string() + ":" + std::to_string(line_number);
    const auto cells = split(line, ',');
    if (columns.empty()) {
      for (const auto& cell : cells) {
        columns.push_back({std::string(trim(cell)), {}});
      }
      continue;
    }
    if (cells.size() != columns.size()) {
      throw InputError(place + ": " + std::to_string(cells.size()) + " values where the header has " +
                       std::to_string(columns.size()) + " columns; separate them by commas");
    }
    for (std::size_t c = 0; c < cells.size(); ++c) {
      columns[c].values.push_back(cell_value(std::string(trim(cells[c]))));
      try {
        check_value(document, {columns[c].key, columns[c].values.back()});
      } catch (const InputError& error) {
        throw InputError(place + ": " + error.what());
      }
    }
  }
  if (columns.empty() || columns.front().values.empty()) {
    throw InputError(file.generic_string() +
                     ": no points; give a header line with keys such as passage.speed_km_h and one line per case");
  }
  return columns;
}

Sweep from_layer(const Layer& layer, const std::filesystem::path& folder) {
  const toml::table& top = layer.table;
  refuse_others(layer, top, "", {"case", "vary", "points", "probes", "history_every"});
  CaseDocument document = read_case_document(folder / text_of(layer, top, "case", "the name of a case file in quotes"));
  bool probes = false;
  if (const toml::node* node = top.get("probes")) {
    if (!node->is_boolean()) {
      wrong_type(at(layer, *node) + ": probes", *node, "true or false", "Write it without quotes.");
    }
    probes = node->as_boolean()->get();
  }
  int history_every = 0;
  if (const toml::node* node = top.get("history_every")) {
    const auto number = node->is_integer() ? node->value<int>() : std::nullopt;
    if (!number) {
      wrong_type(at(layer, *node) + ": history_every", *node, "a whole number from 0 (no histories) to 1000000",
                 "1 stores every sample, 10 every tenth.");
    }
    history_every = static_cast<int>(*number);
  }
  const toml::node *vary = top.get("vary"), *points = top.get("points");
  if ((vary == nullptr) == (points == nullptr)) {
    throw InputError(layer.name + ": a sweep needs either [[vary]] tables (all combinations) or [points] with csv");
  }
  if (points != nullptr) {
    if (!points->is_table()) {
      wrong_type(at(layer, *points) + ": points", *points, "a table headed [points]", "Name the file below it.");
    }
    refuse_others(layer, *points->as_table(), " in [points]", {"csv"});
    const std::string name = text_of(layer, *points->as_table(), "csv", "the name of a CSV file in quotes");
    auto columns = read_points(document, (folder / name).lexically_normal(), at(layer, *points) + ": csv");
    return {std::move(document), std::move(columns), false, probes, history_every};
  }
  if (!vary->is_array() || !vary->as_array()->is_array_of_tables()) {
    wrong_type(at(layer, *vary) + ": vary", *vary, "tables headed [[vary]]", "Double square brackets start each one.");
  }
  std::vector<SweepColumn> columns;
  for (const auto& element : *vary->as_array()) {
    columns.push_back(read_column(layer, *element.as_table()));
  }
  try {
    return {std::move(document), std::move(columns), true, probes, history_every};
  } catch (const InputError& error) {
    throw InputError(layer.name + ": " + error.what());
  }
}

} // namespace

Sweep read_sweep(const std::filesystem::path& file) {
  const std::string text = read_text(file, "");
  return parse_sweep(text, file.generic_string(), file.parent_path());
}

Sweep parse_sweep(std::string_view toml_text, const std::string& name, const std::filesystem::path& folder) {
  return from_layer(parse_document(toml_text, name, folder).top(), folder);
}

} // namespace wingnose::io
