#include "wingnose/layout/turnout/route.hpp"

#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace wingnose::layout::turnout {
namespace {

double between(double from, double to, double share) { return from + (to - from) * share; }

// Chord of an arc: sin(a) / a, also where there is hardly any.
double sinc(double a) { return std::abs(a) < 1e-4 ? 1.0 - a * a / 6.0 : std::sin(a) / a; }

// 15 Gauss points to a panel that turns by no more than this: the next term is below 1e-16 of its length.
constexpr double turn_of_panel = 0.5; // rad

} // namespace

Place along(const Place& start, const Stretch& stretch, double length) {
  const double sharpness =
      stretch.length > 0.0 ? (stretch.curvature_end - stretch.curvature) / stretch.length : 0.0; // 1/m2
  const auto heading = [&](double u) { return start.heading + u * (stretch.curvature + 0.5 * sharpness * u); };
  if (sharpness == 0.0) {
    const double half = 0.5 * stretch.curvature * length, chord = length * sinc(half);
    return {start.x + chord * std::cos(start.heading + half), start.y + chord * std::sin(start.heading + half),
            heading(length)};
  }
  const double most = std::max(std::abs(stretch.curvature), std::abs(stretch.curvature + sharpness * length));
  const int panels = 1 + static_cast<int>(most * std::abs(length) / turn_of_panel);
  using Gauss = boost::math::quadrature::gauss<double, 15>;
  Place end{start.x, start.y, heading(length)};
  for (int i = 0; i < panels; ++i) {
    const double from = length * i / panels, to = length * (i + 1) / panels;
    end.x += Gauss::integrate([&](double u) { return std::cos(heading(u)); }, from, to);
    end.y += Gauss::integrate([&](double u) { return std::sin(heading(u)); }, from, to);
  }
  return end;
}

Place beside(const Place& place, double distance) {
  return {place.x - distance * std::sin(place.heading), place.y + distance * std::cos(place.heading), place.heading};
}

Route::Route(double begin, std::vector<Stretch> stretches, const Place& start)
    : stretches_(std::move(stretches)), begins_{begin}, places_{start} {
  for (const Stretch& stretch : stretches_) {
    places_.push_back(along(places_.back(), stretch, stretch.length));
    begins_.push_back(begins_.back() + stretch.length);
  }
}

std::size_t Route::stretch_at(double s) const {
  const auto behind = std::upper_bound(begins_.begin() + 1, begins_.end(), s);
  return std::min(static_cast<std::size_t>(behind - begins_.begin()), stretches_.size()) - 1;
}

double Route::curvature(double s) const {
  if (s < begin() || s >= end()) {
    return 0.0;
  }
  const Stretch& stretch = stretches_[stretch_at(s)];
  return between(stretch.curvature, stretch.curvature_end, (s - begins_[stretch_at(s)]) / stretch.length);
}

double Route::cant(double s) const {
  if (stretches_.empty()) {
    return 0.0;
  }
  const std::size_t i = stretch_at(s);
  const double share = std::clamp((s - begins_[i]) / stretches_[i].length, 0.0, 1.0);
  return between(stretches_[i].cant, stretches_[i].cant_end, share);
}

Place Route::at(double s) const {
  constexpr Stretch straight{0.0, 0.0, 0.0};
  if (s < begin() || stretches_.empty()) {
    return along(places_.front(), straight, s - begin());
  }
  if (s >= end()) {
    return along(places_.back(), straight, s - end());
  }
  const std::size_t i = stretch_at(s);
  return along(places_[i], stretches_[i], s - begins_[i]);
}

Route Route::shifted(double by) const { return {begin() + by, stretches_, places_.front()}; }

// Its plan begins anew at its other end.
Route Route::backwards() const {
  std::vector<Stretch> other(stretches_.rbegin(), stretches_.rend());
  for (Stretch& stretch : other) {
    std::swap(stretch.curvature, stretch.curvature_end);
    std::swap(stretch.cant, stretch.cant_end);
  }
  return Route(-end(), std::move(other));
}

Route Route::mirrored() const {
  std::vector<Stretch> other = stretches_;
  for (Stretch& stretch : other) {
    stretch.curvature *= -1.0;
    stretch.curvature_end *= -1.0;
    stretch.cant *= -1.0;
    stretch.cant_end *= -1.0;
  }
  const Place& start = places_.front();
  return {begin(), std::move(other), {start.x, -start.y, -start.heading}};
}

} // namespace wingnose::layout::turnout
