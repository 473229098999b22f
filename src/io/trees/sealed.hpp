// A checksum that a file carries over its own bytes, so that damage is seen before the HDF5 library, which can fall
// over it, looks at them. It stands in a text of the file as a mark, 64 digits (SHA-256, computed with those digits as
// zeros) and the stretches of bytes that have checksums of their own and are left out: "120+800 2000+64;".
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

namespace wingnose::io {

inline constexpr const char* checksum_name = "checksum"; // the attribute of the file
inline constexpr const char* damaged_file =
    "is damaged: what it holds does not fit its checksum; take a sound copy, or compute it again under another name";

struct Stretch {
  std::size_t begin, end;
};

// What stands there before the file is sealed, with room for so many stretches.
[[nodiscard]] std::string unsealed(std::size_t stretches = 0);
// Puts the checksum into a file closed before, in place of the text `unsealed`. apart: by begin, not overlapping.
// Throws ComputeError.
void seal(const std::filesystem::path& file, const std::vector<Stretch>& apart = {});

enum class Seal { sound, broken, none };
// none: nothing in the file looks like a checksum. Throws ComputeError when it cannot be read.
[[nodiscard]] Seal seal_of(const std::filesystem::path& file);

} // namespace wingnose::io
