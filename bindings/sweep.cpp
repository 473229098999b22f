// Rooms io and study: sweeps, their rows and their file.
#include "interruptible.hpp"
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/io/steel_output.hpp"
#include "wingnose/study/sweep.hpp"

#include <map>

namespace wingnose::python {

using namespace io;

namespace {

using State = study::Outcome::State;
using Column = std::vector<std::variant<bool, double, std::string>>;

KeyValue to_key_value(const std::variant<bool, double, std::string>& value) {
  if (const bool* flag = std::get_if<bool>(&value)) {
    return std::string(*flag ? "true" : "false");
  }
  if (const double* number = std::get_if<double>(&value)) {
    return *number;
  }
  return std::get<std::string>(value);
}

Sweep make_sweep(const CaseDocument& document, const py::typing::Dict<py::str, Column>& columns, bool grid, bool probes,
                 int history_every) {
  std::vector<SweepColumn> list; // in the order of the dictionary
  for (const auto& [key, values] : columns) {
    SweepColumn column{key.template cast<std::string>(), {}};
    if (py::isinstance<py::array>(values)) {
      if (const auto array = Array::ensure(values)) {
        for (const double value : to_vector(array)) {
          column.values.emplace_back(value);
        }
      } else {
        PyErr_Clear();
      }
    }
    if (column.values.empty()) {
      for (const auto& value : values.template cast<Column>()) {
        column.values.push_back(to_key_value(value));
      }
    }
    list.push_back(std::move(column));
  }
  return {document, std::move(list), grid, probes, history_every};
}

py::typing::Dict<py::str, std::variant<double, std::string>> values_of(const Sweep& sweep, std::size_t i) {
  if (i >= sweep.count()) {
    throw py::index_error("the sweep has " + std::to_string(sweep.count()) + " cases");
  }
  py::typing::Dict<py::str, std::variant<double, std::string>> values;
  for (const auto& value : sweep.overrides(i)) {
    values[py::str(value.key)] = py::cast(value.value);
  }
  return values;
}

void bind_sweep_itself(py::module_& m) {
  py::class_<Sweep, std::shared_ptr<Sweep>>(m, "Sweep", R"(Which keys of a case vary and how.

Parameters
----------
document : CaseDocument
    The case whose keys vary.
columns : dict of str to sequence
    Values of each key, in the unit of the key. Of a grid the dearer keys (KeyInfo.cost) are put first; the
    last varies fastest.
grid : bool
    True: all combinations. False: points, one value per case in every column.
probes : bool
    Record rail and bearer motion; cases then cannot advance eight at a time.
history_every : int
    Store every n-th sample of the force histories; 0 none.)")
      .def(py::init(&make_sweep), py::arg("document"), py::arg("columns"), py::kw_only(), py::arg("grid") = true,
           py::arg("probes") = false, py::arg("history_every") = 0)
      .def("__len__", &Sweep::count)
      .def_property_readonly("document", &Sweep::document, "the case whose keys vary")
      .def_property_readonly(
          "columns",
          [](const Sweep& sweep) {
            py::typing::Dict<py::str, std::vector<KeyValue>> columns;
            for (const auto& column : sweep.columns()) {
              columns[py::str(column.key)] = py::cast(column.values);
            }
            return columns;
          },
          "values of each key, in the order in which they vary")
      .def_property_readonly("grid", &Sweep::grid, "all combinations, or points")
      .def_property_readonly("probes", &Sweep::probes, "rail and bearer motion recorded")
      .def_property_readonly("history_every", &Sweep::history_every, "samples of histories stored, 0 none")
      .def_property_readonly("fingerprint", &Sweep::fingerprint, "checksum of all that decides the numbers")
      .def("values", &values_of, py::arg("index"), "values of one case, by key")
      .def("case", &Sweep::make, py::arg("index"), "one case; raises InputError where the values do not go together")
      .def("__repr__",
           [](const Sweep& sweep) {
             return py::str("Sweep({!r}, {} cases)").format(sweep.document().base().name, sweep.count());
           })
      .def(py::pickle(
          [](const py::object& self) {
            const auto& sweep = self.cast<const Sweep&>();
            return py::make_tuple(py::cast(sweep.document()), py::object(self.attr("columns")), sweep.grid(),
                                  sweep.probes(), sweep.history_every());
          },
          [](const py::tuple& state) {
            return make_sweep(state[0].cast<CaseDocument>(), state[1].cast<py::typing::Dict<py::str, Column>>(),
                              state[2].cast<bool>(), state[3].cast<bool>(), state[4].cast<int>());
          }));
  m.def("read_sweep", &read_sweep, py::arg("file"), "Sweep of a TOML sweep file.");
  result_type<Measure>(m, "Measure", "A number results are reported by.", field("key", &Measure::key, "name with unit"),
                       field("unit", &Measure::unit, "unit"), field("label", &Measure::label, "short name in print"),
                       field("description", &Measure::description, "meaning"),
                       field("decimals", &Measure::decimals, "sensible in print"));
  m.def(
      "sweep_measures",
      [] {
        std::vector<Measure> list;
        for (const auto& measure : sweep_measures()) {
          list.push_back(measure);
        }
        return list;
      },
      "What is stored of each case, in the order of the columns of SweepRows.values.");
  m.def(
      "steel_measures",
      [] {
        const auto measures = steel_measures();
        return std::vector<Measure>(measures.begin(), measures.end());
      },
      "What speed studies and comparisons tell of the steel when asked to.");
}

py::array_t<float> as_array(const std::vector<float>& values) {
  return py::array_t<float>(py::ssize_t(values.size()), values.data());
}
std::vector<float> from_array(const py::array_t<float, py::array::c_style | py::array::forcecast>& a) {
  return {a.data(), a.data() + a.size()};
}

void bind_rows(py::module_& m) {
  using Floats = py::array_t<float, py::array::c_style | py::array::forcecast>;
  py::class_<SweepHistory, std::shared_ptr<SweepHistory>>(m, "SweepHistory", "Force histories kept of one case.")
      .def_readonly("first_station", &SweepHistory::first_station, "m")
      .def_readonly("spacing", &SweepHistory::spacing, "m, from sample to sample")
      .def_property_readonly(
          "force", [](const SweepHistory& h) { return as_array(h.force); }, "N, total")
      .def_property_readonly(
          "wing", [](const SweepHistory& h) { return as_array(h.wing); }, "N; empty off crossings")
      .def_property_readonly(
          "nose", [](const SweepHistory& h) { return as_array(h.nose); }, "N; empty off crossings")
      .def(py::pickle(
          [](const SweepHistory& h) {
            return py::make_tuple(h.first_station, h.spacing, as_array(h.force), as_array(h.wing), as_array(h.nose));
          },
          [](const py::tuple& s) {
            return SweepHistory{s[0].cast<double>(), s[1].cast<double>(), from_array(s[2].cast<Floats>()),
                                from_array(s[3].cast<Floats>()), from_array(s[4].cast<Floats>())};
          }));
  py::class_<SweepRows, std::shared_ptr<SweepRows>>(m, "SweepRows",
                                                    "What is kept of some consecutive cases of a sweep.")
      .def_readonly("begin", &SweepRows::begin, "first case")
      .def_readonly("end", &SweepRows::end, "one behind the last case")
      .def_property_readonly(
          "values",
          [](const py::object& self) {
            const auto& rows = self.cast<const SweepRows&>();
            const auto n = py::ssize_t(rows.end - rows.begin), all = py::ssize_t(rows.values.size());
            py::array_t<double> array({n, n > 0 ? all / n : 0}, rows.values.data(), self);
            py::detail::array_proxy(array.ptr())->flags &= ~py::detail::npy_api::NPY_ARRAY_WRITEABLE_;
            return array;
          },
          "numbers [case, measure] in the order of sweep_measures(), NaN where there is none")
      .def_property_readonly(
          "status",
          [](const SweepRows& rows) {
            py::array_t<signed char> array(py::ssize_t(rows.status.size()));
            auto values = array.mutable_unchecked<1>();
            for (std::size_t i = 0; i < rows.status.size(); ++i) {
              values(py::ssize_t(i)) = static_cast<signed char>(rows.status[i]);
            }
            return array;
          },
          "per case: 0 not run, 1 done, 2 bad input, 3 could not compute")
      .def_readonly("failures", &SweepRows::failures, "per case, why it has no result; empty where it has one")
      .def_readonly("histories", &SweepRows::histories, "per case, when the sweep asks for them")
      .def("__repr__",
           [](const SweepRows& rows) { return py::str("SweepRows(begin={}, end={})").format(rows.begin, rows.end); })
      .def(py::pickle(
          [](const SweepRows& rows) {
            std::vector<int> status;
            for (const State state : rows.status) {
              status.push_back(static_cast<int>(state));
            }
            return py::make_tuple(rows.begin, rows.end,
                                  py::array_t<double>(py::ssize_t(rows.values.size()), rows.values.data()), status,
                                  rows.failures, rows.histories);
          },
          [](const py::tuple& s) {
            SweepRows rows{s[0].cast<std::size_t>(),
                           s[1].cast<std::size_t>(),
                           to_vector(s[2].cast<Array>()),
                           {},
                           s[4].cast<std::vector<std::string>>(),
                           s[5].cast<std::vector<SweepHistory>>()};
            for (const int state : s[3].cast<std::vector<int>>()) {
              rows.status.push_back(static_cast<State>(state));
            }
            return rows;
          }));
}

// Closed at the end of a `with` block, not whenever Python gets to it.
struct OpenSweepFile {
  std::optional<SweepFile> file;
  [[nodiscard]] SweepFile& get() {
    if (!file) {
      throw py::value_error("the sweep file is closed");
    }
    return *file;
  }
};

void bind_file(py::module_& m) {
  using Chunk = SweepFile::Chunk;
  result_type<Chunk>(m, "SweepChunk", "Consecutive cases stored together.",
                     field("index", &Chunk::index, "of the chunk"), field("begin", &Chunk::begin, "first case"),
                     field("end", &Chunk::end, "one behind the last case"));
  // HDF5 is not thread-safe as commonly built: Python's own lock is kept while a file is written.
  py::class_<OpenSweepFile, std::shared_ptr<OpenSweepFile>>(
      m, "SweepFile", "The file of a sweep under way: made, or opened to go on. Use it in a `with` block.")
      .def(py::init([](const std::filesystem::path& file, const Sweep& sweep, std::size_t cases_per_chunk) {
             return OpenSweepFile{SweepFile(file, sweep, cases_per_chunk)};
           }),
           py::arg("file"), py::arg("sweep"), py::arg("cases_per_chunk") = 1024)
      .def(
          "missing", [](OpenSweepFile& self) { return self.get().missing(); }, "chunks not complete, in order")
      .def_property_readonly(
          "cases_complete", [](OpenSweepFile& self) { return self.get().cases_complete(); }, "cases stored")
      .def(
          "write",
          [](OpenSweepFile& self, const Chunk& chunk, const SweepRows& rows) { self.get().write(chunk, rows); },
          py::arg("chunk"), py::arg("rows"), "Store the rows of a chunk; it counts when this returns.")
      .def(
          "close", [](OpenSweepFile& self) { self.file.reset(); }, "Close the file.")
      .def("__enter__", [](const std::shared_ptr<OpenSweepFile>& self) { return self; })
      .def(
          "__exit__",
          [](OpenSweepFile& self, const py::object&, const py::object&, const py::object&) { self.file.reset(); },
          py::arg("type"), py::arg("value"), py::arg("traceback"));

  py::class_<StoredSweep, std::shared_ptr<StoredSweep>>(m, "StoredSweep",
                                                        "A sweep file as stored, finished or not; without histories.")
      .def("__len__", &StoredSweep::count)
      .def_readonly("version", &StoredSweep::version, "wingnose that wrote it")
      .def_readonly("commit", &StoredSweep::commit, "commit of that wingnose")
      .def_readonly("fingerprint", &StoredSweep::fingerprint, "checksum of all that decides the numbers")
      .def_readonly("case_text", &StoredSweep::case_text, "the case file as read")
      .def_readonly("axes", &StoredSweep::axes, "keys of a grid, the last varies fastest; empty for points")
      .def_readonly("inputs", &StoredSweep::inputs, "numbers put in, by key")
      .def_readonly("choices", &StoredSweep::choices, "texts put in, by key")
      .def_readonly("axis_values", &StoredSweep::axis_values, "values along the axes that are numbers")
      .def_readonly("axis_choices", &StoredSweep::axis_choices, "values along the axes that are texts")
      .def_readonly("measures", &StoredSweep::measures, "numbers by unit-bearing key, NaN where there is none")
      .def_property_readonly(
          "status",
          [](const StoredSweep& sweep) {
            py::array_t<signed char> array(py::ssize_t(sweep.status.size()));
            auto values = array.mutable_unchecked<1>();
            for (std::size_t i = 0; i < sweep.status.size(); ++i) {
              values(py::ssize_t(i)) = static_cast<signed char>(sweep.status[i]);
            }
            return array;
          },
          "per case: 0 not run, 1 done, 2 bad input, 3 could not compute")
      .def_readonly("failures", &StoredSweep::failures, "why cases have no result, by number of the case")
      .def_readonly("cases_per_chunk", &StoredSweep::cases_per_chunk, "cases stored together")
      .def_readonly("chunks", &StoredSweep::chunks, "number of chunks")
      .def_readonly("chunks_complete", &StoredSweep::chunks_complete, "of these stored")
      .def("__repr__", [](const StoredSweep& sweep) {
        return py::str("StoredSweep({} cases, {} of {} chunks)")
            .format(sweep.count(), sweep.chunks_complete, sweep.chunks);
      });
  m.def("read_sweep_file", &read_sweep_file, py::arg("file"), "Read a sweep file; raises InputError for others.");
}

} // namespace

void bind_sweep(py::module_ study_room, py::module_ io_room) {
  bind_sweep_itself(io_room);
  bind_rows(io_room);
  bind_file(io_room);
  study_room.def(
      "answer_cases",
      [](const Sweep& sweep, std::size_t begin, std::size_t end, int threads, const ProgressCall& progress,
         const std::shared_ptr<study::SharedParts>& parts) {
        return interruptible(progress, [&](Watch& watch) {
          study::SweepOptions options;
          options.threads = threads;
          options.progress = watch.progress();
          options.cancel = &watch.cancel;
          auto rows = study::answer_cases(sweep, begin, end, options, parts.get());
          return rows ? std::move(*rows) : SweepRows{};
        });
      },
      py::arg("sweep"), py::arg("begin"), py::arg("end"), py::kw_only(), py::arg("threads") = 0,
      py::arg("progress") = py::none(), py::arg("parts") = py::none(),
      R"(Answer cases [begin, end) of a sweep.

Parameters
----------
sweep : Sweep
    What varies.
begin, end : int
    First case, and one behind the last.
threads : int
    0: one per core.
progress : callable, optional
    Called with the number of cases done and their total.
parts : SharedParts, optional
    Tracks and wheel paths kept from call to call.

Returns
-------
SweepRows
    Numbers, status and failures. They do not depend on `threads` or on how a sweep is cut.)");
}

} // namespace wingnose::python
