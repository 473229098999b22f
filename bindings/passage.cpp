// Room passage: settings, plan, run, history.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/passage/simulate.hpp"

namespace wingnose::python {

using namespace passage;

namespace {

void bind_values(py::module_& m) {
  named_enum<Method>(m, "Method", "How the passage is integrated.");
  using S = Settings;
  value_type<S>(m, "One passage: sense, speed, stretch, step.", field<&S::direction>("facing or trailing"),
                field<&S::speed>("m/s, > 0"), field<&S::from>("m, stretch covered by the reported wheel"),
                field<&S::to>("m"), field<&S::step>("s, also the sampling step of the history"),
                field<&S::method>("integration method"), field<&S::tolerance>("-, relative, adaptive method only"),
                field<&S::reported_wheel>("index, leading wheel 0"),
                field<&S::probes>("record rail and bearer motion near the landing"));

  named_enum<Event::Kind>(m, "EventKind", "What happened.");
  columns_type<Event, event_columns>(
      m, "A located event.", field<&Event::kind>("touch, lift-off or transfer"),
      field<&Event::body>("body touched or left; for a transfer the body that now carries more"));

  using H = History;
  columns_type<H, history_columns, motion_columns, probe_columns>(
      m, "What happened to the reported wheel during one passage.", field<&H::bodies>("names, order of body_force"),
      field<&H::body_force>("N, one array per body"), field<&H::rail_probe_station>("m"),
      field<&H::bearer_probe_station>("m"), field<&H::wheel_peaks>("N, largest force of every wheel"),
      field<&H::events>("touch, lift-off, transfer"), field<&H::static_load>("N"), field<&H::step>("s"),
      field<&H::method>("how it was integrated"));

  using R = Run;
  value_type<R>(m, "One move over a plan: what a passage adds to what passages share.",
                field<&R::direction>("facing or trailing"), field<&R::speed>("m/s, 0.1 to 200"),
                field<&R::reported_wheel>("index, leading wheel 0"),
                field<&R::load>("N, static load of the reported wheel; None: as the vehicle has it"),
                field<&R::method>("integration method"), field<&R::tolerance>("-, relative, adaptive method only"),
                field<&R::probes>("record rail and bearer motion at fixed points"),
                field<&R::probe_station>("m, where they lie; None: mid-way"));
}

void bind_steps(py::module_& m) {
  Told<Plan>(m, "Plan",
             "What passages share (wheel paths, laws of contact, track, vehicle); immutable, for any thread.")
      .field<&Plan::from>("m, stretch covered by the reported wheel")
      .field<&Plan::to>("m")
      .get("step", "s", [](const Plan& p) { return p.step; })
      .get("wheels", "number of wheels", &Plan::wheels)
      .shows({"from_", "to", "wheels"});
  m.def(
      "make_plan",
      [](const std::vector<std::shared_ptr<contact::WheelPath>>& paths, std::shared_ptr<track::ModalTrack> modal,
         const vehicle::VehicleModel& model, const contact::Elastic& steel, double from, double to, double step) {
        PlanParts parts{{}, std::move(modal), model, steel, from, to, step, nullptr};
        for (const auto& path : paths) {
          parts.courses.push_back({path});
        }
        return std::const_pointer_cast<Plan>(make_plan(std::move(parts)));
      },
      "paths"_a, "track"_a, "vehicle"_a, usual<contact::Elastic>("steel"), "from_"_a = -4.0, "to"_a = 4.0,
      "step"_a = 4e-5, Release(),
      R"(What passages share.

`paths`: one per wheel, leading first, or one that all wheels take; `track`: from `track.modal_track`; `vehicle`: from
`vehicle.assemble`; `steel`: material of wheel and rail; `from_`, `to`: m, stretch covered by the reported wheel;
`step`: s, also the sampling step of the history.)");
  m.def(
      "simulate", [](const std::shared_ptr<Plan>& plan, const Run& run) { return simulate(plan, run); }, "plan"_a,
      usual<Run>("run"), Release(), "Run one passage; raises ComputeError when the motion does not stay finite.");
}

} // namespace

void bind_passage(py::module_ m) {
  bind_values(m);
  bind_steps(m);
}

} // namespace wingnose::python
