// Columns that stand beside a struct: their unit is the last part of their key.
#include "catch.hpp"

#include "wingnose/words/column.hpp"

using namespace wingnose;

namespace {

struct Spring {
  double stiffness = 0.0, damping = 0.0; // N/m, N s/m
  std::vector<double> force;             // N
};
constexpr auto spring_columns = std::to_array<Column<Spring>>(
    {{"stiffness_MN_m", "stiffness", "of the spring", &Spring::stiffness, 1},
     {"damping_kNs_m", "damper", "beside it", &Spring::damping},
     {"time_s", "time", "of relaxation", [](const Spring& s) { return s.damping / s.stiffness; }, 3}});
constexpr ListColumn<Spring> force_column{"force_kN", "force", "at each instant", &Spring::force};

} // namespace

TEST_CASE("A key tells its unit by its last part, and every unit can be told so") {
  for (const auto& [key, name] :
       {std::pair{"station_mm", "mm"}, std::pair{"length_m", "m"}, std::pair{"spin_1_m", "1/m"},
        std::pair{"speed_km_h", "km/h"}, std::pair{"acceleration_m_s2", "m/s2"}, std::pair{"impulse_Ns", "N s"},
        std::pair{"damping_kNs_m", "kN s/m"}, std::pair{"frequency_hz", "Hz"}, std::pair{"share_percent", "%"},
        std::pair{"creepage_permil", "permil"}, std::pair{"crack_damage_1e_6", "1e-6"},
        std::pair{"energy_J_mm2", "J/mm2"}, std::pair{"receptance_nm_N", "nm/N"}, std::pair{"dynamic_factor", "-"},
        std::pair{"EI_MN_m2", "MN m2"}, std::pair{"inertia_kg_m2", "kg m2"}, std::pair{"cut_off_Hz", "Hz"},
        std::pair{"wheels", "-"}, std::pair{"m", "-"}}) {
    CAPTURE(key);
    CHECK(unit_of(key).name == name);
  }
  for (const Unit& each : units) {
    std::string key = "value_";
    for (const char c : each.name == "%" ? std::string_view("percent") : each.name) {
      key += c == ' ' ? "" : std::string(1, c == '/' || c == '-' ? '_' : c == 'H' ? 'h' : c);
    }
    CAPTURE(key);
    CHECK(unit_of(key).name == each.name);
  }
}

TEST_CASE("A column reads a member or what follows from it") {
  const Spring spring{20e6, 40e3, {1e3, 2e3}};
  CHECK(spring_columns[0](spring) == 20e6);
  CHECK(spring_columns[0].unit.name == "MN/m");
  CHECK(spring_columns[1](spring) == 40e3);
  CHECK(spring_columns[2](spring) == Approx(2e-3));
  CHECK(force_column(spring) == std::vector<double>{1e3, 2e3});
}
