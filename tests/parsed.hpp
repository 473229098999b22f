// Files that people write, given as text.
#pragma once

#include "wingnose/io/case_file.hpp"

#include <filesystem>
#include <string>

namespace parsed {

// read: of a sheet and files, as study::read_comparison. Relative names are taken from `folder`.
template <class Read>
auto from_text(const std::string& text, const std::string& name, const std::filesystem::path& folder, Read read) {
  const wingnose::io::SheetFile file = wingnose::io::parse_sheet(text, name, folder, "test");
  wingnose::io::DiskFiles files(folder);
  return read(file.sheet, files);
}

} // namespace parsed
