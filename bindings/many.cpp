// Room study: many cases at once.
#include "interruptible.hpp"
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/study/many.hpp"

namespace wingnose::python {

using namespace study;

void bind_many(py::module_ m) {
  using State = Outcome::State;
  py::native_enum<State>(m, "State", "enum.Enum", "How far a case of many has come.")
      .value("not_run", State::not_run)
      .value("done", State::done)
      .value("bad_input", State::bad_input)
      .value("could_not_compute", State::could_not_compute)
      .finalize();
  py::class_<SharedParts, std::shared_ptr<SharedParts>>(
      m, "SharedParts", "Tracks and wheel paths that outlive one call; used by one call at a time.")
      .def(py::init<>());
  py::class_<Outcome, std::shared_ptr<Outcome>>(m, "Outcome", "Answer of one case, or why there is none.")
      .def_readonly("state", &Outcome::state, "how far it came")
      .def_property_readonly(
          "result",
          [](const std::shared_ptr<Outcome>& self) {
            return self->result ? std::shared_ptr<Result>(self, &*self->result) : nullptr;
          },
          "kinematics, measures and closed forms; histories and paths when kept")
      .def_readonly("failure", &Outcome::failure, "why there is no result")
      .def("__repr__", [](const Outcome& outcome) {
        return py::str("Outcome({}, failure={!r})").format(py::cast(outcome.state).attr("name"), outcome.failure);
      });
  m.def(
      "run_many",
      [](const std::vector<Case>& cases, int threads, bool probes, bool keep_history, const ProgressCall& progress,
         const std::shared_ptr<SharedParts>& parts) {
        return interruptible(progress, [&](Watch& watch) {
          ManyOptions options;
          options.threads = threads;
          options.probes = probes;
          options.keep_history = keep_history;
          options.progress = watch.progress();
          options.cancel = &watch.cancel;
          return run_many(cases, options, parts.get());
        });
      },
      py::arg("cases"), py::kw_only(), py::arg("threads") = 0, py::arg("probes") = false,
      py::arg("keep_history") = false, py::arg("progress") = py::none(), py::arg("parts") = py::none(),
      R"(Run many cases, tracks and wheel paths shared among them.

Parameters
----------
cases : sequence of Case
    What to run. A case that fails does not stop the others.
threads : int
    0: one per core.
probes : bool
    Record rail and bearer motion; cases then cannot advance eight at a time.
keep_history : bool
    Keep histories, wheel paths and crossings; about 1 MB per case.
progress : callable, optional
    Called with the number of cases done and their total.
parts : SharedParts, optional
    Tracks and wheel paths kept from call to call.

Returns
-------
list of Outcome
    One per case, in order; the same bits whatever the number of threads.)");
}

} // namespace wingnose::python
