// Room assess: the damage of many wheels, alike or mixed.
#include "interruptible.hpp"
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/assess/damage_traffic.hpp"

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

} // namespace

void bind_assess_traffic(py::module_ m) {
  Told<Wheels>(m, "TrafficWheel", R"(Wheels alike: one passage and how many of them run.

`trail`: of the passage; `wheels`: how many of this kind; `load`: N, static, needed for a tonnage.)")
      .def(py::init([](const ContactTrail& trail, double wheels, double load) {
             return Wheels{py::cast(&trail, py::return_value_policy::reference), &trail, wheels, load};
           }),
           "trail"_a, "wheels"_a = 1.0, "load"_a = 0.0)
      .get(
          "trail", "of the passage", [](const Wheels& w) { return w.owner.cast<const ContactTrail*>(); },
          py::return_value_policy::reference)
      .field<&Wheels::wheels>("how many of this kind")
      .field<&Wheels::load>("N, static")
      .shows({"wheels", "load"});
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
      "mix"_a, "tonnage"_a,
      "The same mix with so many wheels that their axles weigh `tonnage` (kg) in all; 1 MGT is 1e9 kg.");
  using S = TrafficStage;
  result_type<S>(m, "TrafficStage", "State of the steel in one stage of a traffic.",
                 field<&S::wheels>("after the stage, from the beginning"),
                 field<&S::shear_yield>("Pa, in the stage, at the place loaded most so far"),
                 field<&S::hardness>("Pa, likewise"),
                 field<&S::shakedown>("-, largest exceedance of all wheels in the stage"),
                 field<&S::fatigue_index>("-, largest"), field<&S::wear_depth>("m, deepest node after the stage"));
  using T = TrafficDamage;
  result_type<T>(m, "TrafficDamage", "What a traffic does to the steel, the shape taken as unchanged.",
                 field<&T::wheels>("in all"), field<&T::friction_energy>("J"), field<&T::wear_volume>("m3"),
                 field<&T::crack_damage>("-, sum of each wheel's largest: an upper bound"),
                 field<&T::beyond_shakedown>("wheels beyond shakedown somewhere"),
                 field<&T::beyond_surface_flow>("wheels with a fatigue index above 0 somewhere"),
                 field<&T::maps>("one per body"), field<&T::stages>("by time"),
                 field<&T::findings>("what a reader must know"));
  m.def(
      "damage_of_traffic",
      [](const std::vector<std::shared_ptr<Wheels>>& traffic, const Steel& steel, const DamageOptions& options,
         int stages) {
        return interruptible(std::nullopt, [&](Watch&) {
          return std::make_shared<TrafficDamage>(damage_of_traffic(plain(traffic), steel, options, stages));
        });
      },
      "traffic"_a, "steel"_a, usual<DamageOptions>("options"), "stages"_a = 1,
      R"(Damage of many wheels over one crossing, the steel hardening between stages.

`traffic`: kinds of wheels and how many of each; `steel`: of wing and nose; `options`: as the trails were made with;
`stages`: 1 to 1000; each carries the same share of the traffic. Returns sums, maps, and the stages one by one.)");
}

} // namespace wingnose::python
