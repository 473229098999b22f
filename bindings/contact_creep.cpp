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
  value_type<Creepage>(m, "Creepage", "Slip of the wheel over the rail per distance travelled, contact frame.",
                       field("longitudinal", &Creepage::longitudinal, "-, positive when the wheel slides forward"),
                       field("lateral", &Creepage::lateral, "-"), field("spin", &Creepage::spin, "1/m"));
  value_type<CreepForce>(m, "CreepForce", "Tangential force on the wheel, contact frame.",
                         field("longitudinal", &CreepForce::longitudinal, "N"),
                         field("lateral", &CreepForce::lateral, "N"),
                         field("moment", &CreepForce::moment, "N m, about the normal"));
  value_type<WheelMotion>(
      m, "WheelMotion", "Motion of a wheelset and where one of its wheels touches.",
      needed("speed", &WheelMotion::speed, "m/s, > 0"),
      needed("angular_speed", &WheelMotion::angular_speed, "rad/s, about the axle, positive when rolling"),
      needed("rolling_radius", &WheelMotion::rolling_radius, "m, > 0, axle to contact"),
      field("direction", &WheelMotion::direction, "sense of travel"),
      field("contact_angle", &WheelMotion::contact_angle, "rad, slope of the common tangent plane across the track"),
      field("offset_y", &WheelMotion::offset_y, "m, contact from the wheelset's centre"),
      field("offset_x", &WheelMotion::offset_x, "m, contact ahead of the axle"),
      field("yaw", &WheelMotion::yaw, "rad, positive from x towards y"),
      field("lateral_speed", &WheelMotion::lateral_speed, "m/s"),
      field("vertical_speed", &WheelMotion::vertical_speed, "m/s, up"),
      field("yaw_rate", &WheelMotion::yaw_rate, "rad/s"), field("roll_rate", &WheelMotion::roll_rate, "rad/s"));
  m.def("creepage", &creepage, py::arg("motion"), "Creepages of the wheel, exact rigid-body kinematics (Kalker 1990).");
  m.def("creepage_linearised", &creepage_linearised, py::arg("motion"), py::arg("nominal_radius"),
        "The usual closed form, linear in yaw and rates; `nominal_radius` (m) is speed over angular speed.");
  m.def("track_force", &track_force, py::arg("force"), py::arg("normal"), py::arg("contact_angle"),
        py::arg_v("direction", Direction::facing, "..."),
        "(Fx, Fy, Fz) (N) on the wheel in the frame of the crossing, `normal` (N) included.");
}

void bind_linear(py::module_& m) {
  result_type<CreepCoefficients>(m, "CreepCoefficients", "Linear creep coefficients; C32 = -C23.",
                                 field("C11", &CreepCoefficients::C11, "-"), field("C22", &CreepCoefficients::C22, "-"),
                                 field("C23", &CreepCoefficients::C23, "-"),
                                 field("C33", &CreepCoefficients::C33, "-"));
  result_type<RollingContact>(m, "RollingContact", "An elliptic contact as the creep laws see it.",
                              field("a", &RollingContact::a, "m, semi-axis along the rolling direction"),
                              field("b", &RollingContact::b, "m, semi-axis across"),
                              field("normal_force", &RollingContact::normal_force, "N"),
                              field("shear_modulus", &RollingContact::shear_modulus, "Pa"),
                              field("linear", &RollingContact::linear, "its creep coefficients"));
  m.def("creep_coefficients", &creep_coefficients, py::arg("axis_ratio"), py::arg("poisson"),
        "Kalker's table interpolated in a/b (0.001 to 1000, printed from 0.1 to 10) and Poisson's ratio (0 to 0.5).");
  m.def("half_space_coefficients", &half_space_coefficients, py::arg("axis_ratio"), py::arg("poisson"),
        py::arg("along"), py::arg("across"), "Coefficients computed from the half-space on one mesh, without slip.");
  m.def("extrapolated_coefficients", &extrapolated_coefficients, py::arg("axis_ratio"), py::arg("poisson"),
        py::arg("cells") = 24, "Half-space coefficients extrapolated from `cells` and half as many.");
  m.def("rolling_contact", &rolling_contact, py::arg("a"), py::arg("b"), py::arg("normal_force"),
        py::arg_v("material", Elastic{}, "..."),
        "Contact with semi-axes `a` along and `b` across (m), force in N, for the creep laws.");
  m.def("linear_creep_force", &linear_creep_force, py::arg("contact"), py::arg("creepage"),
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
  value_type<Friction>(m, "Friction", "Friction falling with the slip speed w (Polach 2005).",
                       field("mu0", &Friction::mu0, "-, at rest"),
                       field("A", &Friction::A, "-, at very high slip speed over mu0"),
                       field("B", &Friction::B, "s/m, how fast it falls"));
  value_type<Cubic>(m, "Cubic", "Cubic saturation (Vermeulen and Johnson 1964; Shen, Hedrick and Elkins 1983).",
                    field("friction", &Cubic::friction, "friction"));
  value_type<Polach>(m, "Polach", "Polach's law (2000, 2005).", field("friction", &Polach::friction, "friction"),
                     field("kA", &Polach::kA, "-, reduction in the area of adhesion"),
                     field("kS", &Polach::kS, "-, reduction in the area of slip"));
  value_type<Simplified>(m, "Simplified", "Simplified theory in strips (Kalker 1982).",
                         field("friction", &Simplified::friction, "friction"),
                         field("strips", &Simplified::strips, "-, across the patch"),
                         field("cells", &Simplified::cells, "-, along each strip"),
                         field("single_flexibility", &Simplified::single_flexibility, "one weighted flexibility"));
  m.attr("polach_dry") = polach_dry;
  m.attr("polach_wet") = polach_wet;
  m.def("friction_coefficient", &friction_coefficient, py::arg("friction"), py::arg("slip_speed"),
        "Friction (-) at a slip speed (m/s).");
  m.def("cubic_saturation", &cubic_saturation, py::arg("u"),
        "Force over its limit for the linear force over its limit.");
  m.def("polach_saturation", &polach_saturation, py::arg("u"), py::arg("kA") = 1.0, py::arg("kS") = 1.0,
        "Force over its limit for the linear force over its limit.");
  m.def(
      "creep_force",
      [](const CreepLaw& law, const RollingContact& contact, const Creepage& creep, double speed) {
        check(law);
        StripWorkspace ws = make_workspace(law);
        return creep_force(law, contact, creep, speed, ws);
      },
      py::arg("law"), py::arg("contact"), py::arg("creepage"), py::arg("speed"),
      "Creep force by Cubic, Polach or Simplified; `speed` in m/s.");
  m.def("creep_forces", &creep_forces, py::arg("law"), py::arg("contact"), py::arg("longitudinal"), py::arg("lateral"),
        py::arg("spin"), py::arg("speed"),
        R"(Creep forces over many creepages.

`longitudinal`, `lateral`: -, one per force wanted; `spin`: 1/m; `speed`: m/s, > 0, for friction that falls with the
slip speed. Returns longitudinal and lateral force (N), moment (N m) on the wheel.)");
}

void bind_rolling(py::module_& m) {
  result_type<RollingField>(m, "RollingField", "Tractions and slip of exact rolling, one value per cell.",
                            field("force", &RollingField::force, "creep force"),
                            field("friction_loss", &RollingField::friction_loss, "J per metre rolled (J for a shift)"),
                            field("slip_area", &RollingField::slip_area, "-, share that slips"),
                            field("x", &RollingField::x, "m"), field("y", &RollingField::y, "m"),
                            field("traction_x", &RollingField::traction_x, "Pa, on the wheel"),
                            field("traction_y", &RollingField::traction_y, "Pa, on the wheel"),
                            field("slip_x", &RollingField::slip_x, "-, relative slip (m for a shift)"),
                            field("slip_y", &RollingField::slip_y, "-, relative slip (m for a shift)"),
                            field("slides", &RollingField::slides, "-, 1 in slip, 0 in adhesion"),
                            field("steps", &RollingField::steps, "-, Newton steps"));
  py::native_enum<Sliding>(m, "Sliding", "enum.Enum", "Steady rolling or one rigid shift.")
      .value("rolling", Sliding::rolling)
      .value("shift", Sliding::shift)
      .finalize();
  result_type<RollingMesh>(m, "RollingMesh", "Contact patch in strips of cells.",
                           field("pressure", &RollingMesh::pressure, "Pa, mean over each cell"));
  Told<RollingMatrix>(m, "RollingMatrix", "The tangential problem of a mesh, ready for creepages.")
      .get("cells", "-, of the mesh", [](const RollingMatrix& matrix) { return matrix.mesh.cells(); });
  m.def("elliptic_mesh", &elliptic_mesh, py::arg("a"), py::arg("b"), py::arg("normal_force"), py::arg("along") = 16,
        py::arg("across") = 16, "Hertz ellipse, semi-axes `a` along and `b` across (m), force in N.");
  m.def("plane_mesh", &plane_mesh, py::arg("a"), py::arg("force_per_width"), py::arg("along") = 100,
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
      py::arg("pressure"), py::arg("x0"), py::arg("y0"), py::arg("dx"), py::arg("dy"),
      "Any patch: pressures (Pa, [along, across]) on a regular grid whose first cell is centred at (x0, y0) (m).");
  m.def(
      "rolling_matrix",
      [](const RollingMesh& mesh, const Elastic& material, Sliding sliding) {
        return rolling_matrix(mesh, material, sliding);
      },
      py::arg("mesh"), py::arg_v("material", Elastic{}, "..."), py::arg_v("sliding", Sliding::rolling, "..."),
      "The dense matrix of a mesh; the same for any creepage.");
  m.def(
      "rolling_contact_field",
      [](const RollingMatrix& matrix, double mu, const Creepage& creep) {
        return rolling_contact_field(matrix, mu, creep);
      },
      py::arg("matrix"), py::arg("mu"), py::arg("creepage"), py::call_guard<py::gil_scoped_release>(),
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
