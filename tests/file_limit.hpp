// A disk that is full at a given length of a file, without a disk and without being root.
#pragma once

#include <sys/resource.h>

#include <csignal>

struct FileLimit {
  rlimit before{};
  // told: writing beyond fails; otherwise the signal that ends a program comes with it.
  explicit FileLimit(rlim_t bytes, bool told = true) {
    (void)std::signal(SIGXFSZ, told ? SIG_IGN : SIG_DFL);
    ::getrlimit(RLIMIT_FSIZE, &before);
    const rlimit limit{bytes, before.rlim_max};
    ::setrlimit(RLIMIT_FSIZE, &limit);
  }
  FileLimit(const FileLimit&) = delete;
  FileLimit(FileLimit&&) = delete;
  FileLimit& operator=(const FileLimit&) = delete;
  FileLimit& operator=(FileLimit&&) = delete;
  ~FileLimit() { ::setrlimit(RLIMIT_FSIZE, &before); }
};
