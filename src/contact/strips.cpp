#include "wingnose/contact/strips.hpp"

#include "strips_shape.hpp"

#include <boost/math/special_functions/ellint_rd.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wingnose::contact {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double least_laid = 10e-6; // m

// Integral of sqrt((a^2 - x^2) / (x^2 + d^2)) over -a .. a: the displacement (times pi E*, per width and slope p0 / a)
// that a line of half-elliptic pressure makes abreast of its middle at a distance d. Substituting x = a cos(t) gives
// 2 sqrt(a^2 + d^2) (K(k) - E(k)), k^2 = a^2 / (a^2 + d^2); K - E = k^2 R_D(0, 1 - k^2, 1) / 3 (Carlson 1979).
double abreast_exact(double a, double d) {
  const double q = a * a + d * d;
  return 2.0 / 3.0 * a * a / std::sqrt(q) * boost::math::ellint_rd(0.0, d * d / q, 1.0);
}

// The same from a table over s = d / (a + d), divided by a^2 / (a + d): between 2 ln(4 / s) - 2 at s = 0, where it is
// used directly, and pi / 2 at s = 1. Straight lines between the entries err by less than 2e-3.
class AbreastTable {
public:
  AbreastTable() {
    for (std::size_t i = 1; i < cells; ++i) {
      const double s = static_cast<double>(i) / cells, a = 1.0 - s;
      value_[i] = abreast_exact(a, s) / (a * a);
    }
    value_[cells] = 0.5 * pi;
  }
  [[nodiscard]] double operator()(double a, double d) const {
    const double sum = a + d, u = d / sum * cells;
    if (u < 4.0) {
      return 2.0 * a * (std::log(4.0 * a / d) - 1.0);
    }
    const std::size_t i = std::min(static_cast<std::size_t>(u), cells - 1);
    return a * a / sum * (value_[i] + (u - static_cast<double>(i)) * (value_[i + 1] - value_[i]));
  }

private:
  static constexpr std::size_t cells = 2048;
  std::array<double, cells + 1> value_{};
};

const AbreastTable& abreast() {
  static const AbreastTable table; // values of a formula, the same for every contact
  return table;
}

} // namespace

NormalContact strips(const GapLine& line, double depth, const Elastic& material, StripOutline* outline) {
  if (depth > 0.0 && depth < least_laid) {
    // Too shallow for the columns to show its width: any smooth pair starts as Hertz's does.
    NormalContact result = strips(line, least_laid, material, outline);
    const double s = depth / least_laid, root = std::sqrt(s);
    for (double* value : {&result.force, &result.vertical}) {
      *value *= s * root;
    }
    for (double* value : {&result.approach, &result.penetration, &result.area}) {
      *value *= s;
    }
    for (double* value : {&result.peak_pressure, &result.half_length, &result.half_width}) {
      *value *= root;
    }
    if (outline != nullptr) {
      for (Strip& one : std::span(outline->strip.data(), static_cast<std::size_t>(outline->count))) {
        one = {result.y + (one.y - result.y) * root,
               one.width * root,
               one.dx,
               one.half_length * root,
               one.pressure * root,
               one.force * s * root};
      }
    }
    return result;
  }
  NormalContact result;
  if (outline != nullptr) {
    outline->count = 0;
  }
  Overlap overlap;
  if (!(depth > 0.0) || !lay(line, depth, true, overlap)) {
    return result;
  }
  const EquivalentEllipse e = equivalent_ellipse(overlap);

  // Strips: the overlap between two columns, in two straight parts.
  struct Cell {
    double y, width, middle; // m: place across the track; width and middle along the surface
    double a;                // m, half length
    double load;             // integral of a^2 over the width
    double closing;          // m, approach less the gap
    double dx, y_width, vertical;
  };
  std::array<Cell, Overlap::capacity> cell;
  int n = 0;
  for (int i = 0; i + 1 < overlap.count; i += 2) {
    double area = 0.0, t = 0.0, closing = 0.0;
    Cell c{};
    for (int k = i; k < i + 2 && k + 1 < overlap.count; ++k) {
      const Overlap::Part part = overlap.closed(k, e.share);
      const double dt = overlap.t[k + 1] - overlap.t[k], dy = overlap.y[k + 1] - overlap.y[k];
      area += part.area;
      t += part.area * (overlap.t[k] + part.centre * dt);
      c.y += part.area * (overlap.y[k] + part.centre * dy);
      c.dx += part.area * (overlap.dx[k] + part.centre * (overlap.dx[k + 1] - overlap.dx[k]));
      c.vertical += part.area * overlap.cosine[k];
      // Approach less the gap: what is laid in, and the share of the approach nearby that is not.
      closing +=
          part.area * (1.0 - e.share) * (overlap.nearby[k] + part.centre * (overlap.nearby[k + 1] - overlap.nearby[k]));
      c.width += part.width;
      c.y_width += part.width * dy / dt;
    }
    if (!(area > 0.0)) {
      continue;
    }
    c.middle = t / area;
    c.y /= area;
    c.dx /= area;
    c.vertical /= area;
    c.a = std::sqrt(area / (c.width * e.A_strip));
    c.load = area / e.A_strip;
    c.closing = closing / area + area / c.width;
    cell[n++] = c;
  }
  // p = scale sqrt(a^2 - x^2). The displacement within a strip is that at the mean logarithmic distance of its points.
  const double E_star = material.combined();
  const AbreastTable& kernel = abreast();
  double asked = 0.0, given = 0.0;
  for (int i = 0; i < n; ++i) {
    double sum = 0.0;
    for (int j = 0; j < n; ++j) {
      const double d = i == j ? cell[j].width / (2.0 * std::numbers::e) : std::abs(cell[i].middle - cell[j].middle);
      sum += cell[j].width * kernel(cell[j].a, d);
    }
    asked += cell[i].load * cell[i].closing;
    given += cell[i].load * sum / (pi * E_star);
  }
  const double scale = e.skew * asked / given;
  double moment = 0.0;
  for (int i = 0; i < n; ++i) {
    const Cell& c = cell[i];
    const double force = 0.5 * pi * scale * c.load;
    result.force += force;
    result.vertical += force * c.vertical;
    result.area += 2.0 * c.a * c.width;
    result.half_width += 0.5 * c.width;
    moment += force * c.y;
    if (outline != nullptr) {
      outline->strip[static_cast<std::size_t>(outline->count++)] = {c.y, c.y_width, c.dx, c.a, scale * c.a, force};
    }
  }
  result.approach = overlap.approach;
  result.penetration = e.share * overlap.approach;
  result.half_length = std::sqrt(result.penetration / e.A_strip);
  result.peak_pressure = scale * result.half_length;
  result.y = moment / result.force;
  return result;
}

} // namespace wingnose::contact
