// The units keys, columns and tables are written in, and their SI values. Inside everything is SI.
#pragma once

#include <array>
#include <numbers>
#include <stdexcept>
#include <string_view>

namespace wingnose {

struct Unit {
  std::string_view name;
  double to_si = 1.0;  // SI value = to_si * value in this unit
  double per_si = 1.0; // value in this unit = per_si * SI value
};

inline constexpr std::array units{Unit{"-"},
                                  Unit{"%", 1e-2, 1e2},
                                  Unit{"permil", 1e-3, 1e3},
                                  Unit{"1e-6", 1e-6, 1e6},
                                  Unit{"m"},
                                  Unit{"mm", 1e-3, 1e3},
                                  Unit{"um", 1e-6, 1e6},
                                  Unit{"nm", 1e-9, 1e9},
                                  Unit{"mm2", 1e-6, 1e6},
                                  Unit{"mm3", 1e-9, 1e9},
                                  Unit{"cm3", 1e-6, 1e6},
                                  Unit{"1/m"},
                                  Unit{"rad"},
                                  Unit{"mrad", 1e-3, 1e3},
                                  Unit{"deg", std::numbers::pi / 180, 180 / std::numbers::pi},
                                  Unit{"s"},
                                  Unit{"ms", 1e-3, 1e3},
                                  Unit{"us", 1e-6, 1e6},
                                  Unit{"Hz"},
                                  Unit{"m/s"},
                                  Unit{"mm/s", 1e-3, 1e3},
                                  Unit{"km/h", 1 / 3.6, 3.6},
                                  Unit{"mm/s", 1e-3, 1e3},
                                  Unit{"s/m"},
                                  Unit{"m/s2"},
                                  Unit{"N"},
                                  Unit{"kN", 1e3, 1e-3},
                                  Unit{"MN", 1e6, 1e-6},
                                  Unit{"N s"},
                                  Unit{"MN/m", 1e6, 1e-6},
                                  Unit{"GN/m", 1e9, 1e-9},
                                  Unit{"m/N"},
                                  Unit{"nm/N", 1e-9, 1e9},
                                  Unit{"mm/kN", 1e-6, 1e6},
                                  Unit{"MN m2", 1e6, 1e-6},
                                  Unit{"kN s/m", 1e3, 1e-3},
                                  Unit{"N/mm3", 1e9, 1e-9},
                                  Unit{"MN s/m3", 1e6, 1e-6},
                                  Unit{"kN m", 1e3, 1e-3},
                                  Unit{"um/m", 1e-6, 1e6},
                                  Unit{"Pa"},
                                  Unit{"kPa", 1e3, 1e-3},
                                  Unit{"MPa", 1e6, 1e-6},
                                  Unit{"GPa", 1e9, 1e-9},
                                  Unit{"J"},
                                  Unit{"J/mm2", 1e6, 1e-6},
                                  Unit{"kW", 1e3, 1e-3},
                                  Unit{"kg"},
                                  Unit{"kg/m"},
                                  Unit{"kg m"},
                                  Unit{"kg m2"},
                                  Unit{"MGT", 1e9, 1e-9}};

// In a table of the program an unknown unit does not compile.
[[nodiscard]] constexpr const Unit& unit(std::string_view name) {
  for (const Unit& each : units) {
    if (each.name == name) {
      return each;
    }
  }
  throw std::logic_error("a unit that is not in words/unit.hpp");
}

// The unit a key or a name ends in: "point_stiffness_MN_m" in MN/m, "share_percent" in %, "dynamic_factor" in none:
// "-".
[[nodiscard]] constexpr const Unit& unit_of(std::string_view key) {
  const auto spelt = [](char c, char in_key) {
    return in_key == (c == '/' || c == '-' ? '_' : c) || (c == 'H' && in_key == 'h');
  };
  const Unit* longest = &unit("-");
  for (const Unit& each : units) {
    const std::string_view name = each.name == "%" ? "percent" : each.name;
    std::size_t left = key.size();
    bool same = true;
    for (std::size_t i = name.size(); i > 0 && same; --i) {
      if (name[i - 1] != ' ') { // "kN s/m" is spelt kNs_m, ...
        same = left > 0 && spelt(name[i - 1], key[--left]);
      } else if (left > 0 && key[left - 1] == '_') { // ... "MN m2" MN_m2
        --left;
      }
    }
    if (same && left > 0 && key[left - 1] == '_' && name.size() > longest->name.size() - (longest->name == "-")) {
      longest = &each;
    }
  }
  return *longest;
}

// " kN" behind a number, nothing behind one without unit.
[[nodiscard]] constexpr std::string_view shown(const Unit& unit) { return unit.name == "-" ? "" : unit.name; }

} // namespace wingnose
