// Sweep files: what a user writes.
#include "wingnose/study/sweep.hpp"

#include "wingnose/case/population.hpp"
#include "wingnose/words/text.hpp"

#include <cmath>

namespace wingnose::study {
namespace {

SweepColumn read_column(const cases::Sheet& table) {
  table.refuse_others({"key", "values", "from", "to", "count"});
  SweepColumn column{table.text("key", "the key that varies, such as \"passage.speed_km_h\""), {}};
  if (table.has("values")) {
    if (table.has("from") || table.has("to") || table.has("count")) {
      throw InputError(table.where("values") + " stand beside from, to or count; leave one or the other");
    }
    for (const auto& value : table.list("values", "a list with at least one value, such as [1, 2, 3]")) {
      column.values.push_back(
          one_value(value, table.where("values"), "numbers, texts in quotes, true or false", "Write [1, 2, 3]."));
    }
    return column;
  }
  const std::string meaning = "a number; [[vary]] needs values = [...], or from, to and count";
  const double from = table.needed_number("from", meaning), to = table.needed_number("to", meaning);
  const double count = table.needed_number("count", meaning);
  if (count != std::floor(count) || count < 2 || count > 10e6) {
    throw InputError(table.where("count"), plain(count), "a whole number from 2 to 10 million",
                     "Both ends are included.");
  }
  for (double i = 0; i < count; ++i) {
    column.values.emplace_back(i == count - 1 ? to : from + (to - from) * (i / (count - 1)));
  }
  return column;
}

std::vector<SweepColumn> read_points(const cases::Document& document, const cases::Rows& rows) {
  std::vector<SweepColumn> columns;
  for (const std::string& key : rows.header) {
    columns.push_back({key, {}});
  }
  for (std::size_t r = 0; r < rows.cells.size(); ++r) {
    for (std::size_t c = 0; c < columns.size(); ++c) {
      columns[c].values.push_back(cases::cell_value(rows.cells[r][c]));
      with_place(rows.where(r), [&] { check_value(document, {columns[c].key, columns[c].values.back()}); });
    }
  }
  if (columns.empty() || columns.front().values.empty()) {
    throw InputError(rows.name +
                     ": no points; give a header line with keys such as passage.speed_km_h and one line per case");
  }
  return columns;
}

} // namespace

Sweep read_sweep(const cases::Sheet& top, cases::Files& files) {
  top.refuse_others({"case", "vary", "points", "probes", "steel", "history_every"});
  cases::Document document(cases::named_case(top, top.folder(), files));
  SweepContent content;
  content.probes = top.yes_or_no("probes", "true or false").value_or(false);
  content.steel = top.yes_or_no("steel", "true or false").value_or(false);
  if (const auto every = top.whole("history_every", "a whole number from 0 (no histories) to 1000000")) {
    content.history_every = static_cast<int>(std::min<std::uint64_t>(*every, 1'000'001));
  }
  if (top.has("vary") == top.has("points")) {
    throw InputError(top.file() + ": a sweep needs either [[vary]] tables (all combinations) or [points] with csv");
  }
  std::vector<SweepColumn> columns;
  const bool grid = top.has("vary");
  if (grid) {
    for (const cases::Sheet& table : top.tables("vary")) {
      columns.push_back(read_column(table));
    }
  } else {
    const cases::Sheet points = *top.table("points");
    points.refuse_others({"csv"});
    columns = read_points(document, cases::named_rows(points, top.folder(), "points", files));
  }
  return with_place(top.file(), [&] { return Sweep(std::move(document), std::move(columns), grid, content); });
}

} // namespace wingnose::study
