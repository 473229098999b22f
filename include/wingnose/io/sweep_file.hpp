// Sweeps: which keys of a case vary and how, and the HDF5 file their results stream into.
//
// A sweep is a grid (all combinations of the values of its columns, the last column varying fastest) or a list of
// points (the columns have one value per case). The columns of a grid are put in the order of KeyInfo::cost, dearest
// first, so that neighbouring cases share track and wheel path.
//
// The file is laid out in full when it is made, beside its place and then renamed; afterwards only numbers change, and
// a chunk of cases counts once its flag is set, after its numbers have reached the disk. Whenever the program is
// killed, the file stays readable and loses no finished chunk. It holds nothing that depends on time or machine: the
// same sweep gives the same bytes.
//
// Datasets, one row per case: input/<key>, measures/<name>, status, failure; axes/<key> (grids); chunk_complete, one
// row per chunk; case/*. When histories are asked for: history/force_N, on crossings history/force_wing_N and
// history/force_nose_N [case, sample] in single precision, padded with NaN, and per case history/first_station_mm and
// history/spacing_mm. `unit` and `description` stand on each. Rows of cases not computed hold NaN. The HDF5 library is
// not thread-safe as commonly built: one thread at a time.
#pragma once

#include "wingnose/io/case_document.hpp"
#include "wingnose/io/result_file.hpp"
#include "wingnose/study/many.hpp"

#include <cstddef>
#include <filesystem>
#include <map>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::io {

inline constexpr int sweep_schema_version = 1;
inline constexpr int most_history_every = 1'000'000;

struct SweepColumn {
  std::string key;
  std::vector<KeyValue> values; // in the unit of the key
};

class Sweep {
public:
  // history_every: store every n-th sample of the force histories, 1 all of them, 0 none. Throws InputError: no column,
  // a column without values, a key twice, points of unequal number, more than 100 million cases, a negative
  // history_every, and what check_value finds.
  Sweep(CaseDocument document, std::vector<SweepColumn> columns, bool grid, bool probes = false, int history_every = 0);
  [[nodiscard]] std::size_t count() const { return count_; }
  [[nodiscard]] std::vector<Override> overrides(std::size_t i) const; // of case i < count()
  [[nodiscard]] study::Case make(std::size_t i) const;                // throws InputError as vary does
  [[nodiscard]] const KeyValue& value(std::size_t i, std::size_t column) const;

  [[nodiscard]] const CaseDocument& document() const { return document_; }
  [[nodiscard]] const std::vector<SweepColumn>& columns() const { return columns_; }
  [[nodiscard]] bool grid() const { return grid_; }
  [[nodiscard]] bool probes() const { return probes_; }
  [[nodiscard]] int history_every() const { return history_every_; }
  // Checksum of all that decides the numbers: case with the files it names, columns, what is stored, version of the
  // program.
  [[nodiscard]] const std::string& fingerprint() const { return fingerprint_; }

private:
  CaseDocument document_;
  std::vector<SweepColumn> columns_;
  bool grid_, probes_;
  int history_every_;
  std::size_t count_ = 0;
  std::vector<std::size_t> stride_; // of each column of a grid
  std::string fingerprint_;
};

// Sweep files: TOML with `case` and either [[vary]] (key, with values or from, to and count) or [points] csv; `probes`,
// `history_every`. Relative paths are taken from the sweep file's folder. Throws InputError.
[[nodiscard]] Sweep read_sweep(const std::filesystem::path& file);
[[nodiscard]] Sweep parse_sweep(std::string_view toml_text, const std::string& name,
                                const std::filesystem::path& folder);

// What is stored of each case.
[[nodiscard]] std::vector<PassageMeasure> sweep_measures();

struct SweepHistory {
  double first_station = 0.0, spacing = 0.0; // m; spacing is negative in a trailing move
  std::vector<float> force, wing, nose;      // N; wing and nose empty off crossings
};
// What is kept of some consecutive cases, ready to be stored or sent elsewhere.
struct SweepRows {
  std::size_t begin = 0, end = 0;            // cases [begin, end)
  std::vector<double> values;                // [case][measure], in the order of sweep_measures(); NaN: none
  std::vector<study::Outcome::State> status; // per case
  std::vector<std::string> failures;         // per case, empty where it has a result
  std::vector<SweepHistory> histories;       // per case, when the sweep asks for them
};
// cases and outcomes of [begin, begin + cases.size()), in order; outcomes keep their histories if the sweep asks.
[[nodiscard]] SweepRows sweep_rows(const Sweep& sweep, std::size_t begin, std::span<const study::Case> cases,
                                   std::span<const study::Outcome> outcomes);

// The file of a sweep under way. Throws ComputeError when reading or writing fails.
class SweepFile {
public:
  // Makes the file, or opens it to go on. cases_per_chunk counts for a new file only. Throws InputError: a file that is
  // not a sweep or one of another sweep, a folder that cannot be written, a file another program is writing.
  SweepFile(const std::filesystem::path& file, const Sweep& sweep, std::size_t cases_per_chunk);
  SweepFile(const SweepFile&) = delete;
  SweepFile(SweepFile&&) noexcept;
  SweepFile& operator=(const SweepFile&) = delete;
  SweepFile& operator=(SweepFile&&) noexcept;
  ~SweepFile();

  struct Chunk {
    std::size_t index, begin, end; // cases [begin, end)
  };
  [[nodiscard]] std::vector<Chunk> missing() const; // chunks not complete, in order
  [[nodiscard]] std::size_t cases_complete() const;
  // rows of all cases of the chunk; it counts when this returns. Throws InputError for rows of other cases.
  void write(const Chunk& chunk, const SweepRows& rows);

private:
  struct Open;
  std::unique_ptr<Open> open_;
};

// A sweep file as stored, finished or not; without its histories, which may not fit in memory.
struct StoredSweep {
  std::string version, commit, fingerprint, case_text;
  std::vector<std::string> axes; // keys of a grid, the last varies fastest; empty for points
  std::map<std::string, StoredArray> inputs, measures, axis_values;
  std::map<std::string, std::vector<std::string>> choices, axis_choices; // inputs that are text
  std::vector<study::Outcome::State> status;                             // per case
  std::map<std::size_t, std::string> failures;                           // case -> reason
  std::size_t cases_per_chunk = 0, chunks = 0, chunks_complete = 0;
  [[nodiscard]] std::size_t count() const { return status.size(); }
};
[[nodiscard]] StoredSweep read_sweep_file(const std::filesystem::path& file); // throws InputError

} // namespace wingnose::io
