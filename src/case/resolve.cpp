// What a case's choices amount to.
#include "wingnose/case/case.hpp"

#include "wingnose/numeric/overloaded.hpp"
#include "wingnose/vehicle/space/presets.hpp"

#include <filesystem>

namespace wingnose::cases {

profile::WheelProfile profile_of(const Wheel& wheel) {
  const auto measured = [](const MeasuredWheel& m) {
    if (m.fit && m.fit->noise == m.noise) {
      return m.fit->profile;
    }
    return with_place(m.csv, [&] {
      return profile::measured_wheel(*m.y, *m.height, m.noise, std::filesystem::path(m.csv).stem().string());
    });
  };
  profile::WheelProfile base = std::visit(overloaded{[](const S1002&) { return profile::s1002(); },
                                                     [](const Cone& c) { return profile::cone(c.conicity); }, measured,
                                                     [](const Shared<profile::WheelProfile>& given) { return *given; }},
                                          wheel.shape);
  return wheel.hollow.depth > 0.0 ? profile::hollow_worn(base, wheel.hollow) : base;
}

std::size_t wheels_of(const Vehicle& v) {
  return v.table ? (*v.table->table).wheels.size() : vehicle::preset(v.preset).wheels.size();
}

vehicle::Vehicle vehicle_of(const Case& c) {
  vehicle::Vehicle v = c.vehicle.table ? *c.vehicle.table->table : vehicle::preset(c.vehicle.preset);
  const SingleWheel& s = c.vehicle.single;
  const bool changed = s.static_load || s.unsprung_mass || s.primary_stiffness || s.primary_damping;
  if (!c.vehicle.table && c.vehicle.preset == "wheel" && changed) {
    // What is not replaced is read off the preset, so that it stands once only.
    const vehicle::Suspension spring = v.suspensions.empty() ? vehicle::Suspension{} : v.suspensions.front();
    v = vehicle::single_wheel(
        s.static_load.value_or(vehicle::assemble(v).static_load.front()),
        s.unsprung_mass.value_or(v.wheels.front().unsprung_mass), s.primary_stiffness.value_or(spring.stiffness),
        s.primary_damping.value_or(spring.damping), c.wheel.radius.value_or(v.wheels.front().radius));
  }
  if (c.wheel.radius) {
    for (vehicle::Wheel& wheel : v.wheels) {
      wheel.radius = *c.wheel.radius;
    }
  }
  return v;
}

vehicle::space::SpatialVehicle space_vehicle_of(const Case& c) {
  const Spatial& s = c.spatial;
  vehicle::space::SpatialVehicle v = s.table ? *s.table->table : vehicle::space::preset(s.preset);
  if (c.wheel.radius) {
    for (vehicle::space::Wheelset& set : v.wheelsets) {
      set.wheel[0].radius = set.wheel[1].radius = *c.wheel.radius;
    }
  }
  return v;
}

track::Track track_of(const Track& t) {
  track::Track track = t;
  if (t.choice) {
    const auto section = profile::rail_section(t.choice->section);
    track.rail = track::steel_rail(section.area, section.inertia, section.mass_per_m);
    // A rail of another bending stiffness is another section.
    track.rail.foot_modulus = t.choice->foot_modulus.value_or(t.choice->EI ? 0.0 : section.foot_modulus);
    track.rail.EI = t.choice->EI.value_or(track.rail.EI);
    track.rail.kappa_GA = t.choice->kappa_GA.value_or(track.rail.kappa_GA);
    track.rail.rho_A = t.choice->rho_A.value_or(track.rail.rho_A);
    track.rail.rho_I = t.choice->rho_I.value_or(track.rail.rho_I);
  }
  for (const Casting& casting : t.castings) {
    track::RailZone zone{casting.begin, casting.end, track.rail};
    zone.rail.EI *= casting.EI_factor;
    zone.rail.foot_modulus = casting.foot_modulus.value_or(casting.EI_factor == 1.0 ? track.rail.foot_modulus : 0.0);
    zone.rail.rho_I *= casting.EI_factor;
    zone.rail.rho_A *= casting.mass_factor;
    zone.rail.kappa_GA *= casting.shear_factor.value_or(casting.mass_factor);
    track.zones.push_back(zone);
  }
  return track;
}

assess::Steel steel_of(const Case& c) { return c.given_steel ? *c.given_steel : assess::steel(c.steel); }

std::vector<closedform::ConstantSet> sets_of(const Case& c) {
  std::vector<closedform::ConstantSet> sets;
  for (const std::string& name : c.sets) {
    if (name != "derived") { // always reported
      sets.push_back(closedform::constant_set(name));
    }
  }
  return sets;
}

std::vector<passage::SensorPlace> sensor_places(const Case& c) {
  std::vector<passage::SensorPlace> places;
  for (const assess::Sensor& sensor : c.sensors) {
    places.push_back({sensor.station, sensor.on == assess::Sensor::On::bearer, sensor.across,
                      sensor.on == assess::Sensor::On::other_rail});
  }
  return places;
}

std::optional<layout::turnout::Turnout> turnout_of(const Case& c) {
  const Turnout& given = c.turnout;
  if (given.geometry == TurnoutFrom::none) {
    return std::nullopt;
  }
  layout::turnout::Turnout t = given.drawing;
  t.name = std::string(name(given.geometry));
  if (given.geometry != TurnoutFrom::curvature) {
    t.curvature.clear();
  }
  if (given.geometry == TurnoutFrom::preset) {
    const layout::turnout::Turnout trade = layout::turnout::preset(given.preset);
    t.name = trade.name;
    t.radius = trade.radius;
    t.rate = trade.rate;
    t.transition = 0.0;
    t.widening = trade.widening;
    t.end_length = trade.end_length;
  }
  const auto* shape = std::get_if<layout::CrossingShape>(&c.excitation);
  const auto* sections = std::get_if<layout::SectionedShape>(&c.excitation);
  t.gauge = given.gauge.value_or(shape != nullptr ? shape->gauge : sections != nullptr ? sections->gauge : t.gauge);
  t.widening = given.widening.value_or(t.widening);
  t.crossing.flangeway = given.crossing_flangeway.value_or(shape != nullptr ? shape->flangeway : t.crossing.flangeway);
  return t;
}

} // namespace wingnose::cases
