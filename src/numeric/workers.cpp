#include "wingnose/numeric/workers.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <exception>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

namespace wingnose {

std::size_t threads_of(int threads) {
  if (threads < 0 || threads > 4096) {
    throw InputError("number of threads", std::to_string(threads), "0 (one per core) to 4096",
                     "More threads than cores gain nothing.");
  }
  return threads > 0 ? static_cast<std::size_t>(threads) : std::max(1U, std::thread::hardware_concurrency());
}

void work_off(std::size_t items, const WorkOptions& options, const std::function<std::size_t(std::size_t)>& work) {
  std::atomic<std::size_t> next{0};
  std::atomic<bool> failed{false};
  std::mutex report; // guards done, failure and the calls of progress
  std::size_t done = options.done;
  std::exception_ptr failure;
  const auto ended = [&] {
    return failed || (options.cancel != nullptr && options.cancel->load(std::memory_order_relaxed));
  };
  const auto one_thread = [&] {
    try {
      for (std::size_t i = next++; i < items && !ended(); i = next++) {
        const std::size_t more = work(i);
        const std::scoped_lock lock(report);
        done += more;
        if (more > 0 && options.progress && !ended()) {
          options.progress(done, options.total);
        }
      }
    } catch (...) {
      const std::scoped_lock lock(report);
      failed = true;
      if (!failure) {
        failure = std::current_exception();
      }
    }
  };
  {
    std::vector<std::jthread> others;
    for (std::size_t i = 1; i < std::min(threads_of(options.threads), items); ++i) {
      others.emplace_back(one_thread);
    }
    one_thread();
  }
  if (failure) {
    std::rethrow_exception(failure);
  }
}

} // namespace wingnose
