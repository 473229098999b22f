// Room contact: the path of a wheel, and what it means.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/contact/path/kinematics.hpp"

namespace wingnose::python {

using namespace contact;

namespace {

void bind_paths(py::module_& m) {
  using B = BodyPath;
  result_type<B>(m, "BodyPath", "Rolling of one wheel on one body, over the stations of its WheelPath.",
                 field("name", &B::name, "body"), field("height", &B::height, "m, -inf where the body is out of reach"),
                 field("contact_y", &B::contact_y, "m, from the track centre line"),
                 field("contact_dx", &B::contact_dx, "m, contact ahead (+x) of the axle"),
                 field("wheel_y", &B::wheel_y, "m, contact on the wheel from its taping line"),
                 field("angle", &B::angle, "rad, contact angle"),
                 field("curvature_x", &B::curvature_x, "1/m, sum of longitudinal curvatures"),
                 field("curvature_y", &B::curvature_y, "1/m, sum of lateral curvatures"));
  result_type<WheelPath>(m, "WheelPath", "Path of a rigid wheel's centre, body by body.",
                         field("station", &WheelPath::station, "m, strictly increasing"),
                         field("bodies", &WheelPath::bodies, "one or two"),
                         field("excitation", &WheelPath::excitation, "kind of path"),
                         field("landing", &WheelPath::landing, "m, kink of a prescribed path, or None"),
                         field("wheel_radius", &WheelPath::wheel_radius, "m"),
                         field("lateral_offset", &WheelPath::lateral_offset, "m, shift of the wheelset to +y"),
                         field("roll", &WheelPath::roll, "rad, + lifts the wheel's field side"),
                         field("yaw", &WheelPath::yaw, "rad, + turns the wheel from x to y"));
  value_type<PathOptions>(m, "PathOptions", "What is rolled, and how finely.",
                          field("lateral_offset", &PathOptions::lateral_offset, "m, shift of the wheelset to +y"),
                          needed("from_", &PathOptions::from, "m, first station"),
                          needed("to", &PathOptions::to, "m, last station"),
                          field("pitch", &PathOptions::pitch, "m, spacing of stations"),
                          field("wheel_radius", &PathOptions::wheel_radius, "m"),
                          field("roll", &PathOptions::roll, "rad, -0.03 to 0.03, + lifts the wheel's field side"),
                          field("yaw", &PathOptions::yaw, "rad, -0.03 to 0.03, + turns the wheel from x to y"));
  m.def("roll", py::overload_cast<const layout::Crossing&, const profile::WheelProfile&, const PathOptions&>(&roll),
        py::arg("crossing"), py::arg("wheel"), py::arg("options"), py::call_guard<py::gil_scoped_release>(),
        "Roll a rigid wheel over a crossing (rolling envelope per body).");

  value_type<PlainContact>(
      m, "PlainContact", "Contact of a wheel on plain rail.", needed("curvature_x", &PlainContact::curvature_x, "1/m"),
      needed("curvature_y", &PlainContact::curvature_y, "1/m"), needed("angle", &PlainContact::angle, "rad"));
  m.def("dipped_joint", &dipped_joint, py::arg("joint"), py::arg("contact"), py::arg("options"),
        "Wheel path over a dipped joint.");
  m.def("given_path", &given_path, py::arg("path"), py::arg("contact"), py::arg("options"),
        "Wheel path through given points.");
  m.def("plain_contact", &plain_contact, py::arg("wheel"), py::arg("rail"), py::arg("wheel_radius"),
        "Where and how a wheel of the radius (m) touches a plain rail.");
}

} // namespace

void bind_contact_path(py::module_ m) {
  bind_paths(m);

  using K = Kinematics;
  result_type<K>(m, "Kinematics", "What a wheel path means before any force acts.",
                 field("transfer_station", &K::transfer_station, "m, where the bodies' heights cross, or None"),
                 field("nose_thickness", &K::nose_thickness, "m, at transfer, or None"),
                 field("contact_y_wing", &K::contact_y_wing, "m, at transfer, or None"),
                 field("contact_y_nose", &K::contact_y_nose, "m, at transfer, or None"),
                 field("zone_begin", &K::zone_begin, "m, transfer zone, or None"),
                 field("zone_end", &K::zone_end, "m, transfer zone, or None"),
                 field("dip_depth", &K::dip_depth, "m, >= 0"),
                 field("slope_before", &K::slope_before, "rad, in the sense of travel"),
                 field("slope_after", &K::slope_after, "rad, in the sense of travel"),
                 field("dip_angle", &K::dip_angle, "rad, |slope before| + |slope after|"),
                 field("findings", &K::findings, "what to look at, how grave and where"));
  using O = KinematicsOptions;
  ranged_type<O>(m, "KinematicsOptions", "How slopes and zones are read from a path.",
                 field("direction", &O::direction, "facing or trailing"));
  m.def(
      "kinematics",
      [](const WheelPath& path, const layout::Crossing* crossing, const profile::WheelProfile& wheel,
         const KinematicsOptions& options) { return kinematics(path, crossing, wheel, options); },
      py::arg("path"), py::arg("crossing").none(true), py::arg("wheel"), py::arg_v("options", O{}, "..."),
      "Transfer, dip and slopes of a path; `crossing` may be None for prescribed paths.");
}

} // namespace wingnose::python
