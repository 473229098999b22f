#include "wingnose/layout/irregularity.hpp"

#include "wingnose/words/error.hpp"

#include <boost/math/interpolators/makima.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace wingnose::layout {
namespace {

using Point = IrregularityPoint;
// Heights and laterals of the left rail, then of the right one.
constexpr std::array<double Point::*, 4> deviations{&Point::left_height, &Point::left_lateral, &Point::right_height,
                                                    &Point::right_lateral};
constexpr std::size_t least_points = 4; // that the curve asks for

std::string in_millimetres(double value) { return number(1e3 * value) + " mm"; }

std::vector<double> column(const std::vector<Point>& points, double Point::*member) {
  std::vector<double> out;
  out.reserve(points.size());
  for (const Point& p : points) {
    out.push_back(p.*member);
  }
  return out;
}

} // namespace

std::optional<IrregularityFault> fault_of(std::span<const Point> points) {
  if (points.size() < least_points) {
    return IrregularityFault{std::nullopt, "points of a track irregularity", std::to_string(points.size()),
                             std::to_string(least_points) + " or more", "Give its course row by row."};
  }
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Point& p = points[i];
    if (!std::isfinite(p.station) || (i > 0 && !(p.station > points[i - 1].station))) {
      return IrregularityFault{i, "station", number(p.station) + " m",
                               i > 0 ? "more than the station before (" + number(points[i - 1].station) + " m)"
                                     : "a number",
                               "Order the rows by station, each station once."};
    }
    const bool end = i == 0 || i + 1 == points.size();
    for (const InRange<Point>& one : ranges(&p)) {
      if (!within(one.of(p), one.range)) {
        return IrregularityFault{i, std::string(one.name), in_millimetres(one.of(p)),
                                 number(1e3 * one.range.least) + " to " + in_millimetres(one.range.most),
                                 "Deviations are those from the rail as it is drawn."};
      }
      if (end && one.of(p) != 0.0) {
        return IrregularityFault{i, std::string(one.name), in_millimetres(one.of(p)),
                                 std::string("0 in the ") + (i == 0 ? "first" : "last") + " row",
                                 "Outside of the rows nothing deviates: let the deviations fade out over some metres."};
      }
    }
  }
  return std::nullopt;
}

Irregularity::Irregularity(std::vector<Point> points) : points_(std::move(points)) {
  if (const auto fault = fault_of(points_)) {
    throw InputError(fault->what + (fault->point ? " of point " + std::to_string(*fault->point + 1) : ""), fault->value,
                     fault->allowed, fault->advice);
  }
  slopes_.resize(points_.size());
  for (std::size_t k = 0; k < deviations.size(); ++k) {
    const boost::math::interpolators::makima<std::vector<double>> curve(column(points_, &Point::station),
                                                                        column(points_, deviations[k]), 0.0, 0.0);
    for (std::size_t i = 0; i < points_.size(); ++i) {
      slopes_[i].of[k] = curve.prime(points_[i].station);
    }
  }
}

Irregularity::Deviation Irregularity::at(std::size_t rail, double station) const {
  if (!(station > points_.front().station && station < points_.back().station)) {
    return {};
  }
  const auto behind =
      std::upper_bound(points_.begin(), points_.end(), station, [](double x, const Point& p) { return x < p.station; });
  const auto i = static_cast<std::size_t>(behind - points_.begin()) - 1;
  const double length = points_[i + 1].station - points_[i].station, t = (station - points_[i].station) / length;
  const auto curve = [&](std::size_t k) { // Hermite: value and slope
    const double from = points_[i].*deviations[k], to = points_[i + 1].*deviations[k];
    const double out = length * slopes_[i].of[k], in = length * slopes_[i + 1].of[k];
    const double a = out - (to - from), b = (to - from) - in, s = 1.0 - t;
    return std::pair{from + t * (to - from) + t * s * (a * s + b * t),
                     ((to - from) + (s - t) * (a * s + b * t) + t * s * (b - a)) / length};
  };
  const auto [z, z_slope] = curve(2 * rail);
  const auto [y, y_slope] = curve(2 * rail + 1);
  return {y, z, y_slope, z_slope};
}

Irregularity Irregularity::mirrored() const {
  std::vector<Point> other = points_;
  for (Point& p : other) {
    std::swap(p.left_height, p.right_height);
    std::swap(p.left_lateral, p.right_lateral);
    p.left_lateral = -p.left_lateral;
    p.right_lateral = -p.right_lateral;
  }
  return Irregularity(std::move(other));
}

Irregularity Irregularity::backwards() const {
  std::vector<Point> other(points_.rbegin(), points_.rend());
  for (Point& p : other) {
    p.station = -p.station;
  }
  return Irregularity(std::move(other));
}

} // namespace wingnose::layout
