// Many different cases on all cores, sharing one track: what a study does.
#pragma once

#include "stopwatch.hpp"
#include "workload.hpp"

namespace benchmark {

struct Throughput {
  Timing passages; // of all cases, passages alone: plans made before, histories dropped
  Timing whole;    // of all cases, from the dip angle to P1 and P2
  int cases = 0;
  unsigned threads = 0;
  std::vector<double> p2; // N, one per case, so that the work is used
};
[[nodiscard]] Throughput throughput(const Common& shared, int cases, unsigned threads, int repeats);

} // namespace benchmark
