#include "many_parts.hpp"

#include <algorithm>
#include <initializer_list>

namespace wingnose::study {
namespace {

std::size_t hash_of(std::initializer_list<double> values) {
  std::size_t hash = values.size();
  for (const double value : values) {
    hash = hash * 0x9E3779B97F4A7C15ULL + std::hash<double>{}(value);
  }
  return hash;
}

const vehicle::Wheel* reported(const Case& c) {
  const auto i = static_cast<std::size_t>(c.passage.reported_wheel);
  return i < c.vehicle.wheels.size() ? &c.vehicle.wheels[i] : nullptr;
}

// Wheels stand alike and are as large: every wheel runs over the same stretch along the same path.
bool same_wheelbase(const Case& a, const Case& b) {
  return a.passage.reported_wheel == b.passage.reported_wheel &&
         std::equal(
             a.vehicle.wheels.begin(), a.vehicle.wheels.end(), b.vehicle.wheels.begin(), b.vehicle.wheels.end(),
             [](const vehicle::Wheel& v, const vehicle::Wheel& w) { return v.x == w.x && v.radius == w.radius; });
}

bool same_window(const passage::Settings& a, const passage::Settings& b) {
  return a.from == b.from && a.to == b.to && a.direction == b.direction;
}

// A number that tells most shapes apart; equality decides.
struct Telling {
  double operator()(const layout::CrossingShape& s) const {
    return s.rate + s.flangeway + s.wing_lift + 3.0 * s.nose_start_depth + 5.0 * s.nose_ramp_end_thickness +
           7.0 * s.nose_ramp_end_depth + 11.0 * s.nose_crown_radius;
  }
  double operator()(const layout::SectionedShape& s) const { return s.noise + s.rate; }
  double operator()(const layout::DippedJoint& j) const { return j.dip_angle + 3.0 * j.at + 5.0 * j.half_length; }
  double operator()(const layout::GivenPath& p) const { return static_cast<double>(p.station.size()); }
};

Made<track::ModalTrack> make_track(const Case& c) { return track::modal_track(track_for(c)); }

} // namespace

bool same_track(const Case& a, const Case& b) {
  // Cheaper than comparing track_for of both, and the same wherever the stretch is the same.
  return a.track == b.track && same_wheelbase(a, b) && same_window(a.passage, b.passage);
}

bool same_geometry(const Case& a, const Case& b) {
  const vehicle::Wheel *v = reported(a), *w = reported(b);
  return a.lateral_offset == b.lateral_offset && a.roll == b.roll && a.yaw == b.yaw &&
         same_window(a.passage, b.passage) && v != nullptr && w != nullptr && v->radius == w->radius &&
         same_wheelbase(a, b) && a.rail_inclination == b.rail_inclination && a.rail_head == b.rail_head &&
         a.kinematics == b.kinematics && a.normal_law == b.normal_law && a.contact_search == b.contact_search &&
         a.excitation == b.excitation && a.wheel == b.wheel;
}

std::size_t track_hash(const Case& c) {
  const track::Seat& s = c.track.seat;
  return hash_of({c.track.rail.EI, c.track.rail.rho_A, s.pad_stiffness, s.pad_damping, s.bearer_mass,
                  s.ballast_stiffness, s.ballast_damping, c.track.spacing, c.track.first_seat, c.passage.from,
                  c.passage.to});
}

std::size_t geometry_hash(const Case& c) {
  const vehicle::Wheel* w = reported(c);
  return hash_of({c.lateral_offset, c.roll, c.yaw, c.passage.from, c.passage.to, w != nullptr ? w->radius : 0.0,
                  static_cast<double>(c.excitation.index()), static_cast<double>(c.normal_law.index()),
                  static_cast<double>(c.contact_search), std::visit(Telling{}, c.excitation)});
}

Places places(SharedParts::Pools& pools, const Case& c) {
  (void)track_for(c); // refuses a wheel that is not there
  Places at;
  const std::size_t track = track_hash(c);
  at.track = pools.tracks.find(track, c, [&](auto& part) { return same_track(*part.of, c); });
  at.table = pools.tables.find(track ^ hash_of({c.passage.step}), c, [&](auto& part) {
    return part.of->passage.step == c.passage.step && same_track(*part.of, c);
  });
  at.geometry = pools.geometries.find(geometry_hash(c), c, [&](auto& part) { return same_geometry(*part.of, c); });
  const double place_of_parts = static_cast<double>(at.geometry) + 1e-6 * static_cast<double>(at.table);
  at.prototype = pools.prototypes.find(hash_of({place_of_parts, c.steel.young, c.vehicle.wheels.front().unsprung_mass}),
                                       c, [&](auto& part) {
                                         // The vehicle too: one that cannot be assembled must not spoil the cases of
                                         // others.
                                         return part.first == at.geometry && part.second == at.table &&
                                                part.of->steel == c.steel && part.of->vehicle == c.vehicle;
                                       });
  pools.prototypes[at.prototype].first = at.geometry;
  pools.prototypes[at.prototype].second = at.table;
  return at;
}

Made<TrackWithSteps> table_of(SharedParts::Pools& pools, const Places& at, const Case& c) {
  return pools.tables[at.table].get([&] {
    const auto track = pools.tracks[at.track].get([&] { return make_track(c); });
    return std::make_shared<const TrackWithSteps>(TrackWithSteps{track, passage::step_table(track, c.passage.step)});
  });
}

void help_geometry(SharedParts::Pools& pools, const Places& at, const Case& c) {
  pools.geometries[at.geometry].help([&] { return std::make_shared<const Geometry>(geometry(c)); });
}

Made<Prototype> prototype_of(SharedParts::Pools& pools, const Places& at, const Case& c) {
  const auto shape = pools.geometries[at.geometry].get([&] { return std::make_shared<const Geometry>(geometry(c)); });
  return pools.prototypes[at.prototype].get([&] {
    const auto table = table_of(pools, at, c);
    return std::make_shared<const Prototype>(Prototype{shape, plan(c, *shape, table->track, table->steps)});
  });
}

void release(SharedParts::Pools& pools, const Places& at) {
  pools.prototypes.release(at.prototype);
  pools.geometries.release(at.geometry);
  pools.tables.release(at.table);
  pools.tracks.release(at.track);
}

} // namespace wingnose::study
