// Trees and numbers as Python takes them.
#pragma once

#include "value.hpp"

#include "wingnose/quantity/quantity.hpp"
#include "wingnose/quantity/tree.hpp"

#include <initializer_list>
#include <optional>

namespace wingnose::python {

[[nodiscard]] py::object values_of(quantity::Array array); // an array of its shape, of numbers or texts
// Every number of the table by key, in its unit; None where there is none, and where its section is not among these.
[[nodiscard]] py::typing::Dict<py::str, std::optional<double>>
numbers_of(const assess::Assessment& assessment,
           std::initializer_list<quantity::Section> sections = {
               quantity::Section::wheel_path, quantity::Section::passage, quantity::Section::track,
               quantity::Section::sensor, quantity::Section::closed_form, quantity::Section::steel});

} // namespace wingnose::python
