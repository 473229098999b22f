// One function per room, or per part of a large one: adds its values and functions to the room's submodule.
#pragma once

#include <pybind11/pybind11.h>

#include <cstddef>
#include <string>

namespace wingnose::contact {
struct StationOptions;
}

namespace wingnose::python {

// How a contact is answered: by the name of its law, with fields of so many cells on either side (0: none).
[[nodiscard]] contact::StationOptions contact_options(const std::string& law, std::size_t cells);

void bind_profile(pybind11::module_ room);
void bind_layout(pybind11::module_ room);
void bind_contact(pybind11::module_ room);
void bind_contact_patches(pybind11::module_ room);
void bind_contact_creep(pybind11::module_ room);
void bind_contact_half_space(pybind11::module_ room);
void bind_track(pybind11::module_ room);
void bind_vehicle(pybind11::module_ room);
void bind_closedform(pybind11::module_ room);
void bind_passage(pybind11::module_ room);
void bind_assess(pybind11::module_ room);
void bind_assess_damage(pybind11::module_ room);
void bind_findings(pybind11::module_ package);
void bind_tree(pybind11::module_ package);
void bind_case(pybind11::module_ package);
void bind_study(pybind11::module_ room);
void bind_sweep(pybind11::module_ study);
void bind_answers(pybind11::module_ room);

} // namespace wingnose::python
