// HDF5 identifiers that close themselves, and silence for its error printing (we tell errors in our own words).
#pragma once

#include "wingnose/words/error.hpp"

#include <hdf5.h>

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace wingnose::io::h5 {

class Handle {
public:
  using Close = herr_t (*)(hid_t);
  // Throws ComputeError naming `what` when the library refused.
  Handle(hid_t id, Close close, std::string_view what) : id_(id), close_(close) {
    if (id < 0) {
      throw ComputeError("HDF5 refused: " + std::string(what));
    }
  }
  Handle(Handle&& other) noexcept : id_(std::exchange(other.id_, -1)), close_(other.close_) {}
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;
  Handle& operator=(Handle&&) = delete;
  ~Handle() { (void)release(); }
  // Closes now; false when closing failed (data may not have reached the disk).
  bool release() { return id_ < 0 || close_(std::exchange(id_, -1)) >= 0; }
  [[nodiscard]] hid_t id() const { return id_; }

private:
  hid_t id_;
  Close close_;
};

class QuietErrors {
public:
  QuietErrors() {
    H5Eget_auto2(H5E_DEFAULT, &function_, &data_);
    H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);
  }
  QuietErrors(const QuietErrors&) = delete;
  QuietErrors(QuietErrors&&) = delete;
  QuietErrors& operator=(const QuietErrors&) = delete;
  QuietErrors& operator=(QuietErrors&&) = delete;
  ~QuietErrors() { H5Eset_auto2(H5E_DEFAULT, function_, data_); }

private:
  H5E_auto2_t function_ = nullptr;
  void* data_ = nullptr;
};

// Writing, into a file made by hdf5_disk.hpp.
// Groups keep the order in which their members were made.
void make_groups(hid_t file, const std::string& path);
void write_attribute(hid_t object, const std::string& name, const std::string& text);
// A text whose place in the file can be written over by one of the same length.
void write_fixed_attribute(hid_t object, const std::string& name, const std::string& text);
void write_attribute(hid_t object, const std::string& name, int value);
void write_attribute(hid_t object, const std::string& name, const std::vector<std::string>& texts);
// shape empty: a single value.
void write_numbers(hid_t file, const std::string& path, const std::vector<double>& values,
                   const std::vector<std::size_t>& shape);
void write_texts(hid_t file, const std::string& path, const std::vector<std::string>& texts,
                 const std::vector<std::size_t>& shape);
void demand(herr_t status, std::string_view what); // throws ComputeError

// Reading.
[[nodiscard]] Handle open(const std::string& file);
[[nodiscard]] bool has_attribute(hid_t object, const std::string& name);
[[nodiscard]] std::string read_text_attribute(hid_t object, const std::string& name);
[[nodiscard]] int read_int_attribute(hid_t object, const std::string& name);
[[nodiscard]] std::vector<std::string> read_texts_attribute(hid_t object, const std::string& name);
[[nodiscard]] std::vector<std::string> attribute_names(hid_t object);
// In the order they were made, where the file kept it; groups before what is in them, with a "/" at their end.
[[nodiscard]] std::vector<std::string> paths(hid_t file);
[[nodiscard]] Handle open_dataset(hid_t file, const std::string& path);
[[nodiscard]] bool is_text(const Handle& dataset);
[[nodiscard]] std::vector<std::size_t> shape(const Handle& dataset);
[[nodiscard]] std::vector<double> read_numbers(const Handle& dataset);
[[nodiscard]] std::vector<std::string> read_texts(const Handle& dataset);

} // namespace wingnose::io::h5
