#include "wingnose/assess/wear.hpp"

#include "wingnose/words/error.hpp"

#include <cmath>

namespace wingnose::assess {

void check(const WearMap& m) {
  if (!(m.mild >= 0.0 && m.severe >= 0.0 && m.seizure >= 0.0 && std::isfinite(m.mild + m.severe + m.seizure))) {
    throw InputError("wear coefficients", number(m.mild) + ", " + number(m.severe) + ", " + number(m.seizure),
                     "0 or more", "Published middles: 5.5e-4, 35e-4, 350e-4.");
  }
  if (!(m.mild_up_to > 0.0 && m.mild_from > m.mild_up_to && m.seizure_from > 0.0 &&
        std::isfinite(m.mild_from + m.seizure_from))) {
    throw InputError("limits of the wear map",
                     number(m.mild_up_to) + " m/s, " + number(m.mild_from) + " m/s, " + number(m.seizure_from),
                     "rising slip speeds above 0, pressure over hardness above 0", "Published: 0.2 m/s, 0.7 m/s, 0.8.");
  }
}

double wear_coefficient(double slip_speed, double pressure, double hardness, const WearMap& m) {
  if (pressure > m.seizure_from * hardness) { // Jendel 2002
    return m.seizure;
  }
  return slip_speed < m.mild_up_to || slip_speed > m.mild_from ? m.mild : m.severe;
}

// Less friction can wear more. Archard's law counts the distance slid under load, not the work of friction. The energy
// a landing rubs away is that of spinning the wheel up to its new rolling radius, I (jump of omega)^2 / 2 whatever the
// friction; the distance times the load is that energy over the friction: with half of it the wheel slides twice as
// far. Against this works the map: with much friction part of the patch adheres and what slips behind it slips faster,
// into severe wear. On the demo crossing (R350HT, slip of up to 0.23 m/s, the map's border at 0.2 m/s) friction 0.15
// and 0.3 rub away 9.7 and 10.2 J, a third and three fifths of it severe: 0.029 and 0.023 mm3. Steel that is wet or
// greasy wears less for another reason, the film, which this dry map does not know: lower the coefficients with it.
// Pinned by tests/identities/assess_damage_friction.cpp.
double archard_volume(double coefficient, double force, double distance, double hardness) {
  return coefficient * force * distance / hardness; // Archard 1953
}

double energy_wear_rate(double t_gamma_over_area) {
  const double x = t_gamma_over_area * 1e-6;                                            // N/mm2
  const double rate = x < 10.4 ? 5.3 * x : x <= 77.2 ? 55.1 : 55.1 + 61.9 * (x - 77.2); // ug/m/mm2
  return rate * 1e-3;                                                                   // kg/m/m2
}

} // namespace wingnose::assess
