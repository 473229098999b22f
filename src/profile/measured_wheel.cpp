#include "wingnose/profile/wheel.hpp"

#include "measured_points.hpp"
#include "wingnose/numeric/smoothing_spline.hpp"

#include <cmath>
#include <vector>

namespace wingnose::profile {
namespace {

constexpr double reach = 8e-3;   // m, half-width over which the mean curvature of the surroundings is taken
constexpr double straight = 1.0; // 1/m, curvature below which a surface counts as straight
constexpr int rounds = 4;        // the fit stops changing after three

// Mean square curvature around each point, weighted by (1 - (distance / reach)^2)^2.
std::vector<double> surrounding_curvature(const std::vector<double>& y, const std::vector<double>& curvature) {
  std::vector<double> mean(y.size());
  for (std::size_t i = 0, first = 0; i < y.size(); ++i) {
    while (y[i] - y[first] >= reach) {
      ++first;
    }
    double sum = 0.0, total = 0.0;
    for (std::size_t j = first; j < y.size() && y[j] - y[i] < reach; ++j) {
      const double u = (y[j] - y[i]) / reach, weight = (1.0 - u * u) * (1.0 - u * u);
      sum += weight * curvature[j] * curvature[j];
      total += weight;
    }
    mean[i] = sum / total;
  }
  return mean;
}

// A wheel is bent to 12 mm at its flange and to 300 mm and more on its tread: one amount of smoothing for both leaves
// the tread's curvature as noise. Two facts of the surface, taken from the fit before, set them apart:
//  - a device measures to the surface, so on a face of slope s its noise shows in height as noise * sqrt(1 + s^2);
//  - the integral of curvature^2 over arc length is that of g''^2 / (1 + s^2)^(5/2) over y, and it should be judged
//  against
//    the curvature that is usual thereabouts.
numeric::SmoothingSpline fit(const MeasuredPoints& p, double noise) {
  std::vector<double> sigma(p.y.size(), noise), freedom(p.y.size(), 1.0), curvature(p.y.size());
  numeric::SmoothingSpline spline = numeric::smoothing_spline(p.y, p.height, sigma);
  for (int round = 0; round < rounds; ++round) {
    for (std::size_t i = 0; i < p.y.size(); ++i) {
      const auto [value, slope, second] = numeric::evaluate(spline, p.y[i]);
      const double s2 = 1.0 + slope * slope;
      sigma[i] = noise * std::sqrt(s2);
      freedom[i] = s2 * s2 * std::sqrt(s2);
      curvature[i] = second / (s2 * std::sqrt(s2));
    }
    if (round > 0) { // the first fit's curvature is still mostly noise
      const std::vector<double> usual = surrounding_curvature(p.y, curvature);
      for (std::size_t i = 0; i < p.y.size(); ++i) {
        freedom[i] *= usual[i] + straight * straight;
      }
    }
    spline = numeric::smoothing_spline(p.y, p.height, sigma, freedom);
  }
  return spline;
}

} // namespace

WheelProfile measured_wheel(std::span<const double> y, std::span<const double> height, double noise, std::string name) {
  const numeric::SmoothingSpline spline = fit(checked_points(y, height, noise, name), noise);
  std::vector<Piece> pieces;
  pieces.reserve(spline.piece.size());
  for (std::size_t k = 0; k < spline.piece.size(); ++k) {
    const auto& c = spline.piece[k];
    pieces.push_back(
        {spline.knot[k], spline.knot[k + 1], Piece::Kind::polynomial, {c[0], c[1], c[2], c[3], c[4]}, spline.knot[k]});
  }
  return {std::move(name), Curve(std::move(pieces))};
}

} // namespace wingnose::profile
