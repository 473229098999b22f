// Long work on a terminal: a line that says how far it is, and Ctrl-C that ends it in order.
#pragma once

#include <atomic>
#include <chrono>
#include <csignal>
#include <cstddef>
#include <string>
#include <utility>

namespace wingnose::cli {

// While it lives the first Ctrl-C only sets asked(), for the work to end in order; the second ends the program at once.
class StopOnSignal {
public:
  StopOnSignal();
  StopOnSignal(const StopOnSignal&) = delete;
  StopOnSignal(StopOnSignal&&) = delete;
  StopOnSignal& operator=(const StopOnSignal&) = delete;
  StopOnSignal& operator=(StopOnSignal&&) = delete;
  ~StopOnSignal();
  [[nodiscard]] static const std::atomic<bool>& asked();

private:
  struct sigaction before_ {};
};

// One line on the terminal, written over: done, rate, time left, a remark. Silent when standard error is no terminal.
class Progress {
public:
  // before: done already when the work began. what: "cases".
  Progress(std::size_t before, std::size_t total, std::string what = "cases");
  void show(std::size_t done);
  void show(std::size_t done, std::size_t total);              // where the total is known only by then
  void remark(std::string said) { remark_ = std::move(said); } // told behind it from now on
  void clear() const;
  [[nodiscard]] double seconds() const; // since it was made

private:
  std::size_t before_, total_;
  std::string what_, remark_;
  bool terminal_;
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
  double shown_ = 0.0;
};

} // namespace wingnose::cli
