// Sweeps: what varies, answers of some cases as columns, and the file they stream into.
#include "case.hpp"
#include "interruptible.hpp"
#include "rooms.hpp"
#include "tree.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/stream_file.hpp"
#include "wingnose/study/sweep.hpp"

namespace wingnose::python {

template <> inline const char* name_of<quantity::Sink::Chunk>() { return "SweepChunk"; }

using namespace study;
using quantity::StreamColumn;
using quantity::Tree;

namespace {

using Column = std::vector<KeyItem>;

// A sweep and the case as Python holds it; in one place, as streams look back at it.
struct ScriptSweep {
  std::shared_ptr<const Sweep> sweep;
  ScriptCase of;
};

cases::KeyValue key_value(const KeyItem& value) { return overrides_of({{"", value}}).front().value; }

ScriptSweep make_sweep(const ScriptCase& of, const py::typing::Dict<py::str, Column>& columns, bool grid, bool probes,
                       bool steel, int history_every) {
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
        column.values.push_back(key_value(value));
      }
    }
    list.push_back(std::move(column));
  }
  return {std::make_shared<const Sweep>(of.document, std::move(list), grid, SweepContent{probes, steel, history_every}),
          of};
}

std::string path_of(const std::string& group, const quantity::Array& array) {
  return group.empty() ? array.name : group + "/" + array.name;
}

// Rows of some cases: arrays by path.
using RowsDict = py::typing::Dict<py::str, py::object>;
RowsDict columns_of(Tree rows) {
  RowsDict columns;
  for (auto& group : rows.groups()) {
    for (auto& array : group.arrays) {
      const std::string path = path_of(group.path, array);
      columns[py::str(path)] = values_of(std::move(array));
    }
  }
  return columns;
}

Tree rows_of(const quantity::Stream& stream, const RowsDict& columns) {
  Tree rows("sweep");
  for (const StreamColumn& column : stream.columns) {
    const py::str path(path_of(column.group, column.array));
    if (column.known || !columns.contains(path)) {
      continue;
    }
    quantity::Array array = column.array;
    const auto values = py::reinterpret_borrow<py::object>(columns[path]);
    if (array.is_text) {
      array.texts = values.attr("tolist")().cast<std::vector<std::string>>();
      array.shape = {array.texts.size()};
    } else {
      const Array numbers = values.cast<Array>();
      array.numbers.assign(numbers.data(), numbers.data() + numbers.size());
      array.shape.assign(numbers.shape(), numbers.shape() + numbers.ndim());
    }
    rows.add(column.group, std::move(array));
  }
  return rows;
}

// All there is to know of a sweep, as a file of it would hold it.
Tree whole(const Sweep& sweep, const RowsDict& columns) {
  const quantity::Stream stream = sweep.stream();
  Tree tree = stream.head;
  const Tree rows = rows_of(stream, columns);
  for (const StreamColumn& column : stream.columns) {
    quantity::Array array = column.array;
    if (const quantity::Array* found = rows.find(path_of(column.group, column.array))) {
      array = *found;
    } else if (column.known) {
      array.shape = {sweep.count()};
      for (std::size_t i = 0; i < sweep.count(); ++i) {
        const auto value = column.known(i);
        array.is_text ? array.texts.push_back(std::get<std::string>(value))
                      : array.numbers.push_back(std::get<double>(value));
      }
    }
    tree.add(column.group, std::move(array));
  }
  return tree;
}

void bind_sweep_itself(py::module_& m) {
  using S = const ScriptSweep&;
  Told<ScriptSweep>(m, "Sweep", R"(Which keys of a case vary and how.

`columns`: values of each key, in the unit of the key; `grid`: all combinations, the dearer keys (KeyInfo.cost) put
first and the last varying fastest, or points, one value per case in every column; `probes`: record rail and bearer
motion (cases then cannot advance eight at a time); `steel`: what the landings do to the steel, too; `history_every`:
store every n-th sample of the force histories, 0 none.)")
      .def(py::init(&make_sweep), "case"_a, "columns"_a, py::kw_only(), "grid"_a = true, "probes"_a = false,
           "steel"_a = false, "history_every"_a = 0)
      .def("__len__", [](S s) { return s.sweep->count(); })
      .get("base", "the case whose keys vary", [](S s) { return s.of; })
      .get("columns", "values of each key, in the order in which they vary",
           [](S s) {
             return dict_of<std::vector<cases::KeyValue>>(
                 s.sweep->columns(), [](const auto& c) { return std::pair(c.key, py::cast(c.values)); });
           })
      .get("grid", "all combinations, or points", [](S s) { return s.sweep->grid(); })
      .get("history_every", "samples of histories stored, 0 none", [](S s) { return s.sweep->content().history_every; })
      .get("fingerprint", "checksum of all that decides the numbers",
           [](S s) { return io::fingerprint(s.sweep->stream()); })
      .def(
          "values",
          [](S s, std::size_t i) {
            if (i >= s.sweep->count()) {
              throw py::index_error("the sweep has " + std::to_string(s.sweep->count()) + " cases");
            }
            return dict_of<cases::KeyValue>(s.sweep->overrides(i),
                                            [](const auto& v) { return std::pair(v.key, py::cast(v.value)); });
          },
          "index"_a, "values of one case, by key")
      .def(
          "case",
          [](const py::object& self, std::size_t i) {
            return self.attr("base").attr("vary")(self.attr("values")(i)).cast<ScriptCase>();
          },
          "index"_a, "one case")
      .def(
          "tree", [](S s, const RowsDict& rows) { return whole(*s.sweep, rows); }, "rows"_a,
          "What a file of it would hold, with these rows of all cases.")
      .def("__repr__", [](S s) { return py::str("Sweep({!r}, {} cases)").format(s.of.get().name, s.sweep->count()); })
      .def(py::pickle(
          [](const py::object& self) {
            const auto& s = self.cast<const ScriptSweep&>();
            const SweepContent& content = s.sweep->content();
            return py::make_tuple(py::cast(s.of), py::object(self.attr("columns")), s.sweep->grid(), content.probes,
                                  content.steel, content.history_every);
          },
          [](const py::tuple& t) {
            return make_sweep(t[0].cast<ScriptCase>(), t[1].cast<py::typing::Dict<py::str, Column>>(),
                              t[2].cast<bool>(), t[3].cast<bool>(), t[4].cast<bool>(), t[5].cast<int>());
          }));
  m.def(
      "read_sweep",
      [](const std::filesystem::path& file) {
        const std::string named = io::read_sheet(file, "sweep").sheet.text("case", "the name of a case file in quotes");
        return ScriptSweep{std::make_shared<const Sweep>(io::read_file(file, "sweep", study::read_sweep).value),
                           read_case(file.parent_path() / named)};
      },
      "file"_a, "Sweep of a TOML sweep file.");
}

// Closed at the end of a `with` block, not whenever Python gets to it.
struct OpenSweepFile {
  std::optional<io::StreamFile> file;
  quantity::Stream stream;
  ScriptSweep of; // outlives the stream
  [[nodiscard]] io::StreamFile& get() {
    if (!file) {
      throw py::value_error("the sweep file is closed");
    }
    return *file;
  }
};

void bind_file(py::module_& m) {
  using Chunk = quantity::Sink::Chunk;
  result_type<Chunk>(m, "Consecutive cases stored together.", field<&Chunk::index>("of the chunk"),
                     field<&Chunk::begin>("first case"), field<&Chunk::end>("one behind the last case"));
  // HDF5 is not thread-safe as commonly built: Python's own lock is kept while a file is written.
  Told<OpenSweepFile>(m, "SweepFile",
                      "The file of a sweep under way: made, or opened to go on. Use it in a `with` block.")
      .def(py::init([](const std::filesystem::path& file, const ScriptSweep& sweep, std::size_t cases_per_chunk) {
             quantity::Stream stream = sweep.sweep->stream();
             io::StreamFile made(file, stream, cases_per_chunk);
             return std::make_shared<OpenSweepFile>(OpenSweepFile{std::move(made), std::move(stream), sweep});
           }),
           "file"_a, "sweep"_a, "cases_per_chunk"_a = 1024)
      .def(
          "missing", [](OpenSweepFile& self) { return self.get().missing(); }, "chunks not complete, in order")
      .get("cases_complete", "cases stored", [](OpenSweepFile& self) { return self.get().cases_complete(); })
      .def(
          "write",
          [](OpenSweepFile& self, const Chunk& chunk, const RowsDict& rows) {
            self.get().write(chunk, rows_of(self.stream, rows));
          },
          "chunk"_a, "rows"_a, "Store the rows of a chunk; it counts when this returns.")
      .def(
          "close", [](OpenSweepFile& self) { self.file.reset(); }, "Close the file.")
      .def("__enter__", [](const std::shared_ptr<OpenSweepFile>& self) { return self; })
      .def(
          "__exit__",
          [](OpenSweepFile& self, const py::object&, const py::object&, const py::object&) { self.file.reset(); },
          "type"_a, "value"_a, "traceback"_a);
}

} // namespace

void bind_sweep(py::module_ m) {
  bind_sweep_itself(m);
  bind_file(m);
  m.def(
      "answer_cases",
      [](const ScriptSweep& s, std::size_t begin, std::size_t end, int threads, const ProgressCall& progress,
         const std::shared_ptr<SharedParts>& parts) {
        auto rows = interruptible(progress, [&](Watch& watch) {
          return answer_cases(*s.sweep, begin, end, watch.over(SweepOptions{}, threads), parts.get());
        });
        return columns_of(rows ? std::move(*rows) : Tree{});
      },
      "sweep"_a, "begin"_a, "end"_a, py::kw_only(), "threads"_a = 0, "progress"_a = py::none(), "parts"_a = py::none(),
      R"(Answer cases [begin, end) of a sweep.

`threads`: 0 for one per core; `progress`: called with the number of cases done and their total; `parts`: tracks and
wheel paths kept from call to call. Returns arrays by their path in a sweep file, one row per case: "measures/p2_kN",
"status", "failure", "gravity", "findings", ... They do not depend on `threads` or on how a sweep is cut.)");
}

} // namespace wingnose::python
