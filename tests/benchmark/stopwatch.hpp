// Repeats a piece of work and says how long it took: wall time and processor time, median and minimum. Processor time
// is what the work itself needs; wall time also holds what other programs on the machine took away.
#pragma once

#include <chrono>
#include <ctime>
#include <vector>

namespace benchmark {

// Which processor time counts: of the calling thread, or of all threads of the program.
enum class Clock { thread, process };
[[nodiscard]] double processor_seconds(Clock clock);

struct Sample {
  double wall, processor; // s
};
struct Timing {
  double wall_median = 0.0, wall_minimum = 0.0, processor_median = 0.0, processor_minimum = 0.0; // s
  int repeats = 0;
};
// samples: at least one. per: each sample covered this many units of work; the result is for one.
[[nodiscard]] Timing summarise(const std::vector<Sample>& samples, double per = 1.0);

template <class Work> [[nodiscard]] Sample timed(Work&& work, Clock clock = Clock::thread) {
  const double processor = processor_seconds(clock);
  const auto begin = std::chrono::steady_clock::now();
  work();
  const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - begin;
  return {wall.count(), processor_seconds(clock) - processor};
}

// One unmeasured run first, so that memory and caches are as they are in the middle of a study.
template <class Work>
[[nodiscard]] Timing repeated(int repeats, Work&& work, double per = 1.0, Clock clock = Clock::thread) {
  work();
  std::vector<Sample> samples;
  for (int i = 0; i < repeats; ++i) {
    samples.push_back(timed(work, clock));
  }
  return summarise(samples, per);
}

} // namespace benchmark
