// What every file begins with, and what every dataset carries.
#pragma once

#include "wingnose/quantity/tree.hpp"

#include <hdf5.h>

namespace wingnose::io {

// Attributes of the file, groups, arrays.
void write_groups(hid_t file, const quantity::Tree& tree);
void describe(hid_t dataset, const quantity::Array& array);

} // namespace wingnose::io
