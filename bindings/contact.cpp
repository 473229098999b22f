// Room contact: the path of a wheel and what it means, Hertz, the laws of normal contact by name and along a path.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/contact/normal/normal_law.hpp"
#include "wingnose/contact/path/kinematics.hpp"
#include "wingnose/contact/path/path_law.hpp"
#include "wingnose/contact/path/step_search.hpp"
#include "wingnose/words/error.hpp"

#include <limits>

namespace wingnose::python {

using namespace contact;

namespace {

void bind_paths(py::module_& m) {
  using B = BodyPath;
  columns_type<B, body_path_columns>(m,
                                     "Rolling of one wheel on one body, over the stations of its WheelPath; height is "
                                     "-inf where the body is out of reach.",
                                     field<&B::name>("body"));
  result_type<WheelPath>(
      m, "Path of a rigid wheel's centre, body by body.", field<&WheelPath::station>("m, strictly increasing"),
      field<&WheelPath::bodies>("one or two"), field<&WheelPath::excitation>("kind of path"),
      field<&WheelPath::landing>("m, kink of a prescribed path, or None"), field<&WheelPath::wheel_radius>("m"),
      field<&WheelPath::lateral_offset>("m, shift of the wheelset to +y"),
      field<&WheelPath::roll>("rad, + lifts the wheel's field side"),
      field<&WheelPath::yaw>("rad, + turns the wheel from x to y"));
  value_type<PathOptions>(m, "What is rolled, and how finely.",
                          field<&PathOptions::lateral_offset>("m, shift of the wheelset to +y"),
                          needed<&PathOptions::from>("m, first station"), needed<&PathOptions::to>("m, last station"),
                          field<&PathOptions::pitch>("m, spacing of stations"), field<&PathOptions::wheel_radius>("m"),
                          field<&PathOptions::roll>("rad, -0.03 to 0.03, + lifts the wheel's field side"),
                          field<&PathOptions::yaw>("rad, -0.03 to 0.03, + turns the wheel from x to y"));
  m.def("roll", py::overload_cast<const layout::Crossing&, const profile::WheelProfile&, const PathOptions&>(&roll),
        "crossing"_a, "wheel"_a, "options"_a, Release(),
        "Roll a rigid wheel over a crossing (rolling envelope per body).");

  value_type<PlainContact>(m, "Contact of a wheel on plain rail.", needed<&PlainContact::curvature_x>("1/m"),
                           needed<&PlainContact::curvature_y>("1/m"), needed<&PlainContact::angle>("rad"));
  m.def("dipped_joint", &dipped_joint, "joint"_a, "contact"_a, "options"_a, "Wheel path over a dipped joint.");
  m.def("given_path", &given_path, "path"_a, "contact"_a, "options"_a, "Wheel path through given points.");
  m.def("plain_contact", &plain_contact, "wheel"_a, "rail"_a, "wheel_radius"_a,
        "Where and how a wheel of the radius (m) touches a plain rail.");
}

void bind_kinematics_of_paths(py::module_& m) {
  using K = Kinematics;
  result_type<K>(
      m, "What a wheel path means before any force acts.",
      field<&K::transfer_station>("m, where the bodies' heights cross, or None"),
      field<&K::nose_thickness>("m, at transfer, or None"), field<&K::contact_y_wing>("m, at transfer, or None"),
      field<&K::contact_y_nose>("m, at transfer, or None"), field<&K::zone_begin>("m, transfer zone, or None"),
      field<&K::zone_end>("m, transfer zone, or None"), field<&K::dip_depth>("m, >= 0"),
      field<&K::slope_before>("rad, in the sense of travel"), field<&K::slope_after>("rad, in the sense of travel"),
      field<&K::dip_angle>("rad, |slope before| + |slope after|"),
      field<&K::findings>("what to look at, how grave and where"));
  using O = KinematicsOptions;
  ranged_type<O>(m, "How slopes and zones are read from a path.", field<&O::direction>("facing or trailing"));
  m.def(
      "kinematics",
      [](const WheelPath& path, const layout::Crossing* crossing, const profile::WheelProfile& wheel,
         const KinematicsOptions& options) { return kinematics(path, crossing, wheel, options); },
      "path"_a, "crossing"_a.none(true), "wheel"_a, usual<O>("options"),
      "Transfer, dip and slopes of a path; `crossing` may be None for prescribed paths.");
}

void bind_hertz(py::module_& m) {
  ranged_type<Elastic>(m, "Elastic constants of wheel and rail (both of this material).")
      .def("combined", &Elastic::combined, "Combined modulus E* (Pa) of two bodies of this material.");

  result_type<HertzShape>(m, "Shape of a Hertz patch, independent of the load.",
                          field<&HertzShape::ratio>("-, minor over major semi-axis, in (0, 1]"),
                          field<&HertzShape::m>("-, coefficient of the major axis"),
                          field<&HertzShape::n>("-, coefficient of the minor axis"),
                          field<&HertzShape::r>("-, coefficient of the approach"));
  result_type<HertzPatch>(m, "Elliptic contact patch.", field<&HertzPatch::a_x>("m, semi-axis along x"),
                          field<&HertzPatch::a_y>("m, semi-axis across"), field<&HertzPatch::peak_pressure>("Pa"),
                          field<&HertzPatch::approach>("m"));

  m.def("hertz_shape", &hertz_shape, "A"_a, "B"_a,
        "Shape for half the relative curvatures `A`, `B` (1/m, > 0) in the two principal directions.");
  m.def("hertz_patch", &hertz_patch, "force"_a, "curvature_x"_a, "curvature_y"_a, usual<Elastic>("material"),
        R"(Contact patch of two smooth bodies after Hertz (1881).

`force`: N, >= 0; `curvature_x`, `curvature_y`: 1/m, sum of both bodies' curvatures along and across, > 0; `material`:
steel by default.)");
  m.def("hertz_stiffness", &hertz_stiffness, "curvature_x"_a, "curvature_y"_a, usual<Elastic>("material"),
        "C_H (N/m^1.5) in F = C_H approach^1.5.");
}

const std::vector<ForceLaw>& laws_of(const PathLaw& law, std::size_t body) {
  if (body >= law.body.size()) {
    throw InputError("body", std::to_string(body), "0 to " + std::to_string(law.body.size() - 1),
                     "Bodies are counted from 0 in the order of the path.");
  }
  return law.body[body];
}

void bind_laws(py::module_& m) {
  value_type<Ellipse>(
      m, "One Hertz ellipse per body, at its deepest point.",
      field<&Ellipse::closing_depth>("m, at which the lateral curvature is read; rolled paths have always 55 um"));
  Told<Strips>(m, "Strips", "All patches of a body by strips, non-elliptic (wingnose/contact/strips.hpp).")
      .def(py::init<>())
      .shows({})
      .def(
          "__eq__", [](const Strips&, const py::object& other) { return py::isinstance<Strips>(other); }, "other"_a)
      .def(py::pickle([](const Strips&) { return py::typing::Tuple<>(py::tuple()); },
                      [](const py::tuple&) { return Strips{}; }));

  constexpr double endless = std::numeric_limits<double>::infinity();
  value_type<ForceLaw>(m, "Vertical force over vertical depth: F = d^1.5 (c0 + c1 sqrt(d) + c2 d).",
                       field<&ForceLaw::c0>("N/m^1.5"), field<&ForceLaw::c1>("N/m^2"), field<&ForceLaw::c2>("N/m^2.5"))
      .def("force",
           py::vectorize([](const ForceLaw* law, double depth, double reach) { return law->at(depth, reach).force; }),
           "depth"_a, "reach"_a = endless, "N at a depth (m); straight on beyond `reach` (m).")
      .def("stiffness", py::vectorize([](const ForceLaw* law, double depth, double reach) {
             return law->at(depth, reach).stiffness;
           }),
           "depth"_a, "reach"_a = endless, "N/m at a depth (m).")
      .def(
          "depth", [](const ForceLaw& law, double force, double reach) { return depth_for_force(law, force, reach); },
          "force"_a, "reach"_a = endless, "m, at which the law carries a force (N, >= 0).");
  m.def(
      "fit_force_law",
      [](const Array& depth, const Array& force, double reach) {
        return fit_force_law(to_vector(depth), to_vector(force), reach);
      },
      "depth"_a, "force"_a, "reach"_a = strips_reach,
      "Convex law nearest to samples of force (N, >= 0) over depth (m, rising, up to `reach`).");
}

// One value per station of the path.
template <class At> py::array_t<double> along(const PathLaw& law, std::size_t body, At at) {
  std::vector<double> values;
  for (const ForceLaw& one : laws_of(law, body)) {
    values.push_back(at(one));
  }
  return own(std::move(values));
}

void bind_along(py::module_& m) {
  result_type<PathLaw>(m, "The law of contact along the path of a wheel, for E* = 1 Pa.",
                       field<&PathLaw::reach>("m, depth beyond which forces go straight on"),
                       field<&PathLaw::searched>("stations at which strips were solved; 0 for ellipses"),
                       field<&PathLaw::worst_fit>("-, largest difference between fit and strips"),
                       field<&PathLaw::worst_body>("where that is"), field<&PathLaw::worst_station>("m, where that is"))
      .def(
          "force",
          [](const PathLaw& law, std::size_t body, double depth, const Elastic& material) {
            return along(law, body,
                         [&](const ForceLaw& one) { return material.combined() * one.at(depth, law.reach).force; });
          },
          "body"_a, "depth"_a, usual<Elastic>("material"),
          "N, [station of the path]: vertical force of a body (0, 1) at a vertical depth (m) below its first touch.")
      .def(
          "depth",
          [](const PathLaw& law, std::size_t body, double force, const Elastic& material) {
            return along(law, body, [&](const ForceLaw& one) {
              const bool carries = one.c0 != 0.0 || one.c1 != 0.0 || one.c2 != 0.0;
              return carries ? depth_for_force(one, force / material.combined(), law.reach)
                             : std::numeric_limits<double>::quiet_NaN();
            });
          },
          "body"_a, "force"_a, usual<Elastic>("material"),
          "m, [station of the path]: depth at which a body carries a force (N, >= 0); NaN where it cannot touch.");
  named_enum<SearchAt>(m, "SearchAt", "Where a passage has its contact searched.");
  m.def("ellipse_law", &ellipse_law, "path"_a, Release(),
        "One ellipse per body from the curvatures of a path (Hertz 1881).");
  m.def(
      "strips_law",
      [](const contact::WheelPath& path, const layout::Crossing& crossing, const profile::WheelProfile& wheel) {
        return strips_law(path, crossing, wheel);
      },
      "path"_a, "crossing"_a, "wheel"_a, Release(),
      R"(Strips searched along a path: all patches of each body, the wheel held as the path was rolled.

`path`: rolled over this crossing; `crossing`: from the room layout; `wheel`: with which the path was rolled.)");
}

} // namespace

void bind_contact(py::module_ m) {
  bind_paths(m);
  bind_kinematics_of_paths(m);
  bind_hertz(m);
  bind_laws(m);
  bind_along(m);
}

} // namespace wingnose::python
