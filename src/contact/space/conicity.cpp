#include "wingnose/contact/space/conicity.hpp"

#include "wingnose/numeric/roots.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace wingnose::contact {
namespace {

// Shifts tabulated on either side of the centre: a rigid contact jumps, one under load does not.
constexpr int rigid_places = 400, loaded_places = 60;
constexpr int arc_places = 2000; // of the integral over a half wave

bool alike_sides(const WheelsetOnTrack& set) {
  return set.wheel[0] == set.wheel[1] && set.radius[0] == set.radius[1] && set.rail[0].curve == set.rail[1].curve;
}

// Radius difference over the shift to one side of the centre, and its integral: what the wave climbs against.
class Flank {
public:
  // difference(d): towards the centre positive, at d (m, >= 0) from it.
  template <class Difference> Flank(const Difference& difference, double reach, int places) : step_(reach / places) {
    for (int i = 0; i <= places; ++i) {
      height_.push_back(difference(i * step_));
      climb_.push_back(i == 0 ? 0.0 : climb_.back() + 0.5 * step_ * (height_.back() + height_[height_.size() - 2]));
    }
  }
  [[nodiscard]] double climb(double d) const { // m2
    const auto i = std::min(static_cast<std::size_t>(d / step_), height_.size() - 2);
    const double t = d - static_cast<double>(i) * step_;
    return climb_[i] + t * (height_[i] + 0.5 * t * (height_[i + 1] - height_[i]) / step_);
  }
  [[nodiscard]] double most() const { return climb_.back(); }
  [[nodiscard]] double reach() const { return step_ * static_cast<double>(height_.size() - 1); }
  // Distance at which it has climbed so far.
  [[nodiscard]] double turning(double climbed) const {
    if (climbed >= climb(reach())) {
      return reach();
    }
    return numeric::root_in([&](double d) { return climb(d) - climbed; }, 0.0, reach(), 1e-12,
                            "the shift at which the wheelset turns back");
  }
  // Way run between the centre and the turning point, for a wheelset of 2 s r = 1: integral of dy / sqrt(2 (climb
  // left)); y = turning sin p takes the pole at the turning point away.
  [[nodiscard]] double quarter(double turning) const {
    const double full = climb(turning), dp = 0.5 * std::numbers::pi / arc_places;
    double sum = 0.0;
    for (int i = 0; i < arc_places; ++i) {
      const double p = (i + 0.5) * dp, left = full - climb(turning * std::sin(p));
      if (!(left > 0.0)) {
        throw ComputeError("The wheelset does not roll back towards the middle of the track from a shift of " +
                           number(1e3 * turning) + " mm: it has no equivalent conicity there.");
      }
      sum += std::cos(p) / std::sqrt(2.0 * left);
    }
    return turning * sum * dp;
  }

private:
  double step_;
  std::vector<double> height_, climb_;
};

// difference(y): radius difference at a shift.
template <class Difference>
double conicity(const WheelsetOnTrack& set, const Difference& difference, double amplitude, int places) {
  demand_within("amplitude of the shift", amplitude, {1e-5, 0.02}, "m");
  double quarters = 0.0;
  if (alike_sides(set)) {
    const Flank flank(difference, amplitude, places);
    quarters = 2.0 * flank.quarter(amplitude);
  } else {
    const double middle = centre(set), reach = 1.8 * amplitude; // one side may take most of the way
    const Flank up([&](double d) { return difference(middle + d); }, reach, places);
    const Flank down([&](double d) { return -difference(middle - d); }, reach, places);
    const double climbed = numeric::root_in([&](double c) { return up.turning(c) + down.turning(c) - 2.0 * amplitude; },
                                            0.0, std::min(up.most(), down.most()), 1e-15, "the amplitude of the shift");
    quarters = up.quarter(up.turning(climbed)) + down.quarter(down.turning(climbed));
  }
  // Half a wave is two quarters: length L = 2 sqrt(2 s r) quarters; the cone's is 2 pi sqrt(s r / conicity) (Klingel).
  return 0.5 * (std::numbers::pi / quarters) * (std::numbers::pi / quarters);
}

} // namespace

double centre(const WheelsetOnTrack& set) {
  if (alike_sides(set)) {
    return 0.0;
  }
  return numeric::root_in([&](double shift) { return standing(set, shift).difference(); }, -0.02, 0.02, 1e-9,
                          "the shift at which both wheels roll on the same radius");
}

double equivalent_conicity(const WheelsetOnTrack& set, double amplitude) {
  return conicity(
      set, [&](double shift) { return standing(set, shift).difference(); }, amplitude, rigid_places);
}

double equivalent_conicity(const WheelsetOnTrack& set, double amplitude, double load, const Elastic& material) {
  return conicity(
      set, [&](double shift) { return standing(set, shift, load, material).difference(); }, amplitude, loaded_places);
}

} // namespace wingnose::contact
