// Files the HDF5 library makes through a driver of ours that never tells it of a full disk. The library cannot close a
// file it could not write: it keeps the file open, tries again when the program ends, and falls over. So the driver
// keeps the first failure for us, drops what comes after and lets the library finish; whoever makes a file asks
// for the failure once it is closed.
#pragma once

#include "hdf5_handle.hpp"

#include <string>

namespace wingnose::io::h5 {

struct DiskFault {
  int error = 0; // errno of the first failure
  // Throws ComputeError that says what failed.
  void check() const;
};

// A new file, which must not be there yet. fault: outlives the handle. Throws ComputeError.
[[nodiscard]] Handle create(const std::string& file, DiskFault& fault);

// "No space left on device; free some space or choose another disk". error: errno.
[[nodiscard]] std::string disk_words(int error);

} // namespace wingnose::io::h5
