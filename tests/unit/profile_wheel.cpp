#include "catch.hpp"

#include "wingnose/profile/wheel.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <string>

using namespace wingnose;
using profile::Hollow;

namespace {

template <class F> std::string refusal(F&& make) {
  try {
    make();
  } catch (const InputError& e) {
    return e.what();
  }
  return "accepted";
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_CASE("S1002 reaches from the flange back to the tread end") {
  const auto wheel = profile::s1002();
  CHECK(wheel.name == "S1002");
  CHECK(wheel.y_min() == -0.070);
  CHECK(wheel.y_max() == 0.060);
  CHECK(wheel.height(0.0) == 0.0);
  CHECK(wheel.at(-0.070).slope == profile::steepest_slope); // the back of the flange runs out vertically
}

TEST_CASE("S1002 falls from the flange tip to the field side without a step up") {
  const auto wheel = profile::s1002();
  double before = wheel.height(-0.055);
  for (double y = -0.0549; y < 0.060; y += 1e-4) {
    const double here = wheel.height(y);
    REQUIRE(here < before);
    before = here;
  }
}

TEST_CASE("A cone has no flange and is named by its conicity") {
  const auto wheel = profile::cone(1.0 / 40.0);
  CHECK(wheel.name == "cone 1:40");
  CHECK(wheel.y_min() == -0.030);
  CHECK(wheel.y_max() == 0.060);
  CHECK(profile::cone(0.0).name == "cylinder");
  CHECK(says(refusal([] { (void)profile::cone(20.0); }), "not its inverse"));
}

TEST_CASE("A hollow lowers the tread by its depth, leaves flange and rim, and raises a false flange beside it") {
  const auto base = profile::s1002();
  const auto worn = profile::hollow_worn(base, {0.003, 0.060, 0.0});
  CHECK(worn.name == "S1002, hollow 3 mm");
  CHECK(worn.height(0.0) == Approx(-0.003).epsilon(1e-14));
  CHECK(worn.height(-0.035) == base.height(-0.035));
  CHECK(worn.height(0.050) == base.height(0.050));
  double lowest = 0.0;
  for (double y = -0.020; y < 0.030; y += 1e-4) {
    lowest = std::min(lowest, worn.height(y));
  }
  CHECK(worn.height(0.031) > lowest + 0.0015); // the rim outside the hollow stands out: a false flange
  CHECK(profile::hollow_worn(base, {0.0, 0.060, 0.0}).height(0.003) == base.height(0.003));
}

TEST_CASE("A hollow that cannot be meant is refused with the admissible range") {
  const auto base = profile::s1002();
  CHECK(says(refusal([&] { (void)profile::hollow_worn(base, Hollow{-0.001, 0.060, 0.0}); }), "0 to 10 mm"));
  CHECK(says(refusal([&] {
               (void)profile::hollow_worn(base, Hollow{2.0, 0.060, 0.0});
             }),
             "depth of the hollow: 2e+03 mm"));
  CHECK(says(refusal([&] { (void)profile::hollow_worn(base, Hollow{0.001, 0.0, 0.0}); }), "width of the hollow: 0 mm"));
  CHECK(says(refusal([&] { (void)profile::hollow_worn(base, Hollow{0.001, 0.060, 0.080}); }), "-70 mm to 60 mm"));
}
