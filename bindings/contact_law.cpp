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

} // namespace

void bind_contact_law(py::module_ m) {
  value_type<Ellipse>(m, "Ellipse", "One Hertz ellipse per body, at its deepest point.",
                      field("closing_depth", &Ellipse::closing_depth,
                            "m, at which the lateral curvature is read; rolled paths have always 55 um"));
  Told<Strips>(m, "Strips", "All patches of a body by strips, non-elliptic (wingnose/contact/strips.hpp).")
      .def(py::init<>())
      .def("__repr__", [](const Strips&) { return "Strips()"; })
      .def(
          "__eq__", [](const Strips&, const py::object& other) { return py::isinstance<Strips>(other); },
          py::arg("other"))
      .def(py::pickle([](const Strips&) { return py::typing::Tuple<>(py::tuple()); },
                      [](const py::tuple&) { return Strips{}; }));

  constexpr double endless = std::numeric_limits<double>::infinity();
  value_type<ForceLaw>(m, "ForceLaw", "Vertical force over vertical depth: F = d^1.5 (c0 + c1 sqrt(d) + c2 d).",
                       field("c0", &ForceLaw::c0, "N/m^1.5"), field("c1", &ForceLaw::c1, "N/m^2"),
                       field("c2", &ForceLaw::c2, "N/m^2.5"))
      .def("force",
           py::vectorize([](const ForceLaw* law, double depth, double reach) { return law->at(depth, reach).force; }),
           py::arg("depth"), py::arg("reach") = endless, "N at a depth (m); straight on beyond `reach` (m).")
      .def("stiffness", py::vectorize([](const ForceLaw* law, double depth, double reach) {
             return law->at(depth, reach).stiffness;
           }),
           py::arg("depth"), py::arg("reach") = endless, "N/m at a depth (m).")
      .def(
          "depth", [](const ForceLaw& law, double force, double reach) { return depth_for_force(law, force, reach); },
          py::arg("force"), py::arg("reach") = endless, "m, at which the law carries a force (N, >= 0).");
  m.def(
      "fit_force_law",
      [](const Array& depth, const Array& force, double reach) {
        return fit_force_law(to_vector(depth), to_vector(force), reach);
      },
      py::arg("depth"), py::arg("force"), py::arg("reach") = strips_reach,
      "Convex law nearest to samples of force (N, >= 0) over depth (m, rising, up to `reach`).");

  result_type<PathLaw>(m, "PathLaw", "The law of contact along the path of a wheel, for E* = 1 Pa.",
                       field("reach", &PathLaw::reach, "m, depth beyond which forces go straight on"),
                       field("searched", &PathLaw::searched, "stations at which strips were solved; 0 for ellipses"),
                       field("worst_fit", &PathLaw::worst_fit, "-, largest difference between fit and strips"),
                       field("worst_body", &PathLaw::worst_body, "where that is"),
                       field("worst_station", &PathLaw::worst_station, "m, where that is"))
      .def(
          "force",
          [](const PathLaw& law, std::size_t body, double depth, const Elastic& material) {
            std::vector<double> force;
            const std::vector<ForceLaw>& laws = laws_of(law, body);
            force.reserve(laws.size());
            for (const ForceLaw& one : laws) {
              force.push_back(material.combined() * one.at(depth, law.reach).force);
            }
            return own(std::move(force));
          },
          py::arg("body"), py::arg("depth"), py::arg_v("material", Elastic{}, "..."),
          "N, [station of the path]: vertical force of a body (0, 1) at a vertical depth (m) below its first touch.")
      .def(
          "depth",
          [](const PathLaw& law, std::size_t body, double force, const Elastic& material) {
            std::vector<double> depth;
            const std::vector<ForceLaw>& laws = laws_of(law, body);
            depth.reserve(laws.size());
            for (const ForceLaw& one : laws) {
              const bool carries = one.c0 != 0.0 || one.c1 != 0.0 || one.c2 != 0.0;
              depth.push_back(carries ? depth_for_force(one, force / material.combined(), law.reach)
                                      : std::numeric_limits<double>::quiet_NaN());
            }
            return own(std::move(depth));
          },
          py::arg("body"), py::arg("force"), py::arg_v("material", Elastic{}, "..."),
          "m, [station of the path]: depth at which a body carries a force (N, >= 0); NaN where it cannot touch.");
  named_enum<SearchAt>(m, "SearchAt", "Where a passage has its contact searched.");
  m.def("ellipse_law", &ellipse_law, py::arg("path"), py::call_guard<py::gil_scoped_release>(),
        "One ellipse per body from the curvatures of a path (Hertz 1881).");
  m.def(
      "strips_law",
      [](const contact::WheelPath& path, const layout::Crossing& crossing, const profile::WheelProfile& wheel) {
        return strips_law(path, crossing, wheel);
      },
      py::arg("path"), py::arg("crossing"), py::arg("wheel"), py::call_guard<py::gil_scoped_release>(),
      R"(Strips searched along a path: all patches of each body, the wheel held as the path was rolled.

`path`: rolled over this crossing; `crossing`: from the room layout; `wheel`: with which the path was rolled.)");
}

} // namespace wingnose::python
