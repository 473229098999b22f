// Trees and numbers as Python takes them.
#pragma once

#include "value.hpp"

#include "wingnose/quantity/tree.hpp"

#include <optional>

namespace wingnose::python {

[[nodiscard]] py::object values_of(quantity::Array array); // an array of its shape, of numbers or texts
// Every number of the table by key, in its unit; None where there is none.
[[nodiscard]] py::typing::Dict<py::str, std::optional<double>> numbers_of(const assess::Assessment& assessment);

} // namespace wingnose::python
