// The S1002 wheel against its published zones and the values derived from them.
#include "scoreboard.hpp"

#include "wingnose/numeric/roots.hpp"
#include "wingnose/profile/wheel.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace wingnose;
using profile::CurvePoint;

namespace {

constexpr double mm = 1e-3;

double second_derivative_per_mm(const CurvePoint& p) {
  return p.curvature * std::pow(1.0 + p.slope * p.slope, 1.5) / 1000.0;
}

// The published zone formulas (quoted from memory) in millimetres, in extended precision: what the curve in metres must
// reproduce.
long double published_height_mm(long double y) {
  const auto horner = [y](const std::vector<long double>& c) {
    long double z = 0.0L;
    for (std::size_t k = c.size(); k-- > 0;) {
      z = z * y + c[k];
    }
    return z;
  };
  const auto arc = [y](long double sign, long double yc, long double zc, long double r) {
    return zc + sign * std::sqrt(r * r - (y - yc) * (y - yc));
  };
  if (y >= 32.15796L) {
    return horner({1.364323640L, -0.06666666667L});
  }
  if (y >= -26.0L) {
    return horner({0.0L, -3.358537058e-2L, 1.565681624e-3L, -2.810427944e-5L, 5.844240864e-8L, -1.562379023e-8L,
                   5.309217349e-15L, -5.957839843e-12L, 2.646656573e-13L});
  }
  if (y >= -35.0L) {
    return horner({-4.320221063e3L, -1.038384026e3L, -1.065501873e2L, -6.051367875L, -2.054332446e-1L, -4.169739389e-3L,
                   -4.687195829e-5L, -2.252755540e-7L});
  }
  if (y >= -38.426669071L) {
    return arc(-1.0L, -26.210665L, 16.446L, 13.0L);
  }
  if (y >= -39.764473993L) {
    return horner({-93.576667419L, -2.747477419L});
  }
  if (y >= -49.662510381L) {
    return arc(1.0L, -58.558326413L, 8.834924130L, 20.0L);
  }
  if (y >= -62.764705882L) {
    return arc(1.0L, -55.0L, 16.0L, 12.0L);
  }
  return arc(1.0L, -49.5L, 9.519259302L, 20.5L);
}

} // namespace

TEST_CASE("S1002 has the heights, slopes and second derivatives tabulated from its published zones") {
  const auto wheel = profile::s1002();
  struct Row {
    double y, height, slope, second; // mm, mm, -, 1/mm
    const char* zone;
  };
  const std::vector<Row> rows = {
      {-69.5, 14.019259, 4.444444, -4.6118, "H"},   {-66, 21.684784, 1.356292, -0.233408, "H"},
      {-62, 25.746794, 0.718185, -0.155517, "G"},   {-52, 27.618950, -0.258199, -0.091804, "G"},
      {-48, 25.820852, -0.621593, -0.0816192, "F"}, {-40, 16.290695, -2.489122, -0.965122, "F"},
      {-38, 10.967717, -2.152013, 1.02791, "D"},    {-36, 7.892117, -1.144432, 0.27002, "D"},
      {-34, 6.037663, -0.749281, 0.147477, "C"},    {-28, 3.270086, -0.289937, 0.0290905, "C"},
      {-26, 2.741043, -0.241693, 0.0210335, "B"},   {-10, 0.522759, -0.074408, 0.00524007, "B"},
      {10, -0.208401, -0.011271, 0.00119256, "B"},  {20, -0.311765, -0.015271, -0.00231258, "B"},
      {32, -0.769062, -0.066000, -0.00426763, "B"}, {34, -0.902343, -0.066667, 0.0, "A"},
      {60, -2.635676, -0.066667, 0.0, "A"},
  };
  const Source source{Trust::worked,
                      "zones of UIC 510-2 / EN 13715, recalled, verified by continuity, evaluated apart"};
  double slopes = 0.0, seconds = 0.0; // largest differences
  for (const Row& row : rows) {
    const CurvePoint p = wheel.at(row.y / 1000.0); // divided, not multiplied: -26 mm must fall on the joint exactly
    score_abs(std::string("height of S1002 zone ") + row.zone + " at y = " + scoreboard::number(row.y) + " mm, mm",
              p.value / mm, row.height, 6e-7, source);
    slopes = std::max(slopes, std::abs(p.slope - row.slope));
    seconds =
        std::max(seconds, std::abs(second_derivative_per_mm(p) - row.second) / std::max(1e-6, std::abs(row.second)));
  }
  score_abs("largest difference in slope of S1002 at these points", slopes, 0.0, 6e-7, source);
  score_abs("largest relative difference in second derivative", seconds, 0.0, 1e-5, source);
}

TEST_CASE("S1002 in metres follows its published formulas in millimetres within one millionth of a millimetre") {
  const auto wheel = profile::s1002();
  double worst = 0.0, at = 0.0;
  for (int i = 1; i < 130000; ++i) {
    const double y = -70.0 + 0.001 * i + 0.0003; // off the joints, where either zone may count
    const double error = std::abs(wheel.height(y * mm) / mm - static_cast<double>(published_height_mm(y)));
    if (!(error <= worst)) {
      worst = error;
      at = y;
    }
  }
  INFO("largest difference at y = " << at << " mm");
  score_abs("largest difference of S1002 to its zone formulas, mm", worst, 0.0, 1e-6,
            {Trust::worked, "zones of UIC 510-2 / EN 13715, recalled, verified by continuity, evaluated apart"});
}

TEST_CASE("The zones of S1002 join with the jumps their published digits imply") {
  const auto wheel = profile::s1002();
  const auto jump = [&](double joint_mm) { // value and slope on both sides, an unmeasurable distance apart
    const CurvePoint left = wheel.at(joint_mm * mm - 1e-14), right = wheel.at(joint_mm * mm + 1e-14);
    return std::pair(std::abs(right.value - left.value) / mm, std::abs(right.slope - left.slope));
  };
  const Source source{Trust::worked, "worked from the digits of the zones of UIC 510-2 / EN 13715, recalled"};
  score_abs("jump in height of S1002 at B-C, mm", jump(-26.0).first, 3.7e-5, 0.05e-5, source);
  score_abs("jump in height of S1002 at C-D, mm", jump(-35.0).first, 1.2e-4, 0.05e-4, source);
  score_abs("jump in slope of S1002 at B-C", jump(-26.0).second, 3e-6, 0.5e-6, source);
  score_abs("jump in slope of S1002 at C-D", jump(-35.0).second, 8e-6, 0.5e-6, source);
  for (const double joint : {32.15796, -38.426669071, -39.764473993, -49.662510381, -62.764705882}) {
    const auto [height, slope] = jump(joint);
    score_abs("jump in height of S1002 at y = " + scoreboard::number(joint) + " mm, mm", height, 0.0, 1e-7, source);
    score_abs("jump in slope of S1002 at y = " + scoreboard::number(joint) + " mm", slope, 0.0, 1e-8, source);
  }
}

TEST_CASE("S1002 has the flange and the tread its drawing states") {
  const Source drawing{Trust::from_memory, "drawing of UIC 510-2 / EN 13715, to 0.5 mm"};
  const Source zone{Trust::worked, "zone B of UIC 510-2 / EN 13715, recalled: slope and 1 / second derivative"};
  const auto wheel = profile::s1002();
  const auto negative_height = [&](double y) { return -wheel.height(y); };
  const auto tip = numeric::minimum_in(negative_height, -0.065, -0.045);
  score_abs("flange height of S1002, mm", -tip.value / mm, 28.0, 1e-6, drawing);
  const double face = numeric::root_in([&](double y) { return wheel.height(y) - 0.010; }, -0.045, -0.025, 1e-12,
                                       "the flange face 10 mm above the tread");
  score_abs("flange thickness of S1002 10 mm above the tread, mm", (face + 0.070) / mm, 32.5, 0.05, drawing);
  score_abs("flange angle of S1002, degrees", std::atan(-wheel.at(-0.039).slope) * 180.0 / std::acos(-1.0), 70.0, 0.01,
            drawing);
  const CurvePoint taping = wheel.at(0.0);
  score_abs("slope of S1002 at the taping line", taping.slope, -0.0335854, 5e-8, zone);
  score_abs("radius of curvature of S1002 at the taping line, mm", 1.0 / second_derivative_per_mm(taping), 319.35,
            0.005, zone);
}

TEST_CASE("Conical wheels are straight at their stated conicity") {
  for (const double n : {20.0, 40.0}) {
    const auto wheel = profile::cone(1.0 / n);
    score("rise of a 1:" + scoreboard::number(n) + " cone over 60 mm, mm", wheel.height(0.060) / mm, -60.0 / n, 1e-12,
          {Trust::worked, "definition z = -y/N"});
    CHECK(wheel.at(0.01).curvature == 0.0);
  }
}
