// Rooms study and io: crossings compared under a population of wheels.
#include "interruptible.hpp"
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/io/compare_output.hpp"
#include "wingnose/io/comparison_file.hpp"
#include "wingnose/study/compare.hpp"

#include <map>

namespace wingnose::python {

using namespace study;

// In case_document.cpp.
std::vector<io::Override> overrides_of(const std::map<std::string, std::variant<bool, double, std::string>>& values);

namespace {

void bind_population(py::module_& m) {
  value_type<NormalSpread>(m, "NormalSpread", "A normal distribution, cut off where asked; in the unit of its key.",
                           field("mean", &NormalSpread::mean, "before it is cut off"),
                           field("deviation", &NormalSpread::deviation, "standard deviation, above 0"),
                           field("from_", &NormalSpread::from, "cut off here"),
                           field("to", &NormalSpread::to, "cut off here"));
  value_type<UniformSpread>(m, "UniformSpread", "A uniform distribution; in the unit of its key.",
                            field("from_", &UniformSpread::from, "least value"),
                            field("to", &UniformSpread::to, "greatest value"));
  value_type<ChoiceSpread>(m, "ChoiceSpread", "Some values with weights; in the unit of their key.",
                           needed("values", &ChoiceSpread::values, "numbers or texts"),
                           needed("weights", &ChoiceSpread::weights, "one per value, 0 or more"));
  value_type<Variation>(m, "Variation", "How a key of the cases varies over a population.",
                        needed("key", &Variation::key, "such as \"passage.speed_km_h\""),
                        needed("spread", &Variation::spread, "its distribution"));
  value_type<WheelClass>(m, "WheelClass", "Wheels alike in profile, known by one name.",
                         needed("name", &WheelClass::name, "short name"),
                         field("share", &WheelClass::share, "of the population, against the other classes"),
                         field("wheel", &WheelClass::wheel, "a case that lends its wheel; None: the first crossing's"),
                         field("variations", &WheelClass::variations, "of this class alone"));
  using Values = std::map<std::string, std::variant<bool, double, std::string>>;
  py::class_<Member, std::shared_ptr<Member>>(m, "Member", R"(One wheel of a population.

Parameters
----------
name : str
    Its name in reports.
wheel_class : int
    Index of its class.
weight : float
    How often such a wheel comes, in any unit.
values : dict of str to value
    Keys of cases it sets, in their units.)")
      .def(py::init([](std::string name, std::size_t wheel_class, double weight, const Values& values) {
             return Member{std::move(name), wheel_class, weight, overrides_of(values)};
           }),
           py::kw_only(), py::arg("name"), py::arg("wheel_class") = 0, py::arg("weight") = 1.0,
           py::arg("values") = Values{})
      .def_readonly("name", &Member::name, "its name in reports")
      .def_readonly("wheel_class", &Member::wheel_class, "index of its class")
      .def_readonly("weight", &Member::weight, "how often such a wheel comes")
      .def_property_readonly(
          "values",
          [](const Member& member) {
            py::typing::Dict<py::str, io::KeyValue> values;
            for (const auto& value : member.values) {
              values[py::str(value.key)] = py::cast(value.value);
            }
            return values;
          },
          "keys of cases it sets, in their units")
      .def("__repr__",
           [](const Member& member) { return py::str("Member({!r}, weight={})").format(member.name, member.weight); });
  value_type<Population>(m, "Population", "Wheels that roll over every crossing of a comparison.",
                         needed("classes", &Population::classes, "wheel classes"),
                         needed("members", &Population::members, "wheels with their weights"));
  py::native_enum<Sampling>(m, "Sampling", "enum.Enum", "How wheels are drawn.")
      .value("stratified", Sampling::stratified)
      .value("simple", Sampling::simple)
      .finalize();
  value_type<PopulationRecipe>(m, "PopulationRecipe", "Wheels to be drawn from distributions with a seed.",
                               needed("classes", &PopulationRecipe::classes, "wheel classes"),
                               field("variations", &PopulationRecipe::variations, "of all classes"),
                               field("count", &PopulationRecipe::count, "wheels"),
                               field("seed", &PopulationRecipe::seed, "the same seed draws the same wheels"),
                               field("sampling", &PopulationRecipe::sampling, "stratified or simple"));
  m.def("draw", &draw, py::arg("recipe"), "The wheels of a recipe. Raises InputError for impossible ones.");
}

void bind_answers(py::module_& m) {
  py::native_enum<Observed>(m, "Observed", "enum.Enum", "What is observed of each passage; SI units.")
      .value("transfer_station", Observed::transfer_station)
      .value("nose_thickness", Observed::nose_thickness)
      .value("dip_angle", Observed::dip_angle)
      .value("p2", Observed::p2)
      .value("peak_nose", Observed::peak_nose)
      .value("peak_total", Observed::peak_total)
      .value("lost_contact", Observed::lost_contact)
      .value("peak_pressure", Observed::peak_pressure)
      .value("shakedown", Observed::shakedown)
      .value("fatigue_index", Observed::fatigue_index)
      .value("t_gamma", Observed::t_gamma)
      .value("crack_damage", Observed::crack_damage)
      .value("friction_energy", Observed::friction_energy)
      .value("wear_volume", Observed::wear_volume)
      .finalize();
  py::native_enum<Statistic::Kind>(m, "StatisticKind", "enum.Enum", "What is taken of a quantity over the wheels.")
      .value("mean", Statistic::Kind::mean)
      .value("quantile", Statistic::Kind::quantile)
      .value("share_above_zero", Statistic::Kind::share_above_zero)
      .finalize();
  result_type<Statistic>(m, "Statistic", "A number taken of one quantity over the wheels.",
                         field("of", &Statistic::of, "the quantity"), field("kind", &Statistic::kind, "what is taken"),
                         field("level", &Statistic::level, "of a quantile"),
                         field("higher_is_better", &Statistic::higher_is_better, "as a criterion"))
      .def_property_readonly(
          "key", [](const Statistic& s) { return io::named(s).key; }, "name with unit, as stored")
      .def_property_readonly(
          "label", [](const Statistic& s) { return io::named(s).label; }, "name in print")
      .def_property_readonly(
          "unit", [](const Statistic& s) { return io::named(s).unit; }, "unit in print and files")
      .def_property_readonly(
          "per_si", [](const Statistic& s) { return io::named(s).per_si; }, "value in `unit` = value in SI times this");
  result_type<Ranking>(
      m, "Ranking", "Crossings by one criterion.", field("criterion", &Ranking::criterion, "what is ranked by"),
      field("values", &Ranking::values, "per crossing, SI"), field("order", &Ranking::order, "crossings, best first"),
      field("apart", &Ranking::apart, "per place but the last: clearly better than the next"),
      field("places", &Ranking::places, "per crossing: 1 for the best"));
  result_type<Difference>(m, "Difference", "A crossing less the first one.",
                          field("crossing", &Difference::crossing, "number of the crossing"),
                          field("statistic", &Difference::statistic, "what differs"),
                          field("value", &Difference::value, "SI"),
                          field("low", &Difference::low, "lower end of the interval, SI"),
                          field("high", &Difference::high, "upper end of the interval, SI"),
                          field("higher", &Difference::higher, "share of wheels that are higher"));
  result_type<Group>(m, "WheelGroup", "Some of the wheels: a class, or a half by speed or load.",
                     field("name", &Group::name, "which"), field("members", &Group::members, "numbers of the wheels"),
                     field("share", &Group::share, "of the weight compared"),
                     field("rankings", &Group::rankings, "one per criterion"),
                     field("flips", &Group::flips, "per criterion: another crossing is clearly best here"));
}

py::array_t<double> shares(const Comparison& c, double CrossingAnswer::*member) {
  std::vector<double> values;
  values.reserve(c.crossings.size());
  for (const auto& crossing : c.crossings) {
    values.push_back(crossing.*member);
  }
  return own(std::move(values));
}

void bind_comparison(py::module_& m) {
  result_type<ComparedCrossing>(m, "ComparedCrossing", "A crossing with its case.",
                                field("name", &ComparedCrossing::name, "short name"),
                                field("document", &ComparedCrossing::document, "its case"))
      .def(py::init([](std::string name, const io::CaseDocument& document) {
             return ComparedCrossing{std::move(name), document};
           }),
           py::arg("name"), py::arg("document"));
  using O = CompareOptions;
  value_type<O>(m, "CompareOptions", "What a comparison is to look at.",
                field("thin_nose", &O::thin_nose, "m, a transfer onto a thinner nose is early"),
                field("confidence", &O::confidence, "of the intervals"),
                field("resamples", &O::resamples, "of the bootstrap"), field("seed", &O::seed, "of the bootstrap"),
                field("envelope_step", &O::envelope_step, "m"), field("envelope_from", &O::envelope_from, "m"),
                field("envelope_to", &O::envelope_to, "m"),
                field("thickness_step", &O::thickness_step, "m, bins of nose thickness"),
                field("thickness_to", &O::thickness_to, "m, last bin"),
                field("steel", &O::steel, "what the landings do to the steel, too"),
                field("paths", &O::paths, "keep wheel paths of typical wheels"),
                field("inputs", &O::inputs, "files it was asked with, to be told with the answer"),
                field("threads", &O::threads, "0: one per core"));
  py::class_<Comparison, std::shared_ptr<Comparison>>(m, "Comparison",
                                                      "Crossings compared. Everything else stands in its file: see "
                                                      "io.write_comparison.")
      .def_readonly("population", &Comparison::population, "the wheels")
      .def_readonly("options", &Comparison::options, "as asked for")
      .def_readonly("compared", &Comparison::compared, "per wheel: computed on all crossings")
      .def_readonly("dropped", &Comparison::dropped, "share of the weight not compared")
      .def_readonly("effective_count", &Comparison::effective_count, "equal wheels that would say as much")
      .def_readonly("rankings", &Comparison::rankings, "one per criterion")
      .def_readonly("differences", &Comparison::differences, "crossings less the first one")
      .def_readonly("groups", &Comparison::groups, "rankings within some of the wheels")
      .def_readonly("dependence", &Comparison::dependence, "what the ranking depends on, in sentences")
      .def_readonly("warnings", &Comparison::warnings, "early transfers onto a thin nose, by name")
      .def_readonly("notes", &Comparison::notes, "what a reader must know beside the numbers")
      .def_readonly("steel_assumptions", &Comparison::steel_assumptions, "what the numbers of the steel rest on")
      .def_readonly("inputs", &Comparison::inputs, "every file it rests on")
      .def_property_readonly(
          "beyond_shakedown", [](const Comparison& c) { return shares(c, &CrossingAnswer::beyond_shakedown); },
          "per crossing: share of the wheels beyond elastic shakedown; NaN where not asked for")
      .def_property_readonly(
          "beyond_surface_flow", [](const Comparison& c) { return shares(c, &CrossingAnswer::beyond_surface_flow); },
          "per crossing: share of the wheels with a surface fatigue index above 0; NaN where not asked for")
      .def_property_readonly(
          "crossings",
          [](const Comparison& c) {
            std::vector<std::string> names;
            for (const auto& crossing : c.crossings) {
              names.push_back(crossing.name);
            }
            return names;
          },
          "names of the crossings; the first is the reference")
      .def(
          "observed",
          [](const Comparison& c, std::size_t crossing, Observed of) {
            std::vector<double> values;
            for (const auto& member : c.crossings.at(crossing).members) {
              values.push_back(member.observed[static_cast<std::size_t>(of)]);
            }
            return own(std::move(values));
          },
          py::arg("crossing"), py::arg("of"), "A quantity of every wheel on one crossing, SI; NaN where there is none.")
      .def("__repr__", [](const Comparison& c) {
        return py::str("Comparison({} crossings, {} wheels)").format(c.crossings.size(), c.population.members.size());
      });
  m.def(
      "compare",
      [](const std::vector<ComparedCrossing>& crossings, const Population& population, const CompareOptions& options,
         const ProgressCall& progress) {
        std::optional<Comparison> comparison = interruptible(progress, [&](Watch& watch) {
          CompareOptions watched = options;
          watched.progress = watch.progress();
          watched.cancel = &watch.cancel;
          return compare(crossings, population, watched);
        });
        return std::move(*comparison); // without an answer only when cancelled, and then an error was raised
      },
      py::arg("crossings"), py::arg("population"), py::kw_only(), py::arg_v("options", CompareOptions{}, "..."),
      py::arg("progress") = py::none(),
      "Several crossings under one population of wheels; the first is the reference. Ctrl-C ends it in order. Raises "
      "InputError for impossible comparisons, ComputeError when no wheel could be computed on all crossings.");
}

} // namespace

void bind_compare(py::module_ m, py::module_ io_room) {
  bind_population(m);
  bind_answers(m);
  bind_comparison(m);
  py::class_<io::ComparisonFile, std::shared_ptr<io::ComparisonFile>>(io_room, "ComparisonFile",
                                                                      "What a comparison file asks for.")
      .def_readonly("crossings", &io::ComparisonFile::crossings, "crossings with their cases")
      .def_readonly("wheels", &io::ComparisonFile::wheels, "listed wheels, or how to draw them")
      .def_readonly("options", &io::ComparisonFile::options, "what to look at")
      .def_readonly("text", &io::ComparisonFile::text, "the file as read");
  io_room.def("read_comparison", &io::read_comparison, py::arg("file"), "What a TOML comparison file asks for.");
  io_room.def("parse_comparison", &io::parse_comparison, py::arg("toml_text"), py::arg("name") = "comparison",
              py::arg("folder") = ".", "The same from text; `folder` anchors relative paths.");
  io_room.def("comparison_json", &io::comparison_json, py::arg("comparison"),
              "The JSON object `wingnose compare --json` prints.");
  io_room.def(
      "write_comparison",
      [](const std::filesystem::path& file, const std::vector<ComparedCrossing>& crossings,
         const Comparison& comparison,
         const std::string& source_text) { io::write_comparison(file, crossings, comparison, source_text); },
      py::arg("file"), py::arg("crossings"), py::arg("comparison"), py::arg("source_text") = "",
      "Write a comparison to HDF5, all or nothing.");
  io_room.def("read_comparison_result", &io::read_comparison_result, py::arg("file"),
              "Read a stored comparison; raises InputError when it is none.");
}

} // namespace wingnose::python
