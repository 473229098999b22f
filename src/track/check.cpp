#include "check.hpp"

#include "wingnose/words/error.hpp"

#include <cmath>
#include <string>
#include <string_view>

namespace wingnose::track::detail {
namespace {

void positive(double value, const std::string& name, std::string_view unit) {
  if (!(std::isfinite(value) && value > 0.0)) {
    throw InputError("track " + name, number(value) + " " + std::string(unit), "above 0 and finite",
                     "Correct the value.");
  }
}

void not_negative(double value, const std::string& name, std::string_view unit) {
  if (!(std::isfinite(value) && value >= 0.0)) {
    throw InputError("track " + name, number(value) + " " + std::string(unit), "0 or above and finite",
                     "Correct the value.");
  }
}

void within(int value, int low, int high, const std::string& name, std::string_view advice) {
  if (value < low || value > high) {
    throw InputError("track " + name, std::to_string(value), std::to_string(low) + " to " + std::to_string(high),
                     advice);
  }
}

void check_rail(const RailProperties& rail, const std::string& where) {
  positive(rail.EI, where + " EI", "N m2");
  positive(rail.kappa_GA, where + " kappa_GA", "N");
  positive(rail.rho_A, where + " rho_A", "kg/m");
  not_negative(rail.rho_I, where + " rho_I", "kg m");
}

void check_seat(const Seat& seat, const std::string& where) {
  not_negative(seat.pad_stiffness, where + " pad_stiffness", "N/m");
  not_negative(seat.pad_damping, where + " pad_damping", "N s/m");
  not_negative(seat.pad_loss, where + " pad_loss", "(-)");
  positive(seat.bearer_mass, where + " bearer_mass", "kg");
  not_negative(seat.ballast_stiffness, where + " ballast_stiffness", "N/m");
  not_negative(seat.ballast_damping, where + " ballast_damping", "N s/m");
  not_negative(seat.ballast_loss, where + " ballast_loss", "(-)");
}

} // namespace

void check_track(const Track& track) {
  check_rail(track.rail, "rail");
  check_seat(track.seat, "seat");
  positive(track.spacing, "spacing", "m");
  within(track.bays, 1, 5000, "bays", "Forty bays are enough for a well damped track.");
  within(track.elements_per_bay, 1, 200, "elements_per_bay", "Six to twelve are usual.");
  positive(track.cut_off, "cut_off", "Hz");
  not_negative(track.rail_loss, "rail_loss", "(-)");
  if (!std::isfinite(track.first_seat)) {
    throw InputError("track first_seat", number(track.first_seat) + " m", "any finite station", "Correct the value.");
  }
  if (!std::isfinite(track.centre)) {
    throw InputError("track centre", number(track.centre) + " m", "any finite station", "Correct the value.");
  }
  for (const auto& zone : track.zones) {
    const std::string where = "rail zone " + number(zone.begin) + " to " + number(zone.end) + " m";
    if (!(std::isfinite(zone.begin) && std::isfinite(zone.end) && zone.begin < zone.end)) {
      throw InputError("track rail zone", number(zone.begin) + " to " + number(zone.end) + " m",
                       "a finite begin below a finite end", "Swap or correct the two stations.");
    }
    check_rail(zone.rail, where);
  }
  for (const auto& change : track.overrides) {
    check_seat(change.seat, "seat at " + number(change.station) + " m");
  }
}

void check_zone_hit(const RailZone& zone, bool hit, double begin, double end) {
  if (!hit) {
    throw InputError("track rail zone", number(zone.begin) + " to " + number(zone.end) + " m",
                     "a stretch that holds the middle of an element between " + number(begin) + " and " + number(end) +
                         " m",
                     "Move the zone, add bays or raise elements_per_bay.");
  }
}

void check_override_distance(double station, double nearest, double spacing) {
  // A little slack, so that a station exactly half way still finds its seat.
  if (!(std::abs(station - nearest) <= 0.5 * spacing * (1.0 + 1e-6))) {
    throw InputError("track seat override", number(station) + " m",
                     "within half a spacing of a seat (the nearest is at " + number(nearest) + " m)",
                     "Move the station, or model more bays.");
  }
}

void refuse_second_override(double seat_station) {
  throw InputError("track seat override", "a second one for the seat at " + number(seat_station) + " m", "one per seat",
                   "Remove one of the two.");
}

void check_station(double x, double begin, double end) {
  if (!(x >= begin && x <= end)) {
    throw InputError("track station", number(x) + " m", number(begin) + " to " + number(end) + " m",
                     "Model more bays, or move the centre.");
  }
}

void refuse_loose_track() {
  throw ComputeError("track: the rail can move without resistance (static stiffness is singular); give pads and "
                     "ballast of at least two seats a stiffness above 0.");
}

} // namespace wingnose::track::detail
