#include "checks.hpp"

namespace wingnose::track::chain {
namespace {

using detail::not_negative;
using detail::positive;

void whole(bool here, bool wanted, const std::string& whose) {
  if (here != wanted) {
    throw InputError(whose + " lateral values", here ? "given" : "missing",
                     "those of every rail, seat and bearer, or none",
                     here ? "Describe the rails laterally too, or leave these out."
                          : "Give them, or leave the lateral values of the rails out.");
  }
}

void check_section(const LateralRail& rail, const std::string& where) {
  positive(rail.EI, where + " lateral EI", "N m2");
  positive(rail.kappa_GA, where + " lateral kappa_GA", "N");
  not_negative(rail.rho_I, where + " lateral rho_I", "kg m");
}

void check_seat(const LateralSeat& seat, const std::string& where) {
  positive(seat.stiffness, where + " lateral stiffness", "N/m");
  not_negative(seat.damping, where + " lateral damping", "N s/m");
  not_negative(seat.loss, where + " lateral loss", "(-)");
  not_negative(seat.height, where + " height of the rail", "m");
  if (seat.roll_stiffness) {
    positive(*seat.roll_stiffness, where + " roll stiffness", "N m/rad");
  }
  not_negative(seat.roll_damping, where + " roll damping", "N m s/rad");
}

void check_bearer(const LateralBearer& bearer, const std::string& where) {
  not_negative(bearer.stiffness, where + " lateral ballast stiffness", "N/m2");
  not_negative(bearer.damping, where + " lateral ballast damping", "N s/m2");
  not_negative(bearer.loss, where + " lateral ballast loss", "(-)");
  not_negative(bearer.pad_above, where + " pads above the neutral line", "m");
  not_negative(bearer.ballast_below, where + " ballast below the neutral line", "m");
}

} // namespace

void detail::check_lateral(const Model& m) {
  const bool lateral = is_lateral(m);
  for (std::size_t r = 0; r < m.rails.size(); ++r) {
    const std::string whose = "rail " + std::to_string(r + 1);
    whole(m.rails[r].lateral.has_value(), lateral, whose);
    whole(!m.rails[r].lateral_zones.empty() && !lateral, false, whose + " zone");
    if (!lateral) {
      continue;
    }
    check_section(*m.rails[r].lateral, whose);
    for (const LateralRailZone& zone : m.rails[r].lateral_zones) {
      const std::string stretch = number(zone.begin) + " to " + number(zone.end) + " m";
      if (!(zone.begin < zone.end && zone.end > m.bearers.front().x && zone.begin < m.bearers.back().x)) {
        throw InputError(whose + " lateral zone", stretch,
                         "a begin below an end, on the track from " + number(m.bearers.front().x) + " to " +
                             number(m.bearers.back().x) + " m",
                         "Correct the two stations.");
      }
      check_section(zone.rail, whose + " zone " + stretch);
    }
  }
  for (const Bearer& bearer : m.bearers) {
    const std::string where = "bearer at " + number(bearer.x) + " m";
    whole(bearer.lateral.has_value(), lateral, where);
    for (const RailSeat& seat : bearer.seat) {
      whole(seat.lateral.has_value(), lateral, where + " seat");
      if (lateral) {
        check_seat(*seat.lateral, where + " seat");
      }
    }
    if (lateral) {
      check_bearer(*bearer.lateral, where);
    }
  }
}

} // namespace wingnose::track::chain
