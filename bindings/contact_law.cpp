// Room contact: the laws of normal contact by name, and the law along the path of a wheel.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/contact/normal/normal_law.hpp"
#include "wingnose/contact/path/path_law.hpp"
#include "wingnose/contact/path/step_search.hpp"
#include "wingnose/words/error.hpp"

#include <limits>

namespace wingnose::python {

using namespace contact;

namespace {

const std::vector<ForceLaw>& laws_of(const PathLaw& law, std::size_t body) {
  if (body >= law.body.size()) {
    throw InputError("body", std::to_string(body), "0 to " + std::to_string(law.body.size() - 1),
                     "Bodies are counted from 0 in the order of the path.");
  }
  return law.body[body];
}

void bind_laws(py::module_& m) {
  value_type<Ellipse>(
      m, "Ellipse", "One Hertz ellipse per body, at its deepest point.",
      field<&Ellipse::closing_depth>("m, at which the lateral curvature is read; rolled paths have always 55 um"));
  Told<Strips>(m, "Strips", "All patches of a body by strips, non-elliptic (wingnose/contact/strips.hpp).")
      .def(py::init<>())
      .shows({})
      .def(
          "__eq__", [](const Strips&, const py::object& other) { return py::isinstance<Strips>(other); }, "other"_a)
      .def(py::pickle([](const Strips&) { return py::typing::Tuple<>(py::tuple()); },
                      [](const py::tuple&) { return Strips{}; }));

  constexpr double endless = std::numeric_limits<double>::infinity();
  value_type<ForceLaw>(m, "ForceLaw", "Vertical force over vertical depth: F = d^1.5 (c0 + c1 sqrt(d) + c2 d).",
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
  result_type<PathLaw>(m, "PathLaw", "The law of contact along the path of a wheel, for E* = 1 Pa.",
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

void bind_contact_law(py::module_ m) {
  bind_laws(m);
  bind_along(m);
}

} // namespace wingnose::python
