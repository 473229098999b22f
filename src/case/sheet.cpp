#include "wingnose/case/sheet.hpp"

#include "wingnose/words/text.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace wingnose::cases {

Written Written::of(double value) {
  Written w;
  w.kind = Kind::number;
  w.number = value;
  w.shown = plain(value);
  return w;
}

Written Written::of(const std::string& value) {
  Written w;
  w.shown = '"' + value + '"';
  w.text = value;
  w.kind = value == "true" || value == "false" ? Kind::flag : Kind::text;
  w.flag = value == "true";
  return w;
}

bool Written::is_tables() const {
  return kind == Kind::list && !list.empty() &&
         std::all_of(list.begin(), list.end(), [](const Written& w) { return w.kind == Kind::table; });
}

void refuse(const std::string& where, const Written& value, const std::string& expected, const std::string& advice) {
  throw InputError(where, value.shown, expected, advice);
}

Sheet Sheet::called(std::string home) const {
  Sheet sheet = *this;
  sheet.home_ = std::move(home);
  return sheet;
}

const Written* Sheet::find(std::string_view name) const {
  const auto found = std::find_if(entries_.begin(), entries_.end(), [&](const Entry& e) { return e.first == name; });
  return found == entries_.end() ? nullptr : &found->second;
}

std::string Sheet::where(const std::string& name) const {
  const Written* found = find(name);
  const std::string& place = found != nullptr ? found->where : home_.empty() ? file_ : where_;
  return place + ": " + (home_.empty() ? "" : home_ + ": ") + name;
}

void Sheet::refuse_others(const std::vector<std::string>& known) const {
  for (const auto& [name, value] : entries_) {
    if (std::find(known.begin(), known.end(), name) == known.end()) {
      throw InputError(value.where + ": unknown key \"" + name + "\"" + (home_.empty() ? "" : " in " + home_) + ". " +
                       suggestion(name, known));
    }
  }
}

std::string Sheet::text(const std::string& name, const std::string& meaning) const {
  const Written* found = find(name);
  if (found == nullptr) {
    throw InputError(where(name) + " is missing; give " + meaning);
  }
  if (found->kind != Written::Kind::text || found->text.empty()) {
    refuse(where(name), *found, meaning, "Write it in quotes.");
  }
  return found->text;
}

std::optional<double> Sheet::number(const std::string& name, const std::string& meaning) const {
  const Written* found = find(name);
  if (found == nullptr) {
    return std::nullopt;
  }
  if (found->kind != Written::Kind::number || !std::isfinite(found->number)) {
    refuse(where(name), *found, meaning, "Write a number without quotes.");
  }
  return found->number;
}

double Sheet::needed_number(const std::string& name, const std::string& meaning) const {
  const auto value = number(name, meaning);
  if (!value) {
    throw InputError(where(name) + " is missing; give " + meaning);
  }
  return *value;
}

std::optional<std::uint64_t> Sheet::whole(const std::string& name, const std::string& meaning) const {
  const Written* found = find(name);
  if (found == nullptr) {
    return std::nullopt;
  }
  if (found->kind != Written::Kind::number || !found->whole || *found->whole < 0) {
    refuse(where(name), *found, meaning, "Write a whole number without quotes.");
  }
  return static_cast<std::uint64_t>(*found->whole);
}

std::optional<bool> Sheet::yes_or_no(const std::string& name, const std::string& meaning) const {
  const Written* found = find(name);
  if (found == nullptr) {
    return std::nullopt;
  }
  if (found->kind != Written::Kind::flag) {
    refuse(where(name), *found, meaning, "Write it without quotes.");
  }
  return found->flag;
}

std::vector<Written> Sheet::list(const std::string& name, const std::string& meaning) const {
  const Written* found = find(name);
  if (found == nullptr || found->kind != Written::Kind::list || found->list.empty()) {
    throw InputError(where(name) + ": give " + meaning);
  }
  return found->list;
}

std::optional<Sheet> Sheet::table(const std::string& name) const {
  const Written* found = find(name);
  if (found == nullptr) {
    return std::nullopt;
  }
  if (found->kind != Written::Kind::table) {
    refuse(where(name), *found, "a table headed [" + name + "]", "Write its keys below the heading.");
  }
  return found->table->called("[" + name + "]");
}

std::vector<Sheet> Sheet::tables(const std::string& name) const {
  const Written* found = find(name);
  std::vector<Sheet> list;
  if (found == nullptr) {
    return list;
  }
  const bool below = home_.size() > 2 && home_.front() == '[';
  const std::string inner =
      below ? home_.substr(home_.rfind('[') + 1, home_.find(']') - home_.rfind('[') - 1) + "." : "";
  const std::string heading = "[[" + inner + name + "]]";
  if (!found->is_tables()) {
    refuse(where(name), *found, "tables headed " + heading, "Double square brackets start each one.");
  }
  for (const Written& element : found->list) {
    list.push_back(element.table->called(heading));
  }
  return list;
}

std::vector<std::vector<double>> Rows::numbers(const std::vector<std::string>& columns) const {
  if (line.empty()) {
    throw InputError(name + ": there is a header but no line of numbers below it");
  }
  std::vector<std::vector<double>> values;
  for (const std::string& column : columns) {
    const auto found = std::find(header.begin(), header.end(), column);
    if (found == header.end()) {
      throw InputError(name + ":" + std::to_string(header_line) + ": column \"" + column +
                       "\" is missing; the header has " + one_of(header) + ". Needed: " + one_of(columns) +
                       "; units are part of the name.");
    }
    const auto c = static_cast<std::size_t>(found - header.begin());
    std::vector<double>& list = values.emplace_back();
    list.reserve(cells.size());
    for (std::size_t row = 0; row < cells.size(); ++row) {
      const std::string& cell = cells[row][c];
      const char* end = cell.data() + cell.size();
      double value = 0.0;
      const auto [stop, error] = std::from_chars(cell.data(), end, value);
      if (error != std::errc{} || stop != end || !std::isfinite(value)) {
        throw InputError(where(row), "\"" + cell + "\" in column \"" + column + "\"",
                         "a finite decimal number such as 12.5", "Correct or remove this line.");
      }
      list.push_back(value);
    }
  }
  return values;
}

Case named_case(const Sheet& table, const std::filesystem::path& folder, Files& files) {
  const std::string name = table.text("case", "the name of a case file in quotes");
  return with_place(table.where("case"), [&] { return files.read_case((folder / name).lexically_normal()); });
}

Rows named_rows(const Sheet& table, const std::filesystem::path& folder, const std::string& role, Files& files) {
  const std::string name = table.text("csv", "the name of a CSV file in quotes");
  return files.rows((folder / name).lexically_normal(), table.where("csv"), role);
}

} // namespace wingnose::cases
