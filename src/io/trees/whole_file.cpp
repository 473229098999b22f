#include "whole_file.hpp"

#include "sealed.hpp"

#include "wingnose/io/tree_file.hpp"
#include "wingnose/words/error.hpp"

#include <unistd.h>

namespace wingnose::io {

namespace {

namespace fs = std::filesystem;

// Removes the unfinished file unless it was handed over.
class Unfinished {
public:
  explicit Unfinished(const fs::path& target)
      : name_(target.parent_path() /
              ("." + target.filename().string() + "." + std::to_string(::getpid()) + ".unfinished")) {
    remove();
  }
  Unfinished(const Unfinished&) = delete;
  Unfinished(Unfinished&&) = delete;
  Unfinished& operator=(const Unfinished&) = delete;
  Unfinished& operator=(Unfinished&&) = delete;
  ~Unfinished() { remove(); }
  [[nodiscard]] const fs::path& name() const { return name_; }

private:
  void remove() const {
    std::error_code ignored;
    fs::remove(name_, ignored);
  }
  fs::path name_;
};

} // namespace

void put_in_place(const fs::path& file, const std::string& what, const std::function<void(const std::string&)>& make) {
  const Unfinished unfinished(file);
  try {
    make(unfinished.name().string());
  } catch (const ComputeError& error) {
    throw ComputeError(what + " \"" + file.string() + "\" could not be written: " + error.what());
  }
  std::error_code error;
  fs::rename(unfinished.name(), file, error);
  if (error) {
    throw ComputeError(what + " \"" + file.string() + "\" could not be put in place: " + error.message());
  }
}

void close_written(h5::Handle file, const h5::DiskFault& fault) {
  const bool closed = file.release();
  fault.check();
  if (!closed) {
    throw ComputeError("closing the file failed");
  }
}

void write_whole(const fs::path& file, const std::function<void(hid_t)>& content) {
  check_target(file);
  const h5::QuietErrors quiet;
  put_in_place(file, "result file", [&content](const std::string& name) {
    h5::DiskFault fault;
    h5::Handle target = h5::create(name, fault);
    content(target.id());
    close_written(std::move(target), fault);
    seal(name);
  });
}

} // namespace wingnose::io
