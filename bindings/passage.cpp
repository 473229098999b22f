// Room passage: settings, scene, history.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/passage/simulate.hpp"

#include <limits>

namespace wingnose::python {

using namespace passage;

void bind_passage(py::module_ m) {
  py::native_enum<Method>(m, "Method", "enum.Enum", "How the passage is integrated.")
      .value("modal_exponential", Method::modal_exponential)
      .value("adaptive_runge_kutta", Method::adaptive_runge_kutta)
      .finalize();
  using S = Settings;
  value_type<S>(m, "Settings", "One passage: sense, speed, stretch, step.",
                field("direction", &S::direction, "facing or trailing"), field("speed", &S::speed, "m/s, > 0"),
                field("from_", &S::from, "m, stretch covered by the reported wheel"), field("to", &S::to, "m"),
                field("step", &S::step, "s, also the sampling step of the history"),
                field("method", &S::method, "integration method"),
                field("tolerance", &S::tolerance, "-, relative, adaptive method only"),
                field("reported_wheel", &S::reported_wheel, "index, leading wheel 0"),
                field("probes", &S::probes, "record rail and bearer motion near the landing"));

  py::native_enum<Event::Kind>(m, "EventKind", "enum.Enum", "What happened.")
      .value("touch", Event::Kind::touch)
      .value("lift_off", Event::Kind::lift_off)
      .value("transfer", Event::Kind::transfer)
      .finalize();
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
                 field("other_wheel_peak", &H::other_wheel_peak, "N, largest force of every wheel"),
                 field("events", &H::events, "touch, lift-off, transfer"), field("static_load", &H::static_load, "N"),
                 field("step", &H::step, "s"), field("method", &H::method, "how it was integrated"));

  py::class_<Scene, std::shared_ptr<Scene>>(m, "Scene",
                                            "Everything one passage needs, immutable and shared by threads.")
      .def_readonly("settings", &Scene::settings, "speed, stretch, step")
      .def_readonly("landing_station", &Scene::landing_station, "m, NaN when there is none")
      .def("__repr__", [](const Scene& s) {
        return py::str("Scene(speed={!r}, landing_station={!r})").format(s.settings.speed, s.landing_station);
      });
  m.def(
      "make_scene",
      [](std::shared_ptr<layout::WheelPath> path, std::shared_ptr<track::ModalTrack> modal,
         const vehicle::VehicleModel& model, const Settings& settings, double landing, const contact::Elastic& steel) {
        py::gil_scoped_release release;
        return std::make_shared<Scene>(make_scene(std::move(path), std::move(modal), model, settings, landing, steel));
      },
      py::arg("path"), py::arg("track"), py::arg("vehicle"), py::arg_v("settings", Settings{}, "..."),
      py::arg("landing_station") = std::numeric_limits<double>::quiet_NaN(),
      py::arg_v("steel", contact::Elastic{}, "..."),
      R"(Couple path, track and vehicle.

Parameters
----------
path : WheelPath
    From the room layout.
track : ModalTrack
    From `track.modal_track`.
vehicle : VehicleModel
    From `vehicle.assemble`.
settings : Settings
    Speed, stretch, step.
landing_station : float
    m, where the wheel is expected to land; NaN when unknown.
steel : Elastic
    Material of wheel and rail.)");
  m.def("simulate", &simulate, py::arg("scene"), py::call_guard<py::gil_scoped_release>(),
        "Run one passage; raises ComputeError when the motion does not stay finite.");
}

} // namespace wingnose::python
