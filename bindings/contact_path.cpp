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
                 field<&B::name>("body"), field<&B::height>("m, -inf where the body is out of reach"),
                 field<&B::contact_y>("m, from the track centre line"),
                 field<&B::contact_dx>("m, contact ahead (+x) of the axle"),
                 field<&B::wheel_y>("m, contact on the wheel from its taping line"),
                 field<&B::angle>("rad, contact angle"), field<&B::curvature_x>("1/m, sum of longitudinal curvatures"),
                 field<&B::curvature_y>("1/m, sum of lateral curvatures"));
  result_type<WheelPath>(m, "WheelPath", "Path of a rigid wheel's centre, body by body.",
                         field<&WheelPath::station>("m, strictly increasing"), field<&WheelPath::bodies>("one or two"),
                         field<&WheelPath::excitation>("kind of path"),
                         field<&WheelPath::landing>("m, kink of a prescribed path, or None"),
                         field<&WheelPath::wheel_radius>("m"),
                         field<&WheelPath::lateral_offset>("m, shift of the wheelset to +y"),
                         field<&WheelPath::roll>("rad, + lifts the wheel's field side"),
                         field<&WheelPath::yaw>("rad, + turns the wheel from x to y"));
  value_type<PathOptions>(m, "PathOptions", "What is rolled, and how finely.",
                          field<&PathOptions::lateral_offset>("m, shift of the wheelset to +y"),
                          needed<&PathOptions::from>("m, first station"), needed<&PathOptions::to>("m, last station"),
                          field<&PathOptions::pitch>("m, spacing of stations"), field<&PathOptions::wheel_radius>("m"),
                          field<&PathOptions::roll>("rad, -0.03 to 0.03, + lifts the wheel's field side"),
                          field<&PathOptions::yaw>("rad, -0.03 to 0.03, + turns the wheel from x to y"));
  m.def("roll", py::overload_cast<const layout::Crossing&, const profile::WheelProfile&, const PathOptions&>(&roll),
        "crossing"_a, "wheel"_a, "options"_a, Release(),
        "Roll a rigid wheel over a crossing (rolling envelope per body).");

  value_type<PlainContact>(m, "PlainContact", "Contact of a wheel on plain rail.",
                           needed<&PlainContact::curvature_x>("1/m"), needed<&PlainContact::curvature_y>("1/m"),
                           needed<&PlainContact::angle>("rad"));
  m.def("dipped_joint", &dipped_joint, "joint"_a, "contact"_a, "options"_a, "Wheel path over a dipped joint.");
  m.def("given_path", &given_path, "path"_a, "contact"_a, "options"_a, "Wheel path through given points.");
  m.def("plain_contact", &plain_contact, "wheel"_a, "rail"_a, "wheel_radius"_a,
        "Where and how a wheel of the radius (m) touches a plain rail.");
}

} // namespace

void bind_contact_path(py::module_ m) {
  bind_paths(m);

  using K = Kinematics;
  result_type<K>(
      m, "Kinematics", "What a wheel path means before any force acts.",
      field<&K::transfer_station>("m, where the bodies' heights cross, or None"),
      field<&K::nose_thickness>("m, at transfer, or None"), field<&K::contact_y_wing>("m, at transfer, or None"),
      field<&K::contact_y_nose>("m, at transfer, or None"), field<&K::zone_begin>("m, transfer zone, or None"),
      field<&K::zone_end>("m, transfer zone, or None"), field<&K::dip_depth>("m, >= 0"),
      field<&K::slope_before>("rad, in the sense of travel"), field<&K::slope_after>("rad, in the sense of travel"),
      field<&K::dip_angle>("rad, |slope before| + |slope after|"),
      field<&K::findings>("what to look at, how grave and where"));
  using O = KinematicsOptions;
  ranged_type<O>(m, "KinematicsOptions", "How slopes and zones are read from a path.",
                 field<&O::direction>("facing or trailing"));
  m.def(
      "kinematics",
      [](const WheelPath& path, const layout::Crossing* crossing, const profile::WheelProfile& wheel,
         const KinematicsOptions& options) { return kinematics(path, crossing, wheel, options); },
      "path"_a, "crossing"_a.none(true), "wheel"_a, usual<O>("options"),
      "Transfer, dip and slopes of a path; `crossing` may be None for prescribed paths.");
}

} // namespace wingnose::python
