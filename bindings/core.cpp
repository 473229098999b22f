// The extension module wingnose._core: rooms as submodules, errors, version.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/version.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"
#include "wingnose/words/visible.hpp"

namespace py = pybind11;

PYBIND11_MODULE(_core, m) {
  m.doc() = "Wheel-rail contact and impact loads at railway crossings: the compiled rooms. SI units everywhere.";
  m.attr("__version__") = wingnose::version;
  m.attr("__commit__") = wingnose::commit;

  py::register_exception<wingnose::InputError>(m, "InputError", PyExc_ValueError).doc() =
      "A file, key or argument that cannot be: says where, the value, what is allowed and what to do.";
  py::register_exception<wingnose::ComputeError>(m, "ComputeError", PyExc_RuntimeError).doc() =
      "A sound question that has no answer: says why.";
  // Names of files and cases stand in messages: what they hold must not act on a terminal.
  py::register_exception_translator([](std::exception_ptr error) {
    const auto raise = [](const char* type, const char* message) {
      PyErr_SetString(py::module_::import("wingnose._core").attr(type).ptr(), wingnose::visible(message).c_str());
    };
    try {
      std::rethrow_exception(std::move(error));
    } catch (const wingnose::InputError& wrong) {
      raise("InputError", wrong.what());
    } catch (const wingnose::ComputeError& wrong) {
      raise("ComputeError", wrong.what());
    }
  });

  using namespace wingnose::python;
  named_enum<wingnose::Direction>(m, "Direction", "Sense of a move over the crossing.");
  bind_findings(m); // which values of many rooms have
  bind_profile(m.def_submodule("profile", "Plane cross-sections: wheel profiles, rail heads, rail sections."));
  bind_layout(m.def_submodule("layout", "Surfaces along the track and the kinematic passage over them."));
  auto contact = m.def_submodule("contact", "Contact: search for patches, normal laws, half-space solution.");
  bind_contact(contact);
  bind_contact_patches(contact);
  bind_contact_creep(contact);
  bind_contact_half_space(contact);
  bind_track(m.def_submodule("track", "Track under one rail: description, matrices, modes, answers."));
  bind_vehicle(m.def_submodule("vehicle", "Vehicle in the vertical plane, per rail."));
  bind_closedform(m.def_submodule("closedform", "Formulas a handbook would use."));
  bind_passage(m.def_submodule("passage", "Couples contact, track and vehicle through time."));
  auto assess = m.def_submodule("assess", "What a history means, and what it does to the steel.");
  bind_assess(assess);
  bind_assess_damage(assess);
  bind_tree(m);
  bind_case(m);
  auto study = m.def_submodule("study", "One case, all its steps; many cases; sweeps.");
  bind_study(study);
  bind_sweep(study);
  bind_answers(m.def_submodule("answers", "Answers of the studies as trees."));
}
