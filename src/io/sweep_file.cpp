// The file of a sweep under way: laid out once, then only numbers change in place.
#include "sweep_file_layout.hpp"
#include "whole_file.hpp"

#include "wingnose/version.hpp"
#include "wingnose/words/error.hpp"

#include <unistd.h>

#include <algorithm>
#include <limits>

namespace wingnose::io {

namespace {

namespace fs = std::filesystem;
using h5::Handle;

// Numbers of the file reach the disk before the flag that vouches for them.
void sync(hid_t file) {
  demand(H5Fflush(file, H5F_SCOPE_LOCAL), "flushing the file");
  void* descriptor = nullptr;
  if (H5Fget_vfd_handle(file, H5P_DEFAULT, &descriptor) >= 0 && descriptor != nullptr) {
    (void)::fsync(*static_cast<int*>(descriptor)); // a file system without it still has the order of the writes
  }
}

void write_column(hid_t file, const std::string& path, hid_t type, std::size_t begin, std::size_t count,
                  const void* values) {
  write_rows(h5::open_dataset(file, path).id(), type, begin, count, values);
}

std::vector<signed char> read_flags(hid_t file, const std::string& path) {
  const Handle dataset = h5::open_dataset(file, path);
  std::vector<signed char> flags(h5::shape(dataset).at(0));
  demand(H5Dread(dataset.id(), H5T_NATIVE_SCHAR, H5S_ALL, H5S_ALL, H5P_DEFAULT, flags.data()), path);
  return flags;
}

// A reason of exactly the length the file keeps.
std::string clipped(std::string text) {
  if (text.size() > failure_length) {
    std::size_t end = failure_length - 3;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) { // not inside a character
      --end;
    }
    text = text.substr(0, end) + "...";
  }
  text.resize(failure_length, '\0');
  return text;
}

Handle open_to_write(const fs::path& file) {
  const hid_t id = H5Fopen(file.c_str(), H5F_ACC_RDWR, H5P_DEFAULT);
  if (id < 0) {
    throw InputError("sweep file \"" + file.string() +
                     "\" cannot be opened for writing; another program may be writing it, or it is not a sound HDF5 "
                     "file");
  }
  return {id, H5Fclose, "opening " + file.string()};
}

void check_belongs(hid_t file, const fs::path& path, const Sweep& sweep) {
  if (!h5::has_attribute(file, "format") || h5::read_text_attribute(file, "format") != sweep_format) {
    throw InputError("\"" + path.string() + "\" is no sweep of wingnose; it is left alone, choose another name");
  }
  if (h5::read_text_attribute(file, "fingerprint") == sweep.fingerprint()) {
    return;
  }
  const std::string theirs =
      h5::read_text_attribute(file, "version") + " (commit " + h5::read_text_attribute(file, "commit") + ")";
  const std::string ours = std::string(version) + " (commit " + commit + ")";
  throw InputError("\"" + path.string() + "\" holds another sweep: " +
                   (theirs == ours ? std::string("the case, the files it names or what varies has changed since")
                                   : "it was begun by wingnose " + theirs + ", this is " + ours) +
                   "; choose another output file or remove this one");
}

// Rows as long as the longest history of the file, filled up with NaN.
void write_histories(hid_t file, const SweepFile::Chunk& chunk, const std::vector<SweepHistory>& histories,
                     std::size_t samples) {
  const auto write_all = [&](const std::string& path, std::vector<float> SweepHistory::*member) {
    if (H5Lexists(file, path.c_str(), H5P_DEFAULT) <= 0) {
      return; // not a crossing
    }
    const Handle dataset = h5::open_dataset(file, path);
    std::vector<float> row(samples);
    for (std::size_t i = 0; i < histories.size(); ++i) {
      const auto& some = histories[i].*member;
      std::fill(row.begin(), row.end(), std::numeric_limits<float>::quiet_NaN());
      std::copy_n(some.begin(), std::min(some.size(), samples), row.begin());
      write_row(dataset.id(), H5T_NATIVE_FLOAT, chunk.begin + i, samples, row.data());
    }
  };
  write_all("history/force_N", &SweepHistory::force);
  write_all("history/force_wing_N", &SweepHistory::wing);
  write_all("history/force_nose_N", &SweepHistory::nose);
  std::vector<double> first, spacing;
  for (const auto& h : histories) {
    const bool none = h.force.empty();
    first.push_back(none ? std::numeric_limits<double>::quiet_NaN() : h.first_station * 1e3);
    spacing.push_back(none ? std::numeric_limits<double>::quiet_NaN() : h.spacing * 1e3);
  }
  write_column(file, "history/first_station_mm", H5T_NATIVE_DOUBLE, chunk.begin, first.size(), first.data());
  write_column(file, "history/spacing_mm", H5T_NATIVE_DOUBLE, chunk.begin, spacing.size(), spacing.data());
}

} // namespace

struct SweepFile::Open {
  Open(Handle handle, std::size_t cases, std::size_t cases_per_chunk, std::size_t samples_per_case,
       std::vector<signed char> flags)
      : file(std::move(handle)), count(cases), per_chunk(cases_per_chunk), samples(samples_per_case),
        complete(std::move(flags)) {}
  h5::QuietErrors quiet;
  Handle file;
  std::size_t count, per_chunk, samples; // samples of a stored history, 0: none are stored
  std::vector<signed char> complete;
  std::vector<PassageMeasure> measures = sweep_measures();
};

SweepFile::SweepFile(const fs::path& file, const Sweep& sweep, std::size_t cases_per_chunk) {
  if (cases_per_chunk < 1 || cases_per_chunk > 1'000'000) {
    throw InputError("cases per chunk", std::to_string(cases_per_chunk), "1 to 1000000",
                     "About a second's worth of cases is a good size.");
  }
  check_result_target(file);
  const h5::QuietErrors quiet;
  std::error_code ignored;
  if (!fs::exists(file, ignored)) {
    put_in_place(file, "sweep file", [&](const std::string& name) { lay_out_sweep(name, sweep, cases_per_chunk); });
  }
  Handle handle = open_to_write(file);
  check_belongs(handle.id(), file, sweep);
  const auto per_chunk = static_cast<std::size_t>(h5::read_int_attribute(handle.id(), "cases_per_chunk"));
  auto complete = read_flags(handle.id(), "chunk_complete");
  std::size_t samples = 0;
  if (sweep.history_every() > 0) {
    samples = h5::shape(h5::open_dataset(handle.id(), "history/force_N")).at(1);
  }
  open_ = std::make_unique<Open>(std::move(handle), sweep.count(), per_chunk, samples, std::move(complete));
}

SweepFile::SweepFile(SweepFile&&) noexcept = default;
SweepFile& SweepFile::operator=(SweepFile&&) noexcept = default;
SweepFile::~SweepFile() = default;

std::vector<SweepFile::Chunk> SweepFile::missing() const {
  std::vector<Chunk> chunks;
  for (std::size_t k = 0; k < open_->complete.size(); ++k) {
    if (open_->complete[k] == 0) {
      chunks.push_back({k, k * open_->per_chunk, std::min((k + 1) * open_->per_chunk, open_->count)});
    }
  }
  return chunks;
}

std::size_t SweepFile::cases_complete() const {
  std::size_t cases = open_->count;
  for (const Chunk& chunk : missing()) {
    cases -= chunk.end - chunk.begin;
  }
  return cases;
}

void SweepFile::write(const Chunk& chunk, const SweepRows& rows) {
  const std::size_t n = chunk.end - chunk.begin, columns = open_->measures.size();
  if (rows.begin != chunk.begin || rows.end != chunk.end || rows.values.size() != n * columns ||
      rows.status.size() != n || rows.failures.size() != n || (open_->samples > 0 && rows.histories.size() != n)) {
    throw InputError("rows of cases " + std::to_string(rows.begin) + " to " + std::to_string(rows.end) +
                     " do not fill the chunk of cases " + std::to_string(chunk.begin) + " to " +
                     std::to_string(chunk.end));
  }
  const hid_t file = open_->file.id();
  std::vector<double> values(n);
  for (std::size_t c = 0; c < columns; ++c) {
    for (std::size_t i = 0; i < n; ++i) {
      values[i] = rows.values[i * columns + c];
    }
    write_column(file, "measures/" + open_->measures[c].key, H5T_NATIVE_DOUBLE, chunk.begin, n, values.data());
  }
  std::vector<signed char> status(n);
  const Handle type = fixed_text(failure_length);
  for (std::size_t i = 0; i < n; ++i) {
    status[i] = static_cast<signed char>(rows.status[i]);
    if (!rows.failures[i].empty()) {
      const std::string text = clipped(rows.failures[i]);
      write_column(file, "failure", type.id(), chunk.begin + i, 1, text.data());
    }
  }
  write_column(file, "status", H5T_NATIVE_SCHAR, chunk.begin, n, status.data());
  if (open_->samples > 0) {
    write_histories(file, chunk, rows.histories, open_->samples);
  }
  sync(file);
  const signed char done = 1;
  write_column(file, "chunk_complete", H5T_NATIVE_SCHAR, chunk.index, 1, &done);
  demand(H5Fflush(file, H5F_SCOPE_LOCAL), "flushing the file");
  open_->complete[chunk.index] = 1;
}

} // namespace wingnose::io
