// The answers of a track as a tree.
#include "../tell.hpp"

#include "wingnose/study/track_response.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <tuple>

namespace wingnose::study {
namespace {

namespace chain = track::chain;

std::string title_of(const Case& c, const TrackResponse& r) {
  if (!r.chain) {
    return c.name + ": track under one rail";
  }
  return c.name + ": " + track_words(c.track);
}

void tell_chain(Filler& about, const chain::Chain& track) {
  about.number({"modelled_length_m", "modelled length", "length of the model", 1}, track.end() - track.begin());
  about.number({"rails", "rails", "in the model", 0}, track.rails);
  about.number({"bearers", "bearers", "under the model", 0}, track.seats());
  about.number({"voids", "bearers over voids", "under the model", 0},
               static_cast<double>(std::count_if(track.model.bearers.begin(), track.model.bearers.end(),
                                                 [](const chain::Bearer& b) { return !b.voids.empty(); })));
}

void tell_places(Tree& tree, const TrackResponse& r) {
  Filler places(tree, "places", "Static, under the wheel load of " + fixed(r.load * 1e-3, 2) + " kN", Layout::columns);
  Columns(places, "place", r.places).text({"place", "place", "where the rail is loaded"}, &track::Place::name);
  add_columns(places, "place", r.places, track::place_columns);
  Filler receptance(tree, "receptance", "Receptance of the rail (downward deflection per force)", Layout::columns);
  const std::string dim = "frequency_hz";
  receptance.list({"frequency_hz", "frequency", "frequency", 0}, dim, r.frequency);
  const auto add = [&](const std::string& key, const std::string& head, const std::string& of,
                       const std::vector<std::complex<double>>& values) {
    receptance.list({key + "_nm_N", head, "magnitude, " + of, 3}, dim,
                    each(values, [](std::complex<double> v) { return std::abs(v); }));
    receptance.list({key + "_phase_deg", "phase", "phase, " + of, 1}, dim,
                    each(values, [](std::complex<double> v) { return std::arg(v); }));
  };
  const std::array heads{std::pair{"bearer", "bearer"}, std::pair{"mid_span", "mid-span"}};
  for (std::size_t p = 0; p < r.places.size(); ++p) {
    add(heads[p].first, heads[p].second, r.places[p].name, r.places[p].receptance);
  }
  if (r.chain) {
    add("of_bearer", "of bearer", "of the bearer below a load over it", r.chain->bearer);
  }
}

void tell_chain(Tree& tree, const TrackResponse& r) {
  const ChainResponse& found = *r.chain;
  Filler curve(tree, "curve", "Receptances at many frequencies", Layout::columns);
  curve.list({"curve_frequency_hz", "frequency", "frequency", 1, stored}, "curve_frequency_hz", found.curve.frequency);
  for (const auto& [key, meaning, values] :
       {std::tuple{"bearer_nm_N", "magnitude, rail over a bearer", &found.curve.over},
        std::tuple{"mid_span_nm_N", "magnitude, rail at mid-span", &found.curve.between},
        std::tuple{"of_bearer_nm_N", "magnitude, bearer below a load over it", &found.curve.bearer}}) {
    curve.list({key, "receptance", meaning, 3, stored}, "curve_frequency_hz",
               each(*values, [](std::complex<double> v) { return std::abs(v); }));
  }
  Filler along(tree, "stiffness", "Along the track, under the wheel load at each station", Layout::columns);
  along.list({"station_mm", "station", "of the load", 0, stored}, "station_mm", found.station);
  along.list({"static_deflection_mm", "deflection", "of the rail under the load", 3, stored}, "station_mm",
             found.deflection);
  along.list({"point_stiffness_MN_m", "point stiffness", "load over deflection", 2, stored}, "station_mm",
             found.stiffness);
  Filler shape(tree, "shape", "Shape of the rails under all wheels at rest", Layout::columns);
  shape.list({"shape_station_mm", "station", "station", 0, stored}, "shape_station_mm", found.shape_station);
  shape.list({"deflection_mm", "deflection", "of the rail with the crossing, downward", 3, stored}, "shape_station_mm",
             found.shape);
  if (!found.shape_other.empty()) {
    shape.list({"other_deflection_mm", "deflection", "of the other rail, downward", 3, stored}, "shape_station_mm",
               found.shape_other);
  }
  Filler bearers(tree, "bearers", "Bearers at rest, the wheel load over each in turn, on every rail alike",
                 Layout::columns);
  add_columns(bearers, "bearer", found.bearers, chain::loaded_bearer_columns);
  if (found.voids.empty()) {
    return;
  }
  Filler voids(tree, "voids", "Voids, the load over each in turn", Layout::columns);
  Columns rows(voids, "void", found.voids);
  rows.number({"void_station_mm", "station", "of the bearer", 0}, &chain::Closing::station)
      .number({"gap_mm", "gap", "largest under it, before the track's own weight acts", 2}, &chain::Closing::gap)
      .number({"left_mm", "left", "of the gap under the track's own weight", 2}, &chain::Closing::left)
      .number({"closes_at_kN", "closes at", "wheel load that closes it; none up to twice the static one", 1},
              &chain::Closing::closes_at);
  voids.list({"load_kN", "load", "on every rail over the void", 1, stored}, "load_kN", found.loads);
  const Dims dims{{"void", found.voids.size()}, {"load_kN", found.loads.size()}};
  voids.table({"void_deflection_mm", "deflection", "of the rail over the void", 3, stored}, dims,
              grid(dims, [&](std::size_t v, std::size_t l) { return found.voids[v].deflection[l]; }));
  voids.table(
      {"void_ballast_force_kN", "ballast", "force of the bearer on the ballast, beyond its own weight", 2, stored},
      dims, grid(dims, [&](std::size_t v, std::size_t l) { return found.voids[v].ballast_force[l]; }));
}

} // namespace

Tree tell(const Case& c, const TrackResponse& r) {
  Tree tree("track");
  tree.attributes.emplace_back("name", c.name);
  Filler about(tree, "track", title_of(c, r), Layout::rows);
  if (r.chain) {
    tell_chain(about, *r.chain->chain);
  } else {
    add_values(about, r.modal.get(), track::modal_columns);
  }
  about.number({"set_up_time_s", "set-up time", "time to make the model on this machine", r.chain ? 4 : 2}, r.set_up);
  about.number({"static_load_kN", "wheel load", "static load of the reported wheel", 2, told}, r.load);
  tell_places(tree, r);
  Findings findings;
  if (r.chain) {
    tell_chain(tree, r);
    if (r.chain->chain->links() > 0) {
      findings.push_back({FindingKind::linear_track, "receptances are those of small motions with every gap closed and "
                                                     "no pad or ballast beyond its knee"});
    }
  }
  add_end(tree, findings, c);
  return tree;
}

} // namespace wingnose::study
