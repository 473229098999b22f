#include "stopwatch.hpp"

#include <algorithm>

namespace benchmark {
namespace {

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
}

} // namespace

double processor_seconds(Clock clock) {
  timespec now{};
  clock_gettime(clock == Clock::thread ? CLOCK_THREAD_CPUTIME_ID : CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

Timing summarise(const std::vector<Sample>& samples, double per) {
  std::vector<double> wall, processor;
  for (const Sample& s : samples) {
    wall.push_back(s.wall / per);
    processor.push_back(s.processor / per);
  }
  return {median(wall), *std::min_element(wall.begin(), wall.end()), median(processor),
          *std::min_element(processor.begin(), processor.end()), static_cast<int>(samples.size())};
}

} // namespace benchmark
