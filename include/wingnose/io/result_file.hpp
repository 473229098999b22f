// Results in HDF5 (self-describing: units and description on every dataset, case text, version, checksums) and as JSON.
// Files are written to a temporary name beside the target and renamed, so that a reader never sees half a file and a
// failure never costs the file that was there before.
//
// Groups: history (over time of the reported wheel), events, wheels, path (over station, one group per body), measures
// (scalars), case (text, keys, inputs), notes. Names carry units; `unit` and `description` stand on every dataset.
// The HDF5 library is not thread-safe as commonly built: write and read from one thread at a time.
#pragma once

#include "wingnose/study/case.hpp"

#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace wingnose::io {

inline constexpr int result_schema_version = 1;

// Throws InputError when the folder is missing or the name is that of a folder, ComputeError when writing fails.
void write_result(const std::filesystem::path& file, const study::Case& c, const study::Result& result);
// The checks of write_result alone, to fail before computing rather than after.
void check_result_target(const std::filesystem::path& file); // throws InputError

// What a result file holds, keyed by dataset path ("history/force_N"); units and descriptions as stored.
struct StoredArray {
  std::vector<double> values;
  std::vector<std::size_t> shape;
  std::string unit, description;
};
struct StoredResult {
  int schema_version = 0;
  std::string version, commit, case_text;
  std::map<std::string, StoredArray> arrays; // histories, path
  std::map<std::string, double> measures;    // keys carry units; missing values are NaN
  std::map<std::string, std::string> measure_units, measure_descriptions, attributes;
  std::map<std::string, std::vector<std::string>> texts; // lists of text: "case/keys", "events/kind", "notes/warnings"
};
[[nodiscard]] StoredResult
read_result(const std::filesystem::path& file); // throws InputError: not HDF5, not ours, newer schema, damaged

// One scalar a result is reported by: the same list names JSON keys, HDF5 datasets and rows of the printed tables.
struct Measure {
  std::string key, unit, label, description;
  int decimals = 1; // sensible in print
};
struct GeometryMeasure : Measure {
  std::function<std::optional<double>(const study::Geometry&)> value; // in `unit`
};
struct PassageMeasure : Measure {
  std::function<std::optional<double>(const study::Case&, const study::Result&)> value; // in `unit`
};
[[nodiscard]] std::vector<GeometryMeasure> geometry_measures();
[[nodiscard]] std::vector<PassageMeasure> passage_measures();

// Reference page of a result file (Markdown), made from the lists the writer uses.
[[nodiscard]] std::string result_reference();

// One JSON object with unit-bearing keys (what `--json` prints). Absent values are null, never NaN.
[[nodiscard]] std::string measures_json(const study::Case& c, const study::Result& result);
[[nodiscard]] std::string geometry_json(const study::Case& c, const study::Geometry& geometry);
[[nodiscard]] std::string estimates_json(const study::Case& c, const study::Geometry& geometry,
                                         const std::vector<study::Estimate>& estimates);

// The line every report ends with.
inline constexpr const char* caution =
    "An engineering estimate for comparison; local standards and licensed engineers decide.";

} // namespace wingnose::io
