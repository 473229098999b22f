#include "wingnose/profile/rail.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>

namespace wingnose::profile {
namespace {

// As printed in EN 13674-1 and in suppliers' tables: area in cm2, mass in kg/m, moment of inertia about the horizontal
// axis in cm4. Which of them were seen in print and which are recalled is said in `status`. Height of the neutral axis
// over the foot in mm, from memory throughout: the section modulus at the foot is the inertia over it; 0 where it is
// not known.
struct Printed {
  std::string_view name;
  double area_cm2, mass_kg_m, inertia_cm4;
  std::string_view status;
  double axis_mm = 0.0;
};

constexpr std::array printed{
    Printed{"60E1", 76.70, 60.21, 3038.3,
            "area and mass seen in a supplier's table after EN 13674-1; inertia from memory", 80.95},
    Printed{"60E2", 76.48, 60.03, 3021.5, "from memory"},
    Printed{"54E1", 69.77, 54.77, 2337.9, "from memory", 74.97},
    Printed{"54E2", 68.56, 53.82, 2307.0, "from memory"},
    Printed{"54E3", 69.52, 54.57, 2074.0, "from memory"},
    Printed{"56E1", 71.69, 56.30, 2321.0, "from memory"},
    Printed{"49E1", 62.92, 49.39, 1816.0, "mass seen in a supplier's table; area and inertia from memory", 73.0},
};

} // namespace

RailSection rail_section(std::string_view name) {
  const auto row = std::find_if(printed.begin(), printed.end(), [&](const Printed& p) { return p.name == name; });
  if (row == printed.end()) {
    std::string known;
    for (const std::string& n : rail_section_names()) {
      known += (known.empty() ? "" : ", ") + n;
    }
    throw InputError("rail section", "\"" + std::string(name) + "\"", known,
                     "Choose one of these, or give area, mass and inertia yourself.");
  }
  const double inertia = row->inertia_cm4 * 1e-8;
  return {std::string(row->name),   row->area_cm2 * 1e-4,
          row->mass_kg_m,           inertia,
          std::string(row->status), row->axis_mm > 0.0 ? inertia / (1e-3 * row->axis_mm) : 0.0};
}

std::vector<std::string> rail_section_names() {
  std::vector<std::string> names;
  names.reserve(printed.size());
  for (const Printed& p : printed) {
    names.emplace_back(p.name);
  }
  return names;
}

} // namespace wingnose::profile
