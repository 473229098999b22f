// Items worked off by several threads, in the order they are taken.
#pragma once

#include <atomic>
#include <cstddef>
#include <functional>

namespace wingnose {

struct WorkOptions {
  int threads = 0;                 // the caller's thread is one of them; 0: one per core of the machine
  std::size_t done = 0, total = 0; // units of progress before, and of all the work
  // Called from one thread at a time, not always the same.
  std::function<void(std::size_t done, std::size_t total)> progress = {};
  const std::atomic<bool>* cancel = nullptr; // set it to end soon: no further item is begun
};
// Threads such options ask for. Throws InputError for a number that makes no sense.
[[nodiscard]] std::size_t threads_of(int threads);

// work(i) of the items 0 .. items - 1 tells how many units of progress it made. The first exception of it, or of
// progress, ends the work and is thrown.
void work_off(std::size_t items, const WorkOptions& options, const std::function<std::size_t(std::size_t)>& work);

} // namespace wingnose
