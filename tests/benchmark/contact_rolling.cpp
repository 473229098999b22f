// How long the tangential laws take, one evaluation each, and the half-space rolling solver; written as JSON with some
// results for the same algorithms in NumPy (contact_rolling.py).
#include "stopwatch.hpp"

#include "wingnose/contact/tangential/rolling.hpp"
#include "wingnose/contact/tangential/rolling_coefficients.hpp"
#include "wingnose/contact/tangential/saturation.hpp"

#include <nlohmann/json.hpp>

#include <iostream>
#include <string>

using namespace wingnose::contact;

namespace {

constexpr double a = 7e-3, b = 5e-3, load = 100e3, mu = 0.3, speed = 30.0;
constexpr Creepage creep{1.5e-3, -1e-3, 0.4};

nlohmann::json forces(const CreepForce& f) { return {f.longitudinal, f.lateral, f.moment}; }

nlohmann::json time_law(const std::string& name, const CreepLaw& law, int evaluations) {
  const RollingContact contact = rolling_contact(a, b, load);
  StripWorkspace ws = make_workspace(law);
  double keep = 0.0; // the sum is used, so the compiler cannot drop the evaluations
  const auto timing = benchmark::repeated(
      15,
      [&] {
        for (int i = 0; i < evaluations; ++i) {
          keep +=
              creep_force(law, contact, {creep.longitudinal + 1e-9 * i, creep.lateral, creep.spin}, speed, ws).lateral;
        }
      },
      evaluations);
  return {{"name", name},
          {"cpu_us", 1e6 * timing.processor_median},
          {"force", forces(creep_force(law, contact, creep, speed, ws))},
          {"sum", keep}};
}

} // namespace

int main() {
  nlohmann::json laws = nlohmann::json::array();
  laws.push_back(time_law("cubic", Cubic{{mu}}, 100000));
  laws.push_back(time_law("Polach", Polach{{mu}}, 100000));
  laws.push_back(time_law("Polach, falling friction", polach_dry, 100000));
  laws.push_back(time_law("simplified 20 x 20", Simplified{{mu}, 20, 20}, 2000));
  laws.push_back(time_law("simplified 40 x 40", Simplified{{mu}, 40, 40}, 500));
  double keep = 0.0;
  const auto table = benchmark::repeated(
      15,
      [&] {
        for (int i = 0; i < 1000; ++i) {
          keep += rolling_contact(a + 1e-9 * i, b, load).linear.C11;
        }
      },
      1000);
  nlohmann::json coefficients = nlohmann::json::array();
  for (const int cells : {8, 16, 24}) {
    CreepCoefficients C{};
    const auto timing = benchmark::repeated(5, [&] { C = half_space_coefficients(a / b, 0.3, cells, cells); });
    coefficients.push_back(
        {{"cells", cells}, {"cpu_ms", 1e3 * timing.processor_median}, {"C", {C.C11, C.C22, C.C23, C.C33}}});
  }
  nlohmann::json rolling = nlohmann::json::array();
  for (const int cells : {8, 16, 24}) {
    RollingMatrix matrix;
    RollingField field;
    const auto making =
        benchmark::repeated(3, [&] { matrix = rolling_matrix(elliptic_mesh(a, b, load, cells, cells)); });
    const auto solving = benchmark::repeated(3, [&] { field = rolling_contact_field(matrix, mu, creep); });
    rolling.push_back({{"cells", cells},
                       {"matrix_cpu_ms", 1e3 * making.processor_median},
                       {"solve_cpu_ms", 1e3 * solving.processor_median},
                       {"steps", field.steps},
                       {"force", forces(field.force)}});
  }
  std::cout << nlohmann::json{{"a_m", a},
                              {"b_m", b},
                              {"load_N", load},
                              {"mu", mu},
                              {"creepage", {creep.longitudinal, creep.lateral, creep.spin}},
                              {"laws", laws},
                              {"table_cpu_us", 1e6 * table.processor_median},
                              {"table_sum", keep},
                              {"coefficients", coefficients},
                              {"rolling", rolling}}
            << '\n';
}
