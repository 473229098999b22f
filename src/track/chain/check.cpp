#include "checks.hpp"

#include "wingnose/numeric/overloaded.hpp"
#include "wingnose/track/chain/chain.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace wingnose::track::chain {
namespace {

using detail::not_negative;
using detail::positive;
using detail::within;

void check_rail(const Rail& rail, const std::string& whose, double begin, double end) {
  const auto section = [&](const RailProperties& r, const std::string& where) {
    positive(r.EI, where + " EI", "N m2");
    positive(r.kappa_GA, where + " kappa_GA", "N");
    positive(r.rho_A, where + " rho_A", "kg/m");
    not_negative(r.rho_I, where + " rho_I", "kg m");
  };
  section(rail.section, whose);
  for (const RailZone& zone : rail.zones) {
    const std::string stretch = number(zone.begin) + " to " + number(zone.end) + " m";
    if (!(zone.begin < zone.end && zone.end > begin && zone.begin < end)) {
      throw InputError(whose + " zone", stretch,
                       "a begin below an end, on the track from " + number(begin) + " to " + number(end) + " m",
                       "Correct the two stations.");
    }
    section(zone.rail, whose + " zone " + stretch);
  }
}

void check_knee(const std::optional<double>& knee, double beyond, const std::string& where) {
  if (knee) {
    positive(*knee, where + " knee", "m");
    not_negative(beyond, where + " stiffness_beyond", "N/m");
  }
}

void check_ballast(const Ballast& b, const std::string& where) {
  not_negative(b.stiffness, where + " stiffness", "N/m2");
  not_negative(b.damping, where + " damping", "N s/m2");
  not_negative(b.loss, where + " loss", "(-)");
  check_knee(b.knee, b.stiffness_beyond, where);
}

void check_pad(const Pad& p, const std::string& where) {
  positive(p.stiffness, where + " stiffness", "N/m");
  not_negative(p.damping, where + " damping", "N s/m");
  not_negative(p.loss, where + " loss", "(-)");
  check_knee(p.knee, p.stiffness_beyond, where);
  if (p.clip_load) {
    positive(*p.clip_load, where + " clip load", "N");
  }
}

void check_beam(const BeamBearer& beam, const Bearer& b, const std::string& where) {
  positive(beam.to - beam.from, where + " length", "m");
  positive(beam.mass_per_m, where + " mass_per_m", "kg/m");
  positive(beam.EI, where + " EI", "N m2");
  positive(beam.depth, where + " depth", "m");
  if (beam.coordinates != 0) {
    const auto seats = static_cast<int>(b.seat.size());
    within(beam.coordinates, std::max(4, 2 + seats), std::max(12, 10 + seats), where + " coordinates");
  }
  for (const RailSeat& seat : b.seat) {
    if (!(seat.y > beam.from && seat.y < beam.to)) {
      throw InputError(where + " seat", number(seat.y) + " m across",
                       "within the bearer, " + number(beam.from) + " to " + number(beam.to) + " m",
                       "The bearer is too short to reach under this rail: lengthen it or move it across.");
    }
  }
  for (std::size_t r = 1; r < b.seat.size(); ++r) {
    for (std::size_t q = 0; q < r; ++q) {
      if (b.seat[r].y == b.seat[q].y) {
        throw InputError(where + " seats", "two at " + number(b.seat[r].y) + " m across", "a place for each",
                         "Correct one of them.");
      }
    }
  }
}

// Stiffness of the ballast at y, as built.
double bedding_at(const Bearer& b, double y) {
  double stiffness = b.ballast.stiffness;
  for (const BallastZone& zone : b.zones) {
    if (y >= zone.from && y <= zone.to) {
      stiffness = zone.ballast.stiffness;
    }
  }
  return stiffness;
}

void check_void(const Void& v, const Bearer& b, const std::string& where) {
  not_negative(v.gap, where + " void gap", "m");
  const auto* beam = std::get_if<BeamBearer>(&b.body);
  const std::string stretch = number(v.from) + " to " + number(v.to) + " m across";
  if (!(v.from < v.to) || (beam != nullptr && !(v.to > beam->from && v.from < beam->to))) {
    throw InputError(where + " void", stretch, "a stretch under the bearer, from below to",
                     "Correct its two ends, or the bearer it belongs to.");
  }
  // Wherever ballast changes, the void has to lie over some.
  double most = bedding_at(b, 0.5 * (v.from + v.to));
  for (const BallastZone& zone : b.zones) {
    if (zone.to > v.from && zone.from < v.to) {
      most = std::max(most, bedding_at(b, 0.5 * (std::max(zone.from, v.from) + std::min(zone.to, v.to))));
    }
  }
  if (!(most > 0.0)) {
    throw InputError(where + " void", stretch, "a stretch with ballast below it",
                     "A gap needs ballast to close on: give the ballast a stiffness there, or leave the void out.");
  }
}

void check_bearer(const Bearer& b, std::size_t rails) {
  const std::string where = "bearer at " + number(b.x) + " m";
  positive(b.width, where + " width", "m");
  if (b.seat.size() != rails) {
    throw InputError(where + " seats", std::to_string(b.seat.size()), "one per rail, " + std::to_string(rails),
                     "Give a seat for every rail.");
  }
  for (const RailSeat& seat : b.seat) {
    check_pad(seat.pad, where + " pad");
  }
  check_ballast(b.ballast, where + " ballast");
  if (b.under_sleeper_pad) {
    positive(b.under_sleeper_pad->stiffness, where + " under-sleeper pad stiffness", "N/m2");
    not_negative(b.under_sleeper_pad->damping, where + " under-sleeper pad damping", "N s/m2");
  }
  std::visit(overloaded{[&](const BeamBearer& beam) { check_beam(beam, b, where); },
                        [&](const LumpedBearer& lumped) {
                          positive(lumped.mass, where + " mass", "kg");
                          positive(lumped.length, where + " length", "m");
                          if (!b.zones.empty()) {
                            throw InputError(where + " ballast zones", std::to_string(b.zones.size()),
                                             "none under a lumped bearer", "Describe the bearer as a beam.");
                          }
                        }},
             b.body);
  for (const BallastZone& zone : b.zones) {
    check_ballast(zone.ballast, where + " ballast zone");
  }
  for (const Void& v : b.voids) {
    check_void(v, b, where);
  }
}

} // namespace

void check(const Model& m) {
  if (m.rails.empty() || m.rails.size() > most_rails) {
    throw InputError("rails", std::to_string(m.rails.size()), "1 to " + std::to_string(most_rails),
                     "A chain carries one rail to four.");
  }
  if (m.bearers.size() < 2) {
    throw InputError("bearers", std::to_string(m.bearers.size()), "2 or more", "Give the bearers of the track.");
  }
  within(m.modes_per_bay, 1, most_modes, "modes_per_bay");
  not_negative(m.gravity, "gravity", "m/s2");
  not_negative(m.rail_loss, "rail_loss", "(-)");
  for (const Bearer& b : m.bearers) {
    check_bearer(b, m.rails.size());
  }
  for (std::size_t i = 1; i < m.bearers.size(); ++i) {
    const Bearer &before = m.bearers[i - 1], &here = m.bearers[i];
    const double least = 0.5 * (before.width + here.width);
    if (!(here.x - before.x >= least)) {
      throw InputError("bearers at " + number(before.x) + " and " + number(here.x) + " m",
                       number(here.x - before.x) + " m apart", number(least) + " m or more, in order of their stations",
                       "They would overlap: move one, or make them narrower.");
    }
  }
  for (std::size_t r = 0; r < m.rails.size(); ++r) {
    check_rail(m.rails[r], "rail " + std::to_string(r + 1), m.bearers.front().x, m.bearers.back().x);
  }
  detail::check_lateral(m);
}

} // namespace wingnose::track::chain
