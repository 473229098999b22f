#include "hdf5_handle.hpp"

#include "wingnose/io/compare_output.hpp"
#include "wingnose/words/error.hpp"

namespace wingnose::io {
namespace {

[[noreturn]] void refuse(const std::filesystem::path& file, const std::string& why) {
  throw InputError("comparison file \"" + file.generic_string() + "\" " + why);
}

void read_header(hid_t file, StoredResult& result, const std::filesystem::path& name) {
  if (!h5::has_attribute(file, "format") || h5::read_text_attribute(file, "format") != "wingnose comparison" ||
      !h5::has_attribute(file, "schema_version")) {
    refuse(name, "is an HDF5 file, but not a comparison; give a file written by \"wingnose compare -o\"");
  }
  result.schema_version = h5::read_int_attribute(file, "schema_version");
  if (result.schema_version > compare_schema_version) {
    refuse(name, "has schema version " + std::to_string(result.schema_version) + ", newer than " +
                     std::to_string(compare_schema_version) + ", the newest this program knows; use a newer wingnose");
  }
  for (const auto& attribute : h5::attribute_names(file)) {
    if (attribute != "schema_version") {
      result.attributes[attribute] = h5::read_text_attribute(file, attribute);
    }
  }
  result.version = result.attributes["version"];
  result.commit = result.attributes["commit"];
}

} // namespace

StoredResult read_comparison_result(const std::filesystem::path& file) {
  std::error_code ignored;
  if (!std::filesystem::is_regular_file(file, ignored)) {
    refuse(file, "does not exist; check the name and the folder");
  }
  const h5::QuietErrors quiet;
  if (H5Fis_hdf5(file.string().c_str()) <= 0) {
    refuse(file, "is not an HDF5 file; give a file written by \"wingnose compare -o\"");
  }
  StoredResult result;
  try {
    const h5::Handle source = h5::open(file.string());
    read_header(source.id(), result, file);
    for (const auto& path : h5::dataset_paths(source.id())) {
      const h5::Handle dataset = h5::open_dataset(source.id(), path);
      if (h5::is_text(dataset)) {
        result.texts[path] = h5::read_texts(dataset);
      } else {
        result.arrays[path] = {h5::read_numbers(dataset), h5::shape(dataset),
                               h5::read_text_attribute(dataset.id(), "unit"),
                               h5::read_text_attribute(dataset.id(), "description")};
      }
    }
  } catch (const ComputeError& error) {
    refuse(file, std::string("cannot be read to the end: ") + error.what());
  }
  for (const char* path :
       {"crossings/name", "members/name", "quantities/key", "criteria/key", "texts/notes", "case/text"}) {
    if (result.texts.count(path) == 0) {
      refuse(file, std::string("lacks the dataset ") + path + "; it is damaged or was changed");
    }
  }
  result.case_text = result.texts["case/text"].empty() ? "" : result.texts["case/text"].front();
  return result;
}

} // namespace wingnose::io
