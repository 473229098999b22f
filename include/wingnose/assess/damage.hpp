// What one passage does to the steel: the rolling contacts along wing and nose, and the damage they leave.
//
// Contacts: at each step of the history a body that carries force has one Hertz ellipse at the place and with the
// curvatures of the rolled path. Creepages: the wheelset runs straight without lateral motion, held in the yaw of the
// path: lateral creepage is 0 without yaw and the angle of attack with it, spin comes from the contact angle (the axle
// taken level, roll only moves the contact). The wheel's spin speed follows from its inertia: it starts rolling freely
// on the body that carries most, and changes only by the creep forces of its own contacts,
//   I d(omega)/dt = - sum r F_h,   F_h the creep force along the wheel's own heading,
// so that at the landing, where the rolling radius jumps, the wheel slides for some milliseconds. The other wheel is
// taken to roll freely (half the wheelset's inertia acts here). Creep forces: a law of contact/saturation.hpp at
// choice, steady rolling at each instant; friction constant or falling with the slip speed (contact/friction.hpp).
//
// Sliding: wear and friction energy need the slip of every cell of a patch, which the closed laws do not tell. They
// come from the simplified theory (Kalker 1982) whatever the law, at the creepages the law has led to and with the same
// friction; so with another law than this the friction power is not exactly creep force times creepage.
//
// Damage, with f = creep force / normal force, p0 the Hertz pressure and k the yield in shear:
//   load factor p0/k; shakedown exceedance = load factor over its elastic limit at f (shakedown.hpp), above 1 is
//   plastic; surface fatigue index f - k/p0; T-gamma = F_x xi + F_y eta, for the crack function (fatigue.hpp);
//   friction power and, in every sliding cell, wear after Archard (wear.hpp): volume = K * friction energy / (mu H).
//
// Elastic pressures on a new, sharp shape can exceed the hardness, which no steel carries: the first wheels flatten it.
// Wear is therefore looked up at the run-in pressure, cut to the shakedown limit times k (`run_in`; false takes the
// elastic pressure, and with it seizure above 0.8 H). This is our own reading of the map; it leaves friction energy
// alone.
//
// Contacts are one ellipse per body or, where the passage took strips, every patch of them: rolled on its own radius
// and seen as the ellipse of its force, peak pressure and proportions.
//
// Limits: half-space, ellipses, elastic pressures, no change of shape: depths of wear are rates for the
// shape given. Where the contact angle changes by more than 0.15 rad inside the patch the half-space is stretched; the
// findings say where. The flexibilities of the simplified theory weigh spin differently in force and in slip: with
// spin, friction energy and the work of the creep forces differ by some percent. SI; frame.hpp.
#pragma once

#include "wingnose/assess/damage_field.hpp"
#include "wingnose/assess/fatigue.hpp"
#include "wingnose/assess/shakedown.hpp"
#include "wingnose/assess/steel.hpp"
#include "wingnose/assess/wear.hpp"
#include "wingnose/contact/normal/hertz.hpp"
#include "wingnose/contact/path/kinematics.hpp"
#include "wingnose/contact/path/path_patches.hpp"
#include "wingnose/contact/tangential/creepage.hpp"
#include "wingnose/contact/tangential/saturation.hpp"
#include "wingnose/passage/history.hpp"
#include "wingnose/profile/wheel.hpp"
#include "wingnose/words/column.hpp"
#include "wingnose/words/finding.hpp"
#include "wingnose/words/frame.hpp"
#include "wingnose/words/range.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace wingnose::assess {

// Law of the creep force; cubic gives no good force where spin alone saturates (contact/saturation.hpp).
enum class CreepTheory { simplified, polach, cubic };
constexpr auto names(CreepTheory) {
  return std::array{Name{CreepTheory::simplified, "simplified", "Kalker's simplified theory in strips"},
                    Name{CreepTheory::polach, "polach", "Polach's formula"},
                    Name{CreepTheory::cubic, "cubic", "cubic saturation of the linear force"}};
}

struct DamageOptions {
  double friction = 0.3;       // -, 0 .. 1, at no slip; 0: nothing slides against anything
  double friction_ratio = 1.0; // -, 0 < .. <= 1, friction at very high slip speed over that; 1: constant (Polach's A)
  double friction_decay = 0.0; // s/m, >= 0, how fast it falls; 0: constant (Polach's B)
  CreepTheory creep_law = CreepTheory::simplified;
  double adhesion_reduction = 1.0;              // -, 0 < .. <= 1, of Polach's slopes in adhesion (kA)
  double slip_reduction = 1.0;                  // -, 0 < .. <= kA, likewise in slip (kS)
  double spin_inertia = 60.0;                   // kg m2, > 0, of one wheel with its half of the axle; common practice
  double before = 0.5, after = 1.0;             // m, stretch around the landing in the sense of travel, > 0
  double least_force = 500.0;                   // N, > 0, below which a body counts as not touched
  int strips = 20, cells = 20;                  // of the simplified theory, 3 .. 400
  double spacing_x = 0.002, spacing_y = 0.0005; // m, of the maps
  ContactShape shakedown_shape = ContactShape::line;
  bool run_in = true;               // wear at the pressure a place settles at, not above the shakedown limit times k
  double wear_depth_limit = 0.3e-3; // m, three Hertz approaches: worn deeper, wheels touch elsewhere
  WearMap wear;
  CrackFunction cracks;
  [[nodiscard]] friend bool operator==(const DamageOptions&, const DamageOptions&) = default;
};
constexpr auto ranges(const DamageOptions*) {
  using O = DamageOptions;
  return std::array{InRange{&O::friction, "friction", "-", 0, 1},
                    InRange{&O::friction_ratio, "friction_ratio", "-", 0.01, 1},
                    InRange{&O::friction_decay, "friction_decay", "s/m", 0, 1e5},
                    InRange{&O::adhesion_reduction, "adhesion_reduction", "-", 0.01, 1},
                    InRange{&O::slip_reduction, "slip_reduction", "-", 0.01, 1},
                    InRange{&O::spin_inertia, "spin_inertia", "kg m2", 1e-3, 1e9},
                    InRange{&O::before, "before", "m", 1e-3, 100},
                    InRange{&O::after, "after", "m", 1e-3, 100},
                    InRange{&O::least_force, "least_force", "N", 1e-3, 1e6},
                    InRange{&O::strips, "strips", 3, 400},
                    InRange{&O::cells, "cells", 3, 400},
                    InRange{&O::spacing_x, "map_x", "m", 1e-4, 0.1},
                    InRange{&O::spacing_y, "map_y", "m", 1e-5, 0.05},
                    InRange{&O::wear_depth_limit, "wear_depth_limit", "m", 1e-6, 1}};
}
void check(const DamageOptions& options); // throws InputError, Contradiction

// Friction of the options for a law; a tiny one stands for none, which callers treat first.
[[nodiscard]] contact::Friction friction_of(const DamageOptions& options);
// The law the creep forces follow.
[[nodiscard]] contact::CreepLaw creep_law_of(const DamageOptions& options);
// The strips sliding is read from, whatever the law.
[[nodiscard]] contact::Simplified sliding_law_of(const DamageOptions& options);

// One contact during one step of the history: of a body, or one of its patches.
struct RollingStep {
  std::size_t body;          // index into the bodies of the track
  double time;               // s
  double x, y;               // m, centre of the patch
  double angle;              // rad, contact angle
  double change_of_angle;    // rad, >= 0, across the patch; of an ellipse its width times the curvature both surfaces
                             // take in between (half the relative curvature less that of the wheel)
  double rolling_radius;     // m
  double normal_force;       // N
  contact::HertzPatch patch; // semi-axes, pressure
  contact::Creepage creepage;
  contact::CreepForce force; // on the wheel, contact frame
  double friction_power;     // W, by the simplified theory
};
inline constexpr auto rolling_columns = std::to_array<Column<RollingStep>>(
    {{"time_ms", "time", "of each contact and step", &RollingStep::time, 3},
     {"x_mm", "station", "station of the patch", &RollingStep::x, 1},
     {"y_mm", "y", "patch from the track centre line", &RollingStep::y, 2},
     {"contact_angle_mrad", "contact angle", "contact angle", &RollingStep::angle, 1},
     {"rolling_radius_mm", "rolling radius", "rolling radius", &RollingStep::rolling_radius, 2},
     {"normal_force_kN", "normal force", "normal force", &RollingStep::normal_force, 2},
     {"half_length_mm", "half length", "half length of the patch along the track",
      [](const RollingStep& s) { return s.patch.a_x; }, 2},
     {"half_width_mm", "half width", "half width of the patch across", [](const RollingStep& s) { return s.patch.a_y; },
      2},
     {"peak_pressure_MPa", "peak pressure", "elastic peak pressure",
      [](const RollingStep& s) { return s.patch.peak_pressure; }, 0},
     {"longitudinal_creepage_permil", "longitudinal creepage", "positive: the wheel slides forward",
      [](const RollingStep& s) { return s.creepage.longitudinal; }, 2},
     {"spin_1_m", "spin", "spin", [](const RollingStep& s) { return s.creepage.spin; }, 3},
     {"longitudinal_force_kN", "longitudinal force", "creep force on the wheel along travel",
      [](const RollingStep& s) { return s.force.longitudinal; }, 2},
     {"lateral_force_kN", "lateral force", "creep force on the wheel across",
      [](const RollingStep& s) { return s.force.lateral; }, 2},
     {"friction_power_kW", "friction power", "friction power", &RollingStep::friction_power, 2},
     {"change_of_contact_angle_rad", "angle change", "change of the contact angle inside the patch",
      &RollingStep::change_of_angle, 3}});

// The contacts of one wheel along one crossing: all that does not depend on the steel's strength.
struct ContactTrail {
  std::vector<std::string> bodies;
  std::vector<RollingStep> steps;          // by time, then body
  std::vector<double> time, angular_speed; // s, rad/s, of the wheel at the start of every step
  double speed = 0.0;                      // m/s
  double yaw = 0.0;                        // rad, of the wheel, held
  double duration = 0.0;                   // s, of one step
  Direction direction = Direction::facing;
  contact::Elastic material;
  bool by_strips = false; // patches by strips, several per body; false: one ellipse per body
};
// landing: station of the axle (m). wheel: the profile the path was rolled with. patches: of the same crossing, wheel
// and shift, for contacts by strips; nullptr: ellipses with the path's curvatures. Throws InputError for options out of
// range and bodies that differ between history and path, ComputeError when the history does not reach the landing.
[[nodiscard]] ContactTrail contact_trail(const passage::History& history, const contact::WheelPath& path,
                                         const profile::WheelProfile& wheel, double landing,
                                         const contact::Elastic& material, const DamageOptions& options,
                                         contact::PathPatches* patches = nullptr);

struct DamagePeak {
  double value = 0.0;
  std::string body;        // empty: never
  double x = 0.0, y = 0.0; // m, centre of the patch
  double time = 0.0;       // s
};

// Over wing and nose, of one wheel: the largest values, where they are reached, and sums.
struct SteelMeasures {
  DamagePeak peak_pressure;     // Pa
  DamagePeak load_factor;       // -, p0 / k
  DamagePeak shakedown;         // -, load factor over the elastic shakedown limit at the traction used
  DamagePeak fatigue_index;     // -, surface
  DamagePeak creepage;          // -, size of the longitudinal creepage
  DamagePeak creep_force;       // N
  DamagePeak traction;          // -, creep force over normal force
  DamagePeak t_gamma;           // N (J/m)
  DamagePeak crack_damage;      // -, per wheel, largest value of the crack function
  DamagePeak friction_power;    // W
  DamagePeak change_of_angle;   // rad, inside a patch
  DamagePeak wear_depth;        // m, deepest node of the maps, NaN where none are made; time is not told
  double friction_energy = 0.0; // J, of the whole stretch
  double wear_volume = 0.0;     // m3
};

struct Damage : SteelMeasures {
  std::vector<DamageMap> maps; // one per body
  Findings findings;
};

// What a reader must know beside these numbers, and what they rest on, in sentences: of one trail, of any.
[[nodiscard]] Findings findings_of_steel(const ContactTrail& trail, const SteelMeasures& measures);
[[nodiscard]] std::vector<std::string> assumptions_of_steel(const ContactTrail& trail);
[[nodiscard]] std::vector<std::string> assumptions_of_steel();

// before: maps of the traffic so far (same bodies), whose counts of wheels harden the steel; nullptr: new steel.
// Throws InputError for a steel or options out of range.
[[nodiscard]] Damage damage(const ContactTrail& trail, const Steel& steel, const DamageOptions& options,
                            const std::vector<DamageMap>* before = nullptr);
// The few numbers that studies of many passages compare, over new steel: the same bits as of damage, at less cost, as
// nothing is mapped.
[[nodiscard]] SteelMeasures steel_measures(const ContactTrail& trail, const Steel& steel, const DamageOptions& options);

} // namespace wingnose::assess
