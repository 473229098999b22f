// Answers of the studies as trees; the package turns them into xarray (wingnose/study/answers.py tells each in full).
#include "case.hpp"
#include "interruptible.hpp"
#include "rooms.hpp"
#include "tree.hpp"

#include "wingnose/case/population.hpp"
#include "wingnose/io/case_file.hpp"
#include "wingnose/study/compare.hpp"
#include "wingnose/study/damage.hpp"
#include "wingnose/study/instants.hpp"
#include "wingnose/study/speeds.hpp"
#include "wingnose/study/track_response.hpp"
#include "wingnose/study/turnout_ride.hpp"

namespace wingnose::python {

using namespace study;

namespace {

using C = const ScriptCase&;
using MaybeNumber = std::optional<double>;

contact::StationContact contact_found(C c, const std::optional<std::string>& at, MaybeNumber station, MaybeNumber load,
                                      const std::string& law, std::size_t cells, const WheelAttitude& attitude) {
  ContactQuestion question{{}, station, load, contact_options(law, cells), attitude};
  if (at) {
    question.at = named<Moment>(*at, "instant of the passage");
  }
  return contact_of(c.get(), question);
}

// Wheels with their text and files, so that answers can tell what they rest on.
struct Wheels {
  cases::Population population;
  std::string text;
  std::vector<cases::InputFile> inputs;
};

// Columns name, class, weight and keys, one value per wheel.
using Columns = py::typing::Dict<py::str, std::vector<KeyItem>>;

Wheels wheels_of_table(const Columns& table, const std::map<std::string, std::shared_ptr<ScriptCase>>& classes) {
  Wheels w;
  auto& [all, members] = w.population;
  for (const auto& [name, c] : classes) {
    all.push_back({name, 1.0, c ? std::optional(c->document) : std::nullopt, {}});
  }
  if (all.empty()) {
    all.push_back({"all wheels", 1.0, std::nullopt, {}});
  }
  for (const auto& [key, column] : table) {
    const auto name = key.cast<std::string>();
    const auto values = column.cast<std::vector<KeyItem>>();
    if (members.empty()) {
      for (std::size_t i = 0; i < values.size(); ++i) {
        members.push_back({"wheel " + std::to_string(i + 1), 0, 1.0, {}});
      }
    }
    if (values.size() != members.size()) {
      throw InputError("column \"" + name + "\" of the wheels has " + std::to_string(values.size()) +
                       " values, the first column " + std::to_string(members.size()));
    }
    for (std::size_t i = 0; i < values.size(); ++i) {
      const auto* text = std::get_if<std::string>(&values[i]);
      const auto* number_of = std::get_if<double>(&values[i]);
      if (name == "name" && text != nullptr) {
        members[i].name = *text;
      } else if (name == "weight" && number_of != nullptr) {
        members[i].weight = *number_of;
      } else if (name == "class" && text != nullptr) {
        const auto found = std::find_if(all.begin(), all.end(), [&](const auto& k) { return k.name == *text; });
        if (found == all.end()) {
          throw InputError("class \"" + *text + "\" of a wheel is not among the classes; give its case");
        }
        members[i].wheel_class = static_cast<std::size_t>(found - all.begin());
      } else {
        members[i].values.push_back(overrides_of({{name, values[i]}}).front());
      }
    }
  }
  check(w.population);
  return w;
}

template <class Read> Wheels wheels_of_file(const std::filesystem::path& path, Read read) {
  auto [wheels, text, inputs] = io::read_file(path, "wheels", read);
  return {cases::wheels_of(wheels), std::move(text), std::move(inputs)};
}

void bind_wheels(py::module_& m) {
  Told<Wheels>(m, "Wheels", "Wheels that roll, each with the weight it has in traffic.")
      .def(py::init(&wheels_of_table), "table"_a, "classes"_a = std::map<std::string, std::shared_ptr<ScriptCase>>{})
      .def("__len__", [](const Wheels& w) { return w.population.members.size(); })
      .get("table", "one row per wheel: name, class, weight and the keys it sets",
           [](const Wheels& w) {
             py::typing::List<py::typing::Dict<py::str, cases::KeyValue>> rows;
             for (const auto& member : w.population.members) {
               py::typing::Dict<py::str, cases::KeyValue> row;
               row["name"] = member.name;
               row["class"] = w.population.classes[member.wheel_class].name;
               row["weight"] = member.weight;
               for (const auto& value : member.values) {
                 row[py::str(value.key)] = py::cast(value.value);
               }
               rows.append(row);
             }
             return rows;
           })
      .def("__repr__",
           [](const Wheels& w) { return "Wheels(" + std::to_string(w.population.members.size()) + " wheels)"; });
  m.def(
      "read_wheels", [](const std::filesystem::path& file) { return wheels_of_file(file, cases::read_population); },
      "file"_a, "Wheels of a TOML file with [population], [[class]] or [[wheel]], listed or drawn.");
}

// Options of a comparison by the keys of [compare].
CompareOptions options_of(const KeyValues& values) {
  CompareOptions options;
  std::vector<cases::Sheet::Entry> entries;
  for (const cases::Override& value : overrides_of(values)) {
    entries.emplace_back(value.key, std::visit([](const auto& of) { return cases::Written::of(of); }, value.value));
    entries.back().second.where = "options";
  }
  cases::Written section;
  section.kind = cases::Written::Kind::table;
  section.where = "options";
  section.table = std::make_shared<cases::Sheet>("options", "options", std::move(entries), ".");
  io::DiskFiles files(".");
  cases::fill(compare_schema(), cases::Sheet("options", "options", {{"compare", section}}, "."), &options, files);
  return options;
}

quantity::Tree compared(const std::vector<ComparedCrossing>& crossings, const cases::Population& wheels,
                        const CompareOptions& options, const std::string& text, int threads,
                        const ProgressCall& progress) {
  return interruptible(progress, [&](Watch& watch) {
    const auto comparison = compare(crossings, wheels, watch.over(options, threads));
    return comparison ? tell(crossings, *comparison, text) : quantity::Tree{}; // none: an error was raised
  });
}

} // namespace

void bind_answers(py::module_ m) {
  m.def(
      "run", [](C c) { return run_told(c.get()); }, "case"_a, Release());
  m.def(
      "geometry", [](C c) { return tell(c.get(), geometry(c.get())); }, "case"_a, Release());
  m.def(
      "estimate", [](C c) { return tell_estimates(c.get(), geometry(c.get())); }, "case"_a, Release());
  m.def(
      "track_response", [](C c) { return tell(c.get(), track_response(c.get())); }, "case"_a, Release());
  m.def(
      "contact",
      [](C c, const std::optional<std::string>& at, MaybeNumber station, MaybeNumber load, const std::string& law,
         std::size_t cells, MaybeNumber roll, MaybeNumber yaw) {
        return tell(c.get(), contact_found(c, at, station, load, law, cells, {roll, yaw}));
      },
      "case"_a, "at"_a, "station"_a, "load"_a, "law"_a, "cells"_a, "roll"_a, "yaw"_a, Release());
  m.def(
      "speeds",
      [](C c, double from, double to, double step, const std::vector<std::pair<std::string, std::string>>& limits,
         MaybeNumber today, MaybeNumber proposed, bool steel, int threads, const ProgressCall& progress) {
        std::vector<Limit> parsed;
        for (const auto& [text, source] : limits) {
          parsed.push_back(parse_limit(text, source));
        }
        return interruptible(progress, [&](Watch& watch) {
          SpeedOptions options = watch.over(SpeedOptions{}, threads);
          options.today = today;
          options.proposed = proposed;
          options.steel = steel;
          return tell(c.get(), study_speeds(c.get(), {from, to, step}, parsed, options));
        });
      },
      "case"_a, "from_"_a, "to"_a, "step"_a, "limits"_a, "today"_a, "proposed"_a, "steel"_a, "threads"_a,
      "progress"_a = py::none());
  bind_wheels(m);
  m.def(
      "damage",
      [](C c, MaybeNumber tonnage, int stages, int threads, const ProgressCall& progress, const Wheels* wheels) {
        return interruptible(progress, [&](Watch& watch) {
          auto options = watch.over(TrafficOptions{}, threads);
          options.tonnage = tonnage.value_or(options.tonnage);
          options.stages = stages;
          const auto found =
              study_damage(c.document, tonnage ? &options : nullptr, wheels != nullptr ? &wheels->population : nullptr);
          const bool given = wheels != nullptr;
          return found ? tell(c.get(), *found, given ? wheels->text : "", given ? wheels->inputs : Wheels{}.inputs)
                       : quantity::Tree{};
        });
      },
      "case"_a, "tonnage"_a, "stages"_a, "threads"_a, "progress"_a, "wheels"_a = py::none());
  m.def(
      "compare",
      [](const std::vector<std::pair<std::string, std::shared_ptr<ScriptCase>>>& named_cases, const Wheels& wheels,
         const KeyValues& options, int threads, const ProgressCall& progress) {
        std::vector<ComparedCrossing> crossings;
        for (const auto& [name, c] : named_cases) {
          crossings.push_back({name, c->document});
        }
        CompareOptions asked = options_of(options);
        asked.inputs = wheels.inputs;
        return compared(crossings, wheels.population, asked, wheels.text, threads, progress);
      },
      "crossings"_a, "wheels"_a, "options"_a, "threads"_a, "progress"_a);
  m.def(
      "compare_file",
      [](const std::filesystem::path& file, int threads, const ProgressCall& progress) {
        auto [asked, text, inputs] = io::read_file(file, "comparison", read_comparison);
        asked.options.inputs = std::move(inputs);
        return compared(asked.crossings, cases::wheels_of(asked.wheels), asked.options, text, threads, progress);
      },
      "file"_a, "threads"_a, "progress"_a);
}

} // namespace wingnose::python
