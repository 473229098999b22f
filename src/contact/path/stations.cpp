#include "stations.hpp"

#include "wingnose/words/constants.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace wingnose::contact {
namespace {

constexpr double refinement = 5.0;
constexpr double closest = 1e-6; // m

void require(bool ok, const char* what, double value, const char* allowed, const char* advice) {
  if (!ok) {
    throw InputError(what, number(value), allowed, advice);
  }
}

constexpr double largest_turn = 0.03; // rad

} // namespace

void check(const PathOptions& o) {
  require(std::isfinite(o.from) && std::isfinite(o.to) && o.to > o.from, "last station of the path (m)", o.to,
          "a number above the first station", "Give the stretch from the lower to the higher station.");
  require(o.to - o.from <= 200.0, "length of the path (m)", o.to - o.from, "up to 200 m",
          "Shorten the stretch around the crossing.");
  require(o.pitch >= 1e-5 && o.pitch <= 0.1, "spacing of path stations (m)", o.pitch, "0.00001 to 0.1 m",
          "0.001 m suits most cases.");
  require(within(o.wheel_radius, wheel_radius_range), "wheel radius (m)", o.wheel_radius, "0.15 to 1.0 m",
          "Give the radius at the taping line, not the diameter.");
  require(std::abs(o.lateral_offset) <= 0.03, "lateral offset of the wheelset (m)", o.lateral_offset, "-0.03 to 0.03 m",
          "A wheelset in its track is held by its flanges within some 8 mm.");
  require(std::abs(o.roll) <= largest_turn, "roll of the wheel (rad)", o.roll, "-0.03 to 0.03 rad",
          "5 mm of height between the wheels roll a wheelset by 0.0033 rad.");
  require(std::abs(o.yaw) <= largest_turn, "yaw of the wheel (rad)", o.yaw, "-0.03 to 0.03 rad",
          "A bogie in a curve of 190 m yaws its wheelsets by some 0.007 rad.");
}

std::vector<double> regular_stations(const Stretch& o) {
  const auto n = static_cast<std::size_t>(std::max(1.0, std::ceil((o.to - o.from) / o.pitch - 1e-9)));
  std::vector<double> x(n + 1);
  for (std::size_t i = 0; i <= n; ++i) {
    x[i] = o.from + (o.to - o.from) * static_cast<double>(i) / static_cast<double>(n);
  }
  return x;
}

std::vector<double> finer_stations(std::vector<double> x, std::span<const double> places, double around,
                                   const Stretch& o) {
  const double fine = o.pitch / refinement;
  const auto given = static_cast<std::ptrdiff_t>(x.size());
  const auto steps = static_cast<int>(std::ceil(std::min(around, 400.0 * fine) / fine));
  for (const double place : places) {
    for (int i = -steps; i <= steps; ++i) {
      const double at = place + i * fine;
      if (at > o.from && at < o.to) {
        x.push_back(at);
      }
    }
  }
  std::sort(x.begin() + given, x.end());
  std::inplace_merge(x.begin(), x.begin() + given, x.end());
  // Keep the ends and the places; drop what nearly coincides with its left neighbour.
  std::vector<double> kept;
  kept.reserve(x.size());
  for (const double at : x) {
    if (kept.empty() || at - kept.back() > closest) {
      kept.push_back(at);
    }
  }
  kept.back() = o.to;
  return kept;
}

} // namespace wingnose::contact
