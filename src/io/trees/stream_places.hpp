// Where the rows of a file that answers stream into lie on the disk, and their checksums. A chunk counts when its
// checksum is that of its rows; all else in the file has the checksum of `sealed.hpp`.
#pragma once

#include "disk.hpp"
#include "sealed.hpp"

#include <hdf5.h>

#include <cstddef>
#include <string>
#include <vector>

namespace wingnose::io {

inline constexpr const char* flags_name = "chunk_complete";
inline constexpr const char* chunk_checksums_name = "chunk_checksum";
inline constexpr const char* streamed_name = "streamed"; // attribute of the columns that are filled chunk by chunk
inline constexpr std::size_t checksum_length = 64;

struct Place {
  std::string path;
  std::size_t begin, row, rows; // bytes: of the first row, of one row; rows
  [[nodiscard]] std::size_t at(std::size_t i) const { return begin + i * row; }
};

struct StreamPlaces {
  std::vector<Place> columns; // as they lie on the disk
  Place flags, checksums;     // one row per chunk; no rows of checksums: a file of before there were any
  std::size_t per_chunk;
  [[nodiscard]] std::size_t chunks() const { return flags.rows; }
  [[nodiscard]] std::vector<Stretch> all() const;
};

// file: open HDF5. Throws ComputeError for a file that is not laid out as ours are.
[[nodiscard]] StreamPlaces places_of(hid_t file);

// Of the rows of one chunk as they are on the disk.
[[nodiscard]] std::string chunk_checksum(const Descriptor& file, const StreamPlaces& places, std::size_t chunk);

enum class ChunkState { missing, complete, damaged };
[[nodiscard]] std::vector<ChunkState> chunk_states(const Descriptor& file, const StreamPlaces& places);

} // namespace wingnose::io
