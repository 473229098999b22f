#include "path_reading.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::contact {

std::vector<int> carrying_body(const WheelPath& path) {
  std::vector<int> carrying(path.station.size(), -1);
  for (std::size_t i = 0; i < carrying.size(); ++i) {
    double top = -std::numeric_limits<double>::infinity();
    for (std::size_t b = 0; b < path.bodies.size(); ++b) {
      if (path.bodies[b].height[i] > top) {
        top = path.bodies[b].height[i];
        carrying[i] = static_cast<int>(b);
      }
    }
  }
  return carrying;
}

std::vector<double> upper_envelope(const WheelPath& path) {
  std::vector<double> top(path.station.size(), -std::numeric_limits<double>::infinity());
  for (const BodyPath& body : path.bodies) {
    for (std::size_t i = 0; i < top.size(); ++i) {
      top[i] = std::max(top[i], body.height[i]);
    }
  }
  return top;
}

double value_at(const std::vector<double>& x, const std::vector<double>& column, double at) {
  const auto next = std::upper_bound(x.begin() + 1, x.end() - 1, at);
  const auto i = static_cast<std::size_t>(next - x.begin());
  const double a = column[i - 1], b = column[i];
  if (!std::isfinite(a) || !std::isfinite(b)) {
    return std::isfinite(a) ? a : b;
  }
  const double u = std::clamp((at - x[i - 1]) / (x[i] - x[i - 1]), 0.0, 1.0);
  return a + u * (b - a);
}

std::vector<double> landings(const std::vector<double>& x, const BodyPath& left, const BodyPath& landing,
                             Direction direction) {
  std::vector<double> found;
  const bool facing = direction == Direction::facing;
  for (std::size_t i = 0; i + 1 < x.size(); ++i) {
    const std::size_t before = facing ? i : i + 1, after = facing ? i + 1 : i;
    const double d0 = landing.height[before] - left.height[before];
    const double d1 = landing.height[after] - left.height[after];
    if (!(d0 <= 0.0 && d1 > 0.0)) { // NaN (no body at all) compares false
      continue;
    }
    if (std::isfinite(d0) && std::isfinite(d1)) {
      found.push_back(x[before] + d0 / (d0 - d1) * (x[after] - x[before]));
    } else {
      found.push_back(x[after]); // one body ends here
    }
  }
  if (!facing) {
    std::reverse(found.begin(), found.end());
  }
  return found;
}

std::pair<double, double> zone_around(const std::vector<double>& x, const BodyPath& a, const BodyPath& b, double at,
                                      double tolerance) {
  const auto gap = [&](std::size_t i) {
    const double d = std::abs(a.height[i] - b.height[i]);
    return std::isfinite(d) ? d : std::numeric_limits<double>::max();
  };
  // Where the gap passes the tolerance between an inner and an outer station.
  const auto passes = [&](std::size_t inner, std::size_t outer) {
    const double g0 = gap(inner), g1 = gap(outer);
    return g1 < 1.0 ? x[inner] + (tolerance - g0) / (g1 - g0) * (x[outer] - x[inner]) : x[inner];
  };
  const auto next = std::upper_bound(x.begin() + 1, x.end() - 1, at);
  std::size_t high = static_cast<std::size_t>(next - x.begin()), low = high - 1;
  std::pair<double, double> zone{at, at};
  if (gap(low) <= tolerance) {
    while (low > 0 && gap(low - 1) <= tolerance) {
      --low;
    }
    zone.first = low > 0 ? passes(low, low - 1) : x.front();
  }
  if (gap(high) <= tolerance) {
    while (high + 1 < x.size() && gap(high + 1) <= tolerance) {
      ++high;
    }
    zone.second = high + 1 < x.size() ? passes(high, high + 1) : x.back();
  }
  return zone;
}

double straight_fit(const std::vector<double>& x, const std::vector<double>& column, double from, double to) {
  const double low = std::max(std::min(from, to), x.front()), high = std::min(std::max(from, to), x.back());
  // Evenly spread readings of the table: uneven station spacing must not weigh one end more.
  constexpr int samples = 41;
  double n = 0.0, sx = 0.0, sz = 0.0, sxx = 0.0, sxz = 0.0;
  for (int i = 0; i < samples; ++i) {
    const double u = (i - 0.5 * (samples - 1)) / (samples - 1); // about the middle, for accuracy
    const double z = value_at(x, column, 0.5 * (low + high) + u * (high - low));
    if (std::isfinite(z)) {
      n += 1.0;
      sx += u;
      sz += z;
      sxx += u * u;
      sxz += u * z;
    }
  }
  const double spread = n * sxx - sx * sx;
  return spread > 1e-12 && high > low ? (n * sxz - sx * sz) / spread / (high - low) : 0.0;
}

} // namespace wingnose::contact
