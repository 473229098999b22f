// Sweeps: many cases that differ in some keys, answered chunk by chunk and stored as they come, going on where the file
// ends.
//
// A sweep is a grid (all combinations of the values of its columns, the last column varying fastest) or a list of
// points (the columns have one value per case). The columns of a grid are put in the order of KeyInfo::cost, dearest
// first, so that neighbouring cases share track and wheel path.
//
// The numbers do not depend on threads, on the size of chunks or on how often the work was stopped; a case that fails
// is recorded with its reason and does not stop the others, and the findings of every case stand beside its numbers.
// Memory holds one chunk, a few tracks and a few wheel paths.
//
// Stored, one row per case: input/<key>, measures/<quantity>, status, failure, gravity, findings; axes/<key> (grids);
// case/*. When histories are asked for: history/force_N, on crossings history/force_wing_N and history/force_nose_N
// [case, sample] in single precision, padded with NaN, and per case history/first_station_mm and history/spacing_mm.
#pragma once

#include "wingnose/case/document.hpp"
#include "wingnose/quantity/stream.hpp"
#include "wingnose/study/many.hpp"

#include <atomic>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace wingnose::study {

struct SweepColumn {
  std::string key;
  std::vector<cases::KeyValue> values; // in the unit of the key
};

// What is stored of each case beside its numbers.
struct SweepContent {
  bool probes = false;   // record rail and bearer motion as the case says
  bool steel = false;    // what the landing does to the steel, too; half as much work again
  int history_every = 0; // store every n-th sample of the force histories, 1 all of them, 0 none; up to 1000000
};
constexpr auto ranges(const SweepContent*) {
  return std::array{InRange{&SweepContent::history_every, "history_every", 0, 1e6}};
}

class Sweep {
public:
  // Throws InputError: no column, a column without values, a key twice, points of unequal number, more than 100 million
  // cases, and what check_value finds.
  Sweep(cases::Document document, std::vector<SweepColumn> columns, bool grid, SweepContent content = {});
  [[nodiscard]] std::size_t count() const { return count_; }
  [[nodiscard]] std::vector<cases::Override> overrides(std::size_t i) const; // of case i < count()
  [[nodiscard]] Case make(std::size_t i) const;                              // throws InputError as vary does
  [[nodiscard]] const cases::KeyValue& value(std::size_t i, std::size_t column) const;

  [[nodiscard]] const cases::Document& document() const { return document_; }
  [[nodiscard]] const std::vector<SweepColumn>& columns() const { return columns_; }
  [[nodiscard]] bool grid() const { return grid_; }
  [[nodiscard]] const SweepContent& content() const { return content_; }
  [[nodiscard]] bool in_space() const; // whether any of its cases sends a vehicle in space
  // How its answers are stored; looks back at this sweep. Throws InputError for histories too long.
  [[nodiscard]] quantity::Stream stream() const;

private:
  cases::Document document_;
  std::vector<SweepColumn> columns_;
  bool grid_;
  SweepContent content_;
  std::size_t count_ = 0;
  std::vector<std::size_t> stride_; // of each column of a grid
};

// Cases of a sweep under way that somebody should look at.
struct SweepFound {
  std::size_t failed = 0, grave = 0, warned = 0; // without an answer; with a grave finding; with a warning at worst
};

struct SweepOptions {
  int threads = 0; // 0: one per core
  // Cases done so far, those stored before included. Called from one thread at a time, not always the same; what it
  // throws ends the sweep between chunks' being stored and is passed on.
  std::function<void(std::size_t done, std::size_t total)> progress = {};
  std::function<void(const SweepFound&)> found = {}; // after every chunk: of all cases answered by this call so far
  const std::atomic<bool>* cancel = nullptr;         // set it to end soon; the chunk under way is given up
};

// Cases [begin, end) of a sweep as rows of its stream, for a caller that sends them elsewhere. nullopt when cancelled.
// Throws InputError for cases that do not exist and as run_many does.
[[nodiscard]] std::optional<quantity::Tree> answer_cases(const Sweep& sweep, std::size_t begin, std::size_t end,
                                                         const SweepOptions& options = {},
                                                         SharedParts* parts = nullptr);

struct SweepProgress {
  std::size_t before = 0, done = 0; // cases stored before, and now
  bool finished = false;            // false: cancelled
};
// Throws as answer_cases and the sink do; what is stored stays.
SweepProgress run_sweep(const Sweep& sweep, quantity::Sink& sink, const SweepOptions& options = {});

// What a finished or unfinished file of a sweep says in short: cases, failures, findings of all cases.
[[nodiscard]] quantity::Tree summary(const quantity::Tree& stored);

// Sweep files: `case` and either [[vary]] (key, with values or from, to and count) or [points] csv; `probes`, `steel`,
// `history_every`. Relative paths are taken from the sweep file's folder. Throws InputError.
[[nodiscard]] Sweep read_sweep(const cases::Sheet& sheet, cases::Files& files);

} // namespace wingnose::study
