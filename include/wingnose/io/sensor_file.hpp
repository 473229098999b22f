// Records of sensors as CSV, one file each: comment lines with the chain, a head with units, a row per sample of the
// logger.
#pragma once

#include "wingnose/quantity/tree.hpp"

#include <filesystem>
#include <span>
#include <string>

namespace wingnose::io {

// To fail before computing rather than after: throws InputError where the folder cannot be written to, or a file that
// is no record of a sensor would be replaced. The folder is made by the writing.
void check_sensor_folder(const std::filesystem::path& folder, std::span<const std::string> names);
// Of an answer of a passage with sensors: NAME.csv of each. Files appear whole or not at all. Throws as above, and
// ComputeError when writing fails.
void write_sensors(const std::filesystem::path& folder, const quantity::Tree& tree);

} // namespace wingnose::io
