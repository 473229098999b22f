// Results in HDF5 (self-describing: units and description on every dataset, case text, version, checksums) and as JSON.
// Files are written to a temporary name beside the target and renamed, so that a reader never sees half a file.
#pragma once

#include "wingnose/study/case.hpp"

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace wingnose::io {

inline constexpr int result_schema_version = 1;

void write_result(const std::filesystem::path& file, const study::Case& c, const study::Result& result);

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
};
[[nodiscard]] StoredResult
read_result(const std::filesystem::path& file); // throws InputError: not HDF5, not ours, newer schema

// One JSON object with unit-bearing keys (what `--json` prints). Absent values are null.
[[nodiscard]] std::string measures_json(const study::Case& c, const study::Result& result);

} // namespace wingnose::io
