// What every file begins with, and what every dataset carries.
#pragma once

#include "wingnose/quantity/tree.hpp"

#include <hdf5.h>

#include <string>

namespace wingnose::io {

// Attributes of the file, groups, arrays. checksum: what stands in its place before.
void write_groups(hid_t file, const quantity::Tree& tree, const std::string& checksum);
void describe(hid_t dataset, const quantity::Array& array);

} // namespace wingnose::io
