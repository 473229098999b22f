#include "measured_points.hpp"

#include "wingnose/profile/wheel.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <utility>

namespace wingnose::profile {
namespace {

constexpr std::size_t fewest_points = 20;
constexpr double largest_noise = 0.5e-3;                // m
constexpr double widest_gap = 5e-3;                     // m, between neighbours
constexpr double same_place = 1e-7;                     // m, points nearer in y than this are one point measured twice
constexpr double tread_from = -0.010, tread_to = 0.020; // m, the least part of the tread that must be there
constexpr double least_flange = 0.010;                  // m, rise of the flange over the tread
constexpr double flange_side = -0.025;                  // m, the flange lies on this side of the taping line

std::string mm(double metres) {
  char text[32];
  std::snprintf(text, sizeof text, "%.6g mm", metres * 1000.0);
  return text;
}

std::string subject(const std::string& name) { return "measured wheel profile \"" + name + "\""; }

void check_numbers(std::span<const double> y, std::span<const double> height, double noise, const std::string& name) {
  if (y.size() != height.size()) {
    throw InputError(subject(name),
                     std::to_string(y.size()) + " lateral positions and " + std::to_string(height.size()) + " heights",
                     "equal numbers", "Give one height for every lateral position.");
  }
  for (std::size_t i = 0; i < y.size(); ++i) {
    if (!std::isfinite(y[i]) || !std::isfinite(height[i])) {
      throw InputError(subject(name) + ", point " + std::to_string(i + 1), "a value that is not a number",
                       "finite numbers", "Correct or remove the point.");
    }
  }
  if (!std::isfinite(noise) || !(noise > 0.0) || noise > largest_noise) {
    throw InputError("noise of " + subject(name), mm(noise), "above 0, up to " + mm(largest_noise),
                     "Give the standard deviation of the measuring device, usually 0.002 to 0.05 mm.");
  }
  if (y.size() < fewest_points) {
    throw InputError(subject(name), std::to_string(y.size()) + " points", "at least " + std::to_string(fewest_points),
                     "Measure more points between flange and field face.");
  }
}

void check_scale(std::span<const double> y, std::span<const double> height, const std::string& name) {
  const auto [left, right] = std::minmax_element(y.begin(), y.end());
  const auto [low, high] = std::minmax_element(height.begin(), height.end());
  const double width = *right - *left, rise = *high - *low;
  if (width < 0.020 || width > 0.200) {
    throw InputError(subject(name), "a width of " + mm(width), "20 mm to 200 mm",
                     "Check the unit of the lateral positions: profile files are in millimetres.");
  }
  if (rise > 0.060) {
    throw InputError(subject(name), "a range of heights of " + mm(rise), "up to 60 mm",
                     "Check the unit of the heights: profile files are in millimetres.");
  }
}

// In the order of increasing y, points measured twice merged into their mean.
MeasuredPoints ordered(std::span<const double> y, std::span<const double> height, double noise,
                       const std::string& name) {
  const bool reversed = y.back() < y.front();
  MeasuredPoints out;
  double first = 0.0; // y of the group being merged
  std::size_t merged = 0;
  for (std::size_t i = 0; i < y.size(); ++i) {
    const std::size_t from = reversed ? y.size() - 1 - i : i;
    const double step = out.y.empty() ? same_place * 2.0 : y[from] - first;
    if (step < -same_place) {
      throw InputError(subject(name) + ", point " + std::to_string(from + 1),
                       "y = " + mm(y[from]) + " behind its neighbour at y = " + mm(first),
                       "one direction along y throughout",
                       "Order the points from flange to field face and cut off a flange back that overhangs.");
    }
    if (step > same_place) {
      out.y.push_back(y[from]);
      out.height.push_back(height[from]);
      first = y[from];
      merged = 1;
      continue;
    }
    if (std::abs(height[from] - out.height.back()) > 20.0 * noise) {
      throw InputError(subject(name) + ", point " + std::to_string(from + 1),
                       "a second height, " + mm(height[from]) + " beside " + mm(out.height.back()) +
                           ", at y = " + mm(y[from]),
                       "heights at one y that differ by no more than twenty times the noise",
                       "Remove the outlier or a vertical flange back, or state the true noise.");
    }
    ++merged;
    out.height.back() += (height[from] - out.height.back()) / static_cast<double>(merged);
  }
  return out;
}

void check_shape(const MeasuredPoints& p, const std::string& name) {
  if (p.y.size() < fewest_points) {
    throw InputError(subject(name), std::to_string(p.y.size()) + " different points",
                     "at least " + std::to_string(fewest_points), "Measure more points between flange and field face.");
  }
  if (p.y.front() > tread_from || p.y.back() < tread_to) {
    throw InputError(subject(name), "points from y = " + mm(p.y.front()) + " to " + mm(p.y.back()),
                     "points that cover the tread, y = " + mm(tread_from) + " to " + mm(tread_to),
                     "Measure y from the taping line, positive to the field side.");
  }
  for (std::size_t i = 1; i < p.y.size(); ++i) {
    if (p.y[i] - p.y[i - 1] > widest_gap) {
      throw InputError(subject(name), "a gap from y = " + mm(p.y[i - 1]) + " to " + mm(p.y[i]),
                       "neighbours no more than " + mm(widest_gap) + " apart",
                       "Fill the gap, or cut the profile there.");
    }
  }
  double flange = 0.0, field = 0.0, tread = p.height.back(), nearest = widest_gap + 1.0;
  for (std::size_t i = 0; i < p.y.size(); ++i) {
    if (std::abs(p.y[i]) < nearest) {
      nearest = std::abs(p.y[i]);
      tread = p.height[i];
    }
  }
  for (std::size_t i = 0; i < p.y.size(); ++i) {
    if (p.y[i] < flange_side) {
      flange = std::max(flange, p.height[i] - tread);
    } else if (p.y[i] > -flange_side) {
      field = std::max(field, p.height[i] - tread);
    }
  }
  if (flange >= least_flange) {
    return;
  }
  if (field >= least_flange) {
    throw InputError(subject(name), "a flange on the field side", "the flange at negative y",
                     "The profile is mirrored: change the sign of y.");
  }
  throw InputError(subject(name), "a rise of " + mm(flange) + " towards the flange",
                   "at least " + mm(least_flange) + " at y below " + mm(flange_side),
                   "Measure up the inner side of the flange, heights positive towards its tip.");
}

// Each point at least the spacing of `most_points` from the one kept before; the ends stay.
MeasuredPoints thinned(MeasuredPoints p) {
  if (p.y.size() <= most_points) {
    return p;
  }
  const double least = (p.y.back() - p.y.front()) / static_cast<double>(most_points - 1);
  MeasuredPoints out{{p.y.front()}, {p.height.front()}};
  for (std::size_t i = 1; i + 1 < p.y.size(); ++i) {
    if (p.y[i] - out.y.back() >= least && p.y.back() - p.y[i] >= least) {
      out.y.push_back(p.y[i]);
      out.height.push_back(p.height[i]);
    }
  }
  out.y.push_back(p.y.back());
  out.height.push_back(p.height.back());
  return out;
}

} // namespace

MeasuredPoints checked_points(std::span<const double> y, std::span<const double> height, double noise,
                              const std::string& name) {
  check_numbers(y, height, noise, name);
  check_scale(y, height, name);
  MeasuredPoints points = ordered(y, height, noise, name);
  check_shape(points, name);
  return thinned(std::move(points));
}

} // namespace wingnose::profile
