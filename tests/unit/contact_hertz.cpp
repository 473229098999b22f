#include "catch.hpp"
#include "wingnose/contact/hertz.hpp"
#include "wingnose/error.hpp"

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
  CHECK(says(message_of([] { (void)hertz_shape(1e-9, 1e9); }), "line contact"));
  CHECK(says(message_of([] { (void)hertz_patch(1e5, 2.0, 3.0, {0.0, 0.3}); }), "Young's modulus"));
  CHECK(says(message_of([] { (void)hertz_stiffness(2.0, 3.0, {210e9, 0.7}); }), "Poisson's ratio"));
  CHECK(says(message_of([] { (void)hertz_tangent_stiffness(-1.0, 1e5); }), "Hertz stiffness C_H"));
  CHECK(says(message_of([] { (void)hertz_tangent_stiffness(1e11, -1.0); }), "contact force"));
}
