// Cases: read from files, varied by their keys, with parts made by a program.
#include "case.hpp"
#include "rooms.hpp"

#include "wingnose/io/case_file.hpp"

namespace wingnose::python {

using cases::KeyInfo;

std::vector<cases::Override> overrides_of(const KeyValues& values) {
  std::vector<cases::Override> list;
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

ScriptCase read_case(const std::filesystem::path& file) {
  return {cases::Document(io::read_case(file)), io::read_sheet(file, "case").text, // one text, bases within
          file.filename().generic_string(), std::filesystem::absolute(file).parent_path(), py::list()};
}

namespace {

ScriptCase parsed(const std::string& text, const std::string& name, const std::filesystem::path& folder) {
  return {cases::Document(io::parse_case(text, name, folder)), text, name, folder, py::list()};
}

ScriptCase with_step(const ScriptCase& from, cases::Case value, const py::object& step) {
  ScriptCase changed{cases::Document(std::move(value)), from.text, from.name, from.folder, py::list()};
  for (const auto& before : from.steps) {
    changed.steps.append(before);
  }
  changed.steps.append(step);
  return changed;
}

using KeyDict = py::typing::Dict<py::str, KeyItem>;

ScriptCase vary(const ScriptCase& c, const KeyDict& values) {
  cases::Case varied = cases::vary(c.document, overrides_of(values.cast<KeyValues>()));
  return with_step(c, std::move(varied), py::make_tuple("vary", values));
}

void put(cases::Case& c, const std::string& name, const py::handle& part) {
  if (name == "name") {
    c.name = part.cast<std::string>();
  } else if (name == "excitation") {
    c.excitation = part.cast<layout::Excitation>();
  } else if (name == "profile") {
    c.wheel.shape = cases::Shared<profile::WheelProfile>(part.cast<profile::WheelProfile>());
    c.wheel.hollow = {};
  } else if (name == "vehicle") {
    c.vehicle.table = cases::VehicleTable{"", cases::Shared<vehicle::Vehicle>(part.cast<vehicle::Vehicle>())};
  } else if (name == "track") {
    static_cast<track::Track&>(c.track) = part.cast<track::Track>();
    c.track.choice = std::nullopt;
    c.track.castings.clear();
  } else if (name == "steel") {
    c.given_steel = part.cast<assess::Steel>();
  } else {
    refuse_unknown("Case", name, {"name", "excitation", "profile", "vehicle", "track", "steel"});
  }
}

// Parts a program made, instead of those its keys describe.
ScriptCase replace(const ScriptCase& from, const py::kwargs& parts) {
  cases::Case c = from.get();
  c.source_text.clear();
  for (const auto& [key, part] : parts) {
    const auto name = key.cast<std::string>();
    try {
      put(c, name, part);
    } catch (const py::cast_error&) {
      throw py::type_error("Case." + name + " cannot be a " +
                           py::str(py::type::of(part).attr("__name__")).cast<std::string>());
    }
  }
  cases::check(c);
  return with_step(from, std::move(c), py::make_tuple("replace", py::dict(parts)));
}

using Inputs = std::vector<std::tuple<std::string, std::string, std::string>>;

py::tuple state_of(const ScriptCase& c) {
  Inputs inputs;
  for (const auto& input : c.get().inputs) {
    inputs.emplace_back(input.role, input.path, input.sha256);
  }
  return py::make_tuple(c.text, c.name, c.folder.string(), inputs, c.steps);
}

ScriptCase restored(const py::tuple& state) {
  ScriptCase c{
      {}, state[0].cast<std::string>(), state[1].cast<std::string>(), state[2].cast<std::string>(), py::list()};
  if (!c.text.empty()) {
    cases::Case read = io::parse_case(c.text, c.name, c.folder);
    read.source_text = c.text; // not read once more: bases stand in it already
    read.inputs.clear();
    for (const auto& [role, path, sha256] : state[3].cast<Inputs>()) {
      read.inputs.push_back({role, path, sha256});
    }
    c.document = std::move(read);
  }
  for (const auto& step : state[4].cast<py::list>()) {
    const auto [how, what] = step.cast<std::pair<std::string, py::dict>>();
    c = how == "vary" ? vary(c, what) : replace(c, py::reinterpret_borrow<py::kwargs>(what));
  }
  return c;
}

// Text, number, or true and false.
py::object as_python(const cases::Document& document, const std::string& key) {
  const cases::KeyValue value = cases::value_of(document.base(), key);
  if (cases::key_info(document, key).kind == KeyInfo::Kind::flag) {
    return py::bool_(std::get<std::string>(value) == "true");
  }
  return py::cast(value);
}

} // namespace

void bind_case(py::module_ m) {
  using Kind = KeyInfo::Kind;
  py::native_enum<Kind>(m, "KeyKind", "enum.Enum", "What a key of a case file holds.")
      .value("number", Kind::number)
      .value("whole_number", Kind::whole_number)
      .value("choice", Kind::choice)
      .value("flag", Kind::flag)
      .finalize();
  result_type<KeyInfo>(m, "A key of a case file that can vary.",
                       field<&KeyInfo::key>("name with section and unit: \"passage.speed_km_h\""),
                       field<&KeyInfo::unit>("unit of its values"), field<&KeyInfo::meaning>("meaning"),
                       field<&KeyInfo::kind>("number, whole_number, choice or flag"),
                       field<&KeyInfo::choices>("of a choice"), field<&KeyInfo::least>("of a number, in `unit`"),
                       field<&KeyInfo::most>("of a number, in `unit`"),
                       field<&KeyInfo::cost>("what is computed anew: 0 reading, 1 passage, 2 wheel path, 3 track"));
  result_type<cases::InputFile>(m, "A file a case was read from.", field<&cases::InputFile::role>("what it gave"),
                                field<&cases::InputFile::path>("where it was"),
                                field<&cases::InputFile::sha256>("checksum of its content"));

  using C = const ScriptCase&;
  Told<ScriptCase>(m, "Case", R"(All a user asked for, validated.

``case["passage.speed_km_h"]`` is a value in the unit of its key, ``case.vary({"passage.speed_km_h": 120})`` a changed
copy. What the choices amount to is told in SI by the properties. ``Case()`` has the default of every key.)")
      .def(py::init<>())
      .def(
          "__getitem__", [](C c, const std::string& key) { return as_python(c.document, key); }, "key"_a)
      .def("vary", &vary, "values"_a,
           "The case with other values of some keys, in the units of the keys. Raises InputError for unknown keys, "
           "with the likely one, and for values out of range.")
      .def(
          "replace", &replace,
          "The case with parts a program made: name, excitation (of the room layout), profile (WheelProfile), vehicle, "
          "track, steel.")
      .def(
          "keys", [](C c) { return cases::varying_keys(c.document); }, "Every key that can vary.")
      .def(
          "key", [](C c, const std::string& name) { return cases::key_info(c.document, name); }, "name"_a,
          "One key that can vary; raises InputError for others.")
      .def(
          "all_keys",
          [](C c) {
            return dict_of<py::typing::Tuple<py::str, py::str>>(cases::all_keys(c.get()), [](const auto& k) {
              return std::pair(k.key, py::make_tuple(k.value, k.unit));
            });
          },
          "Every key the case rests on, given or default: its value as a case file says it, and its unit.")
      .get("name", "name", [](C c) { return c.get().name; })
      .get("text", "the case file as read, before anything was varied", [](C c) { return c.text; })
      .get("folder", "relative names of files start here", [](C c) { return c.folder; })
      .get("inputs", "files the case came from", [](C c) { return c.get().inputs; })
      .get("excitation", "CrossingShape, SectionedShape, DippedJoint or GivenPath",
           [](C c) { return c.get().excitation; })
      .get("profile", "WheelProfile, as rolled", [](C c) { return cases::profile_of(c.get().wheel); })
      .get("vehicle", "Vehicle, with its wheels", [](C c) { return cases::vehicle_of(c.get()); })
      .get("track", "Track, with its rail", [](C c) { return cases::track_of(c.get().track); })
      .get("steel", "Steel of wing and nose", [](C c) { return cases::steel_of(c.get()); })
      .get("material", "elastic constants of wheel and rail", [](C c) { return c.get().material; })
      .get("normal_law", "law of contact of the passage", [](C c) { return c.get().contact.law; })
      .get("kinematics", "how slopes are read", [](C c) { return c.get().kinematics; })
      .get("measures", "definitions of the measures", [](C c) { return c.get().measures; })
      .get("damage", "how damage is computed", [](C c) { return c.get().damage; })
      .def("__eq__", &same<ScriptCase>, "other"_a)
      .def("__repr__", [](C c) { return py::str("Case({!r})").format(c.get().name); })
      .def(py::pickle(&state_of, &restored));
  m.def("read_case", &read_case, "file"_a, "Case of a TOML case file; raises InputError with place and advice.");
  m.def("parse_case", &parsed, "toml_text"_a, "name"_a = "case", "folder"_a = ".",
        "Case of TOML text; `folder` anchors relative paths.");
}

} // namespace wingnose::python
