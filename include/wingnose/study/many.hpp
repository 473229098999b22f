// Many cases at once, on all cores: each answered as `run` answers one, with the expensive parts made once and shared.
//
// Cases with equal tracks share one modal track and step table; cases whose wheel takes the same path share the
// rolling; one-wheel cases that also agree in speed, direction and window advance eight at a time. A case gives the
// same bits whatever the number of threads and whatever runs beside it. A case that fails says why and does not stop
// the others.
#pragma once

#include "wingnose/study/run.hpp"

#include <atomic>
#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace wingnose::study {

struct ManyOptions {
  int threads = 0; // the caller's thread is one of them; 0: one per core of the machine
  // true: each case records rail and bearer motion as it says. false: none does; one-wheel cases then advance eight at
  // a time, and measures that need the probes are missing.
  bool probes = false;
  bool steel = false;        // also what the landing does to the steel (study/steel.hpp); half as much work again
  bool keep_history = false; // also the wheel path and the crossing; about 1 MB per case
  // Sees each result with history, path and crossing, whether they are kept or not: for what is to be taken from a
  // history that is then let go. Called by the thread that answered the case, beside other threads that call it for
  // other cases. An InputError or ComputeError it throws becomes the outcome of the case; anything else ends run_many.
  std::function<void(std::size_t index, const Case& c, const Result& result)> look = {};
  // Called from one thread at a time, not always the same; what it throws ends run_many and is passed on.
  std::function<void(std::size_t done, std::size_t total)> progress = {};
  const std::atomic<bool>* cancel = nullptr; // set it to end soon; cases not begun keep State::not_run
};

struct Outcome {
  enum class State { not_run, done, bad_input, could_not_compute };
  friend constexpr auto names(State) {
    return std::array{Name{State::not_run, "not_run"}, Name{State::done, "done"}, Name{State::bad_input, "bad_input"},
                      Name{State::could_not_compute, "could_not_compute"}};
  }
  State state = State::not_run;
  std::optional<assess::Assessment> assessment;
  struct Kept {
    Geometry geometry;
    passage::History history;
  };
  std::optional<Kept> kept = std::nullopt; // only when asked for
  std::string failure;                     // one sentence: why there is no assessment
};

// Tracks and wheel paths that outlive one call, for a caller that works through many cases piece by piece. Holds a few
// tracks (some 20 MB each) and paths (some 1 MB each). Used by one run_many at a time.
class SharedParts {
public:
  SharedParts();
  SharedParts(const SharedParts&) = delete;
  SharedParts(SharedParts&&) noexcept;
  SharedParts& operator=(const SharedParts&) = delete;
  SharedParts& operator=(SharedParts&&) noexcept;
  ~SharedParts();
  struct Pools;
  [[nodiscard]] Pools& pools() { return *pools_; }

private:
  std::unique_ptr<Pools> pools_;
};

// One outcome per case, in order. Throws InputError for a negative number of threads; errors of a case stand in its
// outcome.
[[nodiscard]] std::vector<Outcome> run_many(std::span<const Case> cases, const ManyOptions& options = {},
                                            SharedParts* parts = nullptr);
// The same of cases that are made one by one before the work begins; an InputError of `make` is the outcome of its
// case.
[[nodiscard]] std::vector<Outcome> run_many(std::size_t count, const std::function<Case(std::size_t)>& make,
                                            const ManyOptions& options = {}, SharedParts* parts = nullptr);

} // namespace wingnose::study
