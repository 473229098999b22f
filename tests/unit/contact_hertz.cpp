#include "catch.hpp"
#include "wingnose/contact/normal/hertz.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <limits>
#include <string>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

template <class Call> std::string message_of(Call call) {
  try {
    call();
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

bool says(const std::string& message, const std::string& part) { return message.find(part) != std::string::npos; }

} // namespace

TEST_CASE("Without force there is no patch, no pressure and no approach") {
  const HertzPatch patch = hertz_patch(0.0, 1.0 / 0.46, 1.0 / 0.3);
  CHECK(patch.a_x == 0.0);
  CHECK(patch.a_y == 0.0);
  CHECK(patch.peak_pressure == 0.0);
  CHECK(patch.approach == 0.0);
}

TEST_CASE("The patch is longer in the flatter direction") {
  const HertzPatch crosswise = hertz_patch(1e5, 1.0 / 0.46, 1.0 / 0.013); // sharp nose edge
  CHECK(crosswise.a_x > crosswise.a_y);
  const HertzPatch conformal = hertz_patch(1e5, 1.0 / 0.46, 1.0 / 3.0); // hollow tread on the rail head
  CHECK(conformal.a_x < conformal.a_y);
}

TEST_CASE("A softer material makes a larger patch with less pressure") {
  const Elastic iron{170e9, 0.28};
  const HertzPatch steel_patch = hertz_patch(1e5, 2.0, 3.0);
  const HertzPatch iron_patch = hertz_patch(1e5, 2.0, 3.0, iron);
  CHECK(iron_patch.a_x > steel_patch.a_x);
  CHECK(iron_patch.peak_pressure < steel_patch.peak_pressure);
  CHECK(hertz_stiffness(2.0, 3.0, iron) / hertz_stiffness(2.0, 3.0) ==
        Approx(iron.combined() / Elastic{}.combined()).epsilon(1e-13));
}

TEST_CASE("Contact refuses impossible input with a message that names it") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(says(message_of([] { (void)hertz_patch(-1.0, 2.0, 3.0); }), "contact force: -1 N"));
  CHECK(says(message_of([nan] { (void)hertz_patch(nan, 2.0, 3.0); }), "contact force"));
  CHECK(says(message_of([] { (void)hertz_patch(1e5, 0.0, 3.0); }), "curvature along the track: 0 1/m"));
  CHECK(says(message_of([] { (void)hertz_patch(1e5, 2.0, -0.5); }), "curvature across the track: -0.5 1/m"));
  CHECK(says(message_of([nan] { (void)hertz_stiffness(nan, 3.0); }), "curvature along the track"));
  CHECK(says(message_of([] { (void)hertz_shape(0.0, 1.0); }), "half curvature A"));
  CHECK(says(message_of([] { (void)hertz_shape(1.0, std::numeric_limits<double>::infinity()); }), "half curvature B"));
  CHECK(says(message_of([] { (void)hertz_patch(1e5, 2.0, 3.0, {0.0, 0.3}); }), "Young's modulus"));
  CHECK(says(message_of([] { (void)hertz_stiffness(2.0, 3.0, {210e9, 0.7}); }), "Poisson's ratio"));
  CHECK(says(message_of([] { (void)hertz_tangent_stiffness(-1.0, 1e5); }), "Hertz stiffness C_H"));
  CHECK(says(message_of([] { (void)hertz_tangent_stiffness(1e11, -1.0); }), "contact force"));
}

TEST_CASE("An edge sharper than a line contact counts as one: no jump where that begins, and no case stops there") {
  const double flat = 2.2, end = 1e12 * flat, step = 1e-7;
  const auto before = hertz_patch(1e5, flat, end * (1.0 - step)), at = hertz_patch(1e5, flat, end),
             after = hertz_patch(1e5, flat, end * (1.0 + step));
  const double stiff = hertz_stiffness(flat, end);
  // Up to the end everything changes with at most the first power of the sharper curvature, beyond it not at all.
  CHECK(std::abs(hertz_stiffness(flat, end * (1.0 - step)) / stiff - 1.0) < step);
  CHECK(std::abs(before.peak_pressure / at.peak_pressure - 1.0) < step);
  CHECK(std::abs(before.approach / at.approach - 1.0) < step);
  CHECK(std::abs(before.a_y / at.a_y - 1.0) < step);
  CHECK(before.peak_pressure != at.peak_pressure);
  for (const double sharp : {end * (1.0 + step), 1e3 * end, 1e300}) {
    CAPTURE(sharp);
    CHECK(hertz_stiffness(flat, sharp) == stiff);
    CHECK(hertz_stiffness(sharp, flat) == stiff);
    const auto patch = hertz_patch(1e5, flat, sharp), turned = hertz_patch(1e5, sharp, flat);
    CHECK(patch.peak_pressure == at.peak_pressure);
    CHECK(patch.approach == at.approach);
    CHECK(patch.a_x == at.a_x);
    CHECK(turned.a_y == at.a_x);
    CHECK(hertz_shape(flat, sharp).ratio == hertz_shape(1.0, 1e12).ratio);
  }
  CHECK(after.a_y == at.a_y);
  CHECK(at.a_y < 1e-6 * at.a_x * 10.0); // no surface is that sharp
  // A sharper edge is softer all the way.
  double last = hertz_stiffness(flat, flat);
  for (double ratio = 10.0; ratio <= 1e12; ratio *= 10.0) {
    CHECK(hertz_stiffness(flat, ratio * flat) < last);
    last = hertz_stiffness(flat, ratio * flat);
  }
}
