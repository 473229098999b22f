// Room profile: wheel profiles, rail heads, rail sections.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/profile/rail.hpp"
#include "wingnose/profile/wheel.hpp"

namespace wingnose::python {

using namespace profile;

namespace {

py::array_t<double> heights(const Curve& curve, const py::array_t<double>& y) {
  return py::vectorize([&curve](double at) { return curve.value(at); })(y);
}

using PieceRow = std::tuple<double, double, int, std::array<double, 9>, double>;

void bind_curve(py::module_& m) {
  Told<CurvePoint>(m, "CurvePoint", "Value (m), slope (-) and signed curvature (1/m) of a curve at one y.")
      .field<&CurvePoint::value>("m")
      .field<&CurvePoint::slope>("-")
      .field<&CurvePoint::curvature>("1/m, positive where the curve bends upward")
      .shows({"value", "slope", "curvature"});

  value_type<Bump>(m, "Smooth (C2) addition to a curve; depth > 0 removes material.",
                   needed<&Bump::depth>("m, largest change of the value"), needed<&Bump::width>("m, full width"),
                   needed<&Bump::centre>("m, middle in y"));

  Told<Curve>(m, "Curve", "Plane curve z(y), y and z in m, the form of all cross-sections.")
      .def("__call__", &heights, "y"_a, "Heights (m) at `y` (m); outside the range the value at the end is returned.")
      .def("at", &Curve::at, "y"_a, "Value, slope and curvature at one `y` (m).")
      .def("with_bump", &Curve::with, "bump"_a, "The same curve with one more smooth addition.")
      .get("front", "m, smallest y", &Curve::front)
      .get("back", "m, largest y", &Curve::back)
      .def("__eq__", &same<Curve>, "other"_a)
      .def(py::pickle(
          [](const Curve& c) {
            std::vector<PieceRow> pieces;
            for (const Piece& p : c.pieces()) {
              pieces.emplace_back(p.from, p.to, static_cast<int>(p.kind), p.c, p.origin);
            }
            return py::make_tuple(pieces, c.bumps());
          },
          [](const py::tuple& state) {
            std::vector<Piece> pieces;
            for (const auto& [from, to, kind, c, origin] : state[0].cast<std::vector<PieceRow>>()) {
              pieces.push_back({from, to, static_cast<Piece::Kind>(kind), c, origin});
            }
            return Curve(std::move(pieces), state[1].cast<std::vector<Bump>>());
          }))
      .def("__repr__", [](const Curve& c) {
        return py::str("Curve(front={!r}, back={!r}, {} pieces)").format(c.front(), c.back(), c.pieces().size());
      });
}

void bind_wheel(py::module_& m) {
  value_type<WheelProfile>(
      m,
      "Wheel cross-section: growth of the rolling radius over y, both in m, y from the taping line "
      "to the field side.",
      needed<&WheelProfile::name>("name of the profile"), needed<&WheelProfile::curve>("height over y"))
      .def(
          "height", [](const WheelProfile& w, const py::array_t<double>& y) { return heights(w.curve, y); }, "y"_a,
          "Growth of the rolling radius (m) at `y` (m), positive towards the flange tip.")
      .def("at", &WheelProfile::at, "y"_a, "Value, slope and curvature at one `y` (m).")
      .get("y_min", "m, flange back side", &WheelProfile::y_min)
      .get("y_max", "m, field face", &WheelProfile::y_max);

  ranged_type<Hollow>(m, "Hollow wear of a tread: loss of rolling radius at its centre.");

  m.def("s1002", &s1002, "S1002 wheel profile (UIC 510-2 / EN 13715), flange 28 mm high and 32.5 mm thick.");
  m.def("cone", &cone, "conicity"_a, "Straight tread of the given conicity (for example 1/20), no flange.");
  m.def("hollow_worn", &hollow_worn, "base"_a, "hollow"_a, "A profile with a smooth hollow in its tread.");
  m.def(
      "measured_wheel",
      [](const Array& y, const Array& height, double noise, std::string name) {
        return measured_wheel(to_vector(y), to_vector(height), noise, std::move(name));
      },
      "y"_a, "height"_a, "noise"_a, "name"_a = "measured",
      R"(Wheel profile fitted to measured points.

`y`, `height`: m, points in the wheel frame, either order; `noise`: m, standard deviation of the measurement, > 0;
`name`: name of the profile. Raises InputError: points not finite, too few, of implausible scale or not single-valued.)");
}

} // namespace

void bind_profile(py::module_ m) {
  bind_curve(m);
  bind_wheel(m);

  value_type<RailHead>(m, "Rail head: z over y in m, after inclination, from the gauge to the field side.",
                       needed<&RailHead::name>("name of the rail"), needed<&RailHead::curve>("z over y"),
                       needed<&RailHead::status>("how far the shape is to be trusted"));
  m.def("rail_head", &rail_head, "name"_a, "inclination"_a = 0.0,
        R"(Head of a standard rail.

`name`: such as "60E1"; `inclination`: rad, positive leans the head towards the track centre.)");

  value_type<RailSection>(m, "Bending properties of one rail.", needed<&RailSection::name>("name of the rail"),
                          needed<&RailSection::area>("m2"), needed<&RailSection::mass_per_m>("kg/m"),
                          needed<&RailSection::inertia>("m4, about the horizontal axis"),
                          needed<&RailSection::status>("how far the values are to be trusted"));
  m.def("rail_section", &rail_section, "name"_a, "Bending properties of a standard rail.");
  m.def("rail_section_names", &rail_section_names, "Names `rail_section` knows.");
}

} // namespace wingnose::python
