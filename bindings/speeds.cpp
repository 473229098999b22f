// Rooms study and io: one case over a range of speeds.
#include "interruptible.hpp"
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/io/speeds_output.hpp"
#include "wingnose/study/speeds.hpp"

namespace wingnose::python {

using namespace study;

namespace {

void bind_values(py::module_& m) {
  py::native_enum<Quantity>(m, "Quantity", "enum.Enum", "What can be limited; SI units.")
      .value("p2", Quantity::p2)
      .value("first_peak", Quantity::first_peak)
      .value("peak_total", Quantity::peak_total)
      .value("peak_nose", Quantity::peak_nose)
      .value("peak_wing", Quantity::peak_wing)
      .value("dynamic_factor", Quantity::dynamic_factor)
      .value("p2_dynamic_factor", Quantity::p2_dynamic_factor)
      .value("dip_angle", Quantity::dip_angle)
      .value("lost_contact", Quantity::lost_contact)
      .value("minimum_force", Quantity::minimum_force)
      .value("rail_acceleration", Quantity::rail_acceleration)
      .value("bearer_acceleration", Quantity::bearer_acceleration)
      .value("peak_pressure", Quantity::peak_pressure)
      .value("shakedown", Quantity::shakedown)
      .value("t_gamma", Quantity::t_gamma)
      .finalize();
  py::native_enum<LimitAnswer::Outcome>(m, "LimitOutcome", "enum.Enum", "What the speeds of a range say of a limit.")
      .value("found", LimitAnswer::Outcome::found)
      .value("not_reached", LimitAnswer::Outcome::not_reached)
      .value("broken_at_lowest", LimitAnswer::Outcome::broken_at_lowest)
      .finalize();
  value_type<Limit>(m, "Limit", "A limit on one quantity, with where it comes from.",
                    needed("quantity", &Limit::quantity, "what is limited"),
                    needed("value", &Limit::value, "in the SI unit of the quantity"),
                    field("source", &Limit::source, "standard or rule; empty: not named"));
  using S = SteelMeasures;
  result_type<S>(m, "SteelMeasures", "What one passage does to the steel of wing and nose.",
                 field("peak_pressure", &S::peak_pressure, "Pa, largest elastic Hertz pressure"),
                 field("shakedown", &S::shakedown, "-, largest exceedance; above 1 is plastic"),
                 field("fatigue_index", &S::fatigue_index, "-, largest; above 0 the surface yields"),
                 field("t_gamma", &S::t_gamma, "N, largest"),
                 field("crack_damage", &S::crack_damage, "-, per wheel, largest of the crack function"),
                 field("friction_energy", &S::friction_energy, "J, of the whole stretch"),
                 field("wear_volume", &S::wear_volume, "m3, of the whole stretch"),
                 field("change_of_angle", &S::change_of_angle, "rad, largest inside a patch"));
  result_type<SpeedPoint>(m, "SpeedPoint", "One speed of a study.", field("speed", &SpeedPoint::speed, "m/s"),
                          field("measures", &SpeedPoint::measures, "of the passage"),
                          field("estimates", &SpeedPoint::estimates, "closed forms at this speed"),
                          field("dip_angle", &SpeedPoint::dip_angle, "rad, the same at all speeds"),
                          field("steel", &SpeedPoint::steel, "what the landing does to it; None unless asked for"),
                          field("steel_failure", &SpeedPoint::steel_failure, "why it is not known though asked for"));
  result_type<SpeedInterval>(m, "SpeedInterval", "Scanned speeds in a row.",
                             field("from_", &SpeedInterval::from, "m/s, first"),
                             field("to", &SpeedInterval::to, "m/s, last"));
  result_type<ClosedFormSpeed>(m, "ClosedFormSpeed", "What the closed form answers to a limit on P2.",
                               field("track_name", &ClosedFormSpeed::track_name, "which lumped track"),
                               field("speed", &ClosedFormSpeed::speed, "m/s; None when it has no answer"));
  result_type<LimitAnswer>(
      m, "LimitAnswer", "What a range of speeds says of one limit.",
      field("outcome", &LimitAnswer::outcome, "found, not_reached or broken_at_lowest"),
      field("speed", &LimitAnswer::speed, "m/s, highest speed that keeps it, when found"),
      field("first_broken", &LimitAnswer::first_broken, "m/s, lowest scanned speed that breaks it"),
      field("first_broken_not_computed", &LimitAnswer::first_broken_not_computed, "the passage at that speed failed"),
      field("kept_again", &LimitAnswer::kept_again, "above the first break: the limit is not monotone in speed"),
      field("estimates", &LimitAnswer::estimates, "closed forms, limits on P2 only"));
  result_type<SpeedFailure>(m, "SpeedFailure", "A scanned speed without a passage.",
                            field("speed", &SpeedFailure::speed, "m/s"), field("reason", &SpeedFailure::reason, "why"));
  result_type<Verdict>(m, "Verdict", "All limits together.",
                       field("outcome", &Verdict::outcome, "found, not_reached or broken_at_lowest"),
                       field("speed", &Verdict::speed, "m/s, lowest over the limits, when found"),
                       field("governs", &Verdict::governs, "index of the limit that gives it"));
}

} // namespace

void bind_speeds(py::module_ m, py::module_ io_room) {
  bind_values(m);
  py::class_<SpeedStudy, std::shared_ptr<SpeedStudy>>(m, "SpeedStudy", "One case over a range of speeds.")
      .def_property_readonly(
          "range", [](const SpeedStudy& s) { return std::tuple(s.range.from, s.range.to, s.range.step); },
          "m/s: from, to, step")
      .def_readonly("geometry", &SpeedStudy::geometry, "wheel path, the same at all speeds")
      .def_readonly("points", &SpeedStudy::points, "by rising speed")
      .def_readonly("failures", &SpeedStudy::failures, "speeds without a passage; no limit counts as kept there")
      .def_readonly("limits", &SpeedStudy::limits, "as asked for")
      .def_readonly("answers", &SpeedStudy::answers, "one per limit")
      .def_readonly("permissible", &SpeedStudy::permissible, "all limits together")
      .def_readonly("today", &SpeedStudy::today, "index of today's speed in `points`")
      .def_readonly("proposed", &SpeedStudy::proposed, "index of the proposed speed in `points`")
      .def_readonly("warnings", &SpeedStudy::warnings, "what must not be overlooked")
      .def_readonly("notes", &SpeedStudy::notes, "what a reader must know beside the numbers")
      .def_readonly("steel", &SpeedStudy::steel, "whether the points tell of the steel")
      .def_readonly("steel_name", &SpeedStudy::steel_name, "of wing and nose; empty where it was not asked for")
      .def_readonly("friction", &SpeedStudy::friction, "-, likewise")
      .def_readonly("steel_assumptions", &SpeedStudy::steel_assumptions, "what the numbers of the steel rest on")
      .def("__repr__", [](const SpeedStudy& s) {
        return py::str("SpeedStudy({} speeds, {} limits)").format(s.points.size(), s.limits.size());
      });
  m.def(
      "study_speeds",
      [](const Case& c, double from, double to, double step, const std::vector<Limit>& limits,
         std::optional<double> today, std::optional<double> proposed, int threads, bool steel) {
        SpeedOptions options;
        options.today = today;
        options.proposed = proposed;
        options.threads = threads;
        options.steel = steel;
        const py::gil_scoped_release release;
        return study_speeds(c, {from, to, step}, limits, options);
      },
      py::arg("case"), py::arg("from_"), py::arg("to"), py::arg("step"), py::arg("limits") = std::vector<Limit>{},
      py::kw_only(), py::arg("today") = py::none(), py::arg("proposed") = py::none(), py::arg("threads") = 0,
      py::arg("steel") = false,
      R"(Scan a range of speeds and solve for the highest that keeps the limits.

Parameters
----------
case : Case
    Its own speed is not used.
from_, to, step : float
    m/s; `to` is always scanned.
limits : sequence of Limit
    What must be kept.
today, proposed : float, optional
    m/s, scanned besides and compared.
threads : int
    0: one per core.
steel : bool
    What the landings do to the steel, too; a limit on it asks for that.

Returns
-------
SpeedStudy
    Points by rising speed, and what they say of each limit.)");
  io_room.def("parse_limit", &io::parse_limit, py::arg("text"), py::arg("source") = "",
              "A limit from text such as \"p2_kN=200\".");
  io_room.def("speeds_json", &io::speeds_json, py::arg("case"), py::arg("study"),
              "The JSON object `wingnose speeds --json` prints.");
  io_room.def("write_speeds", &io::write_speeds, py::arg("file"), py::arg("case"), py::arg("study"),
              "Write a speed study to HDF5, all or nothing.");
}

} // namespace wingnose::python
