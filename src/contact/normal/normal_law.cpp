#include "wingnose/contact/normal/normal_law.hpp"

#include "strips_shape.hpp"

#include "wingnose/numeric/overloaded.hpp"
#include "wingnose/words/error.hpp"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace wingnose::contact {
namespace {

constexpr double deepest = 0.004; // m: no elastic contact of a wheel goes in that far

NormalContact ellipse(const Ellipse& law, const GapLine& line, double depth, const Elastic& material,
                      StripOutline* outline) {
  NormalContact result;
  if (outline != nullptr) {
    outline->count = 0;
  }
  Overlap overlap;
  // Laid in deep enough for the whole closed width to be seen, whatever the load; the steepest contact counts most.
  if (!(depth > 0.0) || !lay(line, 4.0 * law.closing_depth, false, overlap)) {
    return result;
  }
  const EquivalentEllipse e = equivalent_ellipse_at(overlap, law.closing_depth);
  const double cosine = 1.0 / std::sqrt(1.0 + line.slope[line.top] * line.slope[line.top]);
  result.approach = depth * cosine;
  const double C = e.skew * e.stiffness * material.combined();
  result.force = C * result.approach * std::sqrt(result.approach);
  result.stiffness = 1.5 * C * std::sqrt(result.approach);
  result.vertical = result.force * cosine;
  const HertzPatch patch = hertz_patch(result.force, 2.0 * e.A, 2.0 * e.B, material);
  result.half_length = patch.a_x;
  result.half_width = patch.a_y;
  result.peak_pressure = patch.peak_pressure;
  result.area = std::numbers::pi * patch.a_x * patch.a_y;
  result.y = line.y(line.top);
  result.penetration = e.B * patch.a_y * patch.a_y;
  if (outline != nullptr) {
    constexpr int pieces = 40;
    for (int i = 0; i < pieces; ++i) {
      const double u = (2.0 * i + 1.0) / pieces - 1.0, share = std::sqrt(1.0 - u * u);
      const double width = 2.0 * patch.a_y / pieces;
      const double length = share * patch.a_x, pressure = share * patch.peak_pressure;
      outline->strip[static_cast<std::size_t>(outline->count++)] = {result.y + u * patch.a_y * cosine,
                                                                    width * cosine,
                                                                    line.dx[line.top],
                                                                    length,
                                                                    pressure,
                                                                    0.5 * std::numbers::pi * length * pressure * width};
    }
  }
  return result;
}

// Slope of the strips' force over the approach, by a centred difference small against the curvature of the law.
double slope(const GapLine& line, double depth, const Elastic& material) {
  const double h = 1e-3 * depth;
  const NormalContact more = strips(line, depth + h, material), less = strips(line, depth - h, material);
  return (more.force - less.force) / (more.approach - less.approach);
}

double solve(const auto& carried, double vertical, double start) {
  double low = 0.0, high = start;
  while (carried(high) < vertical) {
    low = high;
    high *= 2.0;
    if (high > deepest) {
      throw ComputeError("a contact that carries " + number(vertical * 1e-3) +
                         " kN would need an approach of more than 4 mm; check the load and the place of the wheel");
    }
  }
  std::uintmax_t iterations = 60;
  const auto root = boost::math::tools::toms748_solve([&](double d) { return carried(d) - vertical; }, low, high,
                                                      boost::math::tools::eps_tolerance<double>(34), iterations);
  return 0.5 * (root.first + root.second);
}

void check_force(double vertical) {
  if (!(std::isfinite(vertical) && vertical >= 0.0)) {
    throw InputError("contact force", number(vertical) + " N", "0 or more",
                     "Wheel and rail can only press on each other.");
  }
}

} // namespace

NormalContact normal_contact(const NormalLaw& law, const GapLine& line, double depth, const Elastic& material,
                             StripOutline* outline) {
  return std::visit(overloaded{[&](const Ellipse& one) { return ellipse(one, line, depth, material, outline); },
                               [&](const Strips&) {
                                 NormalContact result = strips(line, depth, material, outline);
                                 if (result.force > 0.0) {
                                   result.stiffness = slope(line, depth, material);
                                 }
                                 return result;
                               }},
                    law);
}

double vertical_force(const NormalLaw& law, const GapLine& line, double depth, const Elastic& material) {
  // strips() itself: normal_contact() would solve them twice more for a stiffness that is not asked for.
  return std::visit(
      overloaded{[&](const Ellipse& one) { return ellipse(one, line, depth, material, nullptr).vertical; },
                 [&](const Strips&) { return strips(line, depth, material).vertical; }},
      law);
}

double depth_for_force(const NormalLaw& law, const GapLine& line, double vertical, const Elastic& material) {
  return line.level - height_for_force(law, {&line, 1}, vertical, material);
}

double height_for_force(const NormalLaw& law, std::span<const GapLine> bodies, double vertical,
                        const Elastic& material) {
  check_force(vertical);
  double top = -std::numeric_limits<double>::infinity();
  for (const GapLine& line : bodies) {
    top = std::max(top, line.level);
  }
  if (!std::isfinite(top)) {
    throw ComputeError("the wheel is not over any body here; check the station and the lateral place");
  }
  if (vertical == 0.0) {
    return top;
  }
  const auto carried = [&](double depth) {
    double sum = 0.0;
    for (const GapLine& line : bodies) {
      const double mine = depth - (top - line.level);
      if (mine > 0.0) {
        sum += vertical_force(law, line, mine, material);
      }
    }
    return sum;
  };
  return top - solve(carried, vertical, 1e-4);
}

} // namespace wingnose::contact
