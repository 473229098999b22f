#include "wingnose/io/stream_file.hpp"

#include "checksum.hpp"
#include "hdf5_disk.hpp"
#include "stream_places.hpp"
#include "tree_head.hpp"
#include "whole_file.hpp"

#include "wingnose/io/tree_file.hpp"
#include "wingnose/version.hpp"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
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
constexpr std::size_t rows_at_once = 65536; // rows held in memory at once

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

// Writes rows [begin, begin + count) of a dataset that is being laid out.
void write_rows(hid_t dataset, hid_t type, std::size_t begin, std::size_t count, const void* values) {
  const hsize_t start = begin, length = count;
  const Handle all(H5Dget_space(dataset), H5Sclose, "space of a dataset");
  const Handle memory(H5Screate_simple(1, &length, nullptr), H5Sclose, "rows");
  demand(H5Sselect_hyperslab(all.id(), H5S_SELECT_SET, &start, nullptr, &length, nullptr), "choosing rows");
  demand(H5Dwrite(dataset, type, memory.id(), all.id(), H5P_DEFAULT, values), "writing rows");
}

// --- laying out ------------------------------------------------------------------------------------------------------

// In one piece, with its place in the file taken at once, and without time stamps.
void make(hid_t file, const StreamColumn& column, std::size_t rows, bool streamed) {
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
  if (streamed) {
    h5::write_attribute(dataset.id(), streamed_name, 1);
  }
}

void write_known(hid_t file, const StreamColumn& column, std::size_t rows) {
  const Handle dataset = h5::open_dataset(file, path_of(column));
  const Handle type = type_of(column.as, column.text_length);
  for (std::size_t begin = 0; begin < rows; begin += rows_at_once) {
    const std::size_t end = std::min(rows, begin + rows_at_once);
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
    write_rows(dataset.id(), column.as == As::text ? type.id() : H5T_NATIVE_DOUBLE, begin, end - begin,
               column.as == As::text ? static_cast<const void*>(texts.data()) : numbers.data());
  }
}

// One value per chunk.
StreamColumn of_chunks(const char* name, As as, const char* meaning) {
  StreamColumn column;
  column.as = as;
  column.array.name = name;
  column.array.dims = {"chunk"};
  column.array.meaning = meaning;
  column.array.detail = quantity::Detail::stored;
  column.text_length = checksum_length;
  return column;
}

void lay_out(const std::string& name, const Stream& stream, std::size_t per_chunk) {
  h5::DiskFault fault;
  Handle file = h5::create(name, fault);
  // Room for every column, the flags and the checksums.
  write_groups(file.id(), stream.head, unsealed(stream.columns.size() + 2));
  h5::write_attribute(file.id(), "fingerprint", fingerprint(stream));
  h5::write_attribute(file.id(), "cases_per_chunk", static_cast<int>(per_chunk));
  for (const StreamColumn& column : stream.columns) {
    make(file.id(), column, stream.count, !column.known);
    if (column.known) {
      write_known(file.id(), column, stream.count);
    }
  }
  const std::size_t chunks = (stream.count + per_chunk - 1) / per_chunk;
  make(file.id(), of_chunks(flags_name, As::small_number, "1: all cases of this chunk are stored"), chunks, false);
  make(file.id(), of_chunks(chunk_checksums_name, As::text, "SHA-256 of the rows of this chunk"), chunks, false);
  close_written(std::move(file), fault);
  std::vector<Stretch> apart = places_of(h5::open(name).id()).all();
  apart.resize(stream.columns.size() + 2, {apart.back().end, apart.back().end}); // as much as there is room for
  seal(name, apart);
}

// --- going on --------------------------------------------------------------------------------------------------------

constexpr const char* busy = "\" cannot be opened for writing; another program may be writing it (or a worker left "
                             "behind by one that was killed), or it is not a sound HDF5 file";

Handle open_to_read(const fs::path& file) {
  const hid_t id = H5Fopen(file.c_str(), H5F_ACC_RDONLY, H5P_DEFAULT);
  if (id < 0) {
    throw InputError("sweep file \"" + file.string() + busy);
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
  Descriptor file;
  StreamPlaces places;
  std::vector<quantity::StreamColumn> columns;
  std::size_t count;
  std::vector<bool> complete;
  fs::path name;
  int owner = ::getpid();
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
  StreamPlaces places = [&] {
    const Seal seal = seal_of(file);
    const auto refused = [&] { return InputError("sweep file \"" + file.string() + "\" " + damaged_file); };
    if (seal == Seal::broken) { // before the library looks at it
      throw refused();
    }
    const Handle handle = open_to_read(file); // the library is done with it before anything is computed
    check_belongs(handle.id(), file, stream);
    try {
      StreamPlaces found = places_of(handle.id());
      if (seal == Seal::sound && found.checksums.rows > 0) {
        return found;
      }
    } catch (const ComputeError&) { // told below
    }
    throw refused();
  }();
  Descriptor descriptor(file, Descriptor::For::writing);
  if (!descriptor.lock()) {
    throw InputError("sweep file \"" + file.string() + busy);
  }
  std::vector<bool> complete;
  for (const ChunkState state : chunk_states(descriptor, places)) { // a damaged chunk is computed again
    complete.push_back(state == ChunkState::complete);
    const std::size_t flag = places.flags.at(complete.size() - 1);
    if (complete.back() && descriptor.read(flag, 1) != "\1") { // killed between checksum and flag
      descriptor.write(flag, "\1");
    }
  }
  open_ = std::make_unique<Open>(
      Open{std::move(descriptor), std::move(places), stream.columns, stream.count, std::move(complete), file});
}

StreamFile::StreamFile(StreamFile&&) noexcept = default;
StreamFile& StreamFile::operator=(StreamFile&&) noexcept = default;
StreamFile::~StreamFile() = default;

std::vector<quantity::Sink::Chunk> StreamFile::missing() const {
  const std::size_t per_chunk = open_->places.per_chunk;
  std::vector<Chunk> chunks;
  for (std::size_t k = 0; k < open_->complete.size(); ++k) {
    if (!open_->complete[k]) {
      chunks.push_back({k, k * per_chunk, std::min((k + 1) * per_chunk, open_->count)});
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

namespace {

// Rows as they lie on the disk.
std::string bytes_of(const StreamColumn& column, const Array& rows) {
  std::string bytes;
  const auto append = [&bytes](auto value) {
    bytes.append(reinterpret_cast<const char*>(&value), sizeof value); // little-endian, as all machines this runs on
  };
  for (const std::string& text : rows.texts) {
    bytes += clipped(text, std::max<std::size_t>(1, column.text_length));
  }
  for (const double value : rows.numbers) {
    if (column.as == As::number) {
      append(value);
    } else if (column.as == As::single_precision) {
      append(static_cast<float>(value));
    } else {
      append(static_cast<signed char>(std::isnan(value) ? 0.0 : std::clamp(value, -128.0, 127.0)));
    }
  }
  return bytes;
}

} // namespace

void StreamFile::write(const Chunk& chunk, const quantity::Tree& rows) {
  static_assert(std::endian::native == std::endian::little);
  if (::getpid() != open_->owner) {
    throw InputError(
        "sweep file \"" + open_->name.string() +
        "\" was opened by another process; let the process that opened it write, and workers send it rows");
  }
  const std::size_t n = chunk.end - chunk.begin;
  const Descriptor& file = open_->file;
  try {
    file.write(open_->places.flags.at(chunk.index), std::string(1, '\0'));
    for (const quantity::StreamColumn& column : open_->columns) {
      if (column.known) {
        continue;
      }
      const std::string path = path_of(column);
      const Array* array = rows.find(path);
      if (array == nullptr) {
        throw InputError("rows of cases " + std::to_string(chunk.begin) + " to " + std::to_string(chunk.end) +
                         " lack " + path);
      }
      const auto place = std::find_if(open_->places.columns.begin(), open_->places.columns.end(),
                                      [&](const Place& p) { return p.path == path; });
      const std::string bytes = bytes_of(column, *array);
      if (place == open_->places.columns.end() || bytes.size() != n * place->row) {
        throw InputError("rows of " + path + ": " + std::to_string(array->size()) + " values do not fill a chunk of " +
                         std::to_string(n) + " cases");
      }
      if (file.read(place->at(chunk.begin), bytes.size()) != bytes) { // empty texts take no room on the disk
        file.write(place->at(chunk.begin), bytes);
      }
    }
    file.write(open_->places.checksums.at(chunk.index), chunk_checksum(file, open_->places, chunk.index));
    file.sync(); // numbers and checksum reach the disk before the flag that vouches for them
    file.write(open_->places.flags.at(chunk.index), std::string(1, '\1'));
  } catch (const ComputeError& error) {
    throw ComputeError("\"" + open_->name.string() + "\" could not be written: " + error.what() + ". " +
                       std::to_string(cases_complete()) + " of " + std::to_string(open_->count) +
                       " cases are stored; give the same command again to go on from there");
  }
  open_->complete[chunk.index] = true;
}

} // namespace wingnose::io
