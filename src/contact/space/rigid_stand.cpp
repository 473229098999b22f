// A rigid wheelset on two rigid rails.
#include "wingnose/contact/space/conicity.hpp"

#include "wingnose/numeric/roots.hpp"
#include "wingnose/words/constants.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::contact {
namespace {

constexpr double most_roll = 0.05;   // rad, beyond any wheelset on its rails
constexpr double scan = 0.1e-3;      // m, between places looked at first
constexpr double inner_end = -0.055; // m, from the taping line: the flange's tip, no more of its back

struct Nearest {
  double gap, wheel_y; // m: height of the wheel over its rail with the axle at height 0; where
};

// One side, seen outward: the axle's middle is shifted by `axle_shift` towards it, `roll` lifts it.
Nearest nearest(const WheelsetOnTrack& set, std::size_t side, double axle_shift, double roll) {
  const profile::WheelProfile& wheel = set.wheel[side];
  const profile::Curve& rail = set.rail[side].curve;
  const double axis = 0.5 * set.gauge - profile::gauge_point(set.rail[side]); // m, of the rail
  const double c = std::cos(roll), s = std::sin(roll);
  const auto gap = [&](double y) {
    const double across = set.half_spacing + y, down = set.radius[side] + wheel.height(y);
    const double at = across * c + down * s + axle_shift - axis;
    return at < rail.front() || at > rail.back() ? std::numeric_limits<double>::infinity()
                                                 : across * s - down * c - rail.value(at);
  };
  const double from = std::max(wheel.y_min(), inner_end), to = wheel.y_max();
  double best = from, least = gap(from);
  for (double y = from + scan; y < to; y += scan) {
    if (const double here = gap(y); here < least) {
      least = here;
      best = y;
    }
  }
  if (!std::isfinite(least)) {
    throw ComputeError("A wheel does not meet its rail at a shift of " + number(1e3 * axle_shift) +
                       " mm; check gauge, wheel spacing and shift.");
  }
  const auto refined = numeric::minimum_in(gap, std::max(best - scan, from), std::min(best + scan, to));
  return {refined.value, refined.at};
}

} // namespace

WheelsetOnTrack alike(const profile::WheelProfile& wheel, const profile::RailHead& rail, double radius) {
  return {.wheel = {wheel, wheel}, .rail = {rail, rail}, .radius = {radius, radius}};
}

Stand standing(const WheelsetOnTrack& set, double shift) {
  demand_ranges(set, "wheelset");
  demand_within("shift of the wheelset", shift, {-0.1, 0.1}, "m");
  const double mean = 0.5 * (set.radius[0] + set.radius[1]);
  const auto axle = [&](double roll) { return shift - mean * std::sin(roll); };
  const auto left = [&](double roll) { return nearest(set, 0, axle(roll), roll); };
  const auto right = [&](double roll) { return nearest(set, 1, -axle(roll), -roll); };
  const double roll = numeric::root_in([&](double r) { return left(r).gap - right(r).gap; }, -most_roll, most_roll,
                                       1e-13, "the roll at which both wheels touch");
  const Nearest a = left(roll), b = right(roll);
  Stand out;
  out.shift = shift;
  out.axle_shift = axle(roll);
  out.axle_height = -0.5 * (a.gap + b.gap);
  out.roll = roll;
  out.wheel_y = {a.wheel_y, b.wheel_y};
  for (std::size_t side = 0; side < 2; ++side) {
    out.rolling_radius[side] = set.radius[side] + set.wheel[side].height(out.wheel_y[side]);
  }
  return out;
}

} // namespace wingnose::contact
