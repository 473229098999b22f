// What a chain costs before its first step. Limits are many times what was measured, for busy machines.
#include "catch.hpp"
#include "chain_samples.hpp"

#include "wingnose/track/chain/stepper.hpp"

#include <algorithm>
#include <ctime>
#include <limits>

using namespace chain_samples;

namespace {

// Seconds of processor time to make a chain whose every bearer is of another length, and the factor of its step; the
// least of several.
double set_up(int bearers) {
  const Model m = turnout(bearers);
  double least = std::numeric_limits<double>::infinity();
  for (int i = 0; i < 7; ++i) {
    const std::clock_t start = std::clock(); // what else runs beside it does not count
    const auto c = make_chain(m);
    const StepFactor f = step_factor(*c, 4e-5);
    least = std::min(least, static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    CHECK(f.factor.own.size() == static_cast<std::size_t>(16 * bearers));
    CHECK(c->bearer_kind.size() == static_cast<std::size_t>(bearers));
  }
  return least;
}

} // namespace

TEST_CASE("Set-up grows with the length of a track, not with a power of it; 100 m take milliseconds") {
  const double short_one = set_up(42), long_one = set_up(168);
  INFO("25 m: " << 1e3 * short_one << " ms, 100 m: " << 1e3 * long_one << " ms");
#if defined(NDEBUG) && !defined(WINGNOSE_SANITIZED)
  CHECK(long_one < 50e-3); // measured 6 to 8 ms
#endif
  CHECK(long_one < 4 * short_one * 2);
}
