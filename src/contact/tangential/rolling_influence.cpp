#include "rolling_influence.hpp"

#include <cmath>
#include <numbers>

namespace wingnose::contact::detail {
namespace {

using std::numbers::pi;

// Primitive integrals at one corner line x = X between y = low and y = high.
struct Edge {
  double one_over_r; // X ln(Y + R) + Y ln(X + R), the first term only
  double x2;         // of x^2/r^3: Y ln(X + R)
  double xy;         // of x y/r^3: -R
};

// asinh(high/|X|) - asinh(low/|X|) = ln of a quotient; the sign change avoids the difference of nearly equal terms.
double log_between(double low, double high, double R_low, double R_high) {
  return low + high >= 0.0 ? std::log((high + R_high) / (low + R_low)) : std::log((R_low - low) / (R_high - high));
}

Edge edge_at(double X, double low, double high) {
  const double R_low = std::hypot(X, low), R_high = std::hypot(X, high);
  const double first = X == 0.0 ? 0.0 : X * log_between(low, high, R_low, R_high);
  const auto second = [X](double Y) { return Y == 0.0 ? 0.0 : Y * std::asinh(X / std::abs(Y)); };
  return {first, second(high) - second(low), R_low - R_high};
}

} // namespace

void influence_of_strip(const RollingStrip& strip, bool plane, double poisson, double x, double y,
                        std::span<Influence> out) {
  const double nu = poisson;
  double X = x - strip.lead; // to the leading edge of the first cell; grows by a cell length from edge to edge
  if (plane) {
    // Integral of -2 ln|X|: plane strain for p_x, anti-plane shear for p_y (Johnson 1985, ch. 2).
    const auto primitive = [](double s) { return s == 0.0 ? 0.0 : -2.0 * (s * std::log(std::abs(s)) - s); };
    for (Influence& cell : out) {
      const double ends = primitive(X + strip.cell) - primitive(X);
      cell = {(1.0 - nu) * ends / pi, 0.0, ends / pi};
      X += strip.cell;
    }
    return;
  }
  const double low = y - (strip.y + 0.5 * strip.width), high = y - (strip.y - 0.5 * strip.width);
  Edge before = edge_at(X, low, high);
  for (Influence& cell : out) {
    X += strip.cell;
    const Edge after = edge_at(X, low, high);
    const double y2 = after.one_over_r - before.one_over_r; // integral of y^2/r^3
    const double x2 = after.x2 - before.x2;                 // of x^2/r^3; their sum is that of 1/r
    const double xy = after.xy - before.xy;
    // Cerruti: u_x = 1/(pi G) integral of ((1 - nu)/r + nu x^2/r^3) p_x + nu x y/r^3 p_y, both bodies together.
    cell = {((1.0 - nu) * y2 + x2) / pi, nu * xy / pi, (y2 + (1.0 - nu) * x2) / pi};
    before = after;
  }
}

} // namespace wingnose::contact::detail
