// Room contact: creepage, creep laws, exact rolling.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/contact/tangential/rolling.hpp"
#include "wingnose/contact/tangential/rolling_coefficients.hpp"
#include "wingnose/contact/tangential/saturation.hpp"
#include "wingnose/words/error.hpp"

#include <span>

namespace wingnose::python {

using namespace contact;

namespace {

void bind_kinematics(py::module_& m) {
  value_type<Creepage>(m, "Slip of the wheel over the rail per distance travelled, contact frame.",
                       field<&Creepage::longitudinal>("-, positive when the wheel slides forward"),
                       field<&Creepage::lateral>("-"), field<&Creepage::spin>("1/m"));
  value_type<CreepForce>(m, "Tangential force on the wheel, contact frame.", field<&CreepForce::longitudinal>("N"),
                         field<&CreepForce::lateral>("N"), field<&CreepForce::moment>("N m, about the normal"));
  using W = WheelMotion;
  value_type<W>(m, "Motion of a wheelset and where one of its wheels touches.", needed<&W::speed>("m/s, > 0"),
                needed<&W::angular_speed>("rad/s, about the axle, positive when rolling"),
                needed<&W::rolling_radius>("m, > 0, axle to contact"), field<&W::direction>("sense of travel"),
                field<&W::contact_angle>("rad, slope of the common tangent plane across the track"),
                field<&W::offset_y>("m, contact from the wheelset's centre"),
                field<&W::offset_x>("m, contact ahead of the axle"), field<&W::yaw>("rad, positive from x towards y"),
                field<&W::lateral_speed>("m/s"), field<&W::vertical_speed>("m/s, up"), field<&W::yaw_rate>("rad/s"),
                field<&W::roll_rate>("rad/s"));
  m.def("creepage", &creepage, "motion"_a, "Creepages of the wheel, exact rigid-body kinematics (Kalker 1990).");
  m.def("creepage_linearised", &creepage_linearised, "motion"_a, "nominal_radius"_a,
        "The usual closed form, linear in yaw and rates; `nominal_radius` (m) is speed over angular speed.");
  m.def("track_force", &track_force, "force"_a, "normal"_a, "contact_angle"_a,
        py::arg_v("direction", Direction::facing, "..."),
        "(Fx, Fy, Fz) (N) on the wheel in the frame of the crossing, `normal` (N) included.");
}

void bind_linear(py::module_& m) {
  result_type<CreepCoefficients>(m, "Linear creep coefficients; C32 = -C23.", field<&CreepCoefficients::C11>("-"),
                                 field<&CreepCoefficients::C22>("-"), field<&CreepCoefficients::C23>("-"),
                                 field<&CreepCoefficients::C33>("-"));
  result_type<RollingContact>(m, "An elliptic contact as the creep laws see it.",
                              field<&RollingContact::a>("m, semi-axis along the rolling direction"),
                              field<&RollingContact::b>("m, semi-axis across"),
                              field<&RollingContact::normal_force>("N"), field<&RollingContact::shear_modulus>("Pa"),
                              field<&RollingContact::linear>("its creep coefficients"));
  m.def("creep_coefficients", &creep_coefficients, "axis_ratio"_a, "poisson"_a,
        "Kalker's table interpolated in a/b (0.001 to 1000, printed from 0.1 to 10) and Poisson's ratio (0 to 0.5).");
  m.def("half_space_coefficients", &half_space_coefficients, "axis_ratio"_a, "poisson"_a, "along"_a, "across"_a,
        "Coefficients computed from the half-space on one mesh, without slip.");
  m.def("extrapolated_coefficients", &extrapolated_coefficients, "axis_ratio"_a, "poisson"_a, "cells"_a = 24,
        "Half-space coefficients extrapolated from `cells` and half as many.");
  m.def("rolling_contact", &rolling_contact, "a"_a, "b"_a, "normal_force"_a, usual<Elastic>("material"),
        "Contact with semi-axes `a` along and `b` across (m), force in N, for the creep laws.");
  m.def("linear_creep_force", &linear_creep_force, "contact"_a, "creepage"_a,
        "Creep force of full adhesion (Kalker 1967).");
}

py::typing::Tuple<py::array_t<double>, py::array_t<double>, py::array_t<double>>
creep_forces(const CreepLaw& law, const RollingContact& contact, const Array& xi, const Array& eta, const Array& phi,
             double speed) {
  check(law);
  if (!(speed > 0.0))
    throw InputError("speed", number(speed) + " m/s", "above 0", "Creepage is a slip per distance travelled.");
  const auto x = to_vector(xi), y = to_vector(eta), spin = to_vector(phi);
  if (x.size() != y.size() || x.size() != spin.size())
    throw py::value_error("longitudinal, lateral and spin need the same length");
  std::vector<double> fx(x.size()), fy(x.size()), moment(x.size());
  StripWorkspace ws = make_workspace(law);
  for (std::size_t i = 0; i < x.size(); ++i) {
    const CreepForce f = creep_force(law, contact, {x[i], y[i], spin[i]}, speed, ws);
    fx[i] = f.longitudinal;
    fy[i] = f.lateral;
    moment[i] = f.moment;
  }
  return py::make_tuple(own(std::move(fx)), own(std::move(fy)), own(std::move(moment)));
}

void bind_laws(py::module_& m) {
  value_type<Friction>(m, "Friction falling with the slip speed w (Polach 2005).", field<&Friction::mu0>("-, at rest"),
                       field<&Friction::A>("-, at very high slip speed over mu0"),
                       field<&Friction::B>("s/m, how fast it falls"));
  value_type<Cubic>(m, "Cubic saturation (Vermeulen and Johnson 1964; Shen, Hedrick and Elkins 1983).",
                    field<&Cubic::friction>("friction"));
  value_type<Polach>(m, "Polach's law (2000, 2005).", field<&Polach::friction>("friction"),
                     field<&Polach::kA>("-, reduction in the area of adhesion"),
                     field<&Polach::kS>("-, reduction in the area of slip"));
  value_type<Simplified>(m, "Simplified theory in strips (Kalker 1982).", field<&Simplified::friction>("friction"),
                         field<&Simplified::strips>("-, across the patch"),
                         field<&Simplified::cells>("-, along each strip"),
                         field<&Simplified::single_flexibility>("one weighted flexibility"));
  m.attr("polach_dry") = polach_dry;
  m.attr("polach_wet") = polach_wet;
  m.def("friction_coefficient", &friction_coefficient, "friction"_a, "slip_speed"_a,
        "Friction (-) at a slip speed (m/s).");
  m.def("cubic_saturation", &cubic_saturation, "u"_a, "Force over its limit for the linear force over its limit.");
  m.def("polach_saturation", &polach_saturation, "u"_a, "kA"_a = 1.0, "kS"_a = 1.0,
        "Force over its limit for the linear force over its limit.");
  m.def(
      "creep_force",
      [](const CreepLaw& law, const RollingContact& contact, const Creepage& creep, double speed) {
        check(law);
        StripWorkspace ws = make_workspace(law);
        return creep_force(law, contact, creep, speed, ws);
      },
      "law"_a, "contact"_a, "creepage"_a, "speed"_a, "Creep force by Cubic, Polach or Simplified; `speed` in m/s.");
  m.def("creep_forces", &creep_forces, "law"_a, "contact"_a, "longitudinal"_a, "lateral"_a, "spin"_a, "speed"_a,
        R"(Creep forces over many creepages.

`longitudinal`, `lateral`: -, one per force wanted; `spin`: 1/m; `speed`: m/s, > 0, for friction that falls with the
slip speed. Returns longitudinal and lateral force (N), moment (N m) on the wheel.)");
}

void bind_rolling(py::module_& m) {
  using F = RollingField;
  result_type<F>(m, "Tractions and slip of exact rolling, one value per cell.", field<&F::force>("creep force"),
                 field<&F::friction_loss>("J per metre rolled (J for a shift)"),
                 field<&F::slip_area>("-, share that slips"), field<&F::x>("m"), field<&F::y>("m"),
                 field<&F::traction_x>("Pa, on the wheel"), field<&F::traction_y>("Pa, on the wheel"),
                 field<&F::slip_x>("-, relative slip (m for a shift)"),
                 field<&F::slip_y>("-, relative slip (m for a shift)"),
                 field<&F::slides>("-, 1 in slip, 0 in adhesion"), field<&F::steps>("-, Newton steps"));
  py::native_enum<Sliding>(m, "Sliding", "enum.Enum", "Steady rolling or one rigid shift.")
      .value("rolling", Sliding::rolling)
      .value("shift", Sliding::shift)
      .finalize();
  result_type<RollingMesh>(m, "Contact patch in strips of cells.",
                           field<&RollingMesh::pressure>("Pa, mean over each cell"));
  Told<RollingMatrix>(m, "RollingMatrix", "The tangential problem of a mesh, ready for creepages.")
      .get("cells", "-, of the mesh", [](const RollingMatrix& matrix) { return matrix.mesh.cells(); });
  m.def("elliptic_mesh", &elliptic_mesh, "a"_a, "b"_a, "normal_force"_a, "along"_a = 16, "across"_a = 16,
        "Hertz ellipse, semi-axes `a` along and `b` across (m), force in N.");
  m.def("plane_mesh", &plane_mesh, "a"_a, "force_per_width"_a, "along"_a = 100,
        "Line contact of half length `a` (m), force in N/m.");
  m.def(
      "grid_mesh",
      [](const Array& pressure, double x0, double y0, double dx, double dy) {
        if (pressure.ndim() != 2)
          throw py::value_error("pressure needs two dimensions: along and across");
        return grid_mesh(std::span(pressure.data(), static_cast<std::size_t>(pressure.size())),
                         static_cast<std::size_t>(pressure.shape(0)), static_cast<std::size_t>(pressure.shape(1)), x0,
                         y0, dx, dy);
      },
      "pressure"_a, "x0"_a, "y0"_a, "dx"_a, "dy"_a,
      "Any patch: pressures (Pa, [along, across]) on a regular grid whose first cell is centred at (x0, y0) (m).");
  m.def(
      "rolling_matrix",
      [](const RollingMesh& mesh, const Elastic& material, Sliding sliding) {
        return rolling_matrix(mesh, material, sliding);
      },
      "mesh"_a, usual<Elastic>("material"), py::arg_v("sliding", Sliding::rolling, "..."),
      "The dense matrix of a mesh; the same for any creepage.");
  m.def(
      "rolling_contact_field",
      [](const RollingMatrix& matrix, double mu, const Creepage& creep) {
        return rolling_contact_field(matrix, mu, creep);
      },
      "matrix"_a, "mu"_a, "creepage"_a, Release(),
      "Exact rolling with friction (Kalker 1990), constant friction `mu`.");
}

} // namespace

void bind_contact_creep(py::module_ m) {
  bind_kinematics(m);
  bind_linear(m);
  bind_laws(m);
  bind_rolling(m);
}

} // namespace wingnose::python
