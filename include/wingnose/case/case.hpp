// One case: all a user asks for, as chosen, in SI. Parts follow the sections of a case file and are compared by ==;
// what can be worked out from a choice (the points of a profile, the matrices of a vehicle) is worked out by who needs
// it.
#pragma once

#include "wingnose/assess/damage.hpp"
#include "wingnose/assess/measures.hpp"
#include "wingnose/assess/sensor.hpp"
#include "wingnose/assess/steel.hpp"
#include "wingnose/case/bearers.hpp"
#include "wingnose/closedform/joint_forces.hpp"
#include "wingnose/contact/normal/hertz.hpp"
#include "wingnose/contact/normal/normal_law.hpp"
#include "wingnose/contact/path/step_search.hpp"
#include "wingnose/layout/excitation.hpp"
#include "wingnose/layout/irregularity.hpp"
#include "wingnose/layout/turnout/turnout.hpp"
#include "wingnose/layout/turnout/wheelset.hpp"
#include "wingnose/passage/settings.hpp"
#include "wingnose/profile/rail.hpp"
#include "wingnose/track/chain/model.hpp"
#include "wingnose/track/track.hpp"
#include "wingnose/vehicle/space/vehicle.hpp"
#include "wingnose/vehicle/vehicle.hpp"
#include "wingnose/words/names.hpp"
#include "wingnose/words/range.hpp"

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace wingnose::cases {

// A value that many cases share: copied by reference, compared by content, never changed.
template <class T> class Shared {
public:
  Shared(T value = {}) : value_(std::make_shared<const T>(std::move(value))) {}
  [[nodiscard]] const T& operator*() const { return *value_; }
  [[nodiscard]] const T* operator->() const { return value_.get(); }
  [[nodiscard]] friend bool operator==(const Shared& a, const Shared& b) {
    return a.value_ == b.value_ || *a.value_ == *b.value_;
  }

private:
  std::shared_ptr<const T> value_;
};

struct InputFile {
  std::string role, path, sha256;
  [[nodiscard]] friend bool operator==(const InputFile&, const InputFile&) = default;
};

// --- [crossing] ------------------------------------------------------------------------------------------------------

// What the wheel runs on beside a joint or along a given path, for the stiffness of the contact.
struct PlainRail {
  std::string head = "60E1";
  double inclination = 0.025; // rad
  [[nodiscard]] friend bool operator==(const PlainRail&, const PlainRail&) = default;
};
constexpr auto ranges(const PlainRail*) {
  return std::array{InRange{&PlainRail::inclination, "rail_inclination", "rad", 0, 0.1}};
}

// --- [wheel] ---------------------------------------------------------------------------------------------------------

struct S1002 {
  [[nodiscard]] friend bool operator==(const S1002&, const S1002&) = default;
};
struct Cone {
  double conicity = 0.05; // -
  [[nodiscard]] friend bool operator==(const Cone&, const Cone&) = default;
};
constexpr auto ranges(const Cone*) { return std::array{InRange{&Cone::conicity, "conicity", "-", 0, 0.5}}; }
struct MeasuredWheel {
  std::string csv;                       // as named
  double noise = 5e-6;                   // m, of a point (standard deviation)
  Shared<std::vector<double>> y, height; // m, see profile::measured_wheel
  struct Fit {
    double noise = 0.0;
    profile::WheelProfile profile;
  };
  std::shared_ptr<const Fit> fit = nullptr; // made once for the noise a file gives; another noise is fitted anew
  [[nodiscard]] friend bool operator==(const MeasuredWheel& a, const MeasuredWheel& b) {
    return a.noise == b.noise && a.y == b.y && a.height == b.height;
  }
};
constexpr auto ranges(const MeasuredWheel*) {
  return std::array{InRange{&MeasuredWheel::noise, "noise", "m", 1e-8, 5e-4}};
}
using WheelShape = std::variant<S1002, Cone, MeasuredWheel, Shared<profile::WheelProfile>>;
constexpr auto names(const WheelShape&) {
  return std::array{Name{std::size_t{0}, "S1002", "published profile"}, Name{std::size_t{1}, "cone", "straight cone"},
                    Name{std::size_t{2}, "measured", "measured points"},
                    Name{std::size_t{3}, "given", "made by a program"}};
}

struct Wheel {
  WheelShape shape;
  profile::Hollow hollow;
  std::optional<double> radius = std::nullopt; // m, of all wheels; absent: as the vehicle says
  double lateral_offset = 0.0;                 // m, + outward over the crossing
  double roll = 0.0, yaw = 0.0;                // rad, on a crossing, see contact::PathOptions; 0 on prescribed paths
  [[nodiscard]] friend bool operator==(const Wheel&, const Wheel&) = default;
};
constexpr auto ranges(const Wheel*) {
  return std::array{InRange{&Wheel::lateral_offset, "lateral_offset", "m", -0.03, 0.03},
                    InRange{&Wheel::roll, "roll", "rad", -0.03, 0.03}, InRange{&Wheel::yaw, "yaw", "rad", -0.03, 0.03}};
}
[[nodiscard]] profile::WheelProfile profile_of(const Wheel& wheel); // throws InputError

// --- [vehicle] -------------------------------------------------------------------------------------------------------

// The preset of one wheel, with some of its values replaced.
struct SingleWheel {
  std::optional<double> static_load, unsprung_mass;         // N, kg
  std::optional<double> primary_stiffness, primary_damping; // N/m, N s/m
  [[nodiscard]] friend bool operator==(const SingleWheel&, const SingleWheel&) = default;
};
// file: the table it was read from; "": a program made it.
struct VehicleTable {
  std::string file;
  Shared<vehicle::Vehicle> table;
  [[nodiscard]] friend bool operator==(const VehicleTable& a, const VehicleTable& b) { return a.table == b.table; }
};
struct Vehicle {
  std::string preset = "wheel"; // not used where a table is given
  SingleWheel single;           // of the preset "wheel"
  std::optional<VehicleTable> table = std::nullopt;
  [[nodiscard]] friend bool operator==(const Vehicle&, const Vehicle&) = default;
};

// --- [track] ---------------------------------------------------------------------------------------------------------

// A rail section by name, single properties of it replaced.
struct RailChoice {
  std::string section = "60E1";
  std::optional<double> EI, kappa_GA, rho_A, rho_I; // as track::RailProperties
  std::optional<double> foot_modulus;               // m3
  [[nodiscard]] friend bool operator==(const RailChoice&, const RailChoice&) = default;
};
inline constexpr Range foot_moduli{1e-5, 1e-2}; // m3
// A stretch where the rail is stiffer and heavier.
struct Casting {
  double begin = 0.0, end = 0.0; // m
  double EI_factor = 1.0, mass_factor = 1.0;
  std::optional<double> shear_factor = std::nullopt; // absent: as the mass
  std::optional<double> foot_modulus = std::nullopt; // m3; absent: not known
  [[nodiscard]] friend bool operator==(const Casting&, const Casting&) = default;
};
constexpr auto ranges(const Casting*) {
  return std::array{InRange{&Casting::begin, "begin", "m", -100, 100}, InRange{&Casting::end, "end", "m", -100, 100},
                    InRange{&Casting::EI_factor, "EI_factor", "-", 0.1, 20},
                    InRange{&Casting::mass_factor, "mass_factor", "-", 0.1, 20}};
}
// modes: as long as the set-up of many modes is shared, the quickest. chain: bay by bay, hardly any set-up.
enum class TrackMethod { modes, chain };
constexpr auto names(TrackMethod) {
  return std::array{
      Name{TrackMethod::modes, "modes", "modes of the whole track, made once and shared by passages"},
      Name{TrackMethod::chain, "chain",
           "bay by bay: quick to set up, slower by the step; elements_per_bay and cut_off_Hz are not used"}};
}
// Rail and zones of the base follow from what stands here, unless `choice` is absent: then they are as given.
struct Track : track::Track {
  std::optional<RailChoice> choice = RailChoice{};
  std::vector<Casting> castings;
  TrackMethod method = TrackMethod::modes;
  SeatScatter variation;
  // What only a chain has.
  Rails rails = Rails::as_needed;
  double rail_distance = 1.507; // m, between the middles of two rails
  Bearers bearers;
  std::vector<VoidBelow> voids;
  [[nodiscard]] friend bool operator==(const Track&, const Track&) = default;
};

[[nodiscard]] inline bool has_two_rails(const Track& t) {
  return t.rails == Rails::two || (t.rails == Rails::as_needed && t.bearers.kind == BearerKind::bending);
}
constexpr auto ranges(const Track*) {
  return std::array{InRange{&Track::rail_distance, "rail_distance", "m", 0.6, 2.5}};
}

// --- [contact], [passage] --------------------------------------------------------------------------------------------

struct Contact {
  contact::NormalLaw law = contact::Ellipse{};
  // step: searched under the wheel at every step, for crossings; some hundred times slower, to check the other.
  contact::SearchAt search = contact::SearchAt::path;
  [[nodiscard]] friend bool operator==(const Contact&, const Contact&) = default;
};

struct Passage {
  passage::Method method = passage::Method::modal_exponential;
  double speed = 30.0; // m/s
  Direction direction = Direction::facing;
  double from = -4.0, to = 4.0; // m, stretch covered by the reported wheel, from < to whatever the direction
  double step = 4e-5;           // s; also the sampling step of the history
  // s, of steps where the force is smooth, in whole steps; range as that of `step`; absent: four
  std::optional<double> longest_step = std::nullopt;
  double tolerance = 1e-8; // relative, adaptive method only
  int reported_wheel = 1;  // 1: the leading one
  bool probes = true;      // record rail and bearer motion at fixed points near the landing
  [[nodiscard]] friend bool operator==(const Passage&, const Passage&) = default;
};
constexpr auto ranges(const Passage*) {
  using P = Passage;
  return std::array{InRange{&P::speed, "speed", "m/s", 1 / 3.6, 500 / 3.6},
                    InRange{&P::from, "from", "m", -50, 50},
                    InRange{&P::to, "to", "m", -50, 50},
                    InRange{&P::step, "step", "s", 1e-6, 500e-6},
                    InRange{&P::tolerance, "tolerance", "-", 1e-13, 1e-3},
                    InRange{&P::reported_wheel, "reported_wheel", 1, 100}};
}

// --- [turnout] -------------------------------------------------------------------------------------------------------

enum class TurnoutFrom { none, drawing, preset, curvature };
constexpr auto names(TurnoutFrom) {
  return std::array{Name{TurnoutFrom::none, "none", "no turnout"},
                    Name{TurnoutFrom::drawing, "drawing", "from radius and rate"},
                    Name{TurnoutFrom::preset, "preset", "one of the trade, by name"},
                    Name{TurnoutFrom::curvature, "curvature", "the diverging route's curvature, point by point"}};
}
// The turnout the crossing belongs to; a passage does not ask for it.
struct Turnout {
  TurnoutFrom geometry = TurnoutFrom::none;
  std::string preset;                    // of that geometry
  std::string curvature_csv;             // of that geometry, as named
  layout::turnout::Turnout drawing;      // radius, rate, transition count for a drawing only, points for curvature only
  std::optional<double> gauge, widening; // m; absent: the crossing's; the preset's, or none
  std::optional<double> crossing_flangeway;                 // m; absent: the crossing's
  layout::turnout::Way way = layout::turnout::Way::through; // that the vehicle takes
  layout::turnout::Wheelset wheelset;                       // the nominal one
  [[nodiscard]] friend bool operator==(const Turnout&, const Turnout&) = default;
};

// --- [spatial] -------------------------------------------------------------------------------------------------------

// How much of what happens is looked at when a case is run: one wheel on one rail, held in one attitude, or a whole
// vehicle in space on both.
enum class Rung { vertical, spatial };
constexpr auto names(Rung) {
  return std::array{Name{Rung::vertical, "vertical", "the wheels of one rail, held in one attitude"},
                    Name{Rung::spatial, "spatial", "a whole vehicle in space on both rails of a turnout"}};
}
enum class RailsBelow { co_running, bending };
constexpr auto names(RailsBelow) {
  return std::array{Name{RailsBelow::co_running, "co_running",
                         "masses that run along under the wheels: quick, for guiding forces; no P1, P2 and peaks"},
                    Name{RailsBelow::bending, "bending", "two rails on the bearers of [track], up and across"}};
}
// file: the table it was read from; "": a program made it.
struct SpaceVehicleTable {
  std::string file;
  Shared<vehicle::space::SpatialVehicle> table;
  [[nodiscard]] friend bool operator==(const SpaceVehicleTable& a, const SpaceVehicleTable& b) {
    return a.table == b.table;
  }
};
// What a ride in space asks for beside turnout, crossing, wheel profile, speed and friction.
struct Spatial {
  std::string preset = "coach_1998"; // not used where a table is given
  std::optional<SpaceVehicleTable> table = std::nullopt;
  RailsBelow rails = RailsBelow::co_running;
  double step = 2e-4;                                                // s
  double check_stiffness = 50e6;                                     // N/m, of the check rail ...
  std::optional<double> least_check_stiffness, most_check_stiffness; // N/m, ... and its range; absent: half, twice
  double check_friction = 0.3;                                       // -, between it and a wheel's back
  // -, of the surfaces of these bodies; absent: that of damage
  std::optional<double> stock_friction, wing_friction, nose_friction;
  double enters_at = -8.0;      // m, station of the leading axle where a vehicle enters the through route
  std::string irregularity_csv; // as named; "": rails lie as drawn
  Shared<std::vector<layout::IrregularityPoint>> irregularity = {}; // of it, as the turnout is built
  [[nodiscard]] friend bool operator==(const Spatial&, const Spatial&) = default;
};
constexpr auto ranges(const Spatial*) {
  using S = Spatial;
  return std::array{
      InRange{&S::check_stiffness, "check_stiffness", "N/m", 1e6, 1e9}, InRange{&S::step, "step", "s", 1e-6, 500e-6},
      InRange{&S::check_friction, "check_friction", "-", 0, 1}, InRange{&S::enters_at, "enters_at", "m", -100, -3}};
}
inline constexpr Range body_frictions{0.01, 1.0};    // -
inline constexpr Range entering_shifts{-0.02, 0.02}; // m, with which a vehicle in space may enter

// --- the whole -------------------------------------------------------------------------------------------------------

struct Case {
  std::string name = "case";
  Rung rung = Rung::vertical;
  layout::Excitation excitation;
  PlainRail plain_rail;
  Wheel wheel;
  Vehicle vehicle;
  Track track;
  Contact contact;
  contact::Elastic material; // of wheel and rail
  Passage passage;
  contact::KinematicsOptions kinematics; // its direction is that of the passage
  assess::MeasureOptions measures;
  std::string steel = "R350HT";             // of wing and nose, for damage: a grade ...
  std::optional<assess::Steel> given_steel; // ... or one made by a program
  assess::DamageOptions damage;
  Turnout turnout;
  Spatial spatial;
  std::vector<assess::Sensor> sensors; // with the probes
  std::vector<std::string> sets;       // closed-form track sets to report beside the derived one
  std::vector<InputFile> inputs;       // files the case came from
  std::string source_text;             // the case file as read
  [[nodiscard]] friend bool operator==(const Case&, const Case&) = default;
};

// What a case's choices amount to. Throw InputError.
[[nodiscard]] std::size_t wheels_of(const Vehicle& vehicle);                  // on one rail
[[nodiscard]] vehicle::Vehicle vehicle_of(const Case& c);                     // with the wheel radius of the case
[[nodiscard]] vehicle::space::SpatialVehicle space_vehicle_of(const Case& c); // the same of one in space
[[nodiscard]] track::Track track_of(const Track& track);
// The track that is modelled around the stretch from .. to (m), with what is drawn for its seats; ...
[[nodiscard]] track::Track laid(const Track& track, double from, double to);
// ... and as a chain, with its rails, bearers and voids.
[[nodiscard]] track::chain::Model chain_of(const Track& track, double from, double to);
[[nodiscard]] std::optional<layout::turnout::Turnout> turnout_of(const Case& c); // nullopt: "none"
[[nodiscard]] assess::Steel steel_of(const Case& c);
[[nodiscard]] std::vector<closedform::ConstantSet> sets_of(const Case& c);
[[nodiscard]] std::vector<passage::SensorPlace> sensor_places(const Case& c);

// Ranges of all parts and what contradicts what. Throws InputError, Contradiction.
void check(const Case& c);

} // namespace wingnose::cases
