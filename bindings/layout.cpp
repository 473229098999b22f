// Room crossing: shapes, surfaces, the kinematic passage.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/layout/generator.hpp"
#include "wingnose/layout/prescribed.hpp"
#include "wingnose/layout/sections.hpp"
#include "wingnose/layout/surface.hpp"

#include <cmath>
#include <limits>

namespace wingnose::python {

using namespace layout;

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
  ranged_type<Modifier>(m, "Smooth (C2) wear or weld repair of a running surface; depth > 0 removes.",
                        needed<&Modifier::body>("\"wing\" or \"nose\""));

  using S = CrossingShape;
  ranged_type<S>(m, "Common (acute) crossing from the few numbers a drawing states.", field<&S::name>("name"),
                 field<&S::wing_head>("\"flat\" or the name of a rail head"), field<&S::modifiers>("wear and repair"));

  value_type<Section>(m, "One measured cross-section, ordered across from the running edge.",
                      needed<&Section::station>("m"), needed<&Section::y>("m"), needed<&Section::z>("m"));
  value_type<SectionedBody>(m, "A body given by sections.", needed<&SectionedBody::name>("\"wing\" or \"nose\""),
                            needed<&SectionedBody::sections>("in order of station"));
  ranged_type<SectionedShape>(m, "A crossing given by measured sections.", field<&SectionedShape::name>("name"),
                              needed<&SectionedShape::bodies>("wing and nose"));
}

void bind_surfaces(py::module_& m) {
  Told<Body>(m, "Body", "One named running surface of a crossing.")
      .field<&Body::name>("\"wing\" or \"nose\"")
      .get("x_begin", "m, first station",
           [](const Body& b) { return std::visit([](const auto& s) { return s.x_begin(); }, b.surface); })
      .get("x_end", "m, last station",
           [](const Body& b) { return std::visit([](const auto& s) { return s.x_end(); }, b.surface); })
      .def("height", py::vectorize(&height_at), "x"_a, "y"_a,
           "Heights z (m) at stations `x` and lateral positions `y` (m); NaN off the body.")
      .def("section", &section_at, "x"_a, "points"_a = 401,
           "Cross-section at station `x` (m): y and z (m) across the body; empty arrays where it does not exist.")
      .shows({"name"});

  Told<Crossing>(m, "Crossing", "A crossing as a set of named running surfaces.")
      .field<&Crossing::bodies>("wing, nose")
      .field<&Crossing::name>("name")
      .field<&Crossing::rate>("N of 1:N")
      .field<&Crossing::gauge>("m")
      .def("nose_thickness", &Crossing::nose_thickness, "x"_a, "Nose thickness (m) at station `x` (m).")
      .shows({"name", "rate", "gauge"});
  m.def("generate", &generate, "shape"_a, "Crossing of a CrossingShape; raises InputError on impossible shapes.");
  m.def("from_sections", &from_sections, "shape"_a, "Crossing lofted through measured sections.");
}

void bind_prescribed(py::module_& m) {
  named_enum<DippedJoint::Shape>(m, "JointShape", "Form of a dipped joint.");
  value_type<DippedJoint>(
      m, "A dipped rail joint, the excitation P1 and P2 were defined for.",
      needed<&DippedJoint::dip_angle>("rad, total, > 0"), needed<&DippedJoint::half_length>("m, ramp length each side"),
      field<&DippedJoint::shape>("kink or quadratic"), field<&DippedJoint::at>("m, station of the joint"));
  value_type<GivenPath>(m, "A wheel path given by points, joined by straight lines.",
                        needed<&GivenPath::station>("m, increasing"), needed<&GivenPath::height>("m"));
}

} // namespace

void bind_layout(py::module_ m) {
  bind_shapes(m);
  bind_surfaces(m);
  bind_prescribed(m);
}

} // namespace wingnose::python
