// A sweep: which cases it has, and the columns their answers fill.
#include "wingnose/study/sweep.hpp"

#include "tell.hpp"

#include "wingnose/words/number.hpp"
#include "wingnose/words/text.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::study {
namespace {

using quantity::StreamColumn;
using As = StreamColumn::As;

constexpr std::size_t most_cases = 100'000'000;
// Texts of a row are kept at a fixed length: texts of variable length live in a heap that moves.
constexpr std::size_t failure_length = 400;

void check(const cases::Document& document, const std::vector<SweepColumn>& columns, bool grid) {
  if (columns.empty()) {
    throw InputError("a sweep needs at least one key that varies");
  }
  for (auto column = columns.begin(); column != columns.end(); ++column) {
    if (std::any_of(columns.begin(), column, [&](const SweepColumn& c) { return c.key == column->key; })) {
      throw InputError("\"" + column->key + "\" varies twice; name each key once");
    }
    if (column->values.empty()) {
      throw InputError("\"" + column->key + "\" has no values; give at least one");
    }
    if (!grid && column->values.size() != columns.front().values.size()) {
      throw InputError("\"" + column->key + "\" has " + std::to_string(column->values.size()) + " values and \"" +
                       columns.front().key + "\" " + std::to_string(columns.front().values.size()) +
                       "; points need one value of each key");
    }
    for (const auto& value : column->values) {
      check_value(document, {column->key, value});
    }
  }
}

} // namespace

Sweep::Sweep(cases::Document document, std::vector<SweepColumn> columns, bool grid, SweepContent content)
    : document_(std::move(document)), columns_(std::move(columns)), grid_(grid), content_(content) {
  check(document_, columns_, grid_);
  demand_ranges(content_, "sweep");
  if (in_space() && (content_.steel || content_.history_every > 0)) {
    throw InputError(content_.steel ? "steel" : "history_every", "asked for", "left out with case.rung = \"spatial\"",
                     "Of vehicles in space a sweep keeps the numbers.");
  }
  if (!grid_) {
    count_ = columns_.front().values.size();
    return;
  }
  std::stable_sort(columns_.begin(), columns_.end(), [this](const SweepColumn& a, const SweepColumn& b) {
    return key_info(document_, a.key).cost > key_info(document_, b.key).cost;
  });
  stride_.assign(columns_.size(), 1);
  count_ = 1;
  for (std::size_t c = columns_.size(); c-- > 0;) {
    stride_[c] = count_;
    if (columns_[c].values.size() > most_cases / count_) {
      throw InputError("number of cases", "more than 100 million", "1 to 100 million",
                       "Give fewer values to some keys.");
    }
    count_ *= columns_[c].values.size();
  }
}

const cases::KeyValue& Sweep::value(std::size_t i, std::size_t column) const {
  const auto& values = columns_[column].values;
  return values[grid_ ? i / stride_[column] % values.size() : i];
}

std::vector<cases::Override> Sweep::overrides(std::size_t i) const {
  std::vector<cases::Override> list;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    list.push_back({columns_[c].key, value(i, c)});
  }
  return list;
}

bool Sweep::in_space() const {
  return document_.base().rung == cases::Rung::spatial ||
         std::any_of(columns_.begin(), columns_.end(), [](const SweepColumn& c) { return c.key == "case.rung"; });
}

Case Sweep::make(std::size_t i) const { return vary(document_, overrides(i)); }

// --- what is stored --------------------------------------------------------------------------------------------------

namespace {

// All digits: two values that differ in the last bit are different sweeps.
std::string exact(const cases::KeyValue& value) {
  const auto* text = std::get_if<std::string>(&value);
  return text != nullptr ? '"' + *text + '"' : number(std::get<double>(value), 17);
}

std::string identity(const Sweep& sweep) {
  const SweepContent& content = sweep.content();
  std::string text = std::string(sweep.grid() ? "grid" : "points") + (content.probes ? " probes" : "") +
                     (content.steel ? " steel" : "") + " history " + std::to_string(content.history_every) + '\n';
  const Case& base = sweep.document().base();
  text += base.source_text + '\n';
  for (const auto& input : base.inputs) {
    text += input.role + ' ' + input.sha256 + '\n';
  }
  for (const auto& column : sweep.columns()) {
    text += column.key;
    for (const auto& value : column.values) {
      text += ' ' + exact(value);
    }
    text += '\n';
  }
  return text;
}

// Samples of the longest history any case can have. Those of impossible cases do not count.
std::size_t most_samples(const Sweep& sweep) {
  double most = 1.0;
  for (std::size_t i = 0; i < sweep.count(); ++i) {
    try {
      const cases::Passage s = sweep.make(i).passage;
      most = std::max(most, (s.to - s.from) / (s.speed * s.step) / sweep.content().history_every + 2.0);
    } catch (const InputError&) { // recorded when its turn comes
      continue;
    }
  }
  if (!(most < 1e7)) {
    throw InputError("a history would have " + number(most) +
                     " samples; at most 10 million can be stored. Give a shorter stretch, a longer step or a larger "
                     "history_every");
  }
  return static_cast<std::size_t>(std::floor(most));
}

StreamColumn column(std::string group, const Named& named, As as = As::number) {
  StreamColumn c{std::move(group), quantity::array_of(named), as};
  c.array.dims = {"case"};
  c.array.is_text = as == As::text;
  return c;
}

std::string statuses() {
  std::string list;
  for (const auto& state : names(Outcome::State{})) {
    list += (list.empty() ? "" : ", ") + std::to_string(static_cast<int>(state.value)) + " " + std::string(state.name);
  }
  return list;
}

// Length of a text that names every kind of finding.
std::size_t every_kind() {
  std::size_t length = 0;
  for (const FindingWords& kind : finding_kinds()) {
    length += kind.key.size() + 2; // ", "
  }
  return length;
}

void add_history_columns(const Sweep& sweep, quantity::Stream& stream) {
  const std::size_t samples = most_samples(sweep);
  const std::string every =
      ", every " + std::to_string(sweep.content().history_every) + ". sample of the passage, up; none behind the end";
  const auto add = [&](const std::string& name, const std::string& meaning) {
    StreamColumn c = column("history", {name, "", meaning + every, 0, stored}, As::single_precision);
    c.array.dims = {"case", "sample"};
    c.array.shape = {stream.count, samples};
    stream.columns.push_back(std::move(c));
  };
  add("force_N", "contact force of the reported wheel");
  if (layout::is_crossing(sweep.document()->excitation)) {
    for (const std::string body : {"wing", "nose"}) {
      add("force_" + body + "_N", "contact force on the " + body);
    }
  }
  const auto along = [&](const std::string& name, const std::string& meaning) {
    stream.columns.push_back(column("history", {name, "", meaning, 3, stored}));
  };
  along("first_station_mm", "station of the first sample");
  along("spacing_mm", "from sample to sample, negative in a trailing move");
}

} // namespace

quantity::Stream Sweep::stream() const {
  quantity::Stream stream;
  stream.count = count_;
  stream.identity = identity(*this);
  stream.head = Tree("sweep");
  stream.head.attributes = {{"name", document_->name}, {"plan", grid_ ? "grid" : "points"}};
  Filler about(stream.head, "case");
  about.text({"text", "", "case file as read, before the keys that vary", stored}, document_->source_text);
  const auto of_input = [](const cases::InputFile& input) { // no names of files: the same sweep gives the same bytes
    return input.role + " sha256 " + input.sha256;
  };
  about.texts({"columns", "", "keys that vary; of a grid, the last varies fastest"}, "column",
              each(columns_, &SweepColumn::key));
  about.texts({"inputs", "", "files the case names, with their checksums", stored}, "input",
              each(document_->inputs, of_input));
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    const cases::KeyInfo key = key_info(document_, columns_[c].key);
    const bool text = std::holds_alternative<std::string>(columns_[c].values.front());
    StreamColumn input = column("input", {key.key, "", key.meaning, 6, told}, text ? As::text : As::number);
    input.array.unit = key.unit;
    input.known = [this, c](std::size_t i) { return value(i, c); };
    quantity::Array axis = input.array;
    axis.dims = {key.key};
    axis.shape = {columns_[c].values.size()};
    axis.meaning += "; values along this axis";
    for (const auto& each : columns_[c].values) {
      if (text) {
        axis.texts.push_back(std::get<std::string>(each));
        input.text_length = std::max(input.text_length, axis.texts.back().size());
      } else {
        axis.numbers.push_back(std::get<double>(each));
      }
    }
    if (grid_) {
      stream.head.add("axes", std::move(axis));
    }
    stream.columns.push_back(std::move(input));
  }
  for (const quantity::Quantity* q : quantity::swept(content_.steel, in_space())) {
    stream.columns.push_back(column("measures", Named(*q, told)));
  }
  if (content_.history_every > 0) {
    add_history_columns(*this, stream);
  }
  const auto last = [&](const char* name, std::string meaning, As as, std::size_t length = 0) {
    stream.columns.push_back(column("", {name, "", std::move(meaning), 0, told}, as));
    stream.columns.back().text_length = length;
  };
  last("status", statuses(), As::small_number);
  last("failure", "why a case has no result; empty where it has one", As::text, failure_length);
  last("gravity", "gravest finding of a case: 0 none or a note, 1 a warning, 2 a grave one", As::small_number);
  last("findings", "kinds of what was found, see the reference page", As::text, every_kind());
  return stream;
}

} // namespace wingnose::study
