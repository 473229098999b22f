#include "stream_places.hpp"

#include "checksum.hpp"
#include "hdf5_handle.hpp"

#include <algorithm>

namespace wingnose::io {
namespace {

Place place_of(hid_t file, const std::string& path) {
  const h5::Handle dataset = h5::open_dataset(file, path);
  const h5::Handle type(H5Dget_type(dataset.id()), H5Tclose, "type of " + path);
  const auto shape = h5::shape(dataset);
  const haddr_t begin = H5Dget_offset(dataset.id());
  const std::size_t size = H5Tget_size(type.id());
  if (shape.empty() || shape.size() > 2 || begin == HADDR_UNDEF || size == 0) {
    throw ComputeError("the rows of " + path + " are not where they should be");
  }
  return {path, static_cast<std::size_t>(begin), size * (shape.size() > 1 ? shape[1] : 1), shape[0]};
}

std::size_t end_of(const Place& p) { return p.begin + p.row * p.rows; }

} // namespace

std::vector<Stretch> StreamPlaces::all() const {
  std::vector<Stretch> stretches;
  for (const Place& p : columns) {
    stretches.push_back({p.begin, end_of(p)});
  }
  stretches.push_back({flags.begin, end_of(flags)});
  stretches.push_back({checksums.begin, end_of(checksums)});
  std::sort(stretches.begin(), stretches.end(), [](const auto& a, const auto& b) { return a.begin < b.begin; });
  for (std::size_t i = 1; i < stretches.size(); ++i) { // only in a damaged file
    if (stretches[i].begin < stretches[i - 1].end) {
      throw ComputeError("rows lie over each other");
    }
  }
  return stretches;
}

StreamPlaces places_of(hid_t file) {
  StreamPlaces places{{}, place_of(file, flags_name), {}, 0};
  const int per_chunk = h5::read_int_attribute(file, "cases_per_chunk");
  if (per_chunk < 1) {
    throw ComputeError("cases per chunk: " + std::to_string(per_chunk));
  }
  places.per_chunk = static_cast<std::size_t>(per_chunk);
  for (const std::string& path : h5::paths(file)) {
    if (path.ends_with('/')) {
      continue;
    }
    if (path == chunk_checksums_name) {
      places.checksums = place_of(file, path);
    } else if (h5::has_attribute(h5::open_dataset(file, path).id(), streamed_name)) {
      places.columns.push_back(place_of(file, path));
    }
  }
  std::sort(places.columns.begin(), places.columns.end(),
            [](const Place& a, const Place& b) { return a.begin < b.begin; });
  const auto& first = places.columns;
  const std::size_t cases = first.empty() ? 0 : first.front().rows;
  const bool alike = std::all_of(first.begin(), first.end(), [&](const Place& p) { return p.rows == cases; });
  const bool counted = first.empty() || places.chunks() == (cases + places.per_chunk - 1) / places.per_chunk;
  if (!alike || !counted || places.flags.row != 1 ||
      (places.checksums.rows > 0 &&
       (places.checksums.rows != places.chunks() || places.checksums.row != checksum_length))) {
    throw ComputeError("its columns do not fit together");
  }
  return places;
}

std::string chunk_checksum(const Descriptor& file, const StreamPlaces& places, std::size_t chunk) {
  std::string rows;
  for (const Place& p : places.columns) {
    const std::size_t begin = chunk * places.per_chunk, end = std::min(begin + places.per_chunk, p.rows);
    rows += file.read(p.at(begin), (end - begin) * p.row);
  }
  return sha256(rows);
}

std::vector<ChunkState> chunk_states(const Descriptor& file, const StreamPlaces& places) {
  const std::string flags = file.read(places.flags.begin, places.chunks());
  std::vector<ChunkState> states(places.chunks(), ChunkState::damaged);
  for (std::size_t k = 0; k < flags.size(); ++k) {
    if (flags[k] != '\0' && flags[k] != '\1') {
      continue;
    }
    const bool told = flags[k] == '\1';
    if (places.checksums.rows == 0) {
      states[k] = told ? ChunkState::complete : ChunkState::missing;
      continue;
    }
    const std::string kept = file.read(places.checksums.at(k), checksum_length);
    const bool empty = kept == std::string(checksum_length, '\0');
    const bool whole = !empty && kept == chunk_checksum(file, places, k);
    // A checksum without its flag: killed between the two, or the rows after it are being written anew.
    states[k] = whole ? ChunkState::complete : told ? ChunkState::damaged : ChunkState::missing;
  }
  return states;
}

} // namespace wingnose::io
