// A wheel's contact at one station told to others: JSON, and HDF5 with pressure fields for figures.
#pragma once

#include "wingnose/contact/normal/loaded_wheel.hpp"
#include "wingnose/study/case.hpp"

#include <filesystem>
#include <string>

namespace wingnose::io {

inline constexpr int contact_schema_version = 1;

// One JSON object with unit-bearing keys; patches without their fields.
[[nodiscard]] std::string contact_json(const study::Case& c, const contact::StationContact& contact);

// HDF5: patches/ (arrays over patches), {body}/strips/ and {body}/field/ (pressure [y][x] with x, y and contact angle),
// case/, notes/. Every dataset has `unit` and `description`. Throws as write_result does.
void write_contact(const std::filesystem::path& file, const study::Case& c, const contact::StationContact& contact);

} // namespace wingnose::io
