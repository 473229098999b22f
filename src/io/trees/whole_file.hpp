// Files that appear whole or not at all: made under another name beside their place and then renamed, so that a reader
// never sees half a file and a failure never costs the file that was there before.
#pragma once

#include "hdf5_disk.hpp"

#include <filesystem>
#include <functional>
#include <string>

namespace wingnose::io {

// make(name) writes and closes the file `name`. What it throws is passed on, a ComputeError with `what` and the name of
// `file` put before. Nothing is left behind then.
void put_in_place(const std::filesystem::path& file, const std::string& what,
                  const std::function<void(const std::string& name)>& make);

// An HDF5 file with what content(file) writes; "result file" in errors. Checks the target as check_target does.
void write_whole(const std::filesystem::path& file, const std::function<void(hid_t file)>& content);

// Closes a file that was made. Throws ComputeError when not all of it has reached the disk.
void close_written(h5::Handle file, const h5::DiskFault& fault);

} // namespace wingnose::io
