// Answers in HDF5 and as JSON. Every dataset carries `unit`, `description`, `label` and the names of its dimensions;
// the file says its kind, version, commit and the version of its layout. Files are written to a temporary name beside
// the target and renamed, so that a reader never sees half a file and a failure never costs the file that was there
// before. The HDF5 library is not thread-safe as commonly built: write and read from one thread at a time.
#pragma once

#include "wingnose/quantity/tree.hpp"

#include <filesystem>
#include <string>

namespace wingnose::io {

// 1: version 0.1 before its release, whose files open but may lack what later commands tell.
inline constexpr int layout_version = 2;

// The line every report ends with.
inline constexpr const char* caution =
    "An engineering estimate for comparison; local standards and licensed engineers decide.";

// Throws InputError when the folder is missing or the name is that of a folder or of another file, ComputeError when
// writing fails.
void write_tree(const std::filesystem::path& file, const quantity::Tree& tree);
// The checks of write_tree alone, to fail before computing rather than after.
void check_target(const std::filesystem::path& file); // throws InputError

// detail: arrays of this detail and what is printed or told; `stored` reads all. Throws InputError: not HDF5, not ours,
// a newer layout, damaged.
[[nodiscard]] quantity::Tree read_tree(const std::filesystem::path& file,
                                       quantity::Detail detail = quantity::Detail::stored);

// One JSON object of what is told, laid out as the file; absent values are null. Groups of lists with texts among them
// become lists of objects.
[[nodiscard]] std::string json(const quantity::Tree& tree);

} // namespace wingnose::io
