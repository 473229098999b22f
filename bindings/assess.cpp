// Room assess: measures of a history; steels, and the published laws of shakedown, fatigue and wear, over arrays too.
#include "rooms.hpp"
#include "tree.hpp"

#include "wingnose/assess/damage.hpp"
#include "wingnose/assess/measures.hpp"

namespace wingnose::python {

using namespace assess;

namespace {

void bind_measures(py::module_& m) {
  using O = MeasureOptions;
  ranged_type<O>(m, "Definitions behind the measures.");
  m.def(
      "measure",
      [](const passage::History& history, double landing_station, const O& options) {
        Assessment a;
        a.measures = measure(history, landing_station, options);
        a.speed =
            std::abs(history.station.back() - history.station.front()) / (history.time.back() - history.time.front());
        return numbers_of(a, {quantity::Section::passage});
      },
      "history"_a, "landing_station"_a, usual<O>("options"),
      "Numbers of a history whose wheel lands near `landing_station` (m), by the keys of `wingnose.quantities`, in "
      "their units; None where there is none.");
  m.def(
      "low_pass_zero_phase",
      [](const Array& signal, double step, double cut_off, int order) {
        return own(low_pass_zero_phase(to_vector(signal), step, cut_off, order));
      },
      "signal"_a, "step"_a, "cut_off"_a, "order"_a = 2,
      R"(Butterworth low pass, forward and back (no phase shift).

`signal`: uniform samples; `step`: s between samples; `cut_off`: Hz, per pass; `order`: order per pass.)");
}

// The steels and the laws that need nothing but numbers.
void bind_laws(py::module_& m) {
  value_type<WorkHardening>(m, "State a steel hardens to under traffic, k(n) = k_0 + (k_s - k_0) (1 - exp(-n / n_0)).",
                            field<&WorkHardening::shear_yield>("Pa, reached after many wheels"),
                            field<&WorkHardening::hardness>("Pa, likewise"),
                            field<&WorkHardening::wheels>("that bring 63 % of the gain"));
  value_type<Steel>(m, "A steel of rails and crossings.", field<&Steel::name>("grade"),
                    field<&Steel::proof_stress>("Pa, 0.2 % offset, in tension"), field<&Steel::tensile_strength>("Pa"),
                    field<&Steel::hardness>("Pa, Brinell number times 9.80665e6"),
                    field<&Steel::hardening>("WorkHardening, or None for a steel that keeps its yield"),
                    field<&Steel::trust>("where its numbers come from"));
  m.def("steel", &steel, "name"_a, "A grade known by name; raises InputError for others.");
  m.def("steel_names", &steel_names, "The grades known by name, softest first.");
  m.def("from_brinell", &from_brinell, "number"_a, "Brinell number to Pa.");
  m.def("shear_yield", py::vectorize([](const Steel* s, double wheels) { return shear_yield(*s, wheels); }), "steel"_a,
        "wheels"_a = 0.0, "Yield in shear (Pa) at a place so many wheels have loaded.");
  m.def("wear_hardness", py::vectorize([](const Steel* s, double wheels) { return wear_hardness(*s, wheels); }),
        "steel"_a, "wheels"_a = 0.0, "Hardness (Pa) at a place so many wheels have loaded.");

  named_enum<ContactShape>(m, "ContactShape", "Of the shakedown limit; the line is the lower one.");
  Told<ShakedownMap>(m, "ShakedownMap",
                     R"(Limits of the load factor p0 / k over the traction coefficient (Johnson 1989).

`shape`: line contact is exact and the lower one.)")
      .def(py::init<ContactShape>(), py::arg_v("shape", ContactShape::line, "..."))
      .def("first_yield", py::vectorize(&ShakedownMap::first_yield), "traction"_a,
           "Load factor below which nothing ever yields.")
      .def("elastic_shakedown", py::vectorize(&ShakedownMap::elastic_shakedown), "traction"_a,
           "Load factor below which residual stresses end yielding.")
      .get("shape", "line or circle", &ShakedownMap::shape);

  ranged_type<WearMap>(m, "Wear coefficients over slip speed and pressure (Jendel 2002, middles of bands).",
                       field<&WearMap::mild_up_to>("m/s"), field<&WearMap::mild_from>("m/s"),
                       field<&WearMap::seizure_from>("-, pressure over hardness"));
  value_type<CrackFunction>(m, "Crack initiation per wheel over T-gamma (Burstow 2004, R260).",
                            field<&CrackFunction::threshold>("J/m, none below"),
                            field<&CrackFunction::peak>("J/m, most here"),
                            field<&CrackFunction::balance>("J/m, wear takes cracks away beyond"),
                            field<&CrackFunction::top>("-, per wheel, at the peak"));
  m.def("crack_damage", py::vectorize([](double t, const CrackFunction* f) { return crack_damage(t, *f); }),
        "t_gamma"_a, usual<CrackFunction>("function"),
        "Crack damage of one wheel (-) at T-gamma (N, J/m); 1 is a crack that can be seen.");
  m.def(
      "surface_fatigue_index", py::vectorize(&surface_fatigue_index), "traction"_a, "a"_a, "b"_a, "shear_yield"_a,
      "force"_a,
      "f - 2 pi a b k / (3 F) (Ekberg, Kabo and Andersson 2002): semi-axes in m, yield in Pa, force in N; above 0 the "
      "surface yields.");
  m.def("wear_coefficient", py::vectorize([](double slip, double pressure, double hardness, const WearMap* map) {
          return wear_coefficient(slip, pressure, hardness, *map);
        }),
        "slip_speed"_a, "pressure"_a, "hardness"_a, usual<WearMap>("map"),
        "Archard's K (-) at a slip speed (m/s), pressure and hardness (Pa).");
  m.def("archard_volume", py::vectorize(&archard_volume), "coefficient"_a, "force"_a, "distance"_a, "hardness"_a,
        "Worn volume K N s / H (m3): N, m, Pa.");
  m.def("energy_wear_rate", py::vectorize(&energy_wear_rate), "t_gamma_over_area"_a,
        "Mass lost per distance and area (kg/m/m2) over T-gamma / A (N/m2), Braghin et al. (2006).");
}

void bind_options(py::module_& m) {
  named_enum<CreepTheory>(m, "CreepTheory", "Law of the creep force that spins the wheel up.");
  using O = DamageOptions;
  ranged_type<O>(m, "How the damage of a passage is computed.",
                 field<&O::creep_law>("law of the creep force; wear keeps to the simplified theory"),
                 field<&O::shakedown_shape>("line or circle"),
                 field<&O::run_in>("wear at the pressure a place settles at, not above shakedown limit times k"),
                 field<&O::wear>("wear coefficients"), field<&O::cracks>("crack function"));
}

} // namespace

void bind_assess(py::module_ m) {
  bind_measures(m);
  bind_laws(m);
  bind_options(m);
}

} // namespace wingnose::python
