#include "schema.hpp"

#include "wingnose/profile/rail.hpp"

namespace wingnose::io {

namespace {

using Getter = track::Seat& (*)(Draft&);

// The same keys describe every seat of the track and one seat that differs.
std::vector<Key> seat_keys(const std::string& section, Getter seat) {
  const auto part = [&](std::string name, double track::Seat::*member, std::string unit, double to_si, double least,
                        double most, std::string text) {
    return quantity(
        section, std::move(name), [seat, member](Draft& d) -> double& { return seat(d).*member; }, std::move(unit),
        to_si, least, most, std::move(text));
  };
  using track::Seat;
  return {
      part("pad_stiffness_MN_m", &Seat::pad_stiffness, "MN/m", 1e6, 1, 5000, "rail pad, dynamic stiffness"),
      part("pad_damping_kNs_m", &Seat::pad_damping, "kN s/m", 1e3, 0, 1000, "rail pad, viscous damping"),
      part("pad_loss", &Seat::pad_loss, "-", 1.0, 0, 2, "rail pad, loss factor (receptance only)"),
      part("bearer_mass_kg", &Seat::bearer_mass, "kg", 1.0, 1, 2000, "bearer (half a sleeper)"),
      part("ballast_stiffness_MN_m", &Seat::ballast_stiffness, "MN/m", 1e6, 1, 5000, "ballast and ground"),
      part("ballast_damping_kNs_m", &Seat::ballast_damping, "kN s/m", 1e3, 0, 2000, "ballast, viscous damping"),
      part("ballast_loss", &Seat::ballast_loss, "-", 1.0, 0, 2, "ballast, loss factor (receptance only)"),
  };
}

std::vector<Key> rail_keys() {
  const auto optional = [](std::string name, std::optional<double> Draft::*member, std::string unit, double to_si,
                           double least, double most, std::string text) {
    return quantity(
        "track", std::move(name), [member](Draft& d) -> std::optional<double>& { return d.*member; }, std::move(unit),
        to_si, least, most, std::move(text));
  };
  return {
      file_only(choice(
          "track", "rail", [](Draft& d) -> std::string& { return d.rail; }, profile::rail_section_names(),
          "rail section; the four values below replace single properties of it")),
      optional("EI_MN_m2", &Draft::EI, "MN m2", 1e6, 0.1, 100, "vertical bending stiffness"),
      optional("kappa_GA_MN", &Draft::kappa_GA, "MN", 1e6, 1, 1e5, "shear stiffness"),
      optional("rho_A_kg_m", &Draft::rho_A, "kg/m", 1.0, 5, 500, "mass per metre"),
      optional("rho_I_kg_m", &Draft::rho_I, "kg m", 1.0, 0, 10, "rotary inertia per metre"),
  };
}

std::vector<Key> layout_keys() {
  using track::Track;
  const auto part = [](std::string name, double Track::*member, std::string unit, double to_si, double least,
                       double most, std::string text) {
    return quantity(
        "track", std::move(name), [member](Draft& d) -> double& { return d.c.track.*member; }, std::move(unit), to_si,
        least, most, std::move(text));
  };
  return {
      part("spacing_mm", &Track::spacing, "mm", 1e-3, 200, 2000, "distance between bearers"),
      part("first_seat_mm", &Track::first_seat, "mm", 1e-3, -2000, 2000, "station of any one bearer"),
      quantity(
          "track", "bays", [](Draft& d) -> int& { return d.c.track.bays; }, "-", 1.0, 10, 400,
          "modelled bays, at least"),
      quantity(
          "track", "elements_per_bay", [](Draft& d) -> int& { return d.c.track.elements_per_bay; }, "-", 1.0, 2, 40,
          "rail elements per bay"),
      part("cut_off_Hz", &Track::cut_off, "Hz", 1.0, 200, 50e3, "modes above keep only their static compliance"),
      part("rail_loss", &Track::rail_loss, "-", 1.0, 0, 1, "rail, loss factor (receptance only)"),
  };
}

std::vector<Key> casting_keys() {
  return {
      required(quantity(
          "track.casting", "begin_m", [](Draft& d) -> double& { return d.casting.begin; }, "m", 1.0, -100, 100,
          "station where the stiffer stretch begins")),
      required(quantity(
          "track.casting", "end_m", [](Draft& d) -> double& { return d.casting.end; }, "m", 1.0, -100, 100,
          "station where it ends")),
      quantity(
          "track.casting", "EI_factor", [](Draft& d) -> double& { return d.casting.EI_factor; }, "-", 1.0, 0.1, 20,
          "bending stiffness and rotary inertia against the rail"),
      quantity(
          "track.casting", "mass_factor", [](Draft& d) -> double& { return d.casting.mass_factor; }, "-", 1.0, 0.1, 20,
          "mass per metre against the rail"),
      quantity(
          "track.casting", "shear_factor", [](Draft& d) -> std::optional<double>& { return d.casting.shear_factor; },
          "-", 1.0, 0.1, 20, "shear stiffness against the rail; absent: as the mass"),
  };
}

} // namespace

void add_track_keys(Schema& schema) {
  const auto add = [&schema](std::vector<Key> more) {
    schema.keys.insert(schema.keys.end(), more.begin(), more.end());
  };
  schema.sections.emplace_back("track", "rail, pads, bearers, ballast; values per rail seat");
  add(rail_keys());
  add(seat_keys("track", [](Draft& d) -> track::Seat& { return d.c.track.seat; }));
  add(layout_keys());

  schema.sections.emplace_back("track.casting", "a stretch where the rail is stiffer and heavier");
  add(casting_keys());
  schema.lists.push_back(
      {"track.casting", [](Draft& d) { d.casting = {}; }, [](Draft& d) { d.castings.push_back(d.casting); },
       [](const Draft& d) { return d.castings.size(); }, [](Draft& d, std::size_t i) { d.casting = d.castings[i]; },
       "stretches where the rail is stiffer and heavier"});

  schema.sections.emplace_back("track.seat",
                               "a rail seat that differs from the others; absent values are those of [track]");
  add({required(quantity(
      "track.seat", "station_m", [](Draft& d) -> double& { return d.seat_override.station; }, "m", 1.0, -200, 200,
      "the seat nearest to this station"))});
  add(seat_keys("track.seat", [](Draft& d) -> track::Seat& { return d.seat_override.seat; }));
  schema.lists.push_back({"track.seat",
                          [](Draft& d) {
                            d.seat_override = {0.0, d.c.track.seat};
                          },
                          [](Draft& d) { d.c.track.overrides.push_back(d.seat_override); },
                          [](const Draft& d) { return d.c.track.overrides.size(); },
                          [](Draft& d, std::size_t i) { d.seat_override = d.c.track.overrides[i]; },
                          "seats that differ"});
}

} // namespace wingnose::io
