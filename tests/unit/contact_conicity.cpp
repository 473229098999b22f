// A wheelset on two rails: mirrors, wheels that differ, what is refused.
#include "catch.hpp"
#include "said.hpp"

#include "wingnose/contact/space/conicity.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <utility>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

WheelsetOnTrack s1002() { return alike(profile::s1002(), profile::rail_head("60E1", std::atan(1.0 / 40.0))); }

} // namespace

TEST_CASE("Cones have nearly their own conicity, however far they swing and whatever they carry") {
  const WheelsetOnTrack set = alike(profile::cone(0.05), profile::rail_head("60E1", std::atan(1.0 / 20.0)));
  // A shifted cone rolls and rests a little further across on the crown: conicity grows by some r slope / l, 3 %.
  const double small = equivalent_conicity(set, 1e-3);
  CHECK(small == Approx(0.05).epsilon(0.03));
  CHECK(equivalent_conicity(set, 4e-3) == Approx(small).epsilon(0.005));
  CHECK(equivalent_conicity(set, 4e-3, 50e3) == Approx(small).epsilon(0.005));
}

TEST_CASE("A wheelset shifted to the other side stands mirrored") {
  const WheelsetOnTrack set = s1002();
  for (const bool loaded : {false, true}) {
    const auto stand = [&](double shift) { return loaded ? standing(set, shift, 60e3) : standing(set, shift); };
    const Stand left = stand(2e-3), right = stand(-2e-3);
    CHECK(left.difference() == Approx(-right.difference()).epsilon(1e-6));
    CHECK(left.roll == Approx(-right.roll).epsilon(1e-6));
    CHECK(left.axle_height == Approx(right.axle_height).epsilon(1e-12));
    CHECK(left.wheel_y[0] == Approx(right.wheel_y[1]).margin(1e-8));
    CHECK(left.axle_shift == Approx(2e-3 - 0.46 * left.roll).epsilon(1e-6));
  }
}

TEST_CASE("The less it carries, the more a loaded wheelset stands like a rigid one") {
  const WheelsetOnTrack set = s1002();
  const double rigid = standing(set, 3e-3).difference();
  const double light = std::abs(standing(set, 3e-3, 50.0).difference() - rigid);
  const double heavy = std::abs(standing(set, 3e-3, 100e3).difference() - rigid);
  CHECK(light < 0.001 * rigid);
  CHECK(heavy > 10.0 * light);
}

TEST_CASE("A wheelset with one larger wheel runs towards the smaller one, and swings about there") {
  WheelsetOnTrack set = alike(profile::cone(0.05), profile::rail_head("60E1", std::atan(1.0 / 20.0)));
  set.radius[0] += 0.2e-3; // the wheel at +y
  const double middle = centre(set);
  CHECK(middle < 0.0);
  CHECK(std::abs(standing(set, middle).difference()) < 1e-6);
  // Mirrored, it does so mirrored.
  std::swap(set.radius[0], set.radius[1]);
  CHECK(centre(set) == Approx(-middle).epsilon(1e-3));
  CHECK(equivalent_conicity(set, 2e-3) == Approx(0.05).epsilon(0.03));
  // Of wheels alike but for a hair the conicity is that of wheels alike.
  set = s1002();
  set.radius[0] += 1e-9;
  CHECK(equivalent_conicity(set, 3e-3) == Approx(equivalent_conicity(s1002(), 3e-3)).epsilon(5e-3));
}

TEST_CASE("What a wheelset on two rails cannot be is refused") {
  WheelsetOnTrack set = s1002();
  CHECK(said::has(said::refusal<InputError>([&] { (void)standing(set, 0.2); }), "shift of the wheelset"));
  CHECK(said::has(said::refusal<InputError>([&] { (void)standing(set, 0.0, -1.0); }), "load of a wheel"));
  CHECK(said::has(said::refusal<InputError>([&] { (void)equivalent_conicity(set, 0.0); }), "amplitude of the shift"));
  set.gauge = 1.7;
  CHECK(said::has(said::refusal<ComputeError>([&] { (void)standing(set, 0.0); }), "does not meet its rail"));
}
