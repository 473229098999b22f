// Keys of [track], [[track.casting]] and [[track.seat]].
#include "keys.hpp"

namespace wingnose::cases {
namespace {

using RailBeam = track::RailProperties;

Track& of_case(Case& c) { return c.track; }
track::Seat& seat(Case& c) { return c.track.seat; }
RailChoice& rail(Case& c) {
  if (!c.track.choice) {
    c.track.choice.emplace(); // a rail that a program gave is replaced by one with a name
  }
  return *c.track.choice;
}
Casting& casting(Casting& one) { return one; }
std::vector<Casting>& castings(Case& c) { return c.track.castings; }
track::SeatOverride& other(track::SeatOverride& one) { return one; }
track::Seat& seat_of(track::SeatOverride& one) { return one.seat; }
std::vector<track::SeatOverride>& overrides(Case& c) { return c.track.overrides; }

constexpr Range station{-200, 200}; // m

// The same keys describe every seat of the track and one seat that differs.
template <auto part> std::vector<Key> seat_keys() {
  using track::Seat;
  return {
      key<part, &Seat::pad_stiffness>("pad_stiffness_MN_m", "rail pad, dynamic stiffness"),
      key<part, &Seat::pad_damping>("pad_damping_kNs_m", "rail pad, viscous damping"),
      key<part, &Seat::pad_loss>("pad_loss", "rail pad, loss factor (receptance only)"),
      key<part, &Seat::bearer_mass>("bearer_mass_kg", "bearer (half a sleeper)"),
      key<part, &Seat::ballast_stiffness>("ballast_stiffness_MN_m", "ballast and ground"),
      key<part, &Seat::ballast_damping>("ballast_damping_kNs_m", "ballast, viscous damping"),
      key<part, &Seat::ballast_loss>("ballast_loss", "ballast, loss factor (receptance only)"),
  };
}

} // namespace

void add_track_keys(Schema& schema) {
  Key rotary = key<rail, &RailChoice::rho_I, &RailBeam::rho_I>("rho_I_kg_m", "rotary inertia per metre");
  rotary.unit = unit("kg m"); // not kg/m, which is spelt alike
  add(schema, "track", "rail, pads, bearers, ballast; values per rail seat",
      {key<rail, &RailChoice::section>("rail", "rail section; the four values below replace single properties of it",
                                       "", profile::rail_section_names()),
       key<rail, &RailChoice::EI, &RailBeam::EI>("EI_MN_m2", "vertical bending stiffness"),
       key<rail, &RailChoice::kappa_GA, &RailBeam::kappa_GA>("kappa_GA_MN", "shear stiffness"),
       key<rail, &RailChoice::rho_A, &RailBeam::rho_A>("rho_A_kg_m", "mass per metre"), rotary});
  add(schema, "track", "", seat_keys<seat>());
  add(schema, "track", "",
      {selecting(key<of_case, &Track::method>("method", "how the track is stepped in a passage")),
       key<of_case, &Track::rails>("rails", "which rails are modelled", "chain"),
       key<of_case, &Track::rail_distance>("rail_distance_mm", "between the middles of two rails", "chain"),
       key<of_case, &track::Track::spacing>("spacing_mm", "distance between bearers"),
       key<of_case, &track::Track::first_seat>("first_seat_mm", "station of any one bearer"),
       key<of_case, &track::Track::bays>("bays", "modelled bays, at least"),
       key<of_case, &track::Track::elements_per_bay>("elements_per_bay", "rail elements per bay"),
       key<of_case, &track::Track::cut_off>("cut_off_Hz", "modes above keep only their static compliance"),
       key<of_case, &track::Track::rail_loss>("rail_loss", "rail, loss factor (receptance only)")});

  add(schema, "track.casting", "a stretch where the rail is stiffer and heavier",
      {required(key<casting, &Casting::begin>("begin_m", "station where the stiffer stretch begins")),
       required(key<casting, &Casting::end>("end_m", "station where it ends")),
       key<casting, &Casting::EI_factor>("EI_factor", "bending stiffness and rotary inertia against the rail"),
       key<casting, &Casting::mass_factor>("mass_factor", "mass per metre against the rail"),
       key<casting, &Casting::shear_factor, &Casting::mass_factor>(
           "shear_factor", "shear stiffness against the rail; absent: as the mass")});
  schema.lists.push_back(list_of<castings>("track.casting", "stretches where the rail is stiffer and heavier"));

  add(schema, "track.seat", "a rail seat that differs from the others; absent values are those of [track]",
      {required(key<other, &track::SeatOverride::station, &station>("station_m", "the seat nearest to this station"))});
  add(schema, "track.seat", "", seat_keys<seat_of>());
  List seats = list_of<overrides>("track.seat", "seats that differ");
  seats.append = [](void* of) -> void* {
    Case& c = *static_cast<Case*>(of);
    return &c.track.overrides.emplace_back(track::SeatOverride{0.0, c.track.seat});
  };
  schema.lists.push_back(seats);
}

} // namespace wingnose::cases
