// A wheelset under load on two rails: an ellipse after Hertz for each region of overlap.
#include "wingnose/contact/space/conicity.hpp"

#include "wingnose/contact/search/look.hpp"
#include "wingnose/numeric/roots.hpp"

#include <cmath>
#include <memory>

namespace wingnose::contact {
namespace {

constexpr double steepest_roll = 0.05; // rad
constexpr double most_depth = 0.5e-3;  // m, below first touch

struct Carried {
  double force = 0.0, radius = 0.0, wheel_y = 0.0; // N vertical; m, means weighted by it
};

// What the regions of overlap carry with the taping circle's bottom at a height.
Carried carried(const GapLine& gap, double height, const Elastic& material) {
  Carried out;
  const Regions regions = find_regions(gap, height);
  for (const Region& region : regions.list()) {
    const double angle = std::atan(region.slope), across = region.half_width / std::cos(angle);
    const double approach = region.penetration * std::cos(angle);
    if (!(across > 0.0 && region.A > 0.0)) {
      continue;
    }
    // The parabola of this depth and width; an ellipse needs twice its coefficient as curvature.
    const double B = approach / (across * across);
    const double normal = hertz_stiffness(2.0 * region.A, 2.0 * B, material) * approach * std::sqrt(approach);
    const double vertical = normal * std::cos(angle);
    out.force += vertical;
    out.radius += vertical * region.radius;
    out.wheel_y += vertical * region.wheel_y;
  }
  if (out.force > 0.0) {
    out.radius /= out.force;
    out.wheel_y /= out.force;
  }
  return out;
}

// One side, seen outward: height of the taping circle's bottom under the load, and what is carried there.
struct Side {
  double height;
  Carried at;
};
class Looker {
public:
  Looker(const WheelsetOnTrack& set, std::size_t side, double load, const Elastic& material)
      : wheel_(set.wheel[side], set.radius[side]), body_(layout::plain_rail(set.rail[side])),
        lateral_(set.half_spacing - 0.5 * (set.gauge - standard_gauge)), load_(load), material_(material) {}

  [[nodiscard]] Side operator()(double shift, double roll) {
    look(wheel_, body_, {.lateral = lateral_ + shift, .roll = roll}, *gap_);
    if (gap_->count == 0) {
      throw ComputeError("A wheel does not meet its rail at a shift of " + number(1e3 * shift) +
                         " mm; check gauge, wheel spacing and shift.");
    }
    const double depth =
        numeric::root_in([&](double d) { return carried(*gap_, gap_->level - d, material_).force - load_; }, 0.0,
                         most_depth, 1e-12, "the depth at which a wheel carries its load");
    return {gap_->level - depth, carried(*gap_, gap_->level - depth, material_)};
  }

private:
  WheelSurface wheel_;
  layout::Body body_;
  double lateral_, load_;
  Elastic material_;
  std::unique_ptr<GapLine> gap_ = std::make_unique<GapLine>();
};

} // namespace

Stand standing(const WheelsetOnTrack& set, double shift, double load, const Elastic& material) {
  demand_ranges(set, "wheelset");
  demand_within("shift of the wheelset", shift, {-0.1, 0.1}, "m");
  demand_within("load of a wheel", load, {1.0, 1e6}, "N");
  Looker left(set, 0, load, material), right(set, 1, load, material);
  const double mean = 0.5 * (set.radius[0] + set.radius[1]);
  // Height of the axle's middle after one wheel, less that after the other.
  const auto tilt = [&](double roll) {
    return left(shift, roll).height + set.radius[0] - right(-shift, -roll).height - set.radius[1] -
           2.0 * set.half_spacing * roll;
  };
  const double roll =
      numeric::root_in(tilt, -steepest_roll, steepest_roll, 1e-12, "the roll at which both wheels carry their load");
  const Side a = left(shift, roll), b = right(-shift, -roll);
  Stand out;
  out.shift = shift;
  out.axle_shift = shift - mean * roll;
  out.axle_height = 0.5 * (a.height + set.radius[0] + b.height + set.radius[1]);
  out.roll = roll;
  out.wheel_y = {a.at.wheel_y, b.at.wheel_y};
  out.rolling_radius = {a.at.radius, b.at.radius};
  return out;
}

} // namespace wingnose::contact
