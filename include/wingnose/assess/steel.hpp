// Steels of rails and crossings: what a contact does to them depends on yield in shear and hardness.
//
// Shear yield after von Mises: k = proof stress / sqrt(3) (Johnson 1985, ch. 6). Grades after EN 13674-1; tensile
// strength and hardness are the standard's lowest values, the proof stress is no requirement there and stands for the
// usual product. `trust` says for each grade what was read and what is quoted from memory.
//
// Work hardening (austenitic manganese steel): shear yield and hardness grow with the wheels that have loaded a place,
//   k(n) = k_0 + (k_s - k_0) (1 - exp(-n / n_0)),
// a saturating law between bounds; the law is our own choice of the simplest curve, bounds and rate are inputs. SI.
#pragma once

#include "wingnose/words/column.hpp"

#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::assess {

struct WorkHardening {
  double shear_yield = 385e6; // Pa, reached after many wheels, not below that of the new steel
  double hardness = 4.9e9;    // Pa, likewise
  double wheels = 50e3;       // -, > 0, that bring 63 % of the gain
  [[nodiscard]] friend bool operator==(const WorkHardening&, const WorkHardening&) = default;
};

struct Steel {
  std::string name = "R260";
  double proof_stress = 480e6;     // Pa, >= 50 MPa, 0.2 % offset, in tension
  double tensile_strength = 880e6; // Pa, not below the proof stress
  double hardness = 2.5497e9;      // Pa, >= 100 MPa, Brinell number times 9.80665 MPa
  std::optional<WorkHardening> hardening = std::nullopt;
  std::string trust = "user";
  [[nodiscard]] friend bool operator==(const Steel&, const Steel&) = default;
};

// Throws InputError for a value out of its range.
void check(const Steel& steel);

// wheels: that have loaded the place before, >= 0.
[[nodiscard]] double shear_yield(const Steel& steel, double wheels = 0.0);   // Pa
[[nodiscard]] double wear_hardness(const Steel& steel, double wheels = 0.0); // Pa

inline constexpr auto new_steel_columns = std::to_array<Column<Steel>>(
    {{"shear_yield_MPa", "k", "yield in shear of the new steel", [](const Steel& s) { return shear_yield(s); }, 0},
     {"hardness_MPa", "hardness", "of the new steel", &Steel::hardness, 0}});
// NaN where it does not harden.
[[nodiscard]] inline double hardened(const Steel& s, double WorkHardening::*value) {
  return s.hardening ? (*s.hardening).*value : std::numeric_limits<double>::quiet_NaN();
}
inline constexpr auto hardened_columns =
    std::to_array<Column<Steel>>({{"hardened_shear_yield_MPa", "", "after many wheels; none: it does not harden",
                                   [](const Steel& s) { return hardened(s, &WorkHardening::shear_yield); }, 0},
                                  {"hardened_hardness_MPa", "", "after many wheels",
                                   [](const Steel& s) { return hardened(s, &WorkHardening::hardness); }, 0},
                                  {"hardening_wheels", "", "wheels that bring 63 % of the gain",
                                   [](const Steel& s) { return hardened(s, &WorkHardening::wheels); }, 0}});

// Brinell number to Pa (kgf/mm2).
[[nodiscard]] constexpr double from_brinell(double number) { return number * 9.80665e6; }

// The grades known by name, softest first.
[[nodiscard]] const std::vector<std::string>& steel_names();
[[nodiscard]] Steel steel(std::string_view name); // throws InputError

} // namespace wingnose::assess
