// Room crossing: shapes, surfaces, the kinematic passage.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/contact/path/kinematics.hpp"

#include <cmath>
#include <limits>
#include <string>

namespace wingnose::python {

using namespace layout;
using contact::BodyPath;
using contact::Kinematics;
using contact::KinematicsOptions;
using contact::PathOptions;
using contact::PlainContact;
using contact::WheelPath;

namespace {

// Height of a body at (x, y), NaN beside or beyond it.
double height_at(const Body* body, double x, double y) {
  return std::visit(
      [x, y](const auto& s) {
        const double eta = x >= s.x_begin() && x <= s.x_end() ? s.side() * (y - s.edge(x)) : -1.0;
        return eta >= 0.0 && eta <= s.width(x) ? s.height(x, eta) : std::numeric_limits<double>::quiet_NaN();
      },
      body->surface);
}

py::typing::Tuple<py::array_t<double>, py::array_t<double>> section_at(const Body& body, double x, int points) {
  if (points < 2) {
    throw py::value_error("points: at least 2 are needed to draw a section");
  }
  std::vector<double> y;
  std::vector<double> z;
  std::visit(
      [&](const auto& s) {
        if (x < s.x_begin() || x > s.x_end()) {
          return;
        }
        for (int i = 0; i < points; ++i) {
          const double eta = s.width(x) * i / (points - 1);
          y.push_back(s.edge(x) + s.side() * eta);
          z.push_back(s.height(x, eta));
        }
      },
      body.surface);
  return py::make_tuple(own(std::move(y)), own(std::move(z)));
}

void bind_shapes(py::module_& m) {
  ranged_type<Modifier>(m, "Modifier", "Smooth (C2) wear or weld repair of a running surface; depth > 0 removes.",
                        needed("body", &Modifier::body, "\"wing\" or \"nose\""));

  using S = CrossingShape;
  ranged_type<S>(m, "CrossingShape", "Common (acute) crossing from the few numbers a drawing states.",
                 field("name", &S::name, "name"),
                 field("wing_head", &S::wing_head, "\"flat\" or the name of a rail head"),
                 field("modifiers", &S::modifiers, "wear and repair"));

  value_type<Section>(m, "Section", "One measured cross-section, ordered across from the running edge.",
                      needed("station", &Section::station, "m"), needed("y", &Section::y, "m"),
                      needed("z", &Section::z, "m"));
  value_type<SectionedBody>(m, "SectionedBody", "A body given by sections.",
                            needed("name", &SectionedBody::name, "\"wing\" or \"nose\""),
                            needed("sections", &SectionedBody::sections, "in order of station"));
  ranged_type<SectionedShape>(m, "SectionedShape", "A crossing given by measured sections.",
                              field("name", &SectionedShape::name, "name"),
                              needed("bodies", &SectionedShape::bodies, "wing and nose"));
}

void bind_surfaces(py::module_& m) {
  py::class_<Body, std::shared_ptr<Body>>(m, "Body", "One named running surface of a crossing.")
      .def_readonly("name", &Body::name, "\"wing\" or \"nose\"")
      .def_property_readonly(
          "x_begin", [](const Body& b) { return std::visit([](const auto& s) { return s.x_begin(); }, b.surface); },
          "m, first station")
      .def_property_readonly(
          "x_end", [](const Body& b) { return std::visit([](const auto& s) { return s.x_end(); }, b.surface); },
          "m, last station")
      .def("height", py::vectorize(&height_at), py::arg("x"), py::arg("y"),
           "Heights z (m) at stations `x` and lateral positions `y` (m); NaN off the body.")
      .def("section", &section_at, py::arg("x"), py::arg("points") = 401,
           "Cross-section at station `x` (m): y and z (m) across the body; empty arrays where it does not exist.")
      .def("__repr__", [](const Body& b) { return py::str("Body(name={!r})").format(b.name); });

  py::class_<Crossing, std::shared_ptr<Crossing>>(m, "Crossing", "A crossing as a set of named running surfaces.")
      .def_readonly("name", &Crossing::name, "name")
      .def_readonly("rate", &Crossing::rate, "N of 1:N")
      .def_readonly("gauge", &Crossing::gauge, "m")
      .def_property_readonly(
          "bodies",
          [](const py::object& self) {
            const auto& bodies = self.cast<const Crossing&>().bodies;
            py::typing::Tuple<Body, py::ellipsis> out = py::tuple(bodies.size());
            for (std::size_t i = 0; i < bodies.size(); ++i) {
              out[i] = py::cast(bodies[i], py::return_value_policy::reference_internal, self);
            }
            return out;
          },
          "wing, nose")
      .def("nose_thickness", &Crossing::nose_thickness, py::arg("x"), "Nose thickness (m) at station `x` (m).")
      .def("__repr__", [](const Crossing& c) {
        return py::str("Crossing(name={!r}, rate={!r}, gauge={!r})").format(c.name, c.rate, c.gauge);
      });
  m.def("generate", &generate, py::arg("shape"),
        "Crossing of a CrossingShape; raises InputError on impossible shapes.");
  m.def("from_sections", &from_sections, py::arg("shape"), "Crossing lofted through measured sections.");
}

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
  m.def("roll", &roll, py::arg("crossing"), py::arg("wheel"), py::arg("options"),
        py::call_guard<py::gil_scoped_release>(), "Roll a rigid wheel over a crossing (rolling envelope per body).");

  value_type<PlainContact>(
      m, "PlainContact", "Contact of a wheel on plain rail.", needed("curvature_x", &PlainContact::curvature_x, "1/m"),
      needed("curvature_y", &PlainContact::curvature_y, "1/m"), needed("angle", &PlainContact::angle, "rad"));
  named_enum<DippedJoint::Shape>(m, "JointShape", "Form of a dipped joint.");
  value_type<DippedJoint>(m, "DippedJoint", "A dipped rail joint, the excitation P1 and P2 were defined for.",
                          needed("dip_angle", &DippedJoint::dip_angle, "rad, total, > 0"),
                          needed("half_length", &DippedJoint::half_length, "m, ramp length each side"),
                          field("shape", &DippedJoint::shape, "kink or quadratic"),
                          field("at", &DippedJoint::at, "m, station of the joint"));
  m.def("dipped_joint", &contact::dipped_joint, py::arg("joint"), py::arg("contact"), py::arg("options"),
        "Wheel path over a dipped joint.");
  value_type<GivenPath>(m, "GivenPath", "A wheel path given by points, joined by straight lines.",
                        needed("station", &GivenPath::station, "m, increasing"),
                        needed("height", &GivenPath::height, "m"));
  m.def("given_path", &contact::given_path, py::arg("path"), py::arg("contact"), py::arg("options"),
        "Wheel path through given points.");
  m.def("plain_contact", &contact::plain_contact, py::arg("wheel"), py::arg("rail"), py::arg("wheel_radius"),
        "Where and how a wheel of the radius (m) touches a plain rail.");
}

void bind_findings(py::module_& m) {
  py::native_enum<Gravity>(m, "Gravity", "enum.Enum", "How much a finding weighs.")
      .value("note", Gravity::note)
      .value("warning", Gravity::warning)
      .value("grave", Gravity::grave)
      .finalize();
  py::native_enum<FindingKind> kinds(m, "FindingKind", "enum.Enum", "What was found beside the numbers.");
  for (const FindingWords& words : finding_kinds()) {
    kinds.value(std::string(words.key).c_str(), words.kind);
  }
  kinds.finalize();
  result_type<Finding>(m, "Finding", "What a reader must know beside the numbers.",
                       field("kind", &Finding::kind, "what kind of thing it is"),
                       field("what", &Finding::what, "one sentence with its numbers"),
                       field("where", &Finding::where, "body and stations, or empty"))
      .def_property_readonly("gravity", &gravity_of, "note, warning or grave")
      .def_property_readonly(
          "advice", [](const Finding& f) { return std::string(words_of(f.kind).advice); }, "what to do; may be empty")
      .def("__str__", &sentence);
}

} // namespace

void bind_layout(py::module_ m) {
  bind_findings(m);
  bind_shapes(m);
  bind_surfaces(m);
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
      [](const WheelPath& path, const Crossing* crossing, const profile::WheelProfile& wheel,
         const KinematicsOptions& options) { return contact::kinematics(path, crossing, wheel, options); },
      py::arg("path"), py::arg("crossing").none(true), py::arg("wheel"), py::arg_v("options", O{}, "..."),
      "Transfer, dip and slopes of a path; `crossing` may be None for prescribed paths.");
}

} // namespace wingnose::python
