// Track of a turnout as a chain of bays: what a user describes. One to four rails on seats of bearers, each bearer with
// its own place, length, mass, stiffness and ballast. Vertical, and lateral where it is given (lateral.hpp); what it is
// turned into stands in chain.hpp.
//
// SI; x along the track in the crossing frame (wingnose/words/frame.hpp), y across it, along the bearers. Forces on the
// rail and deflections are downward positive, as everywhere in this room.
#pragma once

#include "wingnose/track/chain/lateral.hpp"
#include "wingnose/track/track.hpp"

#include <optional>
#include <variant>
#include <vector>

namespace wingnose::track::chain {

// Rail pad with its fastening. Force = stiffness e + damping e', e the shortening; linear unless knee or clip say
// otherwise.
struct Pad {
  double stiffness = 120e6; // N/m, > 0
  double damping = 40e3;    // N s/m, 0 or above
  double loss = 0.0;        // -, hysteretic loss factor, receptance only
  // Beyond this shortening (m, > 0) the stiffness is stiffness_beyond (N/m, 0 or above): bilinear, stiffening or not.
  std::optional<double> knee = std::nullopt;
  double stiffness_beyond = 0.0;
  // N, the most the fastening pulls the rail down when it lifts (> 0); nullopt: as the pad pushes.
  std::optional<double> clip_load = std::nullopt;
  [[nodiscard]] friend bool operator==(const Pad&, const Pad&) = default;
};

// Ballast per metre of bearer, or what a lumped bearer stands on. It pushes only where it is asked to be unilateral: as
// the gap of a void, or with `unilateral`; linear otherwise, also upward.
struct Ballast {
  double stiffness = 46e6;                   // N/m2 (N/m under a lumped bearer), 0 or above
  double damping = 61e3;                     // N s/m2 (N s/m)
  double loss = 0.0;                         // -, receptance only
  std::optional<double> knee = std::nullopt; // m, compression beyond which stiffness_beyond holds
  double stiffness_beyond = 0.0;             // N/m2 (N/m)
  bool unilateral = false;                   // lets go of a bearer that lifts
  [[nodiscard]] friend bool operator==(const Ballast&, const Ballast&) = default;
};

// In series with the ballast, per metre of bearer (N/m2, N s/m2; under a lumped bearer N/m, N s/m). The two Kelvin
// bodies act as one whose stiffness is the exact series and whose damping dissipates alike in slow motion.
struct UnderSleeperPad {
  double stiffness = 50e6;
  double damping = 10e3;
  [[nodiscard]] friend bool operator==(const UnderSleeperPad&, const UnderSleeperPad&) = default;
};

// Clearance between bearer and ballast before the track's own weight acts, over a part of the bearer.
struct Void {
  double from, to; // m, in y; a lumped bearer is taken as a whole
  double gap;      // m, 0 or above
  [[nodiscard]] friend bool operator==(const Void&, const Void&) = default;
};

// A stretch of a bearer whose ballast differs: none in the middle, softer at an end, ...
struct BallastZone {
  double from, to; // m, in y
  Ballast ballast;
  [[nodiscard]] friend bool operator==(const BallastZone&, const BallastZone&) = default;
};

// One mass under each rail, on its own share of the ballast: rails do not feel each other.
struct LumpedBearer {
  double mass = 150.0; // kg per rail, > 0
  double length = 1.3; // m of it on the ballast, > 0; for the pressure there
  [[nodiscard]] friend bool operator==(const LumpedBearer&, const LumpedBearer&) = default;
};

// Euler beam on a bedding.
struct BeamBearer {
  double from = -1.3, to = 1.3; // m, ends in y
  double mass_per_m = 115.0;    // kg/m
  double EI = 6.4e6;            // N m2
  double depth = 0.22;          // m, from top to bottom: strain of the outer fibre
  // Its lowest free shapes and one static shape per seat, 4 .. 12; 0: 8 .. 12 of them, so that no free mode below
  // 1.2 kHz is left out.
  int coordinates = 0;
  [[nodiscard]] friend bool operator==(const BeamBearer&, const BeamBearer&) = default;
};

struct RailSeat {
  double y = 0.0; // m, place of the rail on the bearer
  Pad pad;
  std::optional<LateralSeat> lateral = std::nullopt;
  [[nodiscard]] friend bool operator==(const RailSeat&, const RailSeat&) = default;
};

struct Bearer {
  double x = 0.0;      // m, station
  double width = 0.28; // m, along the track
  std::variant<LumpedBearer, BeamBearer> body = BeamBearer{};
  std::vector<RailSeat> seat; // one per rail
  Ballast ballast;
  std::vector<BallastZone> zones; // a later one holds where two overlap; beams only
  std::optional<UnderSleeperPad> under_sleeper_pad = std::nullopt;
  std::vector<Void> voids;
  std::optional<LateralBearer> lateral = std::nullopt;
  [[nodiscard]] friend bool operator==(const Bearer&, const Bearer&) = default;
};

struct Rail {
  RailProperties section;
  std::vector<RailZone> zones; // from where to where they say; a later one holds where two overlap
  std::optional<LateralRail> lateral = std::nullopt;
  std::vector<LateralRailZone> lateral_zones = {}; // as zones, which give the mass
  [[nodiscard]] friend bool operator==(const Rail&, const Rail&) = default;
};

struct Model {
  std::vector<Rail> rails;     // one to four; they end free over the first and the last bearer
  std::vector<Bearer> bearers; // x increasing, two or more
  int modes_per_bay = 5;  // of a bay with held ends, 1 .. 8; 5 err by up to 0.04 % in P1, 0.7 % in receptance at 1 kHz
  double gravity = 9.81;  // m/s2, closes gaps before wheels come; 0: weightless
  double rail_loss = 0.0; // -, receptance only
  [[nodiscard]] friend bool operator==(const Model&, const Model&) = default;
};

// Lateral motion is described (of everything, or check() refuses).
[[nodiscard]] inline bool is_lateral(const Model& model) { return !model.rails.empty() && model.rails[0].lateral; }

// Throws InputError for what cannot be built: bearers that overlap or are out of order, a bearer that does not reach
// under its rails, a void without ballast, values that are mechanically impossible.
void check(const Model& model);

// One rail on lumped bearers, as today's track has it: seats, zones, overrides.
[[nodiscard]] Model one_rail(const Track& track);

} // namespace wingnose::track::chain
