// A folder of a test's own that goes away with it.
#pragma once

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

namespace fs = std::filesystem;

struct Folder {
  fs::path path = fs::temp_directory_path() / ("wingnose_test_" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path / "sub"); }
  Folder(const Folder&) = delete;
  Folder(Folder&&) = delete;
  Folder& operator=(const Folder&) = delete;
  Folder& operator=(Folder&&) = delete;
  ~Folder() { fs::remove_all(path); }
  void write(const std::string& name, const std::string& text) const { std::ofstream(path / name) << text; }
  [[nodiscard]] std::size_t files() const {
    std::size_t count = 0;
    for (const auto& entry : fs::recursive_directory_iterator(path)) {
      count += entry.is_regular_file() ? 1 : 0;
    }
    return count;
  }
};

inline const fs::path source_folder = WINGNOSE_SOURCE_DIR;
inline const fs::path profiles = source_folder / "profiles";
