// Rooms assess, study and io: the damage of many wheels, alike or mixed, and its files.
#include "interruptible.hpp"
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/assess/damage_traffic.hpp"
#include "wingnose/io/damage_output.hpp"
#include "wingnose/io/population_file.hpp"
#include "wingnose/study/traffic.hpp"
#include "wingnose/words/error.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace wingnose::python {

using namespace assess;

namespace {

// Keeps its trail alive, which the C++ value does not.
struct Wheels {
  py::object owner; // of the trail
  const ContactTrail* trail;
  double wheels = 1.0, load = 0.0;
};
std::vector<TrafficWheel> plain(const std::vector<std::shared_ptr<Wheels>>& mix) {
  std::vector<TrafficWheel> list;
  list.reserve(mix.size());
  for (const auto& w : mix)
    list.push_back({.trail = w->trail, .wheels = w->wheels, .load = w->load});
  return list;
}

void bind_traffic(py::module_& m) {
  py::class_<Wheels, std::shared_ptr<Wheels>>(m, "TrafficWheel", R"(Wheels alike: one passage and how many of them run.

Parameters
----------
trail : ContactTrail
    Of the passage.
wheels : float
    How many of this kind.
load : float
    N, static, needed for a tonnage.)")
      .def(py::init([](const ContactTrail& trail, double wheels, double load) {
             return Wheels{py::cast(&trail, py::return_value_policy::reference), &trail, wheels, load};
           }),
           py::arg("trail"), py::arg("wheels") = 1.0, py::arg("load") = 0.0)
      .def_property_readonly(
          "trail", [](const Wheels& w) { return w.owner.cast<const ContactTrail*>(); },
          py::return_value_policy::reference, "of the passage")
      .def_readonly("wheels", &Wheels::wheels, "how many of this kind")
      .def_readonly("load", &Wheels::load, "N, static")
      .def("__repr__", [](const Wheels& w) {
        return "TrafficWheel(wheels=" + number(w.wheels) + ", load=" + number(w.load) + ")";
      });
  m.def(
      "for_tonnage",
      [](const std::vector<std::shared_ptr<Wheels>>& mix, double tonnage) {
        const auto scaled = for_tonnage(plain(mix), tonnage);
        std::vector<std::shared_ptr<Wheels>> out;
        for (std::size_t i = 0; i < mix.size(); ++i)
          out.push_back(
              std::make_shared<Wheels>(Wheels{mix[i]->owner, mix[i]->trail, scaled[i].wheels, scaled[i].load}));
        return out;
      },
      py::arg("mix"), py::arg("tonnage"),
      "The same mix with so many wheels that their axles weigh `tonnage` (kg) in all; 1 MGT is 1e9 kg.");
  using S = TrafficStage;
  result_type<S>(m, "TrafficStage", "State of the steel in one stage of a traffic.",
                 field("wheels", &S::wheels, "after the stage, from the beginning"),
                 field("shear_yield", &S::shear_yield, "Pa, in the stage, at the place loaded most so far"),
                 field("hardness", &S::hardness, "Pa, likewise"),
                 field("shakedown", &S::shakedown, "-, largest exceedance of all wheels in the stage"),
                 field("fatigue_index", &S::fatigue_index, "-, largest"),
                 field("wear_depth", &S::wear_depth, "m, deepest node after the stage"));
  using T = TrafficDamage;
  result_type<T>(m, "TrafficDamage", "What a traffic does to the steel, the shape taken as unchanged.",
                 field("wheels", &T::wheels, "in all"), field("friction_energy", &T::friction_energy, "J"),
                 field("wear_volume", &T::wear_volume, "m3"),
                 field("crack_damage", &T::crack_damage, "-, sum of each wheel's largest: an upper bound"),
                 field("beyond_shakedown", &T::beyond_shakedown, "wheels beyond shakedown somewhere"),
                 field("beyond_surface_flow", &T::beyond_surface_flow, "wheels with a fatigue index above 0 somewhere"),
                 field("maps", &T::maps, "one per body"), field("stages", &T::stages, "by time"),
                 field("notes", &T::notes, "what a reader must know"));
  m.def(
      "damage_of_traffic",
      [](const std::vector<std::shared_ptr<Wheels>>& traffic, const Steel& steel, const DamageOptions& options,
         int stages) {
        return interruptible(std::nullopt, [&](Watch&) {
          return std::make_shared<TrafficDamage>(damage_of_traffic(plain(traffic), steel, options, stages));
        });
      },
      py::arg("traffic"), py::arg("steel"), py::arg_v("options", DamageOptions{}, "..."), py::arg("stages") = 1,
      R"(Damage of many wheels over one crossing, the steel hardening between stages.

Parameters
----------
traffic : sequence of TrafficWheel
    Kinds of wheels and how many of each.
steel : Steel
    Of wing and nose.
options : DamageOptions
    As the trails were made with.
stages : int
    1 to 1000; each carries the same share of the traffic.

Returns
-------
TrafficDamage
    Sums, maps, and the stages one by one.)");
}

void bind_mixed(py::module_& m) {
  using M = study::TrafficMember;
  result_type<M>(m, "TrafficMember", "One wheel of a mixed traffic; numbers are NaN where it failed.",
                 field("failure", &M::failure, "why there is no damage; empty: there is"),
                 field("speed", &M::speed, "m/s"), field("static_load", &M::static_load, "N"),
                 field("lateral_offset", &M::lateral_offset, "m"),
                 field("wheels", &M::wheels, "of this kind in the traffic, 0 where it failed"),
                 field("peak_pressure", &M::peak_pressure, "Pa, of one such wheel"),
                 field("shakedown", &M::shakedown, "-, exceedance of one such wheel over new steel"),
                 field("fatigue_index", &M::fatigue_index, "-, surface, likewise"),
                 field("t_gamma", &M::t_gamma, "N (J/m), largest"),
                 field("friction_energy", &M::friction_energy, "J, of one such wheel"));
  using T = study::Traffic;
  result_type<T>(m, "Traffic", "A mixed traffic over one crossing and what it does to the steel.",
                 field("population", &T::population, "wheels and their weights"),
                 field("members", &T::members, "one per wheel of the population"),
                 field("steel", &T::steel, "of wing and nose"), field("tonnage", &T::tonnage, "kg"),
                 field("failed", &T::failed, "wheels of the population without damage"),
                 field("failed_share", &T::failed_share, "of the weight"),
                 field("damage", &T::damage, "TrafficDamage; its notes say which wheels failed"));
  m.def(
      "traffic",
      [](const io::CaseDocument& document, const study::Population& population, double tonnage, int stages,
         const std::optional<Steel>& steel, const std::optional<DamageOptions>& damage, int threads,
         const ProgressCall& progress) {
        auto answer = interruptible(progress, [&](Watch& watch) {
          study::TrafficOptions options;
          options.tonnage = tonnage;
          options.stages = stages;
          options.steel = steel;
          options.damage = damage;
          options.threads = threads;
          options.progress = watch.progress();
          options.cancel = &watch.cancel;
          return study::traffic(document, population, options);
        });
        return std::make_shared<T>(std::move(*answer)); // without one only when cancelled, and then an error was raised
      },
      py::arg("document"), py::arg("population"), py::kw_only(), py::arg("tonnage"), py::arg("stages") = 10,
      py::arg("steel") = py::none(), py::arg("damage") = py::none(), py::arg("threads") = 0,
      py::arg("progress") = py::none(),
      R"(Let a mixed traffic roll over the crossing of a case and add up what it does to the steel.

Parameters
----------
document : CaseDocument
    A case that runs over a crossing.
population : Population
    Wheels with their weights.
tonnage : float
    kg, of all axles; 1 MGT is 1e9 kg.
stages : int
    1 to 1000, between which the steel hardens.
steel : Steel, optional
    Otherwise that of the case.
damage : DamageOptions, optional
    Otherwise those of the case.
threads : int
    0: one per core.
progress : callable, optional
    Called with what is done of a total.

Returns
-------
Traffic
    Wheels that could not be computed are counted in `failed` and named in the notes.)");
  m.def("wheels_of", &study::wheels_of, py::arg("wheels"),
        "Wheels of a file: listed ones as they are, a recipe drawn.");
}

void bind_files(py::module_& io_room) {
  using io::DamageReport;
  py::class_<DamageReport, std::shared_ptr<DamageReport>>(io_room, "DamageReport", R"(What `wingnose damage` tells.

Parameters
----------
steel : Steel
    Of wing and nose.
options : DamageOptions
    As the damage was computed with.
trail : ContactTrail
    Contacts of the case's own wheel.
damage : Damage
    Of that wheel on new steel.
traffic : TrafficDamage, optional
    Of a tonnage.
tonnage : float
    kg, of the traffic.
mix : Traffic, optional
    A mixed traffic; takes the place of `traffic` and `tonnage`.
mix_text : str
    Its file as read.
mix_inputs : sequence of InputFile
    Files it was read from.)")
      .def(py::init([](Steel steel, const DamageOptions& options, const ContactTrail& trail, const Damage& damage,
                       const std::optional<TrafficDamage>& traffic, double tonnage,
                       const std::optional<study::Traffic>& mix, std::string mix_text,
                       const std::vector<study::InputFile>& mix_inputs) {
             DamageReport report;
             report.steel = std::move(steel);
             report.options = options;
             report.trail = trail;
             report.damage = damage;
             report.traffic = traffic;
             report.tonnage = tonnage;
             if (mix) {
               report.traffic = mix->damage;
               report.tonnage = mix->tonnage;
             }
             report.mix = mix;
             report.mix_text = std::move(mix_text);
             report.mix_inputs = mix_inputs;
             return report;
           }),
           py::kw_only(), py::arg("steel"), py::arg("options"), py::arg("trail"), py::arg("damage"),
           py::arg("traffic") = py::none(), py::arg("tonnage") = 0.0, py::arg("mix") = py::none(),
           py::arg("mix_text") = "", py::arg("mix_inputs") = std::vector<study::InputFile>{})
      .def_readonly("steel", &DamageReport::steel, "of wing and nose")
      .def_readonly("options", &DamageReport::options, "as the damage was computed with")
      .def_readonly("trail", &DamageReport::trail, "contacts of the case's own wheel")
      .def_readonly("damage", &DamageReport::damage, "of that wheel on new steel")
      .def_property_readonly(
          "traffic",
          [](const std::shared_ptr<DamageReport>& self) {
            return self->traffic ? std::shared_ptr<TrafficDamage>(self, &*self->traffic) : nullptr;
          },
          "of a tonnage, or None")
      .def_readonly("tonnage", &DamageReport::tonnage, "kg, of the traffic");
  io_room.def("damage_json", &io::damage_json, py::arg("case"), py::arg("report"),
              "The JSON object `wingnose damage --json` prints.");
  io_room.def("write_damage", &io::write_damage, py::arg("file"), py::arg("case"), py::arg("report"),
              "Write damage with its maps to HDF5, all or nothing.");
}

} // namespace

void bind_damage_traffic(py::module_ m, py::module_ study_room, py::module_ io_room) {
  bind_traffic(m);
  bind_mixed(study_room);
  bind_files(io_room);
  using io::PopulationFile;
  py::class_<PopulationFile, std::shared_ptr<PopulationFile>>(io_room, "PopulationFile",
                                                              "Which wheels a file asks for.")
      .def_readonly("wheels", &PopulationFile::wheels, "listed wheels, or how to draw them; see study.wheels_of")
      .def_readonly("text", &PopulationFile::text, "the file as read")
      .def_readonly("inputs", &PopulationFile::inputs, "files it was read from, with their checksums");
  io_room.def("read_population", &io::read_population, py::arg("file"),
              "The wheels of a TOML file with the tables population, class and wheel of a comparison.");
  io_room.def("parse_population", &io::parse_population, py::arg("toml_text"), py::arg("name") = "traffic",
              py::arg("folder") = ".", "The same from text; `folder` anchors relative paths.");
}

} // namespace wingnose::python
