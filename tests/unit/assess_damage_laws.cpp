// Laws of damage at their edges, and what they refuse.
#include "catch.hpp"

#include "wingnose/assess/fatigue.hpp"
#include "wingnose/assess/shakedown.hpp"
#include "wingnose/assess/steel.hpp"
#include "wingnose/assess/wear.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

using namespace wingnose;
using namespace wingnose::assess;

namespace {

template <class Work> std::string refusal(Work work) {
  try {
    work();
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}
bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

} // namespace

TEST_CASE("Manganese steel hardens from its new to its hardened state, most of it by the first wheels") {
  const Steel mn = steel("Mn");
  REQUIRE(mn.hardening);
  const double fresh = mn.proof_stress / std::sqrt(3.0), full = mn.hardening->shear_yield;
  CHECK(shear_yield(mn) == Approx(fresh).epsilon(1e-14));
  CHECK(shear_yield(mn, mn.hardening->wheels) ==
        Approx(fresh + (full - fresh) * (1.0 - std::exp(-1.0))).epsilon(1e-14));
  CHECK(shear_yield(mn, 1e9) == Approx(full).epsilon(1e-14));
  CHECK(wear_hardness(mn, 1e9) == Approx(mn.hardening->hardness).epsilon(1e-14));
  double last = 0.0;
  for (double wheels = 0.0; wheels < 5e5; wheels += 1e4) {
    CHECK(shear_yield(mn, wheels) > last);
    last = shear_yield(mn, wheels);
  }
}

TEST_CASE("A rail steel without hardening keeps its yield whatever rolls over it") {
  CHECK(shear_yield(steel("R260"), 1e7) == shear_yield(steel("R260")));
  CHECK(wear_hardness(steel("R260"), 1e7) == wear_hardness(steel("R260")));
}

TEST_CASE("Every grade known by name can be had, is sound and says how far its numbers are trusted") {
  REQUIRE(steel_names().size() >= 6);
  for (const std::string& name : steel_names()) {
    const Steel s = steel(name);
    CHECK(s.name == name);
    CHECK_NOTHROW(check(s));
    CHECK((has(s.trust, "read") || has(s.trust, "memory")));
  }
}

TEST_CASE("A harder rail grade yields later, in the order of the standard") {
  for (const auto& [soft, hard] :
       {std::pair{"R200", "R220"}, {"R220", "R260"}, {"R260", "R350HT"}, {"R350HT", "R400HT"}}) {
    CHECK(shear_yield(steel(soft)) < shear_yield(steel(hard)));
    CHECK(wear_hardness(steel(soft)) < wear_hardness(steel(hard)));
  }
}

TEST_CASE("Steels that cannot exist are refused with advice") {
  CHECK(has(refusal([] { (void)steel("R261"); }), "R260"));
  CHECK(has(refusal([] { check(Steel{.proof_stress = -1.0}); }), "proof stress"));
  CHECK(has(refusal([] { check(Steel{.proof_stress = 480.0}); }), "50 to 5000 MPa")); // MPa given for Pa
  CHECK(has(refusal([] { check(Steel{.tensile_strength = 400e6}); }), "tensile strength"));
  CHECK(has(refusal([] { check(Steel{.hardness = std::nan("")}); }), "hardness"));
  CHECK(has(refusal([] { check(Steel{.hardening = WorkHardening{.shear_yield = 100e6}}); }), "work-hardened"));
  CHECK(has(refusal([] { check(Steel{.hardening = WorkHardening{.wheels = 0.0}}); }), "wheels that harden"));
}

TEST_CASE("Wear, cracks and fatigue refuse inputs without meaning") {
  CHECK(has(refusal([] { (void)surface_fatigue_index(0.3, 0.0, 1e-3, 300e6, 1e5); }), "semi-axes"));
  CHECK(has(refusal([] { (void)surface_fatigue_index(-0.1, 1e-3, 1e-3, 300e6, 1e5); }), "traction coefficient"));
  CHECK(has(refusal([] { check(CrackFunction{.peak = 10.0}); }), "threshold"));
  CHECK(has(refusal([] { check(WearMap{.mild = -1.0}); }), "wear coefficients"));
  CHECK(has(refusal([] { check(WearMap{.mild_from = 0.1}); }), "limits of the wear map"));
}

TEST_CASE("More traction never allows more pressure, and first yield never comes after shakedown") {
  for (const auto shape : {ContactShape::line, ContactShape::circle}) {
    const ShakedownMap map(shape);
    double yield = 10.0, shakedown = 10.0;
    for (double f = 0.0; f < 1.5; f += 0.01) {
      CHECK(map.elastic_shakedown(f) <= shakedown);
      CHECK(map.first_yield(f) <= yield);
      CHECK(map.first_yield(f) <= map.elastic_shakedown(f) * (1.0 + 1e-12));
      CHECK(map.elastic_shakedown(f) <= (f > 0.0 ? 1.0 / f * (1.0 + 1e-12) : 10.0));
      yield = map.first_yield(f);
      shakedown = map.elastic_shakedown(f);
    }
  }
}

TEST_CASE("The tabulated shakedown limit is that of a fine search through the stresses of a line contact") {
  const ShakedownMap map;
  for (const double f : {0.0, 0.1, 0.23, 0.31}) {
    double most = f;
    for (double z = 0.01; z < 1.2; z += 0.004) {
      for (double x = -1.3; x < 1.3; x += 0.004) {
        most = std::max(most, std::abs(line_contact_stress(x, z, f).tau_xz));
      }
    }
    CHECK(map.elastic_shakedown(f) == Approx(1.0 / most).epsilon(3e-4));
  }
}
