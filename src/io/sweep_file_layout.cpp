// Lays out a sweep file in full, so that later writes touch numbers only and never the structure of the file.
#include "sweep_file_layout.hpp"

#include "wingnose/version.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace wingnose::io {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t block = 65536; // rows held in memory at once

struct Field {
  std::string path, unit, description;
};

// In one piece, with its place in the file taken at once, and without time stamps.
h5::Handle make(hid_t file, const Field& field, hid_t type, std::size_t rows, const void* fill,
                std::size_t columns = 0) {
  const std::array<hsize_t, 2> shape{rows, columns};
  const h5::Handle space(H5Screate_simple(columns > 0 ? 2 : 1, shape.data(), nullptr), H5Sclose,
                         "space of " + field.path);
  const h5::Handle links(H5Pcreate(H5P_LINK_CREATE), H5Pclose, "link properties");
  const h5::Handle layout(H5Pcreate(H5P_DATASET_CREATE), H5Pclose, "dataset properties");
  demand(H5Pset_create_intermediate_group(links.id(), 1), "groups");
  demand(H5Pset_layout(layout.id(), H5D_CONTIGUOUS), "layout of " + field.path);
  demand(H5Pset_alloc_time(layout.id(), H5D_ALLOC_TIME_EARLY), "space of " + field.path);
  demand(H5Pset_obj_track_times(layout.id(), false), "time stamps");
  if (fill != nullptr) {
    demand(H5Pset_fill_value(layout.id(), type, fill), "fill value of " + field.path);
    demand(H5Pset_fill_time(layout.id(), H5D_FILL_TIME_ALLOC), "fill value of " + field.path);
  } else { // the file system's zeros, which take no room on the disk
    demand(H5Pset_fill_time(layout.id(), H5D_FILL_TIME_NEVER), "fill value of " + field.path);
  }
  h5::Handle dataset(H5Dcreate2(file, field.path.c_str(), type, space.id(), links.id(), layout.id(), H5P_DEFAULT),
                     H5Dclose, "dataset " + field.path);
  h5::write_attribute(dataset.id(), "unit", field.unit);
  h5::write_attribute(dataset.id(), "description", field.description);
  return dataset;
}

template <class Value> void write_values(hid_t file, const Field& field, bool text, std::size_t rows, Value value) {
  if (!text) {
    const h5::Handle dataset = make(file, field, H5T_IEEE_F64LE, rows, nullptr);
    std::vector<double> some;
    for (std::size_t begin = 0; begin < rows; begin += block) {
      some.clear();
      for (std::size_t i = begin; i < std::min(rows, begin + block); ++i) {
        some.push_back(std::get<double>(value(i)));
      }
      write_rows(dataset.id(), H5T_NATIVE_DOUBLE, begin, some.size(), some.data());
    }
    return;
  }
  std::size_t length = 1;
  for (std::size_t i = 0; i < rows; ++i) {
    length = std::max(length, std::get<std::string>(value(i)).size());
  }
  const h5::Handle type = fixed_text(length);
  const h5::Handle dataset = make(file, field, type.id(), rows, nullptr);
  for (std::size_t begin = 0; begin < rows; begin += block) {
    std::string some;
    const std::size_t end = std::min(rows, begin + block);
    for (std::size_t i = begin; i < end; ++i) {
      std::string cell = std::get<std::string>(value(i));
      cell.resize(length, '\0');
      some += cell;
    }
    write_rows(dataset.id(), type.id(), begin, end - begin, some.data());
  }
}

void write_text_list(hid_t file, const Field& field, const std::vector<std::string>& texts) {
  write_values(file, field, true, texts.size(), [&texts](std::size_t i) { return KeyValue(texts[i]); });
}

void write_inputs(hid_t file, const Sweep& sweep) {
  for (std::size_t c = 0; c < sweep.columns().size(); ++c) {
    const SweepColumn& column = sweep.columns()[c];
    const KeyInfo key = key_info(sweep.document(), column.key);
    write_values(file, {"input/" + column.key, key.unit, key.description}, is_text(column), sweep.count(),
                 [&](std::size_t i) { return sweep.value(i, c); });
    if (sweep.grid()) {
      write_values(file, {"axes/" + column.key, key.unit, key.description + "; values along this axis"},
                   is_text(column), column.values.size(), [&](std::size_t i) { return column.values[i]; });
    }
  }
}

void write_case(hid_t file, const Sweep& sweep) {
  const study::Case& base = sweep.document().base();
  std::vector<std::string> columns, inputs;
  for (const auto& column : sweep.columns()) {
    columns.push_back(column.key);
  }
  for (const auto& input : base.inputs) {
    inputs.push_back(input.role + " sha256 " + input.sha256);
  }
  write_text_list(file, {"case/text", "-", "case file as read, before the keys that vary"}, {base.source_text});
  write_text_list(file, {"case/columns", "-", "keys that vary; of a grid, the last varies fastest"}, columns);
  if (!inputs.empty()) {
    write_text_list(file, {"case/inputs", "-", "files the case names, with their checksums"}, inputs);
  }
}

// Samples of the longest history any case can have. Those of impossible cases do not count.
std::size_t most_samples(const Sweep& sweep) {
  double most = 1.0;
  for (std::size_t i = 0; i < sweep.count(); ++i) {
    try {
      const passage::Settings s = sweep.make(i).passage;
      most = std::max(most, (s.to - s.from) / (s.speed * s.step) / sweep.history_every() + 2.0);
    } catch (const InputError&) { // recorded when its turn comes
      continue;
    }
  }
  constexpr double limit = 1e7;
  if (!(most < limit)) {
    throw InputError("a history would have " + std::to_string(most) +
                     " samples; at most 10 million can be stored. "
                     "Give a shorter stretch, a longer step or a larger history_every");
  }
  return static_cast<std::size_t>(std::floor(most));
}

void lay_out_histories(hid_t file, const Sweep& sweep) {
  const std::size_t samples = most_samples(sweep);
  const float missing = std::numeric_limits<float>::quiet_NaN();
  const std::string every = ", every " + std::to_string(sweep.history_every()) + ". sample of the passage";
  const auto row = [&](const std::string& name, const std::string& description) {
    (void)make(file, {"history/" + name, "N", description + every + ", up; NaN behind the end"}, H5T_IEEE_F32LE,
               sweep.count(), &missing, samples);
  };
  row("force_N", "contact force of the reported wheel");
  const auto& excitation = sweep.document().base().excitation;
  if (std::holds_alternative<layout::CrossingShape>(excitation) ||
      std::holds_alternative<layout::SectionedShape>(excitation)) {
    row("force_wing_N", "contact force on the wing rail");
    row("force_nose_N", "contact force on the nose");
  }
  (void)make(file, {"history/first_station_mm", "mm", "station of the first sample"}, H5T_IEEE_F64LE, sweep.count(),
             &none);
  (void)make(file, {"history/spacing_mm", "mm", "from sample to sample, negative in a trailing move"}, H5T_IEEE_F64LE,
             sweep.count(), &none);
}

} // namespace

bool is_text(const SweepColumn& column) { return std::holds_alternative<std::string>(column.values.front()); }

void demand(herr_t status, const std::string& what) {
  if (status < 0) {
    throw ComputeError("HDF5 refused: " + what);
  }
}

h5::Handle fixed_text(std::size_t length) {
  h5::Handle type(H5Tcopy(H5T_C_S1), H5Tclose, "text type");
  demand(H5Tset_size(type.id(), length), "text type");
  demand(H5Tset_strpad(type.id(), H5T_STR_NULLPAD), "text type");
  demand(H5Tset_cset(type.id(), H5T_CSET_UTF8), "text type");
  return type;
}

void write_rows(hid_t dataset, hid_t type, std::size_t begin, std::size_t count, const void* values) {
  const hsize_t start = begin, length = count;
  const h5::Handle rows(H5Dget_space(dataset), H5Sclose, "space of a dataset");
  const h5::Handle memory(H5Screate_simple(1, &length, nullptr), H5Sclose, "rows");
  demand(H5Sselect_hyperslab(rows.id(), H5S_SELECT_SET, &start, nullptr, &length, nullptr), "choosing rows");
  demand(H5Dwrite(dataset, type, memory.id(), rows.id(), H5P_DEFAULT, values), "writing rows; is the disk full?");
}

void write_row(hid_t dataset, hid_t type, std::size_t row, std::size_t length, const void* values) {
  const std::array<hsize_t, 2> start{row, 0}, shape{1, length};
  const h5::Handle all(H5Dget_space(dataset), H5Sclose, "space of a dataset");
  const h5::Handle memory(H5Screate_simple(2, shape.data(), nullptr), H5Sclose, "a row");
  demand(H5Sselect_hyperslab(all.id(), H5S_SELECT_SET, start.data(), nullptr, shape.data(), nullptr), "choosing a row");
  demand(H5Dwrite(dataset, type, memory.id(), all.id(), H5P_DEFAULT, values), "writing a row; is the disk full?");
}

void lay_out_sweep(const std::string& name, const Sweep& sweep, std::size_t cases_per_chunk) {
  h5::Handle file(H5Fcreate(name.c_str(), H5F_ACC_EXCL, H5P_DEFAULT, H5P_DEFAULT), H5Fclose, "creating " + name);
  h5::write_attribute(file.id(), "format", std::string(sweep_format));
  h5::write_attribute(file.id(), "schema_version", sweep_schema_version);
  h5::write_attribute(file.id(), "version", std::string(version));
  h5::write_attribute(file.id(), "commit", std::string(commit));
  h5::write_attribute(file.id(), "name", sweep.document().base().name);
  h5::write_attribute(file.id(), "fingerprint", sweep.fingerprint());
  h5::write_attribute(file.id(), "kind", std::string(sweep.grid() ? "grid" : "points"));
  h5::write_attribute(file.id(), "cases_per_chunk", static_cast<int>(cases_per_chunk));
  h5::write_attribute(file.id(), "caution", std::string(caution));
  write_case(file.id(), sweep);
  write_inputs(file.id(), sweep);
  for (const auto& measure : sweep_measures()) {
    (void)make(file.id(), {"measures/" + measure.key, measure.unit, measure.description}, H5T_IEEE_F64LE, sweep.count(),
               &none);
  }
  if (sweep.history_every() > 0) {
    lay_out_histories(file.id(), sweep);
  }
  const signed char zero = 0;
  (void)make(file.id(), {"status", "-", "0 not computed, 1 done, 2 bad input, 3 could not be computed"}, H5T_STD_I8LE,
             sweep.count(), &zero);
  (void)make(file.id(), {"failure", "-", "why a case has no result; empty where it has one"},
             fixed_text(failure_length).id(), sweep.count(), nullptr);
  const std::size_t chunks = (sweep.count() + cases_per_chunk - 1) / cases_per_chunk;
  (void)make(file.id(), {"chunk_complete", "-", "1: all cases of this chunk are stored"}, H5T_STD_I8LE, chunks, &zero);
  if (!file.release()) {
    throw ComputeError("closing the file failed; is the disk full?");
  }
}

} // namespace wingnose::io
