// Answers: the table of quantities, findings, and trees of named arrays.
#include "tree.hpp"
#include "rooms.hpp"

#include "wingnose/io/reference.hpp"
#include "wingnose/io/tree_file.hpp"
#include "wingnose/study/examples.hpp"

#include <functional>
#include <numeric>

namespace wingnose::python {

using quantity::Quantity;
using quantity::Tree;

py::object values_of(quantity::Array array) {
  const auto numpy = py::module_::import("numpy");
  const py::tuple shape = py::cast(array.shape);
  if (array.is_text) {
    return numpy.attr("array")(py::cast(array.texts), "dtype"_a = py::dtype("O")).attr("reshape")(shape);
  }
  return own(std::move(array.numbers)).attr("reshape")(shape);
}

namespace {

// One group per item: path, title, layout and its arrays, each as name, dims, values and attributes.
py::list groups_of(const Tree& tree) {
  constexpr std::array layouts{"hidden", "rows", "columns", "tables", "sentences"};
  constexpr std::array details{"printed", "told", "stored"};
  py::list groups;
  for (const auto& group : tree.groups()) {
    py::list arrays;
    for (const quantity::Array& a : group.arrays) {
      py::dict attributes;
      if (!a.is_text) {
        attributes["units"] = a.unit;
        attributes["decimals"] = a.decimals;
      }
      attributes["long_name"] = a.label.empty() ? a.name : a.label;
      attributes["description"] = a.meaning;
      attributes["detail"] = details[static_cast<std::size_t>(a.detail)];
      const bool read =
          a.size() == std::accumulate(a.shape.begin(), a.shape.end(), std::size_t{1}, std::multiplies<>());
      arrays.append(py::make_tuple(a.name, py::tuple(py::cast(a.dims)), read ? values_of(a) : py::none(), attributes));
    }
    groups.append(py::make_tuple(group.path, group.title, layouts[static_cast<std::size_t>(group.layout)], arrays));
  }
  return groups;
}

void bind_quantities(py::module_& m) {
  const auto mark = [](const Quantity& q) { return q.uses.mark; };
  Told<Quantity>(m, "Quantity", "A number a passage is told by.")
      .get("key", "name, with its unit as the last part", [](const Quantity& q) { return q.key; })
      .get("unit", "unit", [](const Quantity& q) { return q.unit.name; })
      .get("per_si", "units in one SI unit", [](const Quantity& q) { return q.unit.per_si; })
      .get("label", "name in print", [](const Quantity& q) { return q.label; })
      .get("decimals", "sensible in print", [](const Quantity& q) { return q.decimals; })
      .get("meaning", "meaning", [](const Quantity& q) { return q.meaning; })
      .get("section", "part of an answer", [](const Quantity& q) { return quantity::title(q.section); })
      .get("of_steel", "what the landing does to the steel", &quantity::of_steel)
      .get("compared", "`compare` tells it", [](const Quantity& q) { return q.uses.compared; })
      .get("swept", "a column of sweeps", [](const Quantity& q) { return q.uses.swept; })
      .get("limited", "may be a limit", [](const Quantity& q) { return q.uses.limit != quantity::Limit::none; })
      .get("mark", "value beyond which something else happens, or None", mark)
      .get("beyond", "what happens beyond it", [](const Quantity& q) { return q.uses.beyond; })
      .def("__repr__", [](const Quantity& q) { return py::str("Quantity({!r})").format(q.key); });
  m.def(
      "quantities",
      [] {
        py::typing::Dict<py::str, Quantity> all;
        for (const Quantity& q : quantity::quantities()) {
          all[py::str(std::string(q.key))] = py::cast(&q, py::return_value_policy::reference);
        }
        return all;
      },
      "Every number a passage is told by, by key, in the order of print.");
}

} // namespace

void bind_findings(py::module_ m) {
  Told<Finding>(m, "Finding", "What a reader must know beside the numbers.")
      .def(py::init([](const std::string& kind, std::string what, std::string where) {
             const auto all = finding_kinds();
             const auto known = std::find_if(all.begin(), all.end(), [&](const auto& w) { return w.key == kind; });
             return Finding{known == all.end() ? FindingKind::reading : known->kind, std::move(what), std::move(where)};
           }),
           "kind"_a, "what"_a, "where"_a = "")
      .get("kind", "such as \"rim_contact\"", [](const Finding& f) { return words_of(f.kind).key; })
      .get("gravity", "note, warning or grave", [](const Finding& f) { return name(gravity_of(f)); })
      .field<&Finding::where>("where it holds; empty: everywhere")
      .field<&Finding::what>("what was found")
      .get("advice", "what to do", [](const Finding& f) { return words_of(f.kind).advice; })
      .def("__eq__", &same<Finding>, "other"_a)
      .def("__reduce__",
           [](const py::object& self) {
             const auto& f = self.cast<const Finding&>();
             return py::make_tuple(py::type::of(self), py::make_tuple(words_of(f.kind).key, f.what, f.where));
           })
      .def("__str__", [](const Finding& f) { return sentence(f); })
      .def("__repr__",
           [](const Finding& f) { return py::str("Finding({!r}, {!r})").format(words_of(f.kind).key, sentence(f)); });
}

py::typing::Dict<py::str, std::optional<double>> numbers_of(const assess::Assessment& a,
                                                            std::initializer_list<quantity::Section> sections) {
  py::typing::Dict<py::str, std::optional<double>> numbers;
  for (const Quantity& q : quantity::quantities()) {
    const bool asked = std::find(sections.begin(), sections.end(), q.section) != sections.end();
    const auto si = asked ? q.of(a) : std::nullopt;
    numbers[py::str(std::string(q.key))] = py::cast(si ? std::optional(*si * q.unit.per_si) : std::nullopt);
  }
  return numbers;
}

void bind_tree(py::module_ m) {
  bind_quantities(m);
  Told<Tree>(m, "Tree", "An answer as named arrays with unit and meaning, in groups.")
      .get("kind", "run, speeds, comparison, ...", &Tree::kind)
      .get("attributes", "name of the case, version, ...",
           [](const Tree& t) { return std::map<std::string, std::string>(t.attributes.begin(), t.attributes.end()); })
      .get("groups",
           "path, title, layout and arrays of each group; an array is name, dims, values (None: not "
           "read) and attributes",
           &groups_of);
  // HDF5 is not thread-safe as commonly built: Python's own lock is kept while a file is open.
  m.def("write_tree", &io::write_tree, "file"_a, "tree"_a, "Store an answer in HDF5, all or nothing.");
  m.def(
      "read_tree",
      [](const std::filesystem::path& file, bool all) {
        return io::read_tree(file, all ? quantity::Detail::stored : quantity::Detail::told);
      },
      "file"_a, "all"_a = true,
      "An answer of a file of any kind; `all` False: without the long arrays. Raises InputError for other files.");
  m.def("check_target", &io::check_target, "file"_a, "Raise InputError where an answer cannot be stored.");
  m.def("json", &io::json, "tree"_a, "The JSON object the command line prints.");
  m.def(
      "reference",
      [](bool json) {
        const auto keys = study::files_read();
        const auto answers = study::empty_answers();
        return json ? io::reference_json(keys, answers) : io::reference(keys, answers);
      },
      "json"_a = false, "Reference page: keys, numbers told, findings, what files hold.");
  m.attr("caution") = io::caution;
}

} // namespace wingnose::python
