// Long work beside which Python stays alive: it runs on a thread of its own without the interpreter lock, while the
// calling thread looks for Ctrl-C and tells how far it is.
#pragma once

#include "value.hpp"

#include <atomic>
#include <chrono>
#include <cstddef>
#include <exception>
#include <functional>
#include <future>
#include <optional>
#include <thread>

namespace wingnose::python {

using ProgressCall = std::optional<py::typing::Callable<py::object(std::size_t, std::size_t)>>;

struct Watch {
  std::atomic<bool> cancel{false};
  std::atomic<std::size_t> done{0}, total{0};
  [[nodiscard]] std::function<void(std::size_t, std::size_t)> progress() {
    return [this](std::size_t now, std::size_t all) {
      total = all;
      done = now;
    };
  }
  // Options of work on so many threads that is watched.
  template <class Options> [[nodiscard]] Options over(Options options, int threads) {
    options.threads = threads;
    options.progress = progress();
    options.cancel = &cancel;
    return options;
  }
};

// work(watch) -> Result. Raises what work throws, KeyboardInterrupt, or what `progress(done, total)` raises; the latter
// two set watch.cancel first and wait until the work has ended.
template <class Work> auto interruptible(const ProgressCall& progress, Work work) {
  using Result = decltype(work(std::declval<Watch&>()));
  Watch watch;
  std::optional<Result> result;
  std::exception_ptr failure;
  std::optional<py::error_already_set> interrupted;
  {
    std::promise<void> end;
    std::future<void> ended = end.get_future();
    const py::gil_scoped_release release;
    const std::jthread worker([&] {
      try {
        result.emplace(work(watch));
      } catch (...) {
        failure = std::current_exception();
      }
      end.set_value();
    });
    std::size_t told = 0;
    while (ended.wait_for(std::chrono::milliseconds(50)) != std::future_status::ready) {
      if (watch.cancel) {
        continue;
      }
      const py::gil_scoped_acquire acquire;
      try {
        if (PyErr_CheckSignals() != 0) {
          throw py::error_already_set();
        }
        const std::size_t done = watch.done;
        if (progress && done != told) {
          told = done;
          (*progress)(done, watch.total.load());
        }
      } catch (py::error_already_set& error) {
        interrupted.emplace(std::move(error));
        watch.cancel = true;
      }
    }
  }
  if (interrupted) {
    throw std::move(*interrupted);
  }
  if (failure) {
    std::rethrow_exception(failure);
  }
  if (progress) {
    (*progress)(watch.done.load(), watch.total.load());
  }
  return std::move(*result);
}

} // namespace wingnose::python
