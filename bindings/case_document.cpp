// Room io: cases varied from one document.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/io/case_document.hpp"

#include <map>

namespace wingnose::python {

using namespace io;

std::vector<Override> overrides_of(const std::map<std::string, std::variant<bool, double, std::string>>& values) {
  std::vector<Override> list;
  for (const auto& [key, value] : values) {
    if (const bool* flag = std::get_if<bool>(&value)) {
      list.push_back({key, std::string(*flag ? "true" : "false")});
    } else if (const double* number = std::get_if<double>(&value)) {
      list.push_back({key, *number});
    } else {
      list.push_back({key, std::get<std::string>(value)});
    }
  }
  return list;
}

void bind_case_document(py::module_ m) {
  using Values = std::map<std::string, std::variant<bool, double, std::string>>;
  using Kind = KeyInfo::Kind;
  py::native_enum<Kind>(m, "KeyKind", "enum.Enum", "What a key of a case file holds.")
      .value("number", Kind::number)
      .value("whole_number", Kind::whole_number)
      .value("choice", Kind::choice)
      .value("flag", Kind::flag)
      .finalize();
  result_type<KeyInfo>(
      m, "KeyInfo", "A key of a case file that can vary.",
      field("key", &KeyInfo::key, "name with section and unit: \"passage.speed_km_h\""),
      field("unit", &KeyInfo::unit, "unit of its values"), field("description", &KeyInfo::description, "meaning"),
      field("kind", &KeyInfo::kind, "number, whole_number, choice or flag"),
      field("choices", &KeyInfo::choices, "of a choice"), field("least", &KeyInfo::least, "of a number, in `unit`"),
      field("most", &KeyInfo::most, "of a number, in `unit`"),
      field("cost", &KeyInfo::cost, "what is computed anew: 0 reading, 1 passage, 2 wheel path, 3 track"));

  py::class_<CaseDocument, std::shared_ptr<CaseDocument>>(
      m, "CaseDocument", "A case file read once, from which many cases derive by other values of some keys.")
      .def_property_readonly("base", &CaseDocument::base, "the case as the file says it")
      .def_property_readonly("folder", &CaseDocument::folder, "relative names of files start here")
      .def(
          "vary",
          [](const CaseDocument& document, const Values& values) { return vary(document, overrides_of(values)); },
          py::arg("values"),
          "The case with other values of some keys, in the units of the keys: {\"passage.speed_km_h\": 120}. Raises "
          "InputError for unknown keys, with the likely one, and for values out of range.")
      .def(
          "keys", [](const CaseDocument& document) { return varying_keys(document); }, "Every key that can vary.")
      .def("key", &key_info, py::arg("name"), "One key that can vary; raises InputError for others.")
      .def("__repr__",
           [](const CaseDocument& document) { return py::str("CaseDocument({!r})").format(document.base().name); })
      .def(py::pickle(
          [](const CaseDocument& document) {
            return py::make_tuple(document.base().source_text, document.base().name, document.folder().string());
          },
          [](const py::tuple& state) {
            return parse_case_document(state[0].cast<std::string>(), state[1].cast<std::string>(),
                                       state[2].cast<std::string>());
          }));
  m.def("read_case_document", &read_case_document, py::arg("file"),
        "Case file to derive cases from; raises InputError as `read_case` does.");
  m.def("parse_case_document", &parse_case_document, py::arg("toml_text"), py::arg("name") = "case",
        py::arg("folder") = ".", "The same from TOML text; `folder` anchors relative paths.");
}

} // namespace wingnose::python
