// The extension module wingnose._core: rooms as submodules, errors, version.
#include "rooms.hpp"

#include "wingnose/version.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <pybind11/native_enum.h>

namespace py = pybind11;

PYBIND11_MODULE(_core, m) {
  m.doc() = "Wheel-rail contact and impact loads at railway crossings: the compiled rooms. SI units everywhere.";
  m.attr("__version__") = wingnose::version;
  m.attr("__commit__") = wingnose::commit;

  py::register_exception<wingnose::InputError>(m, "InputError", PyExc_ValueError);
  py::register_exception<wingnose::ComputeError>(m, "ComputeError", PyExc_RuntimeError);

  py::native_enum<wingnose::Direction>(m, "Direction", "enum.Enum", "Sense of a move over the crossing.")
      .value("facing", wingnose::Direction::facing)
      .value("trailing", wingnose::Direction::trailing)
      .finalize();

  using namespace wingnose::python;
  bind_profile(m.def_submodule("profile", "Plane cross-sections: wheel profiles, rail heads, rail sections."));
  bind_layout(m.def_submodule("layout", "Surfaces along the track and the kinematic passage over them."));
  auto contact = m.def_submodule("contact", "Contact: search for patches, normal laws, half-space solution.");
  bind_contact(contact);
  bind_contact_patches(contact);
  bind_contact_creep(contact);
  bind_contact_half_space(contact);
  bind_contact_law(contact);
  bind_track(m.def_submodule("track", "Track under one rail: description, matrices, modes, answers."));
  bind_vehicle(m.def_submodule("vehicle", "Vehicle in the vertical plane, per rail."));
  bind_closedform(m.def_submodule("closedform", "Formulas a handbook would use."));
  bind_passage(m.def_submodule("passage", "Couples contact, track and vehicle through time."));
  auto assess = m.def_submodule("assess", "What a history means, and what it does to the steel.");
  bind_assess(assess);
  bind_assess_steel(assess); // before the cases of the room study, which hold a steel
  bind_assess_damage(assess);
  auto study = m.def_submodule("study", "One case, all its steps; many cases.");
  auto io = m.def_submodule("io", "Case files, result files, sweeps.");
  bind_study(study);
  bind_contact_instants(study);
  bind_io(io);
  bind_case_document(io);
  bind_many(study);
  bind_compare(study, io);
  bind_damage_traffic(assess, study, io);
  bind_speeds(study, io);
  bind_sweep(study, io);
}
