// Track under one rail: Timoshenko rail on pads, bearers and ballast at discrete seats; what a user describes.
//
// Vertical plane, per rail. SI; x in the crossing frame (wingnose/words/frame.hpp), z up; deflections reported downward
// positive are named so. Values apply per rail seat (half a sleeper).
#pragma once

#include "wingnose/words/range.hpp"

#include <string>
#include <vector>

namespace wingnose::track {

struct RailProperties {
  double EI = 6.38e6;        // N m2, vertical bending stiffness
  double kappa_GA = 2.478e8; // N, shear stiffness: kappa * G * A, kappa = 0.40
  double rho_A = 60.21;      // kg/m
  double rho_I = 0.2385;     // kg m, rotary inertia per metre
  double foot_modulus = 0.0; // m3, section modulus at the foot; 0: not known
  [[nodiscard]] friend bool operator==(const RailProperties&, const RailProperties&) = default;
};
constexpr auto ranges(const RailProperties*) {
  return std::array{InRange{&RailProperties::EI, "EI", "N m2", 0.1e6, 100e6},
                    InRange{&RailProperties::kappa_GA, "kappa_GA", "N", 1e6, 1e11},
                    InRange{&RailProperties::rho_A, "rho_A", "kg/m", 5, 500},
                    InRange{&RailProperties::rho_I, "rho_I", "kg m", 0, 10}};
}
// Steel rail from its area and inertia (kappa: shear coefficient).
[[nodiscard]] RailProperties steel_rail(double area, double inertia, double mass_per_m, double kappa = 0.40);

// A stretch where the rail differs (casting, wing + nose acting together). Elements whose middle lies inside change;
// where stretches overlap, the later one holds.
struct RailZone {
  double begin, end; // m
  RailProperties rail;
  [[nodiscard]] friend bool operator==(const RailZone&, const RailZone&) = default;
};

struct Seat {
  double pad_stiffness = 120e6;    // N/m
  double pad_damping = 40e3;       // N s/m
  double pad_loss = 0.0;           // -, hysteretic loss factor, frequency domain only
  double bearer_mass = 150.0;      // kg
  double ballast_stiffness = 60e6; // N/m
  double ballast_damping = 80e3;   // N s/m
  double ballast_loss = 0.0;       // -
  [[nodiscard]] friend bool operator==(const Seat&, const Seat&) = default;
};
// What a railway has. The equations take limits too, such as rigid pads: assemble() asks only for what is mechanically
// possible.
constexpr auto ranges(const Seat*) {
  return std::array{InRange{&Seat::pad_stiffness, "pad_stiffness", "N/m", 1e6, 5e9},
                    InRange{&Seat::pad_damping, "pad_damping", "N s/m", 0, 1e6},
                    InRange{&Seat::pad_loss, "pad_loss", "-", 0, 2},
                    InRange{&Seat::bearer_mass, "bearer_mass", "kg", 1, 2000},
                    InRange{&Seat::ballast_stiffness, "ballast_stiffness", "N/m", 1e6, 5e9},
                    InRange{&Seat::ballast_damping, "ballast_damping", "N s/m", 0, 2e6},
                    InRange{&Seat::ballast_loss, "ballast_loss", "-", 0, 2}};
}
struct SeatOverride {
  double station; // m, the seat nearest to it is replaced; at most half a spacing away, one override per seat
  Seat seat;
  [[nodiscard]] friend bool operator==(const SeatOverride&, const SeatOverride&) = default;
};

struct Track {
  RailProperties rail;
  std::vector<RailZone> zones;
  Seat seat;
  std::vector<SeatOverride> overrides;
  double spacing = 0.6;    // m
  double first_seat = 0.0; // m, station of any one seat (phase); seats lie at first_seat + k * spacing
  int bays = 40;           // modelled length = bays * spacing between the two outermost of bays + 1 seats, where the
                           // rail ends free; its middle lies within half a spacing of `centre`
  double centre = 0.0;     // m
  int elements_per_bay = 8;
  double cut_off = 5000.0; // Hz, modes above are replaced by their static compliance
  double rail_loss = 0.0;  // -, frequency domain only
  [[nodiscard]] friend bool operator==(const Track&, const Track&) = default;
};
constexpr auto ranges(const Track*) {
  return std::array{InRange{&Track::spacing, "spacing", "m", 0.2, 2},
                    InRange{&Track::first_seat, "first_seat", "m", -2, 2},
                    InRange{&Track::bays, "bays", 10, 400},
                    InRange{&Track::elements_per_bay, "elements_per_bay", 2, 40},
                    InRange{&Track::cut_off, "cut_off", "Hz", 200, 50e3},
                    InRange{&Track::rail_loss, "rail_loss", "-", 0, 1}};
}
// The same track around the stretch from .. to (m) that wheels cover, lengthened so that all of them stay inside with
// margin.
[[nodiscard]] Track covering(Track track, double from, double to);

} // namespace wingnose::track
