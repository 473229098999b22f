#include "hdf5_handle.hpp"
#include "result_schema.hpp"

#include "wingnose/words/error.hpp"

namespace wingnose::io {

namespace {

[[noreturn]] void refuse(const std::filesystem::path& file, const std::string& why) {
  throw InputError("result file \"" + file.generic_string() + "\" " + why);
}

void read_header(hid_t file, StoredResult& result, const std::filesystem::path& name) {
  if (!h5::has_attribute(file, "format") || h5::read_text_attribute(file, "format") != "wingnose result" ||
      !h5::has_attribute(file, "schema_version")) {
    refuse(name, "is an HDF5 file, but not a wingnose result; give a file written by \"wingnose run -o\"");
  }
  result.schema_version = h5::read_int_attribute(file, "schema_version");
  if (result.schema_version > result_schema_version) {
    refuse(name, "has schema version " + std::to_string(result.schema_version) + ", newer than " +
                     std::to_string(result_schema_version) + ", the newest this program knows; use a newer wingnose");
  }
  for (const auto& attribute : h5::attribute_names(file)) {
    if (attribute != "schema_version") {
      result.attributes[attribute] = h5::read_text_attribute(file, attribute);
    }
  }
  result.version = result.attributes["version"];
  result.commit = result.attributes["commit"];
}

void read_dataset(hid_t file, const std::string& path, StoredResult& result) {
  const h5::Handle dataset = h5::open_dataset(file, path);
  if (h5::is_text(dataset)) {
    result.texts[path] = h5::read_texts(dataset);
    return;
  }
  const std::string unit = h5::read_text_attribute(dataset.id(), "unit");
  const std::string description = h5::read_text_attribute(dataset.id(), "description");
  const auto values = h5::read_numbers(dataset);
  const std::string group = "measures/";
  if (path.rfind(group, 0) == 0 && values.size() == 1) {
    const std::string key = path.substr(group.size());
    result.measures[key] = values.front();
    result.measure_units[key] = unit;
    result.measure_descriptions[key] = description;
  } else {
    result.arrays[path] = {values, h5::shape(dataset), unit, description};
  }
}

// Of per-body arrays nothing is demanded: which bodies there are is the file's own matter.
void demand_all(const StoredResult& result, const std::filesystem::path& name) {
  for (const auto& column : result_columns()) {
    const bool per_body = column.path.find("{body}") != std::string::npos;
    if (!per_body && !column.optional && result.arrays.count(column.path) == 0) {
      refuse(name, "lacks the dataset " + column.path + "; it is damaged or was changed");
    }
  }
  for (const auto& text : result_texts()) {
    if (result.texts.count(text.path) == 0) {
      refuse(name, "lacks the dataset " + text.path + "; it is damaged or was changed");
    }
  }
}

} // namespace

StoredResult read_result(const std::filesystem::path& file) {
  std::error_code ignored;
  if (!std::filesystem::is_regular_file(file, ignored)) {
    refuse(file, "does not exist; check the name and the folder");
  }
  const h5::QuietErrors quiet;
  if (H5Fis_hdf5(file.string().c_str()) <= 0) {
    refuse(file, "is not an HDF5 file; give a file written by \"wingnose run -o\"");
  }
  StoredResult result;
  try {
    const h5::Handle source = h5::open(file.string());
    read_header(source.id(), result, file);
    for (const auto& path : h5::dataset_paths(source.id())) {
      read_dataset(source.id(), path, result);
    }
  } catch (const ComputeError& error) {
    refuse(file, std::string("cannot be read to the end: ") + error.what());
  }
  demand_all(result, file);
  const auto& text = result.texts["case/text"];
  result.case_text = text.empty() ? "" : text.front();
  return result;
}

} // namespace wingnose::io
