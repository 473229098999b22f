#include "progress.hpp"

#include "print.hpp"

#include <unistd.h>

#include <iostream>
#include <utility>

namespace wingnose::cli {
namespace {

// A signal handler can reach nothing else.
std::atomic<bool> stop_asked{false};
static_assert(std::atomic<bool>::is_always_lock_free);
extern "C" void wingnose_ask_to_stop(int) { stop_asked = true; }

} // namespace

StopOnSignal::StopOnSignal() {
  stop_asked = false;
  struct sigaction action {};
  action.sa_handler = wingnose_ask_to_stop;
  action.sa_flags = static_cast<int>(SA_RESETHAND);
  sigaction(SIGINT, &action, &before_);
}
StopOnSignal::~StopOnSignal() { sigaction(SIGINT, &before_, nullptr); }
const std::atomic<bool>& StopOnSignal::asked() { return stop_asked; }

Progress::Progress(std::size_t before, std::size_t total, std::string what)
    : before_(before), total_(total), what_(std::move(what)), terminal_(::isatty(STDERR_FILENO) == 1) {}

double Progress::seconds() const {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
}

void Progress::show(std::size_t done, std::size_t total) {
  total_ = total;
  show(done);
}

void Progress::show(std::size_t done) {
  const double time = seconds();
  if (!terminal_ || time - shown_ < 0.2) {
    return;
  }
  shown_ = time;
  const double rate = static_cast<double>(done - before_) / time;
  std::cerr << "\r\033[K" << done << " of " << total_ << ' ' << what_ << ", " << fixed(rate, 1) << ' ' << what_ << "/s";
  if (rate > 0.0) {
    std::cerr << ", " << fixed(static_cast<double>(total_ - done) / rate, 0) << " s left";
  }
  if (!remark_.empty()) {
    std::cerr << ", " << remark_;
  }
  std::cerr << std::flush;
}

void Progress::clear() const {
  if (terminal_) {
    std::cerr << "\r\033[K" << std::flush;
  }
}

} // namespace wingnose::cli
