// Bytes of a file on the disk, without the HDF5 library.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

namespace wingnose::io {

// Closes itself. What fails is a ComputeError that says why.
class Descriptor {
public:
  enum class For { reading, writing };
  Descriptor(const std::filesystem::path& file, For what);
  Descriptor(const Descriptor&) = delete;
  Descriptor(Descriptor&& other) noexcept;
  Descriptor& operator=(const Descriptor&) = delete;
  Descriptor& operator=(Descriptor&&) = delete;
  ~Descriptor();

  [[nodiscard]] std::size_t size() const;
  [[nodiscard]] std::string read(std::size_t at, std::size_t count) const; // shorter behind the end
  void write(std::size_t at, std::string_view bytes) const;
  void sync() const; // what was written has reached the disk

  // False while another program has the file open to write.
  [[nodiscard]] bool lock();

private:
  int id_ = -1;
  bool locked_ = false;
  int owner_ = 0; // the process that locked it: a fork of it must not unlock
};

} // namespace wingnose::io
