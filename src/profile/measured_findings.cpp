#include "wingnose/profile/measured_findings.hpp"

#include "measured_points.hpp"
#include "wingnose/words/number.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

namespace wingnose::profile {
namespace {

constexpr double flange_back = -0.070;                      // m from the taping line, common to all profiles here
constexpr double thin_flange = 0.020, thick_flange = 0.036; // m, 10 mm above the taping line; in service 22 to 33 mm
                                                            // (EN 15313, from memory), with a margin
constexpr double flange_measured_at = 0.010;                // m above the taping line
constexpr double other_datum = 6e-3;                        // m, of height: no wheel runs so hollow
constexpr double too_noisy = 3.0;                           // times the noise stated
constexpr double off = 12.0;                                // times the scatter: one in millions of points by chance
constexpr double least_off = 50e-6;                         // m, what a smoothing takes away unseen
constexpr double pitch_of_scatter = 2e-3;                   // m: neighbours further apart differ by the shape itself

std::string in_mm(double metres, int digits = 3) { return number(1e3 * metres, digits) + " mm"; }

// How far each point lies from the cubic through its two neighbours on both sides, normal to the surface and scaled so
// that independent noise shows with its own standard deviation (m); nothing where neighbours are far.
std::vector<std::optional<double>> beside_neighbours(const MeasuredPoints& p) {
  std::vector<std::optional<double>> residual(p.y.size());
  for (std::size_t i = 2; i + 2 < p.y.size(); ++i) {
    if (p.y[i + 2] - p.y[i - 2] > 4.0 * pitch_of_scatter) {
      continue;
    }
    double value = 0.0, squares = 1.0;
    for (const std::size_t j : {i - 2, i - 1, i + 1, i + 2}) {
      double weight = 1.0; // Lagrange's
      for (const std::size_t k : {i - 2, i - 1, i + 1, i + 2}) {
        weight *= k == j ? 1.0 : (p.y[i] - p.y[k]) / (p.y[j] - p.y[k]);
      }
      value += weight * p.height[j];
      squares += weight * weight;
    }
    const double slope = (p.height[i + 2] - p.height[i - 2]) / (p.y[i + 2] - p.y[i - 2]);
    residual[i] = (p.height[i] - value) / std::sqrt(squares * (1.0 + slope * slope));
  }
  return residual;
}

// Standard deviation by the median, which single points do not move.
double scatter(const std::vector<std::optional<double>>& residual) {
  std::vector<double> sizes;
  for (const auto& r : residual) {
    if (r) {
      sizes.push_back(std::abs(*r));
    }
  }
  if (sizes.empty()) {
    return 0.0;
  }
  const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
  std::nth_element(sizes.begin(), middle, sizes.end());
  constexpr double median_of_normal = 0.6745;
  return *middle / median_of_normal;
}

// Straight between points; p covers the taping line.
double height_at(const MeasuredPoints& p, double y) {
  const auto next = std::upper_bound(p.y.begin() + 1, p.y.end() - 1, y);
  const auto i = static_cast<std::size_t>(next - p.y.begin());
  return std::lerp(p.height[i - 1], p.height[i], (y - p.y[i - 1]) / (p.y[i] - p.y[i - 1]));
}

void tell_datum(const MeasuredPoints& p, Findings& findings) {
  const double at_line = height_at(p, 0.0);
  std::size_t i = p.y.size() - 1; // from the field side down to where the flange has risen far enough
  while (i > 0 && !(p.y[i] < 0.0 && p.height[i] >= at_line + flange_measured_at)) {
    --i;
  }
  const double thickness = p.y[i] - flange_back;
  if (thickness < thin_flange || thickness > thick_flange) {
    findings.push_back(
        {FindingKind::wheel_datum,
         "the flange would be " + in_mm(thickness) + " thick 10 mm above the taping line, where " + in_mm(thin_flange) +
             " to " + in_mm(thick_flange) +
             " are possible: y does not seem to be measured from the taping line, 70 mm from the flange back",
         "y = " + in_mm(p.y[i])});
  }
  if (std::abs(at_line) > other_datum) {
    findings.push_back({FindingKind::height_datum,
                        "the height at the taping line is " + in_mm(at_line) +
                            ": the rolling radius there is as much more than the radius given",
                        "y = 0 mm"});
  }
}

} // namespace

Findings measured_findings(std::span<const double> y, std::span<const double> height, double noise,
                           const std::string& name) {
  const MeasuredPoints p = checked_points(y, height, noise, name);
  Findings findings;
  tell_datum(p, findings);
  const auto residual = beside_neighbours(p);
  const double found = scatter(residual);
  if (found > too_noisy * noise) {
    findings.push_back({FindingKind::noise_understated, "the points scatter by " + in_mm(found) +
                                                            " about a smooth line, " + in_mm(noise) + " are stated"});
  }
  // A point that lies off pulls at the cubics of its neighbours as well: of those together the farthest counts.
  const double limit = std::max(least_off, off * std::max(found, noise));
  std::size_t count = 0, farthest = 0;
  for (std::size_t i = 2; i + 2 < p.y.size(); ++i) {
    const auto size = [&](std::size_t k) { return residual[k] ? std::abs(*residual[k]) : 0.0; };
    if (size(i) > limit && size(i) >= std::max({size(i - 2), size(i - 1), size(i + 1), size(i + 2)})) {
      farthest = count == 0 || size(i) > size(farthest) ? i : farthest;
      ++count;
    }
  }
  if (count > 0) {
    const std::size_t i = farthest;
    const double away = p.height[i] - height_at({{p.y[i - 1], p.y[i + 1]}, {p.height[i - 1], p.height[i + 1]}}, p.y[i]);
    findings.push_back({FindingKind::point_off,
                        std::to_string(count) + (count > 1 ? " points lie" : " point lies") +
                            " off the line of their neighbours, the farthest by " + in_mm(away),
                        "y = " + in_mm(p.y[i])});
  }
  return findings;
}

} // namespace wingnose::profile
