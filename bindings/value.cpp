// The parts of value.hpp that do not depend on the type.
#include "value.hpp"

namespace wingnose::python {

namespace {

constexpr std::size_t longest_nested = 96; // characters of a field before it is cut short

std::string short_repr(const py::handle& value) {
  if (py::isinstance<py::array>(value)) {
    const auto size = py::cast<py::array>(value).size();
    return size == 0 ? "array([])" : "array of " + std::to_string(size);
  }
  if (py::isinstance<py::tuple>(value)) {
    const auto items = py::cast<py::tuple>(value);
    if (!items.empty() && py::isinstance<py::array>(items[0])) {
      return std::to_string(items.size()) + " arrays";
    }
  }
  std::string text = py::repr(value);
  if (text.size() <= longest_nested) {
    return text;
  }
  if (py::isinstance<py::tuple>(value)) {
    return "(" + std::to_string(py::len(value)) + " items)";
  }
  if (py::isinstance<py::str>(value)) {
    return text.substr(0, longest_nested - 4) + "...'";
  }
  return py::cast<std::string>(py::type::of(value).attr("__name__")) + "(...)";
}

} // namespace

std::string last_name(std::string_view function) {
  const std::size_t begin = function.rfind(':') + 1;
  const std::string last(function.substr(begin, function.rfind(']') - begin));
  return last == "from" ? last + "_" : last; // which Python reserves
}

py::str value_repr(const py::handle& self, const std::vector<std::string>& names) {
  std::string text = py::cast<std::string>(py::type::of(self).attr("__name__")) + "(";
  for (std::size_t i = 0; i < names.size(); ++i) {
    text += (i == 0 ? "" : ", ") + names[i] + "=" + short_repr(self.attr(names[i].c_str()));
  }
  return text + ")";
}

bool value_equal(const py::handle& a, const py::handle& b, const std::vector<std::string>& names) {
  if (!py::type::of(a).is(py::type::of(b))) {
    return false;
  }
  const auto array_equal = py::module_::import("numpy").attr("array_equal");
  const auto equal = [&](const py::handle& x, const py::handle& y) {
    if (py::isinstance<py::array>(x) && py::isinstance<py::array>(y)) {
      return array_equal(x, y, "equal_nan"_a = true).cast<bool>();
    }
    return x.equal(y);
  };
  return std::all_of(names.begin(), names.end(), [&](const std::string& name) {
    const py::object x = a.attr(name.c_str());
    const py::object y = b.attr(name.c_str());
    if (!py::isinstance<py::tuple>(x)) {
      return equal(x, y);
    }
    const auto xs = py::cast<py::tuple>(x);
    const auto ys = py::cast<py::tuple>(y);
    bool same = xs.size() == ys.size();
    for (std::size_t i = 0; same && i < xs.size(); ++i) {
      same = equal(xs[i], ys[i]);
    }
    return same;
  });
}

void refuse_unknown(const std::string& type, const std::string& key, const std::vector<std::string>& names) {
  std::string known;
  for (const auto& name : names) {
    known += (known.empty() ? "" : ", ") + name;
  }
  throw py::type_error(type + " has no field '" + key + "'; its fields are: " + known);
}

} // namespace wingnose::python
