// The face of a check rail and the back of a wheel: closed forms against brute force.
#include "catch.hpp"

#include "wingnose/layout/turnout/check_face.hpp"

#include <algorithm>
#include <cmath>
#include <random>

using namespace wingnose;
using namespace wingnose::layout;
using namespace wingnose::layout::turnout;

namespace {

// Deepest point found by looking along the chord.
double deepest(const CheckFace& face, const BackDisc& disc, double axle, int points = 4000) {
  double most = -1e9;
  for (int i = 0; i <= points; ++i) {
    const double x = axle + disc.half_chord * (2.0 * i / points - 1.0);
    if (x >= face.begin() && x <= face.end()) {
      most = std::max(most, disc.y + disc.yaw * (x - axle) - face.at(x));
    }
  }
  return most;
}

struct Dice {
  std::mt19937 twister{7};
  double operator()(double from, double to) { return std::uniform_real_distribution<double>(from, to)(twister); }
};

BackDisc disc_from(Dice& dice) { return {dice(0.036, 0.075), dice(-0.03, 0.03), dice(0.05, 0.3)}; }

} // namespace

TEST_CASE("A check-rail face opens by its flares on both sides") {
  const CheckRail rail;
  const CheckFace face = check_face(rail, 0.041);
  REQUIRE(face.x.size() == 6);
  CHECK(face.begin() == Approx(-1.5 - 1.0 - 0.15));
  CHECK(face.end() == Approx(1.5 + 1.0 + 0.15));
  CHECK(face.at(0.0) == Approx(0.041));
  CHECK(face.at(-2.0) == Approx(0.041 + 0.5 * std::tan(0.015)));
  CHECK(face.width.front() == Approx(0.041 + std::tan(0.015) + 0.15 * std::tan(0.1)));
  CHECK(std::isinf(face.at(-3.0)));
}

TEST_CASE("The chord of a wheel back is that of its disc where the top of the check rail cuts it") {
  CHECK(half_chord(0.46, 0.488, 0.0) == Approx(std::sqrt(0.488 * 0.488 - 0.46 * 0.46)));
  CHECK(half_chord(0.46, 0.488, 0.020) > half_chord(0.46, 0.488, 0.0)); // a raised check rail is met earlier
  CHECK(half_chord(0.46, 0.488, -0.030) == 0.0);                        // below the flange
}

TEST_CASE("The wheel back is deepest in a check rail at an end of its chord or at a corner of the face") {
  Dice dice;
  const CheckFace face = check_face({}, 0.041);
  for (int i = 0; i < 300; ++i) {
    const BackDisc disc = disc_from(dice);
    const double axle = dice(-2.65, 2.65);
    const auto found = depth(face, disc, axle);
    REQUIRE(found);
    const double brute = deepest(face, disc, axle);
    CHECK(found->depth >= brute - 1e-12);
    CHECK(found->depth - brute < 2.0 * disc.half_chord / 4000 * 0.14); // a step of the search times the steepest slope
  }
  CHECK_FALSE(depth(face, {0.045, 0.0, 0.1}, 5.0));
}

TEST_CASE("First contact of a wheel back with a check rail, facing and trailing, is where brute force finds it") {
  Dice dice;
  const CheckFace face = check_face({}, 0.041);
  int met = 0, corners = 0;
  for (int i = 0; i < 120; ++i) {
    const BackDisc disc = disc_from(dice);
    for (const Direction direction : {Direction::facing, Direction::trailing}) {
      const auto found = first_contact(face, disc, direction);
      const double along = sense(direction);
      std::optional<double> brute;
      for (double s = -3.2; s <= 3.2 && !brute; s += 0.001) {
        if (const auto d = depth(face, disc, along * s); d && d->depth >= 0.0) {
          brute = along * s;
        }
      }
      CAPTURE(disc.y, disc.yaw, disc.half_chord, along);
      REQUIRE(found.has_value() == brute.has_value());
      if (found) {
        ++met;
        CHECK(std::abs(found->axle - *brute) < 0.0011);
        // There it touches, and a little before it does not. At an open end rounding decides which side a place lies
        // on.
        const auto there = depth(face, disc, found->axle + along * 1e-13);
        REQUIRE(there);
        const double touching = there->depth;
        const bool at_open_end = found->where == face.begin() || found->where == face.end();
        CHECK((at_open_end ? touching >= -1e-12 : std::abs(touching) < 1e-12));
        const auto before = depth(face, disc, found->axle - along * 1e-6);
        CHECK((!before || before->depth < 0.0));
        corners += std::abs(found->where - found->axle) < 0.999 * disc.half_chord ? 1 : 0;
      }
    }
  }
  CHECK(met > 100);
  CHECK(corners > 3); // all three ways of touching were among them
}

TEST_CASE("A straight wheelset meets the flare where the flangeway has narrowed to its back") {
  const CheckFace face = check_face({}, 0.041);
  const auto met = first_contact(face, {0.047, 0.0, 0.16}); // 6 mm into the parallel part
  REQUIRE(met);
  CHECK(met->where == Approx(-1.5 - 0.006 / std::tan(0.015)));
  CHECK(met->axle == Approx(met->where - 0.16));
  CHECK_FALSE(first_contact(face, {0.040, 0.0, 0.16}));
}
