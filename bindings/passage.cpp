// Room passage: settings, plan, run, history.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/passage/simulate.hpp"

namespace wingnose::python {

using namespace passage;

void bind_passage(py::module_ m) {
  named_enum<Method>(m, "Method", "How the passage is integrated.");
  using S = Settings;
  value_type<S>(m, "Settings", "One passage: sense, speed, stretch, step.",
                field("direction", &S::direction, "facing or trailing"), field("speed", &S::speed, "m/s, > 0"),
                field("from_", &S::from, "m, stretch covered by the reported wheel"), field("to", &S::to, "m"),
                field("step", &S::step, "s, also the sampling step of the history"),
                field("method", &S::method, "integration method"),
                field("tolerance", &S::tolerance, "-, relative, adaptive method only"),
                field("reported_wheel", &S::reported_wheel, "index, leading wheel 0"),
                field("probes", &S::probes, "record rail and bearer motion near the landing"));

  named_enum<Event::Kind>(m, "EventKind", "What happened.");
  result_type<Event>(m, "Event", "A located event.", field("kind", &Event::kind, "touch, lift-off or transfer"),
                     field("body", &Event::body, "body touched or left; for a transfer the body that now carries more"),
                     field("time", &Event::time, "s"), field("station", &Event::station, "m"));

  using H = History;
  result_type<H>(m, "History", "What happened to the reported wheel during one passage.",
                 field("time", &H::time, "s, uniform"), field("station", &H::station, "m"),
                 field("bodies", &H::bodies, "names, order of body_force"),
                 field("body_force", &H::body_force, "N, one array per body"), field("force", &H::force, "N, total"),
                 field("wheel_height", &H::wheel_height, "m, up, from static level on undeflected track"),
                 field("wheel_acceleration", &H::wheel_acceleration, "m/s2, up"),
                 field("rail_deflection", &H::rail_deflection, "m, under the wheel, downward"),
                 field("rail_probe_station", &H::rail_probe_station, "m"),
                 field("bearer_probe_station", &H::bearer_probe_station, "m"),
                 field("rail_acceleration", &H::rail_acceleration, "m/s2, downward, at the probe"),
                 field("bearer_acceleration", &H::bearer_acceleration, "m/s2, downward, at the probe"),
                 field("wheel_peaks", &H::wheel_peaks, "N, largest force of every wheel"),
                 field("events", &H::events, "touch, lift-off, transfer"), field("static_load", &H::static_load, "N"),
                 field("step", &H::step, "s"), field("method", &H::method, "how it was integrated"));

  using R = Run;
  value_type<R>(m, "Run", "One move over a plan: what a passage adds to what passages share.",
                field("direction", &R::direction, "facing or trailing"), field("speed", &R::speed, "m/s, 0.1 to 200"),
                field("reported_wheel", &R::reported_wheel, "index, leading wheel 0"),
                field("load", &R::load, "N, static load of the reported wheel; None: as the vehicle has it"),
                field("method", &R::method, "integration method"),
                field("tolerance", &R::tolerance, "-, relative, adaptive method only"),
                field("probes", &R::probes, "record rail and bearer motion at fixed points"),
                field("probe_station", &R::probe_station, "m, where they lie; None: mid-way"));
  Told<Plan>(m, "Plan",
             "What passages share (wheel paths, laws of contact, track, vehicle); immutable, for any thread.")
      .def_readonly("from_", &Plan::from, "m, stretch covered by the reported wheel")
      .def_readonly("to", &Plan::to, "m")
      .get("step", "s", [](const Plan& p) { return p.steps->step; })
      .get("wheels", "number of wheels", &Plan::wheels)
      .def("__repr__", [](const Plan& p) {
        return py::str("Plan(from_={!r}, to={!r}, wheels={!r})").format(p.from, p.to, p.wheels());
      });
  m.def(
      "make_plan",
      [](const std::vector<std::shared_ptr<contact::WheelPath>>& paths, std::shared_ptr<track::ModalTrack> modal,
         const vehicle::VehicleModel& model, const contact::Elastic& steel, double from, double to, double step) {
        py::gil_scoped_release release;
        PlanParts parts{.courses = {},
                        .track = std::move(modal),
                        .vehicle = model,
                        .steel = steel,
                        .from = from,
                        .to = to,
                        .step = step};
        for (const auto& path : paths) {
          parts.courses.push_back({path});
        }
        return std::const_pointer_cast<Plan>(make_plan(std::move(parts)));
      },
      py::arg("paths"), py::arg("track"), py::arg("vehicle"), py::arg_v("steel", contact::Elastic{}, "..."),
      py::arg("from_") = -4.0, py::arg("to") = 4.0, py::arg("step") = 4e-5,
      R"(What passages share.

`paths`: one per wheel, leading first, or one that all wheels take; `track`: from `track.modal_track`; `vehicle`: from
`vehicle.assemble`; `steel`: material of wheel and rail; `from_`, `to`: m, stretch covered by the reported wheel;
`step`: s, also the sampling step of the history.)");
  m.def(
      "simulate",
      [](const std::shared_ptr<Plan>& plan, const Run& run) {
        py::gil_scoped_release release;
        return simulate(plan, run);
      },
      py::arg("plan"), py::arg_v("run", Run{}, "..."),
      "Run one passage; raises ComputeError when the motion does not stay finite.");
}

} // namespace wingnose::python
