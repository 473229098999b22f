// Room study: one case and its steps, as values; many cases.
#include "case.hpp"
#include "interruptible.hpp"
#include "rooms.hpp"
#include "tree.hpp"

#include "wingnose/study/instants.hpp"
#include "wingnose/study/many.hpp"
#include "wingnose/study/steel.hpp"

namespace wingnose::python {

using namespace study;

namespace {

void bind_values(py::module_& m) {
  result_type<Geometry>(
      m, "The wheel path of a case and what it means.", field<&Geometry::path>("wheel path"),
      field<&Geometry::law>("law of contact along it, for E* = 1 Pa; None: ellipses"),
      field<&Geometry::crossing>("crossing, None for prescribed paths"), field<&Geometry::wheel>("profile, as rolled"),
      field<&Geometry::kinematics>("transfer, dip, slopes"), field<&Geometry::findings>("what was found"));
  result_type<assess::Estimate>(
      m, "Closed forms of a case for one lumped track.", field<&assess::Estimate::track_name>("which lumped track"),
      field<&assess::Estimate::input>("values put in"), field<&assess::Estimate::forces>("P1 and P2"),
      field<&assess::Estimate::assumptions>("what the numbers rest on"));
  Told<Result>(m, "Result", "A passage: path, histories without copies, numbers.")
      .field<&Result::geometry>("path and kinematics")
      .field<&Result::history>("what happened")
      .get("measures", "every number told, by the keys of `wingnose.quantities`, in their units",
           [](const Result& r) { return numbers_of(r.assessment); })
      .get("landing_on", "body landed on", [](const Result& r) { return r.assessment.measures->landing_body; })
      .get("estimates", "closed forms", [](const Result& r) { return r.assessment.estimates; })
      .get("findings", "what was found", [](const Result& r) { return r.assessment.findings; })
      .def("__repr__", [](const Result& r) {
        return py::str("Result({} samples, {} findings)").format(r.history.time.size(), r.assessment.findings.size());
      });
}

void bind_steps(py::module_& m) {
  using C = const ScriptCase&;
  m.def(
      "geometry_of", [](C c) { return std::make_shared<Geometry>(geometry(c.get())); }, Release(), "case"_a,
      "Roll the wheel of a case over its crossing.");
  m.def(
      "estimates_of", [](C c, const Geometry& g) { return estimate(c.get(), g); }, "case"_a, "geometry"_a,
      "Closed forms of a case, one per lumped track.");
  m.def("landing_station", &landing_station, "geometry"_a,
        "Where the wheel is expected to land (m); raises ComputeError where nothing says so.");
  m.def(
      "track_for", [](C c) { return track_for(c.get()); }, "case"_a,
      "The track of a case, long enough for all its wheels.");
  m.def(
      "plan_of",
      [](C c, const Geometry& g, std::shared_ptr<track::ModalTrack> modal) {
        return std::const_pointer_cast<passage::Plan>(plan(c.get(), g, std::move(modal)));
      },
      "case"_a, "geometry"_a, "track"_a, Release(),
      "What passages of a case share: path, track and vehicle, for `passage.simulate`.");
  m.def(
      "run_of", [](C c, const Geometry& g) { return run_of(c.get(), g); }, "case"_a, "geometry"_a,
      "Speed, direction and probes of a case, for `passage.simulate`.");
  m.def(
      "result_of",
      [](C c, std::shared_ptr<track::ModalTrack> modal) {
        const py::gil_scoped_release release;
        return std::make_shared<Result>(modal ? run(c.get(), std::move(modal)) : run(c.get()));
      },
      "case"_a, "track"_a = py::none(),
      R"(Run one case through all steps, its values kept as they are.

`case`: from `read_case`; `track`: modes of `track_for(case)` built before, to share them between cases. Returns
geometry, history without copies, numbers, findings. For named arrays and files: `run`.)");
  m.def(
      "contact_trail",
      [](C c, const Result& r) {
        return std::make_shared<assess::ContactTrail>(contact_trail(c.get(), r.geometry, r.history));
      },
      Release(), "case"_a, "result"_a,
      "Rolling contacts of a case around its landing, with its friction and law of creep.");
  m.def(
      "steel_damage",
      [](C c, const Result& r) { return std::make_shared<assess::Damage>(damage(c.get(), r.geometry, r.history)); },
      "case"_a, "result"_a, Release(),
      "What the passage of a case does to its new steel; raises ComputeError where there is no landing.");
  result_type<Instant>(m, "An instant of a passage and what the bodies carry then.", field<&Instant::time>("s"),
                       field<&Instant::station>("m, of the axle"))
      .get("moment", "transfer, landing or peak", [](const Instant& i) { return name(i.moment); })
      .get("loads", "N, vertical force by body", [](const Instant& i) {
        return dict_of<py::float_>(i.loads, [](const auto& load) { return std::pair(load.body, load.vertical); });
      });
  m.def(
      "instant",
      [](C c, const Result& r, const std::string& at) {
        return instant(c.get(), r, named<Moment>(at, "instant of the passage"));
      },
      "case"_a, "result"_a, "at"_a,
      R"(An instant of a passage: station of the axle and the force of every body.

`case`: what was run; `result`: what came of it; `at`: "transfer" (both bodies carry the same), "landing" (first peak
of the force) or "peak" (largest force on the body landed on). Returns time, station, forces. Raises ComputeError
where the passage has no such instant.

Examples
--------
>>> import wingnose
>>> from wingnose import study
>>> case = wingnose.read_case("profiles/demo.toml")
>>> now = study.instant(case, study.result_of(case), "transfer")
>>> round(now.loads["wing"] / now.loads["nose"], 1)
1.0)");
}

void bind_many(py::module_& m) {
  named_enum<Outcome::State>(m, "State", "How far a case of many has come.");
  Told<SharedParts>(m, "SharedParts", "Tracks and wheel paths that outlive one call; used by one call at a time.")
      .def(py::init<>());
  Told<Outcome>(m, "Outcome", "Answer of one case, or why there is none.")
      .field<&Outcome::state>("how far it came")
      .get("measures", "every number told, by key; None where there is none",
           [](const Outcome& o) { return o.assessment ? numbers_of(*o.assessment) : numbers_of({}, {}); })
      .get("findings", "what was found",
           [](const Outcome& o) { return o.assessment ? o.assessment->findings : Findings{}; })
      .get("result", "with path and history, when kept",
           [](const Outcome& o) {
             return o.kept ? std::make_shared<Result>(Result{o.kept->geometry, o.kept->history, *o.assessment})
                           : nullptr;
           })
      .field<&Outcome::failure>("why there is no answer")
      .def("__repr__", [](const Outcome& o) {
        return py::str("Outcome({}, failure={!r})").format(py::cast(o.state).attr("name"), o.failure);
      });
  m.def(
      "run_many",
      [](const std::vector<std::shared_ptr<ScriptCase>>& cases, int threads, bool probes, bool steel, bool keep_history,
         const ProgressCall& progress, const std::shared_ptr<SharedParts>& parts) {
        std::vector<Case> list;
        for (const auto& c : cases) {
          list.push_back(c->get());
        }
        return interruptible(progress, [&](Watch& watch) {
          auto options = watch.over(ManyOptions{}, threads);
          options.probes = probes;
          options.steel = steel;
          options.keep_history = keep_history;
          return run_many(list, options, parts.get());
        });
      },
      "cases"_a, py::kw_only(), "threads"_a = 0, "probes"_a = false, "steel"_a = false, "keep_history"_a = false,
      "progress"_a = py::none(), "parts"_a = py::none(),
      R"(Run many cases, tracks and wheel paths shared among them.

A case that fails does not stop the others. `threads`: 0 for one per core; `probes`: record rail and bearer motion
(cases then cannot advance eight at a time); `steel`: what the landings do to the steel, too; `keep_history`: keep
histories, wheel paths and crossings, about 1 MB per case; `progress`: called with the number of cases done and their
total; `parts`: tracks and wheel paths kept from call to call. Returns one per case, in order: the same bits whatever
the number of threads.)");
}

} // namespace

void bind_study(py::module_ m) {
  bind_values(m);
  bind_steps(m);
  bind_many(m);
}

} // namespace wingnose::python
