#include "hdf5_handle.hpp"
#include "result_schema.hpp"
#include "whole_file.hpp"

#include "wingnose/version.hpp"
#include "wingnose/words/error.hpp"

#include <unistd.h>

#include <array>
#include <ctime>
#include <limits>

namespace wingnose::io {

namespace {

namespace fs = std::filesystem;

std::string now_utc() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  gmtime_r(&now, &parts);
  std::array<char, 32> text{};
  std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &parts);
  return text.data();
}

void write_columns(hid_t file, const study::Result& result) {
  for (const auto& column : result_columns()) {
    const bool per_body = column.path.find("{body}") != std::string::npos;
    const bool of_path = column.path.rfind("path/", 0) == 0;
    std::vector<std::string> bodies;
    for (const auto& body : result.geometry.path->bodies) {
      bodies.push_back(body.name);
    }
    const auto& names = of_path ? bodies : result.history.bodies;
    for (std::size_t i = 0; i < (per_body ? names.size() : 1); ++i) {
      const auto values = column.values(result, i);
      if (!column.optional || !values.empty()) {
        h5::write_numbers(file, per_body ? with_body(column.path, names[i]) : column.path, values, false, column.unit,
                          column.description);
      }
    }
  }
}

void write_measure(hid_t file, const Measure& measure, std::optional<double> value) {
  h5::write_numbers(file, "measures/" + measure.key, {value.value_or(std::numeric_limits<double>::quiet_NaN())}, true,
                    measure.unit, measure.description);
}

void write_content(hid_t file, const study::Case& c, const study::Result& result) {
  h5::write_attribute(file, "format", std::string("wingnose result"));
  h5::write_attribute(file, "schema_version", result_schema_version);
  h5::write_attribute(file, "version", std::string(version));
  h5::write_attribute(file, "commit", std::string(commit));
  h5::write_attribute(file, "created", now_utc());
  h5::write_attribute(file, "name", c.name);
  h5::write_attribute(file, "excitation", result.geometry.path->excitation);
  h5::write_attribute(file, "vehicle", c.vehicle.name);
  h5::write_attribute(file, "method", result.history.method);
  h5::write_attribute(file, "caution", std::string(caution));
  write_columns(file, result);
  for (const auto& measure : geometry_measures()) {
    write_measure(file, measure, measure.value(result.geometry));
  }
  for (const auto& measure : passage_measures()) {
    write_measure(file, measure, measure.value(c, result));
  }
  for (const auto& text : result_texts()) {
    h5::write_texts(file, text.path, text.values(c, result), text.description);
  }
}

} // namespace

void check_result_target(const fs::path& file) {
  std::error_code ignored;
  const fs::path folder = file.parent_path();
  if (file.filename().empty() || fs::is_directory(file, ignored)) {
    throw InputError("result file \"" + file.string() + "\" is a folder; give a file name such as result.h5");
  }
  // A slip such as "-o case.toml" must not cost the user that file.
  const h5::QuietErrors quiet;
  if (fs::exists(file, ignored) && H5Fis_hdf5(file.c_str()) <= 0) {
    throw InputError("\"" + file.string() +
                     "\" exists and is no HDF5 file; it is not replaced by a result, choose another name");
  }
  if (!folder.empty() && !fs::is_directory(folder, ignored)) {
    throw InputError("the folder \"" + folder.string() + "\" of the result file does not exist; make it first");
  }
  if (::access(folder.empty() ? "." : folder.c_str(), W_OK) != 0) {
    throw InputError("the folder \"" + (folder.empty() ? std::string(".") : folder.string()) +
                     "\" of the result file cannot be written to; choose another");
  }
}

void write_result(const fs::path& file, const study::Case& c, const study::Result& result) {
  check_result_target(file);
  if (result.geometry.path == nullptr) {
    throw InputError("the result holds no wheel path and cannot be stored; run the case first");
  }
  write_whole(file, [&](hid_t target) { write_content(target, c, result); });
}

} // namespace wingnose::io
