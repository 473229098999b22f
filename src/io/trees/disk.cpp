#include "disk.hpp"

#include "hdf5_disk.hpp"

#include "wingnose/words/error.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <utility>

namespace wingnose::io {

Descriptor::Descriptor(const std::filesystem::path& file, For what)
    : id_(::open(file.c_str(), (what == For::writing ? O_RDWR : O_RDONLY) | O_CLOEXEC)) {
  if (id_ < 0) {
    throw ComputeError(h5::disk_words(errno));
  }
}

Descriptor::Descriptor(Descriptor&& other) noexcept
    : id_(std::exchange(other.id_, -1)), locked_(std::exchange(other.locked_, false)), owner_(other.owner_) {}

Descriptor::~Descriptor() {
  // A fork shares the lock: it would hold the file as long as it lives, were the lock not given back here.
  if (locked_ && owner_ == ::getpid()) {
    (void)::flock(id_, LOCK_UN);
  }
  if (id_ >= 0) {
    (void)::close(id_);
  }
}

std::size_t Descriptor::size() const {
  struct stat status {};
  if (::fstat(id_, &status) != 0) {
    throw ComputeError(h5::disk_words(errno));
  }
  return static_cast<std::size_t>(status.st_size);
}

std::string Descriptor::read(std::size_t at, std::size_t count) const {
  std::string bytes(count, '\0');
  std::size_t done = 0;
  while (done < count) {
    const ssize_t n = ::pread(id_, bytes.data() + done, count - done, static_cast<off_t>(at + done));
    if (n < 0 && errno == EINTR) {
      continue;
    }
    if (n < 0) {
      throw ComputeError(h5::disk_words(errno));
    }
    if (n == 0) {
      break;
    }
    done += static_cast<std::size_t>(n);
  }
  bytes.resize(done);
  return bytes;
}

void Descriptor::write(std::size_t at, std::string_view bytes) const {
  while (!bytes.empty()) {
    const ssize_t n = ::pwrite(id_, bytes.data(), bytes.size(), static_cast<off_t>(at));
    if (n < 0 && errno == EINTR) {
      continue;
    }
    if (n <= 0) {
      throw ComputeError(h5::disk_words(n < 0 ? errno : ENOSPC));
    }
    at += static_cast<std::size_t>(n);
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
}

void Descriptor::sync() const {
  if (::fsync(id_) != 0 && errno != EINVAL && errno != EROFS) { // a file system without it keeps the order of writes
    throw ComputeError(h5::disk_words(errno));
  }
}

bool Descriptor::lock() {
  owner_ = ::getpid();
  locked_ = ::flock(id_, LOCK_EX | LOCK_NB) == 0;
  return locked_ || errno != EWOULDBLOCK; // a file system without locks
}

} // namespace wingnose::io
