// Room io: case files and result files.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/result_file.hpp"

namespace wingnose::python {

using namespace io;

void bind_io(py::module_ m) {
  py::class_<StoredArray, std::shared_ptr<StoredArray>>(m, "StoredArray", "One dataset of a result file.")
      .def_property_readonly(
          "values",
          [](const py::object& self) {
            const auto& stored = self.cast<const StoredArray&>();
            py::array_t<double> array(stored.shape, stored.values.data(), self);
            py::detail::array_proxy(array.ptr())->flags &= ~py::detail::npy_api::NPY_ARRAY_WRITEABLE_;
            return array;
          },
          "the numbers, in `unit`")
      .def_readonly("unit", &StoredArray::unit, "unit")
      .def_readonly("description", &StoredArray::description, "meaning")
      .def("__repr__", [](const StoredArray& a) {
        return py::str("StoredArray(shape={}, unit={!r}, description={!r})")
            .format(py::tuple(py::cast(a.shape)), a.unit, a.description);
      });

  py::class_<StoredResult, std::shared_ptr<StoredResult>>(m, "StoredResult", "What a result file holds.")
      .def_readonly("schema_version", &StoredResult::schema_version, "version of the file layout")
      .def_readonly("version", &StoredResult::version, "wingnose that wrote it")
      .def_readonly("commit", &StoredResult::commit, "commit of that wingnose")
      .def_readonly("case_text", &StoredResult::case_text, "the case file as read")
      .def_property_readonly(
          "arrays",
          [](const py::object& self) {
            py::typing::Dict<py::str, StoredArray> out;
            for (const auto& [key, stored] : self.cast<const StoredResult&>().arrays) {
              out[py::str(key)] = py::cast(stored, py::return_value_policy::reference_internal, self);
            }
            return out;
          },
          "histories and path, keyed by dataset path")
      .def_readonly("measures", &StoredResult::measures, "numbers by unit-bearing key, NaN where there is none")
      .def_readonly("measure_units", &StoredResult::measure_units, "unit of every measure")
      .def_readonly("measure_descriptions", &StoredResult::measure_descriptions, "meaning of every measure")
      .def_readonly("attributes", &StoredResult::attributes, "attributes of the file")
      .def_readonly("texts", &StoredResult::texts, "lists of text: warnings, notes, inputs, kinds of events")
      .def("__repr__", [](const StoredResult& r) {
        return py::str("StoredResult(version={!r}, commit={!r}, {} arrays, {} measures)")
            .format(r.version, r.commit, r.arrays.size(), r.measures.size());
      });

  m.def("read_case", &read_case, py::arg("file"), "Case of a TOML case file; raises InputError with place and advice.");
  m.def("parse_case", &parse_case, py::arg("toml_text"), py::arg("name") = "case", py::arg("folder") = ".",
        "Case of TOML text; `folder` anchors relative paths.");
  m.def("case_reference", &case_reference, "Markdown table of every key of a case file.");
  // HDF5 is not thread-safe as commonly built: Python's own lock is kept while a file is open.
  m.def("write_result", &write_result, py::arg("file"), py::arg("case"), py::arg("result"),
        "Write a result to HDF5, all or nothing.");
  m.def("read_result", &read_result, py::arg("file"),
        "Read a result file; raises InputError when it is not one of ours.");
  m.def("result_reference", &result_reference, "Markdown page of what a result file holds.");
  m.def("measures_json", &measures_json, py::arg("case"), py::arg("result"),
        "The JSON object `wingnose run --json` prints.");
  m.def("geometry_json", &geometry_json, py::arg("case"), py::arg("geometry"),
        "The JSON object `wingnose geometry --json` prints.");
  m.def("estimates_json", &estimates_json, py::arg("case"), py::arg("geometry"), py::arg("estimates"),
        "The JSON object `wingnose estimate --json` prints.");
  m.attr("caution") = caution;
}

} // namespace wingnose::python
