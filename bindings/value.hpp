// How a C++ value becomes a Python class: one line per field gives the constructor (keywords only), the read-only
// property with its unit, replace(), repr, ==, copying and pickling.
//
// Values do not change once made: `value.replace(speed=40.0)` gives a changed copy. That is what makes the arrays safe
// without copying: a NumPy array is a read-only view of the C++ vector and keeps its owner alive.
#pragma once

#include "wingnose/words/column.hpp"
#include "wingnose/words/names.hpp"
#include "wingnose/words/number.hpp"
#include "wingnose/words/range.hpp"

#include <pybind11/native_enum.h>
#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>
#include <pybind11/stl/filesystem.h>
#include <pybind11/typing.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>
#include <vector>

namespace wingnose::python {

namespace py = pybind11;
using namespace py::literals;
using Release = py::call_guard<py::gil_scoped_release>;
using Array = py::array_t<double, py::array::c_style | py::array::forcecast>;

// == of C++ values that are no fields of which Python knows.
template <class T> bool same(const T& value, const py::object& other) {
  return py::isinstance<T>(other) && value == other.cast<const T&>();
}

template <class M> struct is_vector : std::false_type {};
template <class X> struct is_vector<std::vector<X>> : std::true_type {};
template <class M> struct is_shared_const : std::false_type {};
template <class X> struct is_shared_const<std::shared_ptr<const X>> : std::true_type { using Value = X; };

// Read-only view of `values`, which live as long as `owner` does.
inline py::array_t<double> view(const std::vector<double>& values, const py::handle& owner) {
  py::array_t<double> array({values.size()}, {sizeof(double)}, values.data(), owner);
  py::detail::array_proxy(array.ptr())->flags &= ~py::detail::npy_api::NPY_ARRAY_WRITEABLE_;
  return array;
}

// An array that takes over `values` without copying them.
inline py::array_t<double> own(std::vector<double>&& values) {
  auto kept = std::make_unique<std::vector<double>>(std::move(values));
  const auto* data = kept.get();
  const py::capsule owner(kept.release(), [](void* p) { delete static_cast<std::vector<double>*>(p); });
  return py::array_t<double>({data->size()}, {sizeof(double)}, data->data(), owner);
}

inline std::vector<double> to_vector(const Array& array) {
  if (array.ndim() != 1) {
    throw py::value_error("a one-dimensional array is needed, this one has " + std::to_string(array.ndim()) +
                          " dimensions; pass one column or row");
  }
  return {array.data(), array.data() + array.size()};
}

// work() without the interpreter lock.
template <class Work> auto freely(Work work) {
  const py::gil_scoped_release release;
  return work();
}

// The last name in what the compiler calls a function template: "... [with auto member = &wingnose::Body::name]".
std::string last_name(std::string_view function);

// The names a member and a type have in C++, told by the compiler, so that they are written once.
template <auto member> const char* name_of() {
  static const std::string name = last_name(__PRETTY_FUNCTION__);
  return name.c_str();
}
template <class T> const char* name_of() {
  static const std::string name = last_name(__PRETTY_FUNCTION__);
  return name.c_str();
}

// An argument that is left to its usual value.
template <class T> py::arg_v usual(const char* name) { return {name, T{}, "..."}; }

py::str value_repr(const py::handle& self, const std::vector<std::string>& names);
bool value_equal(const py::handle& a, const py::handle& b, const std::vector<std::string>& names);
[[noreturn]] void refuse_unknown(const std::string& type, const std::string& key,
                                 const std::vector<std::string>& names);

// A class with properties that are members (meaning) or computed (name, meaning, how), and what is shown of it.
template <class T> struct Told : py::class_<T, std::shared_ptr<T>> {
  using Base = py::class_<T, std::shared_ptr<T>>;
  using Base::Base;
  template <class Get, class... More> Told& get(const char* name, const char* doc, Get get, const More&... more) {
    Base::def_property_readonly(name, get, doc, more...);
    return *this;
  }
  template <class... A> Told& def(A&&... arguments) {
    Base::def(std::forward<A>(arguments)...);
    return *this;
  }
  template <auto member> Told& field(const char* doc, const char* name = name_of<member>()) {
    using M = std::decay_t<decltype(std::declval<T&>().*member)>;
    if constexpr (std::is_same_v<M, std::vector<double>>) {
      return get(name, doc, [](const py::object& self) { return view(self.cast<const T&>().*member, self); });
    } else if constexpr (is_vector<M>::value) {
      // A tuple, so that nobody appends to a copy and wonders; the elements are views of the C++ ones.
      using X = typename M::value_type;
      constexpr bool arrays = std::is_same_v<X, std::vector<double>>;
      using Tuple = py::typing::Tuple<std::conditional_t<arrays, py::array_t<double>, X>, py::ellipsis>;
      return get(name, doc, [](const py::object& self) {
        const auto& items = self.cast<const T&>().*member;
        Tuple out = py::tuple(items.size());
        for (std::size_t i = 0; i < items.size(); ++i) {
          if constexpr (arrays) {
            out[i] = view(items[i], self);
          } else {
            out[i] = py::cast(items[i], py::return_value_policy::reference_internal, self);
          }
        }
        return out;
      });
    } else if constexpr (is_shared_const<M>::value) {
      using X = typename is_shared_const<M>::Value;
      return get(name, doc, [](const T& self) { return std::const_pointer_cast<X>(self.*member); });
    } else {
      return get(name, doc, [](const T& self) -> const M& { return self.*member; });
    }
  }
  Told& shows(const std::vector<std::string>& names) {
    return def("__repr__", [names](const py::object& self) { return value_repr(self, names); });
  }
};

// What the constructor takes for a member of type M, and how it becomes one.
template <class M>
using Argument = std::conditional_t<std::is_same_v<M, std::vector<double>>, Array,
                                    std::conditional_t<is_shared_const<M>::value, std::shared_ptr<void>, M>>;
template <class M, class A> M to_member(A&& argument) {
  if constexpr (std::is_same_v<M, std::vector<double>>) {
    return to_vector(argument);
  } else {
    return std::forward<A>(argument);
  }
}

template <class T, class M> M type_of(M T::*); // of a member

// A field with the default the C++ value has, or one that must be given.
template <auto of, bool must_be_given> struct Field {
  static constexpr auto member = of;
  using Member = decltype(type_of(of));
  const char* doc;
  const char* name = name_of<of>();

  template <class T> [[nodiscard]] auto argument(const T& defaults) const {
    if constexpr (must_be_given) {
      return py::arg(name);
    } else if constexpr (std::is_arithmetic_v<Member> || std::is_same_v<Member, std::string>) {
      return py::arg_v(name, defaults.*member);
    } else if constexpr (std::is_same_v<Member, std::vector<double>>) {
      return py::arg_v(name, py::array_t<double>(0), "...");
    } else {
      return py::arg_v(name, defaults.*member, "...");
    }
  }
};
template <auto member> Field<member, false> field(const char* doc) { return {doc}; }
template <auto member> Field<member, true> needed(const char* doc) { return {doc}; }

template <class M> const char* words() {
  if constexpr (std::is_same_v<M, double>) {
    return "float";
  } else if constexpr (std::is_same_v<M, bool>) {
    return "bool";
  } else if constexpr (std::is_integral_v<M>) {
    return "int";
  } else if constexpr (std::is_same_v<M, std::string>) {
    return "str";
  } else if constexpr (std::is_same_v<M, std::vector<double>>) {
    return "ndarray of float";
  } else if constexpr (is_vector<M>::value) {
    return "tuple";
  } else {
    return "value";
  }
}

template <class... F> std::string numpydoc(const char* summary, const char* heading, const F&... fields) {
  std::string doc =
      std::string(summary) + "\n\n" + heading + "\n" + std::string(std::string(heading).size(), '-') + "\n";
  ((doc += std::string(fields.name) + " : " + words<typename F::Member>() + "\n    " + fields.doc + "\n"), ...);
  return doc;
}

// Properties, repr and ==.
template <class T, class... F> Told<T> with_fields(Told<T> type, const F&... fields) {
  (type.template field<F::member>(fields.doc, fields.name), ...);
  const std::vector<std::string> names{fields.name...};
  type.def(
      "__eq__", [names](const py::object& self, const py::object& other) { return value_equal(self, other, names); },
      "other"_a);
  return type.shows(names);
}

// A value made by the library only (results): no constructor.
template <class T, class... F> Told<T> result_type(py::module_& m, const char* summary, const F&... fields) {
  return with_fields(Told<T>(m, name_of<T>(), numpydoc(summary, "Attributes", fields...).c_str()), fields...);
}

// A value a user may make: result_type plus constructor, replace, copy and pickle.
template <class T, class... F> Told<T> value_type(py::module_& m, const char* summary, const F&... fields) {
  const std::string doc = numpydoc(summary, "Parameters", fields...);
  Told<T> type(m, name_of<T>(), doc.c_str());
  const T defaults{};
  type.def(py::init([fields...](const Argument<typename F::Member>&... arguments) {
             T value{};
             ((value.*(fields.member) = to_member<typename F::Member>(arguments)), ...);
             return value;
           }),
           py::kw_only(), fields.argument(defaults)...);
  const std::vector<std::string> names{fields.name...};
  type.def(
      "replace",
      [names, fields...](const T& self, const py::kwargs& changes) {
        T copy = self;
        for (const auto& [key, item] : changes) {
          const auto wanted = key.template cast<std::string>();
          const auto set = [&](const auto& f) {
            using M = typename std::decay_t<decltype(f)>::Member;
            if (wanted != f.name) {
              return false;
            }
            copy.*(f.member) = to_member<M>(item.template cast<Argument<M>>());
            return true;
          };
          if (!(set(fields) || ...)) {
            refuse_unknown(name_of<T>(), wanted, names);
          }
        }
        return copy;
      },
      "A copy with the given fields changed; the value itself stays as it is.");
  type.def(py::pickle(
      [fields...](const T& self) {
        return py::make_tuple(py::cast(self.*(fields.member), py::return_value_policy::copy)...);
      },
      [fields...](const py::tuple& state) {
        T value{};
        std::size_t i = 0;
        ((value.*(fields.member) =
              to_member<typename F::Member>(state[i++].template cast<Argument<typename F::Member>>())),
         ...);
        return value;
      }));
  return with_fields(std::move(type), fields...);
}

// --- made from the tables beside the types ---------------------------------------------------------------------------

// A number or whole number with its range beside the member: name, unit and range are read there. One whose default its
// own range does not allow must be given.
template <class T, std::size_t i> auto ranged_field() {
  static constexpr auto in = ranges(static_cast<const T*>(nullptr))[i];
  static const std::string doc = (in.unit == "-" ? "" : std::string(in.unit) + ", ") +
                                 wingnose::number(in.range.least) + " to " + wingnose::number(in.range.most);
  if constexpr (in.number != nullptr) {
    return Field<in.number, !within(T{}.*in.number, in.range)>{doc.c_str(), in.name.data()};
  } else {
    return Field<in.whole, !within(T{}.*in.whole, in.range)>{doc.c_str(), in.name.data()};
  }
}

// value_type with all members that have a range, and the fields given.
template <class T, class... F> Told<T> ranged_type(py::module_& m, const char* summary, const F&... fields) {
  constexpr std::size_t count = ranges(static_cast<const T*>(nullptr)).size();
  return [&]<std::size_t... i>(std::index_sequence<i...>) {
    return value_type<T>(m, summary, fields..., ranged_field<T, i>()...);
  }
  (std::make_index_sequence<count>{});
}

// The members told by the columns beside them (words/column.hpp): their meaning, and their unit without its prefix.
template <const auto& columns, std::size_t i> auto column_field() {
  if constexpr (columns[i].member == nullptr) {
    return std::tuple{};
  } else {
    static const std::string doc = std::string(columns[i].unit.name.substr(columns[i].unit.per_si == 1.0 ? 0 : 1)) +
                                   ", " + std::string(columns[i].meaning);
    return std::tuple{Field<columns[i].member, false>{doc.c_str()}};
  }
}
template <const auto& columns> auto column_fields() {
  return []<std::size_t... i>(std::index_sequence<i...>) { return std::tuple_cat(column_field<columns, i>()...); }
  (std::make_index_sequence<columns.size()>{});
}

// result_type with the members of some lists of columns, and the fields given.
template <class T, const auto&... columns, class... F>
Told<T> columns_type(py::module_& m, const char* summary, const F&... fields) {
  return std::apply([&](const auto&... told) { return result_type<T>(m, summary, fields..., told...); },
                    std::tuple_cat(column_fields<columns>()...));
}

// An enum with its table of names.
template <class E> void named_enum(py::module_& m, const char* name, const char* summary) {
  py::native_enum<E> type(m, name, "enum.Enum", summary);
  for (const auto& each : names(E{})) {
    std::string called(each.name);
    std::replace(called.begin(), called.end(), '-', '_');
    type.value(called.c_str(), each.value);
  }
  type.finalize();
}

} // namespace wingnose::python
