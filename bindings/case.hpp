// A case as Python holds it: with the way it was made, so that it can be pickled and varied.
#pragma once

#include "value.hpp"

#include "wingnose/case/document.hpp"

#include <filesystem>
#include <map>
#include <string>
#include <variant>

namespace wingnose::python {

using KeyItem = std::variant<bool, double, std::string>;
using KeyValues = std::map<std::string, KeyItem>;
std::vector<cases::Override> overrides_of(const KeyValues& values);

// {key: value} of the pairs a list gives.
template <class V, class List, class Pair> py::typing::Dict<py::str, V> dict_of(const List& list, Pair pair) {
  py::typing::Dict<py::str, V> all;
  for (const auto& each : list) {
    const auto& [key, value] = pair(each);
    all[py::str(std::string(key))] = value;
  }
  return all;
}

struct ScriptCase {
  cases::Document document;
  std::string text, name = "case";    // it was read from
  std::filesystem::path folder = "."; // relative names of files start here
  py::list steps;                     // what was varied and replaced since, in order
  [[nodiscard]] const cases::Case& get() const { return document.base(); }
  [[nodiscard]] friend bool operator==(const ScriptCase& a, const ScriptCase& b) { return a.get() == b.get(); }
};
ScriptCase read_case(const std::filesystem::path& file);

} // namespace wingnose::python
