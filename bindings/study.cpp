// Room study: one case and its steps.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/study/case.hpp"
#include "wingnose/study/steel_damage.hpp"

namespace wingnose::python {

using namespace study;

void bind_study(py::module_ m) {
  result_type<InputFile>(
      m, "InputFile", "A file a case was read from.", field("role", &InputFile::role, "what it gave"),
      field("path", &InputFile::path, "where it was"), field("sha256", &InputFile::sha256, "checksum of its content"));
  value_type<Case>(m, "Case", "All a user asked for, in SI, validated.", field("name", &Case::name, "name"),
                   field("excitation", &Case::excitation, "CrossingShape, SectionedShape, DippedJoint or GivenPath"),
                   field("wheel", &Case::wheel, "wheel profile"), field("lateral_offset", &Case::lateral_offset, "m"),
                   field("roll", &Case::roll, "rad, -0.03 to 0.03, + lifts the wheel's field side; on crossings"),
                   field("yaw", &Case::yaw, "rad, -0.03 to 0.03, + turns the wheel from x to y; on crossings"),
                   field("rail_head", &Case::rail_head, "plain rail of prescribed paths"),
                   field("rail_inclination", &Case::rail_inclination, "rad"),
                   needed("vehicle", &Case::vehicle, "vehicle"), field("track", &Case::track, "track"),
                   field("steel", &Case::steel, "material of wheel and rail"),
                   field("normal_law", &Case::normal_law, "contact.Ellipse() or contact.Strips(), of the passage"),
                   field("contact_search", &Case::contact_search,
                         "contact.SearchAt.path or .step: beforehand, or at every step of the passage"),
                   field("passage", &Case::passage, "speed, stretch, step"),
                   field("kinematics", &Case::kinematics, "how slopes are read"),
                   field("measures", &Case::measures, "definitions of the measures"),
                   field("grade", &Case::grade, "steel of wing and nose, for damage"),
                   field("damage", &Case::damage, "how damage is computed"),
                   field("lumped", &Case::lumped, "constant sets to report; empty: derived from the track"),
                   field("inputs", &Case::inputs, "files the case came from"),
                   field("source_text", &Case::source_text, "the case file as read"));
  result_type<Geometry>(m, "Geometry", "The wheel path of a case and what it means.",
                        field("path", &Geometry::path, "wheel path"),
                        field("law", &Geometry::law, "law of contact along it, for E* = 1 Pa; None: ellipses"),
                        field("crossing", &Geometry::crossing, "crossing, None for prescribed paths"),
                        field("kinematics", &Geometry::kinematics, "transfer, dip, slopes"));
  result_type<Estimate>(m, "Estimate", "Closed forms of a case for one lumped track.",
                        field("track_name", &Estimate::track_name, "which lumped track"),
                        field("input", &Estimate::input, "values put in"),
                        field("forces", &Estimate::forces, "P1 and P2"),
                        field("assumptions", &Estimate::assumptions, "what the numbers rest on"));
  result_type<Result>(
      m, "Result", "All answers of one case.", field("geometry", &Result::geometry, "path and kinematics"),
      field("history", &Result::history, "what happened"), field("measures", &Result::measures, "what it means"),
      field("estimates", &Result::estimates, "closed forms beside it"));

  m.def("geometry", &geometry, py::arg("case"), py::call_guard<py::gil_scoped_release>(),
        "Roll the wheel of a case over its crossing.");
  m.def("estimate", &estimate, py::arg("case"), py::arg("geometry"), "Closed forms of a case, one per lumped track.");
  m.def("landing_station", &landing_station, py::arg("geometry"),
        "Where the wheel is expected to land (m); raises ComputeError where nothing says so.");
  m.def("track_for", &track_for, py::arg("case"), "The track of a case, long enough for all its wheels.");
  m.def(
      "plan",
      [](const Case& c, const Geometry& g, std::shared_ptr<track::ModalTrack> modal) {
        py::gil_scoped_release release;
        return std::const_pointer_cast<passage::Plan>(plan(c, g, std::move(modal)));
      },
      py::arg("case"), py::arg("geometry"), py::arg("track"),
      "What passages of a case share: path, track and vehicle, for `passage.simulate`.");
  m.def(
      "run_of", [](const Case& c, const Geometry& g) { return run_of(c, g); }, py::arg("case"), py::arg("geometry"),
      "Speed, direction and probes of a case, for `passage.simulate`.");
  m.def(
      "run",
      [](const Case& c, std::shared_ptr<track::ModalTrack> modal) {
        py::gil_scoped_release release;
        return std::make_shared<Result>(modal ? run(c, std::move(modal)) : run(c));
      },
      py::arg("case"), py::arg("track") = py::none(),
      R"(Run one case through all steps.

Parameters
----------
case : Case
    From `read_case` or made in Python.
track : ModalTrack, optional
    Modes of `track_for(case)` built before, to share them between cases.

Returns
-------
Result
    Geometry, history, measures and closed forms.)");
  m.def("contact_trail", &contact_trail, py::arg("case"), py::arg("result"), py::call_guard<py::gil_scoped_release>(),
        "Rolling contacts of a case around its landing, with its friction and law of creep.");
  m.def("damage", &damage, py::arg("case"), py::arg("result"), py::call_guard<py::gil_scoped_release>(),
        "What the passage of a case does to its new steel; raises ComputeError where there is no landing.");
}

} // namespace wingnose::python
