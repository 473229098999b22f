#include "section_fit.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace wingnose::layout {
namespace {

constexpr double face = 1.31;          // rad (75 degrees): steeper than this is face, not running surface
constexpr double least_noise = 1e-8;   // m, drawn sections are treated as measured this well
constexpr double stretched = 0.6;      // share of the points that keep their distance from the edge
constexpr double doubling_back = 5e-5; // m

} // namespace

SmoothSection::SmoothSection(const Section& section, double noise, const std::string& where) {
  std::vector<double> y = section.y, z = section.z;
  if (y.front() > y.back()) {
    std::reverse(y.begin(), y.end());
    std::reverse(z.begin(), z.end());
  }
  std::vector<double> s(y.size(), 0.0);
  for (std::size_t i = 1; i < y.size(); ++i) {
    s[i] = s[i - 1] + std::hypot(y[i] - y[i - 1], z[i] - z[i - 1]);
    if (!(s[i] > s[i - 1])) {
      throw InputError(where, "point " + std::to_string(i + 1) + " repeats the one before", "distinct points",
                       "Remove duplicates.");
    }
  }
  const std::vector<double> sigma(y.size(), std::max(noise, least_noise));
  y_ = numeric::smoothing_spline(s, y, sigma);
  z_ = numeric::smoothing_spline(s, z, sigma);

  // The running surface lies between the faces: from the last steep place before the top to the first one behind it.
  constexpr int samples = 2000;
  const double end = s.back();
  const auto at = [&](int i) { return end * i / samples; };
  int top = 0;
  for (int i = 1; i <= samples; ++i) {
    top = numeric::evaluate(z_, at(i)).value > numeric::evaluate(z_, at(top)).value ? i : top;
  }
  const auto boundary = [&](double flat, double steep) {
    for (int k = 0; k < 50; ++k) {
      const double mid = 0.5 * (flat + steep);
      (std::abs(steepness(mid)) > face ? steep : flat) = mid;
    }
    return flat;
  };
  int low = top, high = top;
  while (low > 0 && std::abs(steepness(at(low - 1))) <= face) {
    --low;
  }
  while (high < samples && std::abs(steepness(at(high + 1))) <= face) {
    ++high;
  }
  from_ = low > 0 ? boundary(at(low), at(low - 1)) : 0.0;
  to_ = high < samples ? boundary(at(high), at(high + 1)) : end;
  if (!(to_ - from_ > 1e-4)) {
    throw InputError(where, "no running surface", "a stretch flatter than 75 degrees",
                     "Order the points across the head and check their scale.");
  }
  double reached = numeric::evaluate(y_, from_).value;
  for (int i = low; i <= high; ++i) {
    const double here = numeric::evaluate(y_, std::clamp(at(i), from_, to_)).value;
    if (here < reached - doubling_back) {
      throw InputError(where, "points double back at y = " + number(here * 1000.0) + " mm",
                       "points ordered across from the running edge", "Sort them along the surface.");
    }
    reached = std::max(reached, here);
  }
}

double SmoothSection::steepness(double s) const {
  return std::atan2(numeric::evaluate(z_, s).slope, std::abs(numeric::evaluate(y_, s).slope));
}

double SmoothSection::height(double arc) const { return numeric::evaluate(z_, from_ + arc).value; }

double SmoothSection::angle(double arc) const { return steepness(from_ + arc); }

double SmoothSection::pitch() const {
  return (y_.knot.back() - y_.knot.front()) / static_cast<double>(y_.knot.size() - 1);
}

double SmoothSection::edge() const { return numeric::evaluate(y_, from_).value; }

void SmoothSection::put(LoftedBody::Curve& c, std::size_t j, double s, double s_t, double start) const {
  const numeric::SplinePoint y = numeric::evaluate(y_, s), z = numeric::evaluate(z_, s);
  c.eta[j] = y.value - start;
  c.z[j] = z.value;
  c.eta_t[j] = y.slope * s_t;
  c.z_t[j] = z.slope * s_t;
}

LoftedBody::Curve SmoothSection::resampled(double matched) const {
  LoftedBody::Curve c;
  const double start = edge(), rest = length() - matched;
  for (std::size_t j = 0; j < LoftedBody::points; ++j) {
    const double t = static_cast<double>(j) / static_cast<double>(LoftedBody::points - 1);
    const double v = std::max(0.0, (t - stretched) / (1.0 - stretched));
    const double s = from_ + matched * t + rest * v * v * v;
    const double s_t = matched + 3.0 * rest * v * v / (1.0 - stretched);
    put(c, j, s, s_t, start);
  }
  return c;
}

LoftedBody::Curve SmoothSection::resampled(std::span<const double> marks, std::span<const std::size_t> nodes) const {
  LoftedBody::Curve c;
  const double start = edge();
  std::size_t j = 0;
  for (std::size_t k = 0; k < nodes.size(); ++k) {
    const auto last = static_cast<double>(nodes[k] - 1);
    const double stretch = marks[k + 1] - marks[k], s_t = stretch / last * static_cast<double>(LoftedBody::points - 1);
    for (std::size_t i = 0; i < nodes[k]; ++i, ++j) {
      const double s = from_ + marks[k] + stretch * static_cast<double>(i) / last;
      put(c, j, s, s_t, start);
    }
  }
  return c;
}

} // namespace wingnose::layout
