#include "wingnose/io/stream_file.hpp"

#include "checksum.hpp"
#include "hdf5_handle.hpp"
#include "tree_head.hpp"
#include "whole_file.hpp"

#include "wingnose/io/tree_file.hpp"
#include "wingnose/version.hpp"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <limits>

namespace wingnose::io {
namespace {

namespace fs = std::filesystem;
using h5::demand;
using h5::Handle;
using quantity::Array;
using quantity::Stream;
using quantity::StreamColumn;
using As = StreamColumn::As;

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr float no_single = std::numeric_limits<float>::quiet_NaN();
constexpr std::size_t block = 65536; // rows held in memory at once
constexpr const char* flags = "chunk_complete";

std::string path_of(const StreamColumn& c) { return c.group.empty() ? c.array.name : c.group + "/" + c.array.name; }

// All texts are of fixed length: texts of variable length live in a heap that moves.
Handle fixed_text(std::size_t length) {
  Handle type(H5Tcopy(H5T_C_S1), H5Tclose, "text type");
  demand(H5Tset_size(type.id(), std::max<std::size_t>(1, length)), "text type");
  demand(H5Tset_strpad(type.id(), H5T_STR_NULLPAD), "text type");
  demand(H5Tset_cset(type.id(), H5T_CSET_UTF8), "text type");
  return type;
}

Handle type_of(As as, std::size_t text_length) {
  if (as == As::text) {
    return fixed_text(text_length);
  }
  const hid_t type = as == As::number ? H5T_IEEE_F64LE : as == As::single_precision ? H5T_IEEE_F32LE : H5T_STD_I8LE;
  return {H5Tcopy(type), H5Tclose, "number type"};
}

// A text of exactly the length the file keeps.
std::string clipped(std::string text, std::size_t length) {
  if (text.size() > length) {
    std::size_t end = length - std::min<std::size_t>(3, length);
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) { // not inside a character
      --end;
    }
    text = text.substr(0, end) + "...";
  }
  text.resize(length, '\0');
  return text;
}

// Writes rows [begin, begin + count) of a dataset.
void write_rows(hid_t dataset, hid_t type, std::size_t begin, std::size_t count, std::size_t length,
                const void* values) {
  const std::array<hsize_t, 2> start{begin, 0}, shape{count, length};
  const int rank = length > 1 ? 2 : 1;
  const Handle all(H5Dget_space(dataset), H5Sclose, "space of a dataset");
  const Handle memory(H5Screate_simple(rank, shape.data(), nullptr), H5Sclose, "rows");
  demand(H5Sselect_hyperslab(all.id(), H5S_SELECT_SET, start.data(), nullptr, shape.data(), nullptr), "choosing rows");
  demand(H5Dwrite(dataset, type, memory.id(), all.id(), H5P_DEFAULT, values), "writing rows; is the disk full?");
}

// --- laying out ------------------------------------------------------------------------------------------------------

// In one piece, with its place in the file taken at once, and without time stamps.
void make(hid_t file, const StreamColumn& column, std::size_t rows) {
  const std::string path = path_of(column);
  const std::size_t length = column.array.shape.size() > 1 ? column.array.shape[1] : 1;
  const std::array<hsize_t, 2> shape{rows, length};
  const Handle space(H5Screate_simple(length > 1 ? 2 : 1, shape.data(), nullptr), H5Sclose, "space of " + path);
  const Handle layout(H5Pcreate(H5P_DATASET_CREATE), H5Pclose, "dataset properties");
  const Handle type = type_of(column.as, column.text_length);
  demand(H5Pset_layout(layout.id(), H5D_CONTIGUOUS), "layout of " + path);
  demand(H5Pset_alloc_time(layout.id(), H5D_ALLOC_TIME_EARLY), "space of " + path);
  demand(H5Pset_obj_track_times(layout.id(), false), "time stamps");
  const bool filled = !column.known && column.as != As::text;
  if (filled) {
    const signed char zero = 0;
    const void* fill = column.as == As::number             ? static_cast<const void*>(&none)
                       : column.as == As::single_precision ? static_cast<const void*>(&no_single)
                                                           : static_cast<const void*>(&zero);
    demand(H5Pset_fill_value(layout.id(), type.id(), fill), "fill value of " + path);
  }
  // Otherwise the file system's zeros, which take no room on the disk.
  demand(H5Pset_fill_time(layout.id(), filled ? H5D_FILL_TIME_ALLOC : H5D_FILL_TIME_NEVER), "fill value of " + path);
  h5::make_groups(file, column.group);
  const Handle dataset(H5Dcreate2(file, path.c_str(), type.id(), space.id(), H5P_DEFAULT, layout.id(), H5P_DEFAULT),
                       H5Dclose, "dataset " + path);
  Array array = column.array;
  array.is_text = column.as == As::text;
  describe(dataset.id(), array);
}

void write_known(hid_t file, const StreamColumn& column, std::size_t rows) {
  const Handle dataset = h5::open_dataset(file, path_of(column));
  const Handle type = type_of(column.as, column.text_length);
  for (std::size_t begin = 0; begin < rows; begin += block) {
    const std::size_t end = std::min(rows, begin + block);
    std::vector<double> numbers;
    std::string texts;
    for (std::size_t i = begin; i < end; ++i) {
      const auto value = column.known(i);
      if (column.as == As::text) {
        texts += clipped(std::get<std::string>(value), column.text_length);
      } else {
        numbers.push_back(std::get<double>(value));
      }
    }
    write_rows(dataset.id(), column.as == As::text ? type.id() : H5T_NATIVE_DOUBLE, begin, end - begin, 1,
               column.as == As::text ? static_cast<const void*>(texts.data()) : numbers.data());
  }
}

void lay_out(const std::string& name, const Stream& stream, std::size_t per_chunk) {
  Handle file = h5::create(name, H5F_ACC_EXCL);
  write_groups(file.id(), stream.head);
  h5::write_attribute(file.id(), "fingerprint", fingerprint(stream));
  h5::write_attribute(file.id(), "cases_per_chunk", static_cast<int>(per_chunk));
  for (const StreamColumn& column : stream.columns) {
    make(file.id(), column, stream.count);
    if (column.known) {
      write_known(file.id(), column, stream.count);
    }
  }
  StreamColumn complete;
  complete.as = As::small_number;
  complete.array.name = flags;
  complete.array.dims = {"chunk"};
  complete.array.meaning = "1: all cases of this chunk are stored";
  complete.array.detail = quantity::Detail::stored;
  make(file.id(), complete, (stream.count + per_chunk - 1) / per_chunk);
  if (!file.release()) {
    throw ComputeError("closing the file failed; is the disk full?");
  }
}

// --- going on --------------------------------------------------------------------------------------------------------

// Numbers of the file reach the disk before the flag that vouches for them.
void sync(hid_t file) {
  demand(H5Fflush(file, H5F_SCOPE_LOCAL), "flushing the file");
  void* descriptor = nullptr;
  if (H5Fget_vfd_handle(file, H5P_DEFAULT, &descriptor) >= 0 && descriptor != nullptr) {
    (void)::fsync(*static_cast<int*>(descriptor)); // a file system without it still has the order of the writes
  }
}

std::vector<signed char> read_flags(hid_t file) {
  const Handle dataset = h5::open_dataset(file, flags);
  std::vector<signed char> complete(h5::shape(dataset).at(0));
  demand(H5Dread(dataset.id(), H5T_NATIVE_SCHAR, H5S_ALL, H5S_ALL, H5P_DEFAULT, complete.data()), flags);
  return complete;
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

void check_belongs(hid_t file, const fs::path& path, const Stream& stream) {
  const std::string format = "wingnose " + stream.head.kind();
  if (!h5::has_attribute(file, "format") || h5::read_text_attribute(file, "format") != format) {
    throw InputError("\"" + path.string() + "\" is no " + stream.head.kind() +
                     " of wingnose; it is left alone, choose another name");
  }
  if (h5::read_text_attribute(file, "fingerprint") == fingerprint(stream)) {
    return;
  }
  const std::string theirs =
      h5::read_text_attribute(file, "version") + " (commit " + h5::read_text_attribute(file, "commit") + ")";
  const std::string ours = std::string(version) + " (commit " + commit + ")";
  throw InputError("\"" + path.string() + "\" holds another " + stream.head.kind() + ": " +
                   (theirs == ours ? std::string("the case, the files it names or what varies has changed since")
                                   : "it was begun by wingnose " + theirs + ", this is " + ours) +
                   "; choose another output file or remove this one");
}

} // namespace

std::string fingerprint(const Stream& stream) {
  return sha256(std::string("wingnose ") + version + ' ' + commit + '\n' + stream.identity);
}

struct StreamFile::Open {
  Open(Handle handle, const quantity::Stream& stream, std::size_t cases_per_chunk,
       std::vector<signed char> complete_chunks)
      : file(std::move(handle)), columns(stream.columns), count(stream.count), per_chunk(cases_per_chunk),
        complete(std::move(complete_chunks)) {}
  h5::QuietErrors quiet;
  Handle file;
  std::vector<quantity::StreamColumn> columns;
  std::size_t count, per_chunk;
  std::vector<signed char> complete;

  void write(const quantity::StreamColumn& column, const Array& rows, std::size_t begin, std::size_t n) const {
    const Handle dataset = h5::open_dataset(file.id(), path_of(column));
    const std::size_t length = column.array.shape.size() > 1 ? column.array.shape[1] : 1;
    if (rows.size() != n * length) {
      throw InputError("rows of " + path_of(column) + ": " + std::to_string(rows.size()) +
                       " values do not fill a chunk of " + std::to_string(n) + " cases");
    }
    if (column.as == As::text) {
      const Handle type = type_of(column.as, column.text_length);
      for (std::size_t i = 0; i < n; ++i) {
        if (!rows.texts[i].empty()) {
          write_rows(dataset.id(), type.id(), begin + i, 1, 1, clipped(rows.texts[i], column.text_length).data());
        }
      }
    } else {
      write_rows(dataset.id(), H5T_NATIVE_DOUBLE, begin, n, length, rows.numbers.data());
    }
  }
};

StreamFile::StreamFile(const fs::path& file, const quantity::Stream& stream, std::size_t cases_per_chunk) {
  if (cases_per_chunk < 1 || cases_per_chunk > 1'000'000) {
    throw InputError("cases per chunk", std::to_string(cases_per_chunk), "1 to 1000000",
                     "About a second's worth of cases is a good size.");
  }
  check_target(file);
  const h5::QuietErrors quiet;
  std::error_code ignored;
  if (!fs::exists(file, ignored)) {
    put_in_place(file, stream.head.kind() + " file",
                 [&](const std::string& name) { lay_out(name, stream, cases_per_chunk); });
  }
  Handle handle = open_to_write(file);
  check_belongs(handle.id(), file, stream);
  const auto per_chunk = static_cast<std::size_t>(h5::read_int_attribute(handle.id(), "cases_per_chunk"));
  auto complete = read_flags(handle.id());
  open_ = std::make_unique<Open>(std::move(handle), stream, per_chunk, std::move(complete));
}

StreamFile::StreamFile(StreamFile&&) noexcept = default;
StreamFile& StreamFile::operator=(StreamFile&&) noexcept = default;
StreamFile::~StreamFile() = default;

std::vector<quantity::Sink::Chunk> StreamFile::missing() const {
  std::vector<Chunk> chunks;
  for (std::size_t k = 0; k < open_->complete.size(); ++k) {
    if (open_->complete[k] == 0) {
      chunks.push_back({k, k * open_->per_chunk, std::min((k + 1) * open_->per_chunk, open_->count)});
    }
  }
  return chunks;
}

std::size_t StreamFile::cases_complete() const {
  std::size_t cases = open_->count;
  for (const Chunk& chunk : missing()) {
    cases -= chunk.end - chunk.begin;
  }
  return cases;
}

void StreamFile::write(const Chunk& chunk, const quantity::Tree& rows) {
  for (const quantity::StreamColumn& column : open_->columns) {
    if (column.known) {
      continue;
    }
    const Array* array = rows.find(path_of(column));
    if (array == nullptr) {
      throw InputError("rows of cases " + std::to_string(chunk.begin) + " to " + std::to_string(chunk.end) + " lack " +
                       path_of(column));
    }
    open_->write(column, *array, chunk.begin, chunk.end - chunk.begin);
  }
  const hid_t file = open_->file.id();
  sync(file);
  const signed char done = 1;
  write_rows(h5::open_dataset(file, flags).id(), H5T_NATIVE_SCHAR, chunk.index, 1, 1, &done);
  demand(H5Fflush(file, H5F_SCOPE_LOCAL), "flushing the file");
  open_->complete[chunk.index] = 1;
}

} // namespace wingnose::io
