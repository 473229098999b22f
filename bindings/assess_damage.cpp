// Room assess: what a passage, and many wheels, alike or mixed, do to the steel. The contacts are one array per
// quantity, the maps arrays [x][y]; both are views of the C++ values.
#include "interruptible.hpp"
#include "rooms.hpp"
#include "tree.hpp"

#include "wingnose/assess/damage_along.hpp"
#include "wingnose/assess/damage_traffic.hpp"
#include "wingnose/words/error.hpp"

#include <cstdint>
#include <functional>

namespace wingnose::python {

using namespace assess;

namespace {

py::array read_only(py::array array) {
  py::detail::array_proxy(array.ptr())->flags &= ~py::detail::npy_api::NPY_ARRAY_WRITEABLE_;
  return array;
}

// A column of the contacts: a strided view, which keeps the trail alive.
template <class Get> auto column(Get get) {
  return [get](const py::object& self) -> py::array_t<double> {
    const auto& steps = self.cast<const ContactTrail&>().steps;
    if (steps.empty())
      return py::array_t<double>(0);
    return read_only(
        py::array_t<double>({steps.size()}, {sizeof(RollingStep)}, &std::invoke(get, steps.front()), self));
  };
}

void bind_trail(py::module_& m) {
  using S = const RollingStep&;
  Told<ContactTrail>(m, "ContactTrail",
                     R"(Rolling contacts of one wheel along one crossing: all that does not depend on the steel.

One value per contact and step of the history, by time, then body; `step_time` and `angular_speed` have one per step.
Wheelset runs straight; the wheel's spin speed follows from its inertia.)")
      .field<&ContactTrail::bodies>("names of the bodies")
      .get("body", "index into `bodies`, per contact",
           [](const ContactTrail& t) {
             py::array_t<std::int64_t> index(static_cast<py::ssize_t>(t.steps.size()));
             for (std::size_t i = 0; i < t.steps.size(); ++i)
               index.mutable_at(i) = static_cast<std::int64_t>(t.steps[i].body);
             return index;
           })
      .get("time", "s", column(&RollingStep::time))
      .get("x", "m, station of the patch", column(&RollingStep::x))
      .get("y", "m, from the track centre line", column(&RollingStep::y))
      .get("contact_angle", "rad", column(&RollingStep::angle))
      .get("change_of_angle", "rad, across the patch", column(&RollingStep::change_of_angle))
      .get("rolling_radius", "m", column(&RollingStep::rolling_radius))
      .get("normal_force", "N", column(&RollingStep::normal_force))
      .get("half_length", "m, semi-axis along the track", column([](S s) -> auto& { return s.patch.a_x; }))
      .get("half_width", "m, semi-axis across", column([](S s) -> auto& { return s.patch.a_y; }))
      .get("peak_pressure", "Pa, elastic", column([](S s) -> auto& { return s.patch.peak_pressure; }))
      .get("longitudinal_creepage", "-", column([](S s) -> auto& { return s.creepage.longitudinal; }))
      .get("spin", "1/m", column([](S s) -> auto& { return s.creepage.spin; }))
      .get("longitudinal_force", "N, on the wheel along travel",
           column([](S s) -> auto& { return s.force.longitudinal; }))
      .get("lateral_force", "N, on the wheel across", column([](S s) -> auto& { return s.force.lateral; }))
      .get("friction_power", "W", column(&RollingStep::friction_power))
      .get("step_time", "s, start of every step",
           [](const py::object& self) { return view(self.cast<const ContactTrail&>().time, self); })
      .field<&ContactTrail::angular_speed>("rad/s, of the wheel at the start of every step")
      .field<&ContactTrail::speed>("m/s")
      .field<&ContactTrail::yaw>("rad, of the wheel, held all along")
      .field<&ContactTrail::duration>("s, of one step")
      .field<&ContactTrail::direction>("facing or trailing")
      .field<&ContactTrail::material>("elastic constants")
      .field<&ContactTrail::by_strips>("patches by strips, several per body; otherwise one ellipse per body")
      .def("__len__", [](const ContactTrail& t) { return t.steps.size(); })
      .def("__repr__", [](const ContactTrail& t) {
        return py::str("ContactTrail({} contacts, {} m/s)").format(t.steps.size(), number(t.speed));
      });
  m.def(
      "contact_trail",
      [](const passage::History& history, const contact::WheelPath& path, const profile::WheelProfile& wheel,
         double landing_station, const contact::Elastic& material, const DamageOptions& options) {
        return std::make_shared<ContactTrail>(contact_trail(history, path, wheel, landing_station, material, options));
      },
      "history"_a, "path"_a, "wheel"_a, "landing_station"_a, usual<contact::Elastic>("material"),
      usual<DamageOptions>("options"),
      R"(Contacts of one passage around its landing.

`history`: with its bodies; `path`: that of the history; `wheel`: that of the path;
`landing_station`: m, of the axle; `material`: of wheel and rail; `options`: friction, stretch, strips. Returns
places, patches, creepages, forces.)");
}

template <std::vector<double> DamageMap::*field> py::array_t<double> map_field(const py::object& self) {
  const auto& map = self.cast<const DamageMap&>();
  const auto nx = static_cast<py::ssize_t>(map.grid.count_x), ny = static_cast<py::ssize_t>(map.grid.count_y);
  return read_only(py::array_t<double>({nx, ny}, (map.*field).data(), self));
}

template <class Place> auto axis(std::size_t Grid::*count, Place place) {
  return [count, place](const DamageMap& map) {
    std::vector<double> values(map.grid.*count);
    for (std::size_t i = 0; i < values.size(); ++i)
      values[i] = place(map.grid, i);
    return own(std::move(values));
  };
}

void bind_maps(py::module_& m) {
  Told<DamageMap>(m, "DamageMap",
                  R"(Damage of one body over its running surface, plan view.

Arrays have the shape (len(x), len(y)). Sums of densities times `cell_area` are the amounts. Of one passage the counts
of wheels are 0 or 1.)")
      .field<&DamageMap::body>("name of the body")
      .get("x", "m, stations of the nodes", axis(&Grid::count_x, [](const Grid& g, std::size_t i) { return g.x(i); }))
      .get("y", "m, nodes from the track centre line",
           axis(&Grid::count_y, [](const Grid& g, std::size_t j) { return g.y(j); }))
      .get("cell_area", "m2, that a node stands for", [](const DamageMap& map) { return map.grid.cell_area(); })
      .get("peak_pressure", "Pa, largest seen", &map_field<&DamageMap::peak_pressure>)
      .get("wheels", "wheels that loaded the node", &map_field<&DamageMap::wheels>)
      .get("beyond_shakedown", "wheels whose contact there lay beyond elastic shakedown",
           &map_field<&DamageMap::beyond_shakedown>)
      .get("beyond_surface_flow", "wheels with a surface fatigue index above 0 there",
           &map_field<&DamageMap::beyond_surface_flow>)
      .get("friction_energy", "J/m2", &map_field<&DamageMap::friction_energy>)
      .get("wear_depth", "m", &map_field<&DamageMap::wear_depth>)
      .def("__repr__", [](const DamageMap& map) {
        return py::str("DamageMap({!r}, {} x {} nodes)").format(map.body, map.grid.count_x, map.grid.count_y);
      });
}

Assessment steel_only(const Damage& damage) {
  Assessment a;
  a.steel = damage;
  return a;
}

// Maps of the traffic so far, whose wheels harden the steel.
using Before = std::optional<std::vector<const DamageMap*>>;
std::optional<std::vector<DamageMap>> maps_of(const Before& before) {
  if (!before) {
    return std::nullopt;
  }
  std::vector<DamageMap> copies;
  for (const DamageMap* map : *before) {
    if (map == nullptr)
      throw py::type_error("before needs damage maps, not None");
    copies.push_back(*map);
  }
  return copies;
}

void bind_damage_of_one(py::module_& m) {
  Told<Damage>(m, "Damage", "What one passage does to the steel.")
      .get("measures", "largest values and sums, by the keys of `wingnose.quantities`, in their units",
           [](const Damage& d) { return numbers_of(steel_only(d), {quantity::Section::steel}); })
      .get("places", "where the largest values are reached: body, station (m), y (m), time (s)",
           [](const Damage& d) {
             py::typing::Dict<py::str, py::typing::Tuple<py::str, double, double, double>> places;
             const Assessment a = steel_only(d);
             for (const auto& q : quantity::quantities()) {
               if (const DamagePeak* peak = q.uses.place != nullptr ? q.uses.place(a) : nullptr) {
                 places[py::str(std::string(q.key))] = py::make_tuple(peak->body, peak->x, peak->y, peak->time);
               }
             }
             return places;
           })
      .field<&Damage::friction_energy>("J, of the whole stretch")
      .field<&Damage::wear_volume>("m3")
      .field<&Damage::maps>("one per body")
      .field<&Damage::findings>("what a reader must know")
      .def("__repr__", [](const Damage& d) { return py::str("Damage({} maps)").format(d.maps.size()); });
  m.def(
      "damage",
      [](const ContactTrail& trail, const Steel& steel, const DamageOptions& options, const Before& before) {
        const auto maps = maps_of(before);
        const py::gil_scoped_release release;
        return std::make_shared<Damage>(damage(trail, steel, options, maps ? &*maps : nullptr));
      },
      "trail"_a, "steel"_a, usual<DamageOptions>("options"), "before"_a = py::none(),
      R"(What a passage does to a steel.

`trail`: of the passage; `steel`: of wing and nose; `options`: as the trail was made with; `before`: maps of the
traffic so far, whose wheels harden the steel (left out: new steel). Returns peaks, sums and maps.)");
}

void bind_steel_along(py::module_& m) {
  using U = SteelUnderContact;
  struct SteelAlong {
    std::vector<double> wheels, shear_yield, hardness, traction, load_factor, shakedown_limit, shakedown, fatigue_index,
        t_gamma, crack_damage;
  };
  result_type<SteelAlong>(
      m, "What each contact of a trail means for the steel it meets, in the order of the trail.",
      field<&SteelAlong::wheels>("that have loaded the place before"), field<&SteelAlong::shear_yield>("Pa, there"),
      field<&SteelAlong::hardness>("Pa, there"), field<&SteelAlong::traction>("-, creep over normal force"),
      field<&SteelAlong::load_factor>("-, p0 / k"), field<&SteelAlong::shakedown_limit>("-, of the load factor"),
      field<&SteelAlong::shakedown>("-, load factor over its limit"), field<&SteelAlong::fatigue_index>("-, surface"),
      field<&SteelAlong::t_gamma>("N (J/m)"), field<&SteelAlong::crack_damage>("-, per wheel"));
  m.def(
      "steel_along",
      [](const ContactTrail& trail, const Steel& steel, const DamageOptions& options, const Before& before,
         double share) {
        const auto maps = maps_of(before);
        const py::gil_scoped_release release;
        const auto found = steel_along(trail, steel, options, maps ? &*maps : nullptr, share);
        const auto take = [&found](double U::*member) {
          std::vector<double> values;
          values.reserve(found.size());
          for (const U& at : found)
            values.push_back(at.*member);
          return values;
        };
        return SteelAlong{take(&U::wheels),      take(&U::shear_yield),   take(&U::hardness),
                          take(&U::traction),    take(&U::load_factor),   take(&U::shakedown_limit),
                          take(&U::shakedown),   take(&U::fatigue_index), take(&U::t_gamma),
                          take(&U::crack_damage)};
      },
      "trail"_a, "steel"_a, usual<DamageOptions>("options"), "before"_a = py::none(), "share"_a = 1.0,
      R"(What each contact of a passage means for the steel it meets.

`trail`: of the passage; `steel`: of wing and nose; `options`: as the trail was made with; `before`: maps of the
traffic so far, whose wheels harden the steel; `share`: of that traffic which has rolled when the passage comes.
Returns one value per contact of the trail.)");
}

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
  columns_type<S, stage_columns>(m, "State of the steel in one stage of a traffic: shakedown is the exceedance of its "
                                    "limit, fatigue_index that of the surface.");
  using T = TrafficDamage;
  result_type<T>(m, "What a traffic does to the steel, the shape taken as unchanged.", field<&T::wheels>("in all"),
                 field<&T::friction_energy>("J"), field<&T::wear_volume>("m3"),
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

} // namespace

void bind_assess_damage(py::module_ m) {
  bind_trail(m);
  bind_maps(m);
  bind_damage_of_one(m);
  bind_steel_along(m);
  bind_traffic(m);
}

} // namespace wingnose::python
