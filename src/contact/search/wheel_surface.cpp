#include "wingnose/contact/search/look.hpp"

#include "wingnose/words/constants.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <string>

namespace wingnose::contact {
namespace {

constexpr Range spacing_range{2e-5, 1e-3}; // m

} // namespace

WheelSurface::WheelSurface(const profile::WheelProfile& wheel, double radius, double spacing)
    : profile_(wheel), radius_(radius), front_(wheel.y_min()), spacing_(spacing) {
  if (!within(spacing, spacing_range)) {
    throw InputError("column spacing (m)", number(spacing), "0.00002 to 0.001 m",
                     "A quarter of a millimetre resolves the patch on a 5 mm edge.");
  }
  if (!within(radius, wheel_radius_range)) {
    throw InputError("wheel radius (m)", number(radius), "0.15 to 1.0 m",
                     "Give the radius at the taping line, not the diameter.");
  }
  const double width = wheel.y_max() - wheel.y_min();
  const auto n = static_cast<std::size_t>(std::floor(width / spacing + 1e-9)) + 1;
  if (n > GapLine::capacity) {
    throw InputError("column spacing (m)", number(spacing),
                     "at least " + number(width / (GapLine::capacity - 1)) + " m for wheel \"" + wheel.name + "\"",
                     "A search looks at up to " + std::to_string(GapLine::capacity) + " columns.");
  }
  for (std::vector<double>* column : {&height_, &slope_, &second_}) {
    column->reserve(n);
  }
  for (std::size_t i = 0; i < n; ++i) {
    const profile::CurvePoint p = wheel.at(front_ + spacing * static_cast<double>(i));
    const double g = 1.0 + p.slope * p.slope;
    height_.push_back(p.value);
    slope_.push_back(p.slope);
    second_.push_back(p.curvature * g * std::sqrt(g));
  }
}

} // namespace wingnose::contact
