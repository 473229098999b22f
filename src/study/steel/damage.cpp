// What the landing does to the steel, and the same as a tree.
#include "wingnose/study/damage.hpp"

#include "tell.hpp"

#include "wingnose/assess/damage_along.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace wingnose::study {
namespace {

using quantity::Quantity;

// All wheels like the case's own.
cases::Population own_wheel() { return {{{"as in the case", 1.0, {}, {}}}, {{"the wheel of the case", 0, 1.0, {}}}}; }

std::string in_MPa(double pressure) { return fixed(pressure * 1e-6, 0) + " MPa"; }

// --- of the case's own wheel -----------------------------------------------------------------------------------------

// Largest values and where they are reached.
void add_places(Tree& tree, const assess::Steel& steel, const assess::DamageOptions& options,
                const assess::Assessment& a) {
  const auto rows = quantity::of_section(quantity::Section::steel);
  const auto place = [&a](const Quantity* q) {
    const auto* peak = q->uses.place != nullptr ? q->uses.place(a) : nullptr;
    return peak != nullptr ? *peak : assess::DamagePeak{none, "", none, none, none};
  };
  const auto at = [&](double assess::DamagePeak::*of) { return [=](const Quantity* q) { return place(q).*of; }; };
  Columns(Filler(tree, "places",
                 "Steel under one wheel: " + steel.name + ", k " + in_MPa(assess::shear_yield(steel)) + ", friction " +
                     number(options.friction),
                 Layout::columns),
          "place", rows)
      .text({"label", "", "what is largest there"}, &Quantity::label)
      .text({"value_text", "largest", "its value, as printed"},
            [&](const Quantity* q) { return fixed(quantity::value(*q, a), q->decimals); })
      .text({"value_unit", "unit", "its unit"}, [](const Quantity* q) { return shown(q->unit); })
      .text({"body", "on", "body it is reached on; empty: a sum"}, [&](const Quantity* q) { return place(q).body; })
      .text({"key", "", "its key", told}, &Quantity::key)
      .number({"station_mm", "station", "station of the patch", 0}, at(&assess::DamagePeak::x))
      .number({"y_mm", "y", "of the patch, from the track centre line", 1}, at(&assess::DamagePeak::y))
      .number({"time_ms", "", "when", 2, told}, at(&assess::DamagePeak::time));
}

void add_steel_and_limits(Tree& tree, const assess::Steel& steel, const assess::DamageOptions& options) {
  Filler filler(tree, "steel");
  filler.text({"name", "steel", "grade of wing and nose", told}, steel.name);
  filler.text({"trust", "", "where its values come from", told}, steel.trust);
  add_values(filler, &steel, assess::new_steel_columns, told);
  filler.number({"friction", "friction", "coefficient of friction", 2, told}, options.friction);
  add_values(filler, &steel, assess::hardened_columns, told);
  add_columns(Filler(tree, "limits"), "traction_coefficient",
              assess::limits_over_traction(assess::shakedown_map(options.shakedown_shape)), assess::shakedown_columns,
              stored);
}

void add_contacts(Tree& tree, const assess::ContactTrail& trail, const assess::Steel& steel,
                  const assess::DamageOptions& options) {
  Filler filler(tree, "contacts");
  Columns(filler, "contact", trail.steps)
      .text({"body", "body", "body each contact lies on", stored},
            [&](const assess::RollingStep& s) { return trail.bodies[s.body]; });
  add_columns(filler, "contact", trail.steps, assess::rolling_columns, stored);
  add_columns(filler, "contact", assess::steel_along(trail, steel, options), assess::steel_columns, stored);
}

void add_map(Tree& tree, const std::string& part, const assess::DamageMap& map) {
  const assess::Grid& g = map.grid;
  if (g.size() == 0) {
    return;
  }
  Filler filler(tree, part + "/" + map.body);
  filler.list({"x_mm", "station", "stations of the nodes", 1, stored}, "x_mm", g.all_x());
  filler.list({"y_mm", "y", "nodes from the track centre line", 2, stored}, "y_mm", g.all_y());
  for (const auto& column : assess::map_columns) {
    filler.table(named_by(column, stored), {{"x_mm", g.count_x}, {"y_mm", g.count_y}}, column(map));
  }
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
  for (const auto& body : crossing.bodies) {
    const auto [x, y] = layout::running_edge(body, from, to);
    if (!x.empty()) {
      Filler filler(tree, "edges/" + body.name);
      filler.list({"x_mm", "station", "stations of the running edge", 1, stored}, "x_mm", x);
      filler.list({"y_mm", "y", "running edge from the track centre line, in plan", 2, stored}, "x_mm", y);
    }
  }
}

// --- of the traffic --------------------------------------------------------------------------------------------------

void add_sums(Tree& tree, const Traffic& t, std::string title) {
  Filler sums(tree, "traffic", std::move(title), Layout::rows);
  sums.number({"tonnage_MGT", "tonnage", "million gross tonnes, both rails", 2}, t.tonnage);
  add_values(sums, &t.damage, assess::traffic_columns);
  sums.number({"wear_holds_MGT", "wear told up to", "tonnage after which the deepest node changes the shape", 2},
              t.tonnage * t.damage.wear_wheels / t.damage.wheels);
  sums.number({"failed", "wheels that failed", "kinds of wheels without damage", 0, told},
              static_cast<double>(t.failed));
  sums.number({"failed_share", "", "their share of the weight", 3, told}, t.failed_share);
  add_columns(Filler(tree, "traffic/stages"), "stage", t.damage.stages, assess::stage_columns, told);
}

// The case's own wheel on the steel as each stage finds it: every stage brings the same share of wheels to a place.
void add_contacts_in_stages(Tree& tree, const assess::ContactTrail& trail, const assess::Steel& steel,
                            const assess::DamageOptions& options, const assess::TrafficDamage& t) {
  const std::size_t stages = t.stages.size();
  std::vector<assess::SteelUnderContact> all;
  for (std::size_t i = 0; i < stages; ++i) {
    const double share = static_cast<double>(i) / static_cast<double>(stages);
    const auto along = assess::steel_along(trail, steel, options, &t.maps, share);
    all.insert(all.end(), along.begin(), along.end());
  }
  Filler filler(tree, "traffic/contacts");
  for (const auto& column : assess::hardening_columns) {
    std::vector<double> values(all.size());
    std::transform(all.begin(), all.end(), values.begin(), column);
    filler.table(named_by(column, stored), {{"stage", stages}, {"contact", trail.steps.size()}}, std::move(values));
  }
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
      .number({"share", "share", "of the wheels asked for", 4, stored},
              [all](const cases::Member& m) { return m.weight / all; });
  using M = TrafficMember;
  Columns(filler, "wheel", t.members)
      .text({"failure", "", "why there is no damage; empty: there is", stored}, &M::failure)
      .number({"wheels", "wheels", "of this kind in the traffic, 0 where it failed", 0, stored}, &M::wheels)
      .number({"lateral_offset_mm", "lateral offset", "shift of the wheelset", 2, stored}, &M::lateral_offset);
  const auto passages = each(t.members, [](const M& m) { return &m.passage; });
  std::vector<const Quantity*> list{quantity::find("speed_km_h"), quantity::find("static_load_kN")};
  for (const Quantity* q : quantity::of_section(quantity::Section::steel)) {
    if (q->uses.compared) {
      list.push_back(q);
    }
  }
  quantity::add_measures(tree, "traffic/population", "wheel", passages, list, {}, stored);
}

// Per class, then over all.
void add_classes(Tree& tree, const Traffic& t) {
  std::vector<assess::WheelSums> sums;
  for (const auto& k : t.population.classes) {
    sums.push_back({k.name});
  }
  sums.push_back({"all wheels"});
  for (std::size_t m = 0; m < t.members.size(); ++m) {
    const TrafficMember& one = t.members[m];
    for (assess::WheelSums* sum : {&sums[t.population.members[m].wheel_class], &sums.back()}) {
      sum->add(one.passage.steel ? &*one.passage.steel : nullptr, one.wheels,
               one.passage.measures ? one.passage.measures->static_load : 0.0);
    }
  }
  for (assess::WheelSums& sum : sums) {
    sum.share = sum.wheels / sums.back().wheels;
  }
  Filler filler(tree, "traffic/classes", "Wheels of the traffic; largest values of one wheel over new steel",
                Layout::columns);
  Columns(filler, "class", sums)
      .text({"name", "class", "class of wheels; the last line is of all"}, &assess::WheelSums::name);
  add_columns(filler, "class", sums, assess::wheel_sum_columns);
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
  append(s.assessment.findings, s.damage.findings);
  s.crossing = std::move(result.geometry.crossing);
  s.findings = s.assessment.findings;
  if (options != nullptr) {
    s.traffic = traffic(document, wheels != nullptr ? *wheels : own_wheel(), *options);
    if (!s.traffic) {
      return std::nullopt;
    }
    append(s.findings, s.traffic->damage.findings);
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
  add_end(tree, s.findings, c, inputs);
  return tree;
}

} // namespace wingnose::study
