#include "wingnose/assess/steel.hpp"

#include "wingnose/words/error.hpp"

#include <cmath>
#include <numbers>

namespace wingnose::assess {
namespace {

// Share of the gain that n wheels have brought.
double hardened(const WorkHardening& h, double wheels) { return -std::expm1(-wheels / h.wheels); }

std::vector<Steel> make_grades() {
  return {
      {"R200", 350e6, 680e6, from_brinell(200), {}, "strength and hardness read, proof stress from memory (low)"},
      {"Mn", 380e6, 740e6, from_brinell(200), WorkHardening{},
       "cast austenitic manganese steel; hardness read, proof stress from memory (medium), hardened state from memory "
       "(shear yield low, 500 HB medium), rate of hardening from memory (low)"},
      {"R220", 400e6, 770e6, from_brinell(220), {}, "from memory (low)"},
      {"AS carbon", 420e6, 880e6, from_brinell(260), {}, "Australian standard carbon rail, read"},
      {"R260", 480e6, 880e6, from_brinell(260), {}, "strength and hardness read, proof stress from memory (medium)"},
      {"Mn explosion hardened", 667e6, 900e6, from_brinell(360), WorkHardening{400e6, from_brinell(500), 50e3},
       "manganese steel; hardness read (360 HB), proof stress, strength and further hardening from memory (low)"},
      {"R350HT",
       745e6,
       1175e6,
       from_brinell(350),
       {},
       "strength and hardness read, proof stress from memory (medium; shear yield 400 to 460 MPa)"},
      {"R400HT", 850e6, 1280e6, from_brinell(400), {}, "from memory (low)"},
  };
}

} // namespace

void check(const Steel& s) {
  if (!(s.proof_stress >= 50e6 && s.proof_stress < 5e9)) {
    throw InputError("proof stress of steel \"" + s.name + "\"", number(s.proof_stress * 1e-6) + " MPa",
                     "50 to 5000 MPa", "Rail steels have 350 to 900 MPa.");
  }
  if (!(s.tensile_strength >= s.proof_stress && s.tensile_strength < 5e9)) {
    throw InputError("tensile strength of steel \"" + s.name + "\"", number(s.tensile_strength * 1e-6) + " MPa",
                     "from the proof stress to 5000 MPa", "Rail steels have 680 to 1400 MPa.");
  }
  if (!(s.hardness >= 100e6 && s.hardness < 2e10)) {
    throw InputError("hardness of steel \"" + s.name + "\"", number(s.hardness * 1e-6) + " MPa", "100 to 20000 MPa",
                     "A Brinell number times 9.80665 MPa; rail steels have 200 to 440.");
  }
  if (!s.hardening) {
    return;
  }
  const WorkHardening& h = *s.hardening;
  if (!(h.shear_yield >= s.proof_stress / std::numbers::sqrt3 && h.shear_yield < 5e9 && h.hardness >= s.hardness &&
        h.hardness < 2e10)) {
    throw InputError("work-hardened state of steel \"" + s.name + "\"",
                     number(h.shear_yield * 1e-6) + " MPa in shear, hardness " + number(h.hardness * 1e-6) + " MPa",
                     "not below the new steel", "Hardening only raises yield and hardness.");
  }
  if (!(h.wheels > 0.0 && std::isfinite(h.wheels))) {
    throw InputError("wheels that harden steel \"" + s.name + "\"", number(h.wheels), "above 0",
                     "The number of wheels that brings 63 % of the gain.");
  }
}

double shear_yield(const Steel& s, double wheels) {
  const double fresh = s.proof_stress / std::numbers::sqrt3; // von Mises
  return s.hardening ? fresh + (s.hardening->shear_yield - fresh) * hardened(*s.hardening, wheels) : fresh;
}

double wear_hardness(const Steel& s, double wheels) {
  return s.hardening ? s.hardness + (s.hardening->hardness - s.hardness) * hardened(*s.hardening, wheels) : s.hardness;
}

const std::vector<std::string>& steel_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> list;
    for (const Steel& s : make_grades()) {
      list.push_back(s.name);
    }
    return list;
  }();
  return names;
}

Steel steel(std::string_view name) {
  for (Steel& s : make_grades()) {
    if (s.name == name) {
      return std::move(s);
    }
  }
  std::string known;
  for (const std::string& one : steel_names()) {
    known += (known.empty() ? "" : ", ") + one;
  }
  throw InputError("steel", "\"" + std::string(name) + "\"", known,
                   "Write the grade as listed, or give proof stress, strength and hardness.");
}

} // namespace wingnose::assess
