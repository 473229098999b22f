#include "wingnose/track/track.hpp"
#include "wingnose/words/error.hpp"

#include <string>

namespace wingnose::track {

RailProperties steel_rail(double area, double inertia, double mass_per_m, double kappa) {
  const auto positive = [](double value, const char* name) {
    if (!(value > 0.0 && value < 1e9)) {
      throw InputError(std::string("steel rail ") + name, number(value), "above 0 and finite, in SI units",
                       "Correct the value.");
    }
  };
  positive(area, "area (m2)");
  positive(inertia, "inertia (m4)");
  positive(mass_per_m, "mass (kg/m)");
  positive(kappa, "shear coefficient kappa");
  constexpr double E = 210e9; // N/m2, steel
  constexpr double nu = 0.3;
  constexpr double G = E / (2.0 * (1.0 + nu));
  // Density from mass and area of this rail, so that rotary inertia fits the mass given.
  return {E * inertia, kappa * G * area, mass_per_m, mass_per_m / area * inertia};
}

} // namespace wingnose::track
