// Saturated creep laws against the worked table, and the friction sets of the literature.
#include "published/scoreboard.hpp"
#include "wingnose/contact/tangential/saturation.hpp"

#include <array>
#include <string>

using namespace wingnose::contact;

namespace {

struct SaturationRow {
  double u, cubic, polach; // worked to six decimals
};
constexpr std::array<SaturationRow, 13> rows = {{{0.1, 0.096704, 0.099591},
                                                 {0.25, 0.229745, 0.243790},
                                                 {0.5, 0.421296, 0.454819},
                                                 {0.75, 0.578125, 0.617292},
                                                 {1, 0.703704, 0.733088},
                                                 {1.25, 0.801505, 0.812393},
                                                 {1.5, 0.875, 0.866021},
                                                 {2, 0.962963, 0.927493},
                                                 {2.5, 0.995370, 0.957566},
                                                 {3, 1.0, 0.973428},
                                                 {4, 1.0, 0.987813},
                                                 {6, 1.0, 0.996153},
                                                 {10, 1.0, 0.999141}}};

const Source cubic{Trust::worked, "cubic of Vermeulen and Johnson 1964, Shen, Hedrick, Elkins 1983, evaluated apart"};
const Source polach{Trust::worked, "curve of Polach 2000, evaluated apart"};

} // namespace

TEST_CASE("The cubic law and Polach's curve return the worked saturation table") {
  // Tolerance: half a unit of the sixth decimal.
  for (const SaturationRow& row : rows) {
    const std::string at = " at u " + scoreboard::number(row.u);
    score_abs("cubic F/(mu N)" + at, cubic_saturation(row.u), row.cubic, 0.51e-6, cubic);
    score_abs("Polach F/(mu N)" + at, polach_saturation(row.u), row.polach, 0.51e-6, polach);
  }
}

TEST_CASE("A wheel in pure creepage follows the saturation table through the whole law") {
  const RollingContact contact = rolling_contact(7e-3, 5e-3, 100e3);
  const double limit = 0.3 * 100e3;
  for (const SaturationRow& row : rows) {
    const double xi = row.u * limit / (contact.shear_modulus * contact.a * contact.b * contact.linear.C11);
    const double eta = row.u * limit / (contact.shear_modulus * contact.a * contact.b * contact.linear.C22);
    const std::string at = " at u " + scoreboard::number(row.u);
    score_abs("cubic, longitudinal" + at, -creep_force(Cubic{{0.3}}, contact, {xi, 0, 0}, 30).longitudinal / limit,
              row.cubic, 0.51e-6, cubic);
    score_abs("Polach, lateral" + at, -creep_force(Polach{{0.3}}, contact, {0, eta, 0}, 30).lateral / limit, row.polach,
              0.51e-6, polach);
  }
}

TEST_CASE("Friction of the dry and wet sets falls to A mu0 at very high slip speed") {
  const Source source{Trust::from_memory, "sets of Polach 2005 (medium), an input of ours"};
  const Source product{Trust::worked, "A mu0 of the sets of Polach 2005, recalled (medium)"};
  score("dry friction at rest", friction_coefficient(polach_dry.friction, 0.0), 0.55, 1e-12, source);
  score("dry friction, endless slip speed", friction_coefficient(polach_dry.friction, 1e3), 0.22, 1e-12, product);
  score("wet friction at rest", friction_coefficient(polach_wet.friction, 0.0), 0.30, 1e-12, source);
  score("wet friction, endless slip speed", friction_coefficient(polach_wet.friction, 1e3), 0.12, 1e-12, product);
}
