#include "wingnose/profile/wheel.hpp"

#include "wingnose/words/error.hpp"

#include <array>
#include <cmath>
#include <cstdio>

namespace wingnose::profile {
namespace {

// Published wheel zones are stated in millimetres. Division by exact powers of ten rounds once, so a zone in metres
// differs from its published form by rounding only (about 1e-10 mm).
constexpr double in_metres(double value) { return value / 1000.0; }

// z = sum c_k y^k with z and y in mm becomes, in m, c_k 1000^(k-1).
Piece polynomial_mm(double from, double to, std::array<double, 9> c) {
  double scale = 1.0;
  c[0] /= 1000.0;
  for (std::size_t k = 2; k < c.size(); ++k) {
    c[k] *= (scale *= 1000.0);
  }
  return {in_metres(from), in_metres(to), Piece::Kind::polynomial, c};
}

Piece arc_mm(double from, double to, Piece::Kind kind, double yc, double zc, double r) {
  return {in_metres(from), in_metres(to), kind, {in_metres(yc), in_metres(zc), in_metres(r)}};
}

std::string millimetres(double metres) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3g mm", metres * 1000.0);
  return text;
}

} // namespace

WheelProfile s1002() {
  using enum Piece::Kind;
  // UIC 510-2 / EN 13715, zones from the flange back to the tread end; the digits are the published ones (recalled, and
  // verified by the continuity of value, slope and curvature over the joints).
  std::vector<Piece> zones = {
      arc_mm(-70.0, -62.764705882, arc_upper, -49.5, 9.519259302, 20.5),                 // H, flange back
      arc_mm(-62.764705882, -49.662510381, arc_upper, -55.0, 16.0, 12.0),                // G, flange tip
      arc_mm(-49.662510381, -39.764473993, arc_upper, -58.558326413, 8.834924130, 20.0), // F
      polynomial_mm(-39.764473993, -38.426669071, {-93.576667419, -2.747477419}),        // E, flange face, 70 degrees
      arc_mm(-38.426669071, -35.0, arc_lower, -26.210665, 16.446, 13.0),                 // D, flange root
      polynomial_mm(-35.0, -26.0,                                                        // C
                    {-4.320221063e3, -1.038384026e3, -1.065501873e2, -6.051367875, -2.054332446e-1, -4.169739389e-3,
                     -4.687195829e-5, -2.252755540e-7}),
      polynomial_mm(-26.0, 32.15796, // B, tread
                    {0.0, -3.358537058e-2, 1.565681624e-3, -2.810427944e-5, 5.844240864e-8, -1.562379023e-8,
                     5.309217349e-15, -5.957839843e-12, 2.646656573e-13}),
      polynomial_mm(32.15796, 60.0, {1.364323640, -0.06666666667}), // A, 1:15
  };
  return {"S1002", Curve(std::move(zones))};
}

WheelProfile cone(double conicity) {
  if (!std::isfinite(conicity) || std::abs(conicity) > 0.5) {
    throw InputError("conicity of a conical wheel", number(conicity), "-0.5 to 0.5, for example 0.05 for 1:20",
                     "Give the slope of the tread, not its inverse.");
  }
  char name[32];
  if (conicity > 0.0) {
    std::snprintf(name, sizeof name, "cone 1:%.4g", 1.0 / conicity);
  } else {
    std::snprintf(name, sizeof name, conicity == 0.0 ? "cylinder" : "cone %.4g", conicity);
  }
  return {name, Curve({{in_metres(-30.0), in_metres(60.0), Piece::Kind::polynomial, {0.0, -conicity}}})};
}

WheelProfile hollow_worn(const WheelProfile& base, const Hollow& hollow) {
  const double room = base.y_max() - base.y_min();
  if (!std::isfinite(hollow.depth) || hollow.depth < 0.0 || hollow.depth > 0.010) {
    throw InputError("depth of the hollow", millimetres(hollow.depth), "0 to 10 mm",
                     "Give the wear as a positive depth.");
  }
  if (!std::isfinite(hollow.width) || !(hollow.width > 0.0) || hollow.width > room) {
    throw InputError("width of the hollow", millimetres(hollow.width), "above 0, up to " + millimetres(room),
                     "Give the full width over which the hollow fades out.");
  }
  if (!(hollow.centre >= base.y_min() && hollow.centre <= base.y_max())) {
    throw InputError("centre of the hollow", millimetres(hollow.centre),
                     millimetres(base.y_min()) + " to " + millimetres(base.y_max()),
                     "Give the centre from the taping line, positive to the field side.");
  }
  return {base.name + ", hollow " + millimetres(hollow.depth),
          base.curve.with({hollow.depth, hollow.width, hollow.centre})};
}

} // namespace wingnose::profile
