// Room closedform: P1/P2, beam on elastic foundation, linear crossing.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/closedform/foundation_beam.hpp"
#include "wingnose/closedform/joint_forces.hpp"
#include "wingnose/closedform/linear_crossing.hpp"

namespace wingnose::python {

using namespace closedform;

namespace {

void bind_joint(py::module_& m) {
  value_type<LumpedTrack>(m, "Track as one mass on one spring and damper, per rail.", needed<&LumpedTrack::m_T2>("kg"),
                          needed<&LumpedTrack::k_T2>("N/m"), needed<&LumpedTrack::c_T2>("N s/m"));
  value_type<JointCase>(m, "Input of the closed forms for P1 and P2.", needed<&JointCase::static_load>("N per wheel"),
                        needed<&JointCase::unsprung_mass>("kg per wheel"), needed<&JointCase::speed>("m/s"),
                        needed<&JointCase::dip_angle>("rad, total"), needed<&JointCase::track>("lumped track"),
                        field<&JointCase::k_H>("N/m, linearised contact stiffness"),
                        field<&JointCase::m_e>("kg, effective rail mass for P1"));
  result_type<JointForces>(
      m, "P1 and P2 after Jenkins et al. (1974).", field<&JointForces::P1>("N"), field<&JointForces::P2>("N"),
      field<&JointForces::M>("-, mass factor"), field<&JointForces::C>("-, damping factor"),
      field<&JointForces::K>("N s/m, stiffness factor"), field<&JointForces::f2>("Hz, frequency of the P2 mode"),
      field<&JointForces::zeta>("-, its damping ratio"));
  result_type<LumpedPeaks>(m, "Exact peaks of the same lumps, static load included.",
                           field<&LumpedPeaks::spring>("N, in the spring"),
                           field<&LumpedPeaks::spring_and_damper>("N, on the ground"),
                           field<&LumpedPeaks::contact>("N, between wheel and track"));
  m.def("joint_forces", &joint_forces, "case"_a, "P1 and P2 at a dip, an estimate with stated assumptions.");
  m.def("lumped_peaks", &lumped_peaks, "case"_a, "Exact peaks of wheel and lumped track after landing together.");
  m.def("P1_hertz", &P1_hertz, "case"_a, "C_H"_a, "P1 (N) with the nonlinear Hertz spring `C_H` (N/m^1.5), by energy.");
  m.def("permissible_speed", &permissible_speed, "case"_a, "P2_limit"_a,
        "Speed (m/s) at which P2 reaches the limit (N).");
  m.def("permissible_dip_angle", &permissible_dip_angle, "case"_a, "P2_limit"_a,
        "Total dip angle (rad) at which P2 reaches the limit (N).");

  result_type<ConstantSet>(m, "Named constants of a published standard.", field<&ConstantSet::name>("key"),
                           field<&ConstantSet::track>("lumped track"),
                           field<&ConstantSet::dip_angle>("rad the standard uses, 0 if not known"),
                           field<&ConstantSet::limit>("N, 0 if not known"), field<&ConstantSet::source>("publication"),
                           field<&ConstantSet::status>("how far to trust it"));
  m.def(
      "constant_sets", [] { return constant_sets(); }, "All named constant sets.");
  m.def(
      "constant_set", [](std::string_view name) { return constant_set(name); }, "name"_a,
      "One named constant set; raises InputError listing the names.");
}

} // namespace

void bind_closedform(py::module_ m) {
  bind_joint(m);

  value_type<FoundationBeam>(m, "Beam on elastic foundation, per rail.", needed<&FoundationBeam::EI>("N m2"),
                             needed<&FoundationBeam::k>("N/m2"));
  m.def("characteristic_length", &characteristic_length, "beam"_a, "(4 EI / k)^(1/4) in m.");
  m.def("deflection",
        py::vectorize([](const FoundationBeam* b, double load, double x) { return deflection(*b, load, x); }), "beam"_a,
        "load"_a, "x"_a, "Deflection (m, downward) at distance `x` (m) under `load` (N).");
  m.def("moment", py::vectorize([](const FoundationBeam* b, double load, double x) { return moment(*b, load, x); }),
        "beam"_a, "load"_a, "x"_a, "Bending moment (N m) at distance `x` (m) under `load` (N).");
  m.def("point_stiffness", &point_stiffness, "beam"_a, "N/m under the load.");
  m.def("critical_speed", &critical_speed, "beam"_a, "mass_per_m"_a, "m/s.");
  m.def("moving_load_factor", &moving_load_factor, "speed"_a, "critical_speed"_a,
        "Amplification of the deflection under a moving constant load (-).");
  m.def("lumped_track", &lumped_track, "beam"_a, "mass_per_m"_a, "damping_per_m"_a,
        "Lumps equivalent under the load, from kg/m and N s/m2 of rail and bearers per rail.");
  m.def("pinned_pinned_frequency", &pinned_pinned_frequency, "EI"_a, "kappa_GA"_a, "rho_A"_a, "rho_I"_a, "spacing"_a,
        "Pinned-pinned frequency (Hz) of a Timoshenko rail.");

  using L = LinearCrossing;
  value_type<L>(m, "Coned wheel over straight wing and nose.", needed<&L::rate>("N of 1:N"), needed<&L::conicity>("-"),
                needed<&L::ramp_slope>("-, rise of the nose"), field<&L::wing_rise>("-, rise of the wing"),
                needed<&L::wing_height_at_0>("m, wheel on the wing at x = 0"),
                needed<&L::nose_height_at_0>("m, wheel on the nose ramp at x = 0"), needed<&L::wheel_radius>("m"));
  using R = LinearCrossingResult;
  result_type<R>(m, "Transfer and dip angle in closed form.", field<&R::transfer_station>("m"),
                 field<&R::dip_angle>("rad"), field<&R::slope_before>("rad"), field<&R::slope_after>("rad"),
                 field<&R::height_at_transfer>("m"));
  m.def("linear_crossing", &linear_crossing, "crossing"_a, "Transfer and dip angle of a coned wheel.");
}

} // namespace wingnose::python
