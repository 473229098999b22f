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
  value_type<LumpedTrack>(m, "LumpedTrack", "Track as one mass on one spring and damper, per rail.",
                          needed("m_T2", &LumpedTrack::m_T2, "kg"), needed("k_T2", &LumpedTrack::k_T2, "N/m"),
                          needed("c_T2", &LumpedTrack::c_T2, "N s/m"));
  value_type<JointCase>(
      m, "JointCase", "Input of the closed forms for P1 and P2.",
      needed("static_load", &JointCase::static_load, "N per wheel"),
      needed("unsprung_mass", &JointCase::unsprung_mass, "kg per wheel"), needed("speed", &JointCase::speed, "m/s"),
      needed("dip_angle", &JointCase::dip_angle, "rad, total"), needed("track", &JointCase::track, "lumped track"),
      field("k_H", &JointCase::k_H, "N/m, linearised contact stiffness"),
      field("m_e", &JointCase::m_e, "kg, effective rail mass for P1"));
  result_type<JointForces>(
      m, "JointForces", "P1 and P2 after Jenkins et al. (1974).", field("P1", &JointForces::P1, "N"),
      field("P2", &JointForces::P2, "N"), field("M", &JointForces::M, "-, mass factor"),
      field("C", &JointForces::C, "-, damping factor"), field("K", &JointForces::K, "N s/m, stiffness factor"),
      field("f2", &JointForces::f2, "Hz, frequency of the P2 mode"),
      field("zeta", &JointForces::zeta, "-, its damping ratio"));
  result_type<LumpedPeaks>(m, "LumpedPeaks", "Exact peaks of the same lumps, static load included.",
                           field("spring", &LumpedPeaks::spring, "N, in the spring"),
                           field("spring_and_damper", &LumpedPeaks::spring_and_damper, "N, on the ground"),
                           field("contact", &LumpedPeaks::contact, "N, between wheel and track"));
  m.def("joint_forces", &joint_forces, py::arg("case"), "P1 and P2 at a dip, an estimate with stated assumptions.");
  m.def("lumped_peaks", &lumped_peaks, py::arg("case"),
        "Exact peaks of wheel and lumped track after landing together.");
  m.def("P1_hertz", &P1_hertz, py::arg("case"), py::arg("C_H"),
        "P1 (N) with the nonlinear Hertz spring `C_H` (N/m^1.5), by energy.");
  m.def("permissible_speed", &permissible_speed, py::arg("case"), py::arg("P2_limit"),
        "Speed (m/s) at which P2 reaches the limit (N).");
  m.def("permissible_dip_angle", &permissible_dip_angle, py::arg("case"), py::arg("P2_limit"),
        "Total dip angle (rad) at which P2 reaches the limit (N).");

  result_type<ConstantSet>(
      m, "ConstantSet", "Named constants of a published standard.", field("name", &ConstantSet::name, "key"),
      field("track", &ConstantSet::track, "lumped track"),
      field("dip_angle", &ConstantSet::dip_angle, "rad the standard uses, 0 if not known"),
      field("limit", &ConstantSet::limit, "N, 0 if not known"), field("source", &ConstantSet::source, "publication"),
      field("status", &ConstantSet::status, "how far to trust it"));
  m.def(
      "constant_sets", [] { return constant_sets(); }, "All named constant sets.");
  m.def(
      "constant_set", [](std::string_view name) { return constant_set(name); }, py::arg("name"),
      "One named constant set; raises InputError listing the names.");
}

} // namespace

void bind_closedform(py::module_ m) {
  bind_joint(m);

  value_type<FoundationBeam>(m, "FoundationBeam", "Beam on elastic foundation, per rail.",
                             needed("EI", &FoundationBeam::EI, "N m2"), needed("k", &FoundationBeam::k, "N/m2"));
  m.def("characteristic_length", &characteristic_length, py::arg("beam"), "(4 EI / k)^(1/4) in m.");
  m.def("deflection",
        py::vectorize([](const FoundationBeam* b, double load, double x) { return deflection(*b, load, x); }),
        py::arg("beam"), py::arg("load"), py::arg("x"),
        "Deflection (m, downward) at distance `x` (m) under `load` (N).");
  m.def("moment", py::vectorize([](const FoundationBeam* b, double load, double x) { return moment(*b, load, x); }),
        py::arg("beam"), py::arg("load"), py::arg("x"), "Bending moment (N m) at distance `x` (m) under `load` (N).");
  m.def("point_stiffness", &point_stiffness, py::arg("beam"), "N/m under the load.");
  m.def("critical_speed", &critical_speed, py::arg("beam"), py::arg("mass_per_m"), "m/s.");
  m.def("moving_load_factor", &moving_load_factor, py::arg("speed"), py::arg("critical_speed"),
        "Amplification of the deflection under a moving constant load (-).");
  m.def("lumped_track", &lumped_track, py::arg("beam"), py::arg("mass_per_m"), py::arg("damping_per_m"),
        "Lumps equivalent under the load, from kg/m and N s/m2 of rail and bearers per rail.");
  m.def("pinned_pinned_frequency", &pinned_pinned_frequency, py::arg("EI"), py::arg("kappa_GA"), py::arg("rho_A"),
        py::arg("rho_I"), py::arg("spacing"), "Pinned-pinned frequency (Hz) of a Timoshenko rail.");

  using L = LinearCrossing;
  value_type<L>(m, "LinearCrossing", "Coned wheel over straight wing and nose.", needed("rate", &L::rate, "N of 1:N"),
                needed("conicity", &L::conicity, "-"), needed("ramp_slope", &L::ramp_slope, "-, rise of the nose"),
                field("wing_rise", &L::wing_rise, "-, rise of the wing"),
                needed("wing_height_at_0", &L::wing_height_at_0, "m, wheel on the wing at x = 0"),
                needed("nose_height_at_0", &L::nose_height_at_0, "m, wheel on the nose ramp at x = 0"),
                needed("wheel_radius", &L::wheel_radius, "m"));
  using R = LinearCrossingResult;
  result_type<R>(m, "LinearCrossingResult", "Transfer and dip angle in closed form.",
                 field("transfer_station", &R::transfer_station, "m"), field("dip_angle", &R::dip_angle, "rad"),
                 field("slope_before", &R::slope_before, "rad"), field("slope_after", &R::slope_after, "rad"),
                 field("height_at_transfer", &R::height_at_transfer, "m"));
  m.def("linear_crossing", &linear_crossing, py::arg("crossing"), "Transfer and dip angle of a coned wheel.");
}

} // namespace wingnose::python
