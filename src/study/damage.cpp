#include "wingnose/study/damage.hpp"

#include "tell.hpp"

#include "wingnose/assess/damage_along.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace wingnose::study {
namespace {

using quantity::Columns;
using quantity::Detail;
using quantity::Filler;
using quantity::Layout;
using quantity::Named;
using quantity::Tree;
constexpr Detail told = Detail::told, stored = Detail::stored;

// All wheels like the case's own.
cases::Population own_wheel() { return {{{"as in the case", 1.0, {}, {}}}, {{"the wheel of the case", 0, 1.0, {}}}}; }

std::string in_MPa(double pressure) { return fixed(pressure * 1e-6, 0) + " MPa"; }

// --- of the case's own wheel -----------------------------------------------------------------------------------------

// Largest values and where they are reached.
void add_places(Tree& tree, const assess::Steel& steel, const assess::DamageOptions& options,
                const assess::Assessment& a) {
  std::vector<const quantity::Quantity*> rows;
  for (const quantity::Quantity& q : quantity::quantities()) {
    if (quantity::of_steel(q)) {
      rows.push_back(&q);
    }
  }
  const auto at = [&a](double assess::DamagePeak::*coordinate) {
    return [&a, coordinate](const quantity::Quantity* q) {
      const auto* peak = q->uses.place != nullptr ? q->uses.place(a) : nullptr;
      return peak == nullptr ? std::numeric_limits<double>::quiet_NaN() : peak->*coordinate;
    };
  };
  Columns(Filler(tree, "places",
                 "Steel under one wheel: " + steel.name + ", k " + in_MPa(assess::shear_yield(steel)) + ", friction " +
                     number(options.friction),
                 Layout::columns),
          "place", rows)
      .text({"label", "", "what is largest there"}, [](const auto* q) { return q->label; })
      .text({"value_text", "largest", "its value, as printed"},
            [&](const auto* q) { return fixed(quantity::value(*q, a), q->decimals); })
      .text({"value_unit", "unit", "its unit"}, [](const auto* q) { return shown(q->unit); })
      .text({"body", "on", "body it is reached on; empty: a sum"},
            [&](const auto* q) {
              const auto* peak = q->uses.place != nullptr ? q->uses.place(a) : nullptr;
              return peak == nullptr ? std::string{} : peak->body;
            })
      .text({"key", "", "its key", told}, [](const auto* q) { return q->key; })
      .number({"station_mm", "mm", "station", "station of the patch", 0}, at(&assess::DamagePeak::x))
      .number({"y_mm", "mm", "y", "of the patch, from the track centre line", 1}, at(&assess::DamagePeak::y))
      .number({"time_ms", "ms", "", "when", 2, told}, at(&assess::DamagePeak::time));
}

void add_steel_and_limits(Tree& tree, const assess::Steel& steel, const assess::DamageOptions& options) {
  Filler filler(tree, "steel");
  filler.text({"name", "steel", "grade of wing and nose", told}, steel.name);
  filler.text({"trust", "", "where its values come from", told}, steel.trust);
  filler.number({"shear_yield_MPa", "MPa", "k", "yield in shear of the new steel", 0, told},
                assess::shear_yield(steel));
  filler.number({"hardness_MPa", "MPa", "hardness", "of the new steel", 0, told}, steel.hardness);
  filler.number({"friction", "-", "friction", "coefficient of friction", 2, told}, options.friction);
  const auto hardened = [&](double assess::WorkHardening::*member) {
    return steel.hardening ? std::optional((*steel.hardening).*member) : std::nullopt;
  };
  filler.number({"hardened_shear_yield_MPa", "MPa", "", "after many wheels; none: it does not harden", 0, told},
                hardened(&assess::WorkHardening::shear_yield));
  filler.number({"hardened_hardness_MPa", "MPa", "", "after many wheels", 0, told},
                hardened(&assess::WorkHardening::hardness));
  filler.number({"hardening_wheels", "-", "", "wheels that bring 63 % of the gain", 0, told},
                hardened(&assess::WorkHardening::wheels));
  const assess::ShakedownMap limits(options.shakedown_shape);
  std::vector<double> traction;
  for (int i = 0; i <= 60; ++i) {
    traction.push_back(i * 0.01);
  }
  Columns(Filler(tree, "limits"), "traction_coefficient", traction)
      .number({"traction_coefficient", "-", "traction coefficient", "creep force over normal force", 2, stored},
              [](double t) { return t; })
      .number({"first_yield", "-", "first yield", "load factor p0/k below which nothing ever yields", 3, stored},
              [&](double t) { return limits.first_yield(t); })
      .number({"elastic_shakedown", "-", "elastic shakedown", "load factor below which residual stresses end yielding",
               3, stored},
              [&](double t) { return limits.elastic_shakedown(t); });
}

void add_contacts(Tree& tree, const assess::ContactTrail& trail, const assess::Steel& steel,
                  const assess::DamageOptions& options) {
  using S = assess::RollingStep;
  Filler filler(tree, "contacts");
  Columns(filler, "contact", trail.steps)
      .text({"body", "body", "body each contact lies on", stored}, [&](const S& s) { return trail.bodies[s.body]; })
      .number({"time_ms", "ms", "time", "of each contact and step", 3, stored}, &S::time)
      .number({"x_mm", "mm", "station", "station of the patch", 1, stored}, &S::x)
      .number({"y_mm", "mm", "y", "patch from the track centre line", 2, stored}, &S::y)
      .number({"contact_angle_mrad", "mrad", "contact angle", "contact angle", 1, stored}, &S::angle)
      .number({"rolling_radius_mm", "mm", "rolling radius", "rolling radius", 2, stored}, &S::rolling_radius)
      .number({"normal_force_kN", "kN", "normal force", "normal force", 2, stored}, &S::normal_force)
      .number({"half_length_mm", "mm", "half length", "half length of the patch along the track", 2, stored},
              [](const S& s) { return s.patch.a_x; })
      .number({"half_width_mm", "mm", "half width", "half width of the patch across", 2, stored},
              [](const S& s) { return s.patch.a_y; })
      .number({"peak_pressure_MPa", "MPa", "peak pressure", "elastic peak pressure", 0, stored},
              [](const S& s) { return s.patch.peak_pressure; })
      .number({"longitudinal_creepage_permil", "permil", "longitudinal creepage", "positive: the wheel slides forward",
               2, stored},
              [](const S& s) { return s.creepage.longitudinal; })
      .number({"spin_1_m", "1/m", "spin", "spin", 3, stored}, [](const S& s) { return s.creepage.spin; })
      .number({"longitudinal_force_kN", "kN", "longitudinal force", "creep force on the wheel along travel", 2, stored},
              [](const S& s) { return s.force.longitudinal; })
      .number({"lateral_force_kN", "kN", "lateral force", "creep force on the wheel across", 2, stored},
              [](const S& s) { return s.force.lateral; })
      .number({"friction_power_kW", "kW", "friction power", "friction power", 2, stored}, &S::friction_power)
      .number({"change_of_contact_angle_rad", "rad", "angle change", "change of the contact angle inside the patch", 3,
               stored},
              &S::change_of_angle);
  const auto along = assess::steel_along(trail, steel, options);
  using U = assess::SteelUnderContact;
  Columns(filler, "contact", along)
      .number({"traction_coefficient", "-", "traction coefficient", "creep force over normal force", 3, stored},
              &U::traction)
      .number({"load_factor", "-", "load factor", "peak pressure over the yield in shear of the new steel", 2, stored},
              &U::load_factor)
      .number({"shakedown_exceedance", "-", "shakedown exceedance", "load factor over its elastic shakedown limit", 2,
               stored},
              &U::shakedown)
      .number({"surface_fatigue_index", "-", "surface fatigue index",
               "traction coefficient less k/p0 (Ekberg, Kabo and Andersson 2002)", 3, stored},
              &U::fatigue_index)
      .number({"t_gamma_N", "N", "T-gamma", "creep force times creepage, without the spin moment", 1, stored},
              &U::t_gamma)
      .number({"crack_damage_1e_6", "1e-6", "crack damage",
               "crack function of T-gamma per wheel (Burstow 2004, for R260)", 2, stored},
              &U::crack_damage);
}

void add_map(Tree& tree, const std::string& part, const assess::DamageMap& map) {
  const assess::Grid& g = map.grid;
  if (g.size() == 0) {
    return;
  }
  std::vector<double> x, y;
  for (std::size_t i = 0; i < g.count_x; ++i) {
    x.push_back(g.x(i));
  }
  for (std::size_t j = 0; j < g.count_y; ++j) {
    y.push_back(g.y(j));
  }
  Filler filler(tree, part + "/" + map.body);
  const std::string dim_x = "x_mm", dim_y = "y_mm";
  filler.list({"x_mm", "mm", "station", "stations of the nodes", 1, stored}, dim_x, x);
  filler.list({"y_mm", "mm", "y", "nodes from the track centre line", 2, stored}, dim_y, y);
  const auto field = [&](const Named& named, const std::vector<double>& values) {
    filler.table(named, {{dim_x, g.count_x}, {dim_y, g.count_y}}, values);
  };
  field({"peak_pressure_MPa", "MPa", "peak pressure", "largest elastic pressure seen", 0, stored}, map.peak_pressure);
  field({"wheels", "-", "wheels", "wheels that loaded the node", 0, stored}, map.wheels);
  field({"wheels_beyond_shakedown", "-", "beyond shakedown", "wheels whose contact there lay beyond elastic shakedown",
         0, stored},
        map.beyond_shakedown);
  field({"wheels_beyond_surface_flow", "-", "at the surface", "wheels whose surface fatigue index there was above 0", 0,
         stored},
        map.beyond_surface_flow);
  field({"friction_energy_J_mm2", "J/mm2", "friction energy", "dissipated by sliding", 3, stored}, map.friction_energy);
  field({"wear_depth_um", "um", "wear depth", "Archard, the shape taken as unchanged", 3, stored}, map.wear_depth);
}

// Running edges where the maps lie, so that they can be drawn in one frame with them.
void add_edges(Tree& tree, const layout::Crossing& crossing, const std::vector<assess::DamageMap>& maps) {
  double from = std::numeric_limits<double>::infinity(), to = -from;
  for (const auto& map : maps) {
    if (map.grid.size() > 0) {
      from = std::min(from, map.grid.x(0));
      to = std::max(to, map.grid.x(map.grid.count_x - 1));
    }
  }
  constexpr double pitch = 0.01; // m
  for (const auto& body : crossing.bodies) {
    std::vector<double> x, y;
    std::visit(
        [&](const auto& surface) {
          const double first = std::max(from, surface.x_begin()), last = std::min(to, surface.x_end());
          for (int i = 0; first + i * pitch <= last; ++i) {
            x.push_back(first + i * pitch);
            y.push_back(surface.edge(x.back()));
          }
        },
        body.surface);
    if (!x.empty()) {
      Filler filler(tree, "edges/" + body.name);
      const std::string dim = "x_mm";
      filler.list({"x_mm", "mm", "station", "stations of the running edge", 1, stored}, dim, x);
      filler.list({"y_mm", "mm", "y", "running edge from the track centre line, in plan", 2, stored}, dim, y);
    }
  }
}

// --- of the traffic --------------------------------------------------------------------------------------------------

void add_sums(Tree& tree, const Traffic& t, std::string title) {
  const assess::TrafficStage none;
  const auto& stages = t.damage.stages;
  const assess::TrafficStage &first = stages.empty() ? none : stages.front(),
                             &last = stages.empty() ? none : stages.back();
  Filler sums(tree, "traffic", std::move(title), Layout::rows);
  sums.number({"tonnage_MGT", "MGT", "tonnage", "million gross tonnes, both rails", 2}, t.tonnage);
  sums.number({"wheels", "-", "wheels", "over this crossing", 0}, t.damage.wheels);
  sums.number({"wheels_beyond_shakedown", "-", "wheels beyond shakedown", "somewhere on the stretch", 0},
              t.damage.beyond_shakedown);
  sums.number({"wheels_beyond_surface_flow", "-", "wheels with fatigue index > 0", "somewhere on the stretch", 0},
              t.damage.beyond_surface_flow);
  sums.number({"wear_depth_per_wheel_nm", "nm", "wear depth per wheel",
               "deepest node, mean over the wheels: a rate for the shape given", 1},
              last.wear_depth / t.damage.wheels);
  sums.number({"wear_depth_mm", "mm", "wear depth, shape unchanged", "deepest node", 3}, last.wear_depth);
  sums.number({"wear_volume_mm3", "mm3", "wear volume", "of the whole stretch", 0}, t.damage.wear_volume);
  sums.number({"crack_damage", "-", "crack damage", "sum of each wheel's largest; an upper bound for one place", 2},
              t.damage.crack_damage);
  sums.number({"shear_yield_first_MPa", "MPa", "shear yield, first stage", "at the place loaded most", 0},
              first.shear_yield);
  sums.number({"shear_yield_last_MPa", "MPa", "shear yield, last stage", "at the place loaded most", 0},
              last.shear_yield);
  sums.number({"shakedown_exceedance_first", "-", "shakedown exceedance, first stage", "largest of all wheels", 2},
              first.shakedown);
  sums.number({"shakedown_exceedance_last", "-", "shakedown exceedance, last stage", "largest of all wheels", 2},
              last.shakedown);
  sums.number({"failed", "-", "wheels that failed", "kinds of wheels without damage", 0, told},
              static_cast<double>(t.failed));
  sums.number({"failed_share", "-", "", "their share of the weight", 3, told}, t.failed_share);
  using S = assess::TrafficStage;
  Columns(Filler(tree, "traffic/stages"), "stage", stages)
      .number({"wheels", "-", "wheels", "wheels after the stage, from the beginning", 0, told}, &S::wheels)
      .number({"shear_yield_MPa", "MPa", "shear yield", "yield in shear in the stage, of the place loaded most so far",
               0, told},
              &S::shear_yield)
      .number({"hardness_MPa", "MPa", "hardness", "hardness, likewise", 0, told}, &S::hardness)
      .number({"shakedown_exceedance", "-", "shakedown exceedance", "largest of all wheels in the stage", 2, told},
              &S::shakedown)
      .number({"surface_fatigue_index", "-", "surface fatigue index", "largest of all wheels in the stage", 3, told},
              &S::fatigue_index)
      .number({"wear_depth_mm", "mm", "wear depth", "deepest node after the stage", 3, told}, &S::wear_depth);
}

// The case's own wheel on the steel as each stage finds it: every stage brings the same share of wheels to a place.
void add_contacts_in_stages(Tree& tree, const assess::ContactTrail& trail, const assess::Steel& steel,
                            const assess::DamageOptions& options, const assess::TrafficDamage& t) {
  const std::size_t stages = t.stages.size();
  std::vector<double> yield, shakedown, index;
  for (std::size_t i = 0; i < stages; ++i) {
    const double share = static_cast<double>(i) / static_cast<double>(stages);
    for (const auto& at : assess::steel_along(trail, steel, options, &t.maps, share)) {
      yield.push_back(at.shear_yield);
      shakedown.push_back(at.shakedown);
      index.push_back(at.fatigue_index);
    }
  }
  Filler filler(tree, "traffic/contacts");
  const Filler::Dims dims{{"stage", stages}, {"contact", trail.steps.size()}};
  const std::string tail = " for the case's own wheel at the begin of each stage";
  filler.table({"shear_yield_MPa", "MPa", "shear yield", "yield in shear" + tail, 0, stored}, dims, yield);
  filler.table({"shakedown_exceedance", "-", "shakedown exceedance",
                "load factor over its elastic shakedown limit" + tail, 2, stored},
               dims, shakedown);
  filler.table({"surface_fatigue_index", "-", "surface fatigue index", "surface fatigue index" + tail, 3, stored}, dims,
               index);
}

void add_wheels(Tree& tree, const Traffic& t) {
  const auto& members = t.population.members;
  const double all = std::accumulate(members.begin(), members.end(), 0.0,
                                     [](double sum, const cases::Member& m) { return sum + m.weight; });
  Filler filler(tree, "traffic/population");
  Columns(filler, "wheel", members)
      .text({"name", "wheel", "names of the wheels", stored}, &cases::Member::name)
      .text({"class", "class", "their classes", stored},
            [&](const cases::Member& m) { return t.population.classes[m.wheel_class].name; })
      .number({"share", "-", "share", "of the wheels asked for", 4, stored},
              [all](const cases::Member& m) { return m.weight / all; });
  using M = TrafficMember;
  Columns(filler, "wheel", t.members)
      .text({"failure", "", "why there is no damage; empty: there is", stored}, &M::failure)
      .number({"wheels", "-", "wheels", "of this kind in the traffic, 0 where it failed", 0, stored}, &M::wheels)
      .number({"lateral_offset_mm", "mm", "lateral offset", "shift of the wheelset", 2, stored}, &M::lateral_offset);
  std::vector<const assess::Assessment*> passages;
  for (const M& m : t.members) {
    passages.push_back(&m.passage);
  }
  std::vector<const quantity::Quantity*> list{quantity::find("speed_km_h"), quantity::find("static_load_kN")};
  for (const auto* q : quantity::compared(true)) {
    if (quantity::of_steel(*q)) {
      list.push_back(q);
    }
  }
  quantity::add_measures(tree, "traffic/population", "wheel", passages, list, {}, stored);
}

// Per class, then over all.
void add_classes(Tree& tree, const Traffic& t) {
  struct Sum {
    std::string name;
    double kinds = 0.0, failed = 0.0, wheels = 0.0, load = 0.0;
    double shakedown = -1.0, index = -1.0, t_gamma = -1.0;
  };
  std::vector<Sum> sums;
  for (const auto& k : t.population.classes) {
    sums.push_back({k.name});
  }
  sums.push_back({"all wheels"});
  for (std::size_t m = 0; m < t.members.size(); ++m) {
    const TrafficMember& one = t.members[m];
    for (Sum* sum : {&sums[t.population.members[m].wheel_class], &sums.back()}) {
      sum->kinds += 1.0;
      sum->failed += one.failure.empty() ? 0.0 : 1.0;
      if (one.passage.steel) {
        sum->wheels += one.wheels;
        sum->load += one.wheels * one.passage.measures->static_load;
        sum->shakedown = std::max(sum->shakedown, one.passage.steel->shakedown.value);
        sum->index = std::max(sum->index, one.passage.steel->fatigue_index.value);
        sum->t_gamma = std::max(sum->t_gamma, one.passage.steel->t_gamma.value);
      }
    }
  }
  const auto largest = [](double Sum::*member) {
    return [member](const Sum& s) { return s.wheels > 0.0 ? s.*member : std::numeric_limits<double>::quiet_NaN(); };
  };
  Columns(Filler(tree, "traffic/classes", "Wheels of the traffic; largest values of one wheel over new steel",
                 Layout::columns),
          "class", sums)
      .text({"name", "class", "class of wheels; the last line is of all"}, &Sum::name)
      .number({"kinds", "-", "kinds", "wheels of the population", 0}, &Sum::kinds)
      .number({"failed", "-", "failed", "of them without damage", 0}, &Sum::failed)
      .number({"share_percent", "%", "share", "share of the traffic", 1},
              [&](const Sum& s) { return s.wheels / sums.back().wheels; })
      .number({"mean_load_kN", "kN", "mean load", "mean static wheel load", 1},
              [](const Sum& s) { return s.load / s.wheels; })
      .number({"shakedown_exceedance", "-", "shakedown", "largest shakedown exceedance", 2}, largest(&Sum::shakedown))
      .number({"surface_fatigue_index", "-", "fatigue index", "largest surface fatigue index", 3}, largest(&Sum::index))
      .number({"t_gamma_N", "N", "T-gamma", "largest T-gamma", 1}, largest(&Sum::t_gamma));
}

} // namespace

std::optional<DamageStudy> study_damage(const cases::Document& document, const TrafficOptions* options,
                                        const cases::Population* wheels) {
  const Case& c = document.base();
  if (options != nullptr) {
    check(*options);
  }
  Result result = run(c);
  DamageStudy s;
  s.trail = contact_trail(c, result.geometry, result.history);
  s.damage = assess::damage(s.trail, cases::steel_of(c), c.damage);
  s.assessment = std::move(result.assessment);
  s.assessment.steel = s.damage;
  s.assessment.findings.insert(s.assessment.findings.end(), s.damage.findings.begin(), s.damage.findings.end());
  s.crossing = std::move(result.geometry.crossing);
  s.findings = s.assessment.findings;
  if (options != nullptr) {
    s.traffic = traffic(document, wheels != nullptr ? *wheels : own_wheel(), *options);
    if (!s.traffic) {
      return std::nullopt;
    }
    s.findings.insert(s.findings.end(), s.traffic->damage.findings.begin(), s.traffic->damage.findings.end());
  }
  return s;
}

Tree tell(const Case& c, const DamageStudy& s, std::string_view text, std::span<const cases::InputFile> inputs) {
  const assess::Steel steel = cases::steel_of(c);
  Tree tree("damage");
  add_heading(tree, c, move_of(c));
  for (const auto section : {quantity::Section::wheel_path, quantity::Section::passage, quantity::Section::steel}) {
    quantity::add_measures(tree, s.assessment, section, {}, told); // in print the steel's stand with their places
  }
  add_places(tree, steel, c.damage, s.assessment);
  add_steel_and_limits(tree, steel, c.damage);
  add_contacts(tree, s.trail, steel, c.damage);
  for (const auto& map : s.damage.maps) {
    add_map(tree, "passage", map);
  }
  if (s.crossing) {
    add_edges(tree, *s.crossing, s.traffic ? s.traffic->damage.maps : s.damage.maps);
  }
  if (s.traffic) {
    const Traffic& t = *s.traffic;
    if (t.members.size() > 1) {
      add_classes(tree, t);
    }
    add_sums(tree, t,
             t.members.size() > 1 ? "Traffic of " + std::to_string(t.members.size()) + " kinds of wheels"
                                  : "Traffic of such wheels");
    add_contacts_in_stages(tree, s.trail, steel, c.damage, t.damage);
    add_wheels(tree, t);
    for (const auto& map : t.damage.maps) {
      add_map(tree, "traffic", map);
    }
    Filler(tree, "traffic").text({"text", "", "the file of the traffic as read", stored}, std::string(text));
  }
  std::vector<std::string> rest{"Steel " + steel.name + ": " + steel.trust};
  const auto more = assess::assumptions_of_steel(s.trail);
  rest.insert(rest.end(), more.begin(), more.end());
  add_assumptions(tree, "What the numbers of the steel rest on", "assumptions/steel", std::move(rest));
  quantity::add_findings(tree, s.findings);
  add_case(tree, c, inputs);
  return tree;
}

} // namespace wingnose::study
