// Sweep files read back, finished or not.
#include "sweep_file_layout.hpp"

#include "wingnose/words/error.hpp"

#include <limits>
#include <stdexcept>

namespace wingnose::io {

namespace {

StoredArray array_from(const h5::Handle& dataset) {
  return {h5::read_numbers(dataset), h5::shape(dataset), h5::read_text_attribute(dataset.id(), "unit"),
          h5::read_text_attribute(dataset.id(), "description")};
}

void read_group_entry(hid_t file, const std::string& path, StoredSweep& sweep) {
  const auto name_after = [&path](const std::string& group) -> std::string {
    return path.rfind(group, 0) == 0 ? path.substr(group.size()) : "";
  };
  const h5::Handle dataset = h5::open_dataset(file, path);
  if (const auto key = name_after("input/"); !key.empty()) {
    if (h5::is_text(dataset)) {
      sweep.choices[key] = h5::read_texts(dataset);
    } else {
      sweep.inputs[key] = array_from(dataset);
    }
  } else if (const auto axis = name_after("axes/"); !axis.empty()) {
    if (h5::is_text(dataset)) {
      sweep.axis_choices[axis] = h5::read_texts(dataset);
    } else {
      sweep.axis_values[axis] = array_from(dataset);
    }
  } else if (const auto measure = name_after("measures/"); !measure.empty()) {
    sweep.measures[measure] = array_from(dataset);
  }
}

StoredSweep read_content(hid_t file, const std::string& name) {
  using State = study::Outcome::State;
  StoredSweep sweep;
  sweep.version = h5::read_text_attribute(file, "version");
  sweep.commit = h5::read_text_attribute(file, "commit");
  sweep.fingerprint = h5::read_text_attribute(file, "fingerprint");
  sweep.case_text = h5::read_texts(h5::open_dataset(file, "case/text")).at(0);
  if (h5::read_text_attribute(file, "kind") == "grid") {
    sweep.axes = h5::read_texts(h5::open_dataset(file, "case/columns"));
  }
  const int per_chunk = h5::read_int_attribute(file, "cases_per_chunk");
  for (const double state : h5::read_numbers(h5::open_dataset(file, "status"))) {
    if (!(state >= 0.0 && state <= 3.0)) {
      throw ComputeError("a status that does not exist");
    }
    sweep.status.push_back(static_cast<State>(static_cast<int>(state)));
  }
  const auto flags = h5::read_numbers(h5::open_dataset(file, "chunk_complete"));
  sweep.chunks = flags.size();
  sweep.cases_per_chunk = per_chunk > 0 ? static_cast<std::size_t>(per_chunk) : 0;
  if (per_chunk < 1 || sweep.chunks != (sweep.count() + sweep.cases_per_chunk - 1) / sweep.cases_per_chunk) {
    throw ComputeError("chunks and cases of " + name + " do not agree");
  }
  for (const auto& path : h5::dataset_paths(file)) {
    read_group_entry(file, path, sweep);
  }
  // A chunk that was being written when the program ended does not count.
  const auto failures = h5::read_texts(h5::open_dataset(file, "failure"));
  for (std::size_t i = 0; i < sweep.count(); ++i) {
    if (flags[i / sweep.cases_per_chunk] != 1.0) {
      sweep.status[i] = State::not_run;
      for (auto& [key, measure] : sweep.measures) {
        measure.values.at(i) = std::numeric_limits<double>::quiet_NaN();
      }
    } else if (sweep.status[i] != State::done) {
      sweep.failures[i] = failures.at(i);
    }
  }
  for (const double flag : flags) {
    sweep.chunks_complete += flag == 1.0 ? 1U : 0U;
  }
  return sweep;
}

} // namespace

StoredSweep read_sweep_file(const std::filesystem::path& file) {
  const h5::QuietErrors quiet;
  std::error_code ignored;
  const std::string name = "\"" + file.string() + "\"";
  if (!std::filesystem::is_regular_file(file, ignored)) {
    throw InputError("sweep file " + name + " does not exist");
  }
  if (H5Fis_hdf5(file.c_str()) <= 0) {
    throw InputError(name + " is no HDF5 file, or another program is writing it");
  }
  try {
    const h5::Handle handle = h5::open(file.string());
    if (!h5::has_attribute(handle.id(), "format") || h5::read_text_attribute(handle.id(), "format") != sweep_format) {
      throw InputError(name + " is not a sweep file; give one made by \"wingnose sweep\"");
    }
    const int schema = h5::read_int_attribute(handle.id(), "schema_version");
    if (schema > sweep_schema_version) {
      throw InputError(name + " was made by a newer version (layout " + std::to_string(schema) + ", this one reads " +
                       std::to_string(sweep_schema_version) + "); update wingnose");
    }
    return read_content(handle.id(), name);
  } catch (const ComputeError& error) {
    throw InputError(name + " cannot be read: " + error.what() + "; it is damaged or another program is writing it");
  } catch (const std::out_of_range&) {
    throw InputError(name + " is damaged: a list is too short");
  }
}

} // namespace wingnose::io
