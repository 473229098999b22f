// Room study: the wheel's contact at an instant of a passage, or standing on the crossing of a case.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/study/instants.hpp"
#include "wingnose/words/error.hpp"

#include <optional>
#include <string>

namespace wingnose::python {

using namespace study;

namespace {

contact::StationOptions station_options(const std::string& law, std::size_t cells) {
  contact::StationOptions options;
  options.half_space = law == "half-space";
  if (law != "ellipse" && law != "strips" && law != "half-space") {
    throw InputError("contact law", "\"" + law + "\"", "\"ellipse\", \"strips\" or \"half-space\"",
                     "Choose one of these.");
  }
  if (!options.half_space) {
    options.law = named<contact::NormalLaw>(law, "contact law");
  }
  options.fields = cells > 0;
  if (cells > 0) {
    options.cells = {cells, cells};
  }
  return options;
}

} // namespace

void bind_contact_instants(py::module_ m) {
  result_type<Instant>(m, "Instant", "An instant of a passage and what the bodies carry then.",
                       field("time", &Instant::time, "s"), field("station", &Instant::station, "m, of the axle"))
      .def_property_readonly(
          "moment", [](const Instant& i) { return std::string(name(i.moment)); }, "transfer, landing or peak")
      .def_property_readonly(
          "loads",
          [](const Instant& i) {
            py::typing::Dict<py::str, py::float_> loads;
            for (const contact::BodyLoad& load : i.loads) {
              loads[py::str(load.body)] = load.vertical;
            }
            return loads;
          },
          "N, vertical force by body");

  m.def(
      "instant",
      [](const Case& c, const Result& result, const std::string& at) { return instant(c, result, moment(at)); },
      py::arg("case"), py::arg("result"), py::arg("at"),
      R"(An instant of a passage: station of the axle and the force of every body.

Parameters
----------
case : Case
    What was run.
result : Result
    What came of it.
at : str
    "transfer" (both bodies carry the same), "landing" (first peak of the force) or "peak" (largest force on the body
    landed on).

Returns
-------
Instant
    Time, station, forces. Raises ComputeError where the passage has no such instant.

Examples
--------
>>> import wingnose
>>> from wingnose import study
>>> case = wingnose.read_case("profiles/demo.toml")
>>> now = study.instant(case, wingnose.run(case), "transfer")
>>> round(now.loads["wing"] / now.loads["nose"], 1)
1.0)");
  m.def(
      "contact_at_instant",
      [](const Case& c, const Result& result, const std::string& at, const std::string& law, std::size_t cells,
         std::optional<double> roll, std::optional<double> yaw) {
        const Moment when = moment(at);
        const contact::StationOptions options = station_options(law, cells);
        const py::gil_scoped_release release;
        return contact_at_instant(c, result, when, options, {roll, yaw});
      },
      py::arg("case"), py::arg("result"), py::arg("at"), py::kw_only(), py::arg("law") = "strips",
      py::arg("cells") = 64, py::arg("roll") = py::none(), py::arg("yaw") = py::none(),
      R"(Patches and pressure fields of the wheel at an instant of its passage, every body under its own force.

Parameters
----------
case : Case
    What was run.
result : Result
    What came of it.
at : str
    "transfer", "landing" or "peak", as in `instant`.
law : str
    "ellipse", "strips" or "half-space", of the patches.
cells : int
    Cells of the half-space pressure fields on either side, 16 to 512; 0 for none beside a fast law.
roll, yaw : float, optional
    rad, of the wheel, -0.1 to 0.1; those of the case when not given.

Returns
-------
StationContact
    Patches, bodies and pressure fields.)");
  m.def(
      "contact_standing",
      [](const Case& c, const Geometry& g, std::optional<double> station, std::optional<double> load,
         const std::string& law, std::size_t cells, std::optional<double> roll, std::optional<double> yaw) {
        const double where = station ? *station : landing_station(g);
        const double carried =
            load ? *load
                 : vehicle::assemble(c.vehicle).static_load.at(static_cast<std::size_t>(c.passage.reported_wheel));
        const contact::StationOptions options = station_options(law, cells);
        const py::gil_scoped_release release;
        return contact_standing(c, g, where, carried, options, {roll, yaw});
      },
      py::arg("case"), py::arg("geometry"), py::arg("station") = py::none(), py::arg("load") = py::none(),
      py::kw_only(), py::arg("law") = "strips", py::arg("cells") = 64, py::arg("roll") = py::none(),
      py::arg("yaw") = py::none(),
      R"(Patches and pressure fields of the wheel of a case standing at one station, the bodies sharing its load.

Parameters
----------
case : Case
    Wheel, material, lateral place.
geometry : Geometry
    Of the case.
station : float, optional
    m, of the axle; where the wheel goes from one body to the other when left out.
load : float, optional
    N, vertical; the static load of the reported wheel when left out.
law, cells, roll, yaw
    As in `contact_at_instant`.

Returns
-------
StationContact
    Patches, bodies and pressure fields.)");
}

} // namespace wingnose::python
