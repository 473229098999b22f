#include "compare_layout.hpp"
#include "whole_file.hpp"

#include "wingnose/version.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace wingnose::io {
namespace {

namespace fs = std::filesystem;
constexpr double none = std::numeric_limits<double>::quiet_NaN();

using Group = compare::Group;
using compare::collect;

void write_steel(hid_t file, const study::Comparison& c) {
  const Group all(file, "crossings/");
  all.texts("steel", collect(c.crossings, [](const auto& x) { return x.steel; }), "steel of wing and nose");
  all.numbers("friction", collect(c.crossings, [](const auto& x) { return x.friction; }), "-",
              "coefficient of friction");
  all.numbers("beyond_shakedown_share", collect(c.crossings, [](const auto& x) { return x.beyond_shakedown; }), "-",
              "share of the weight of the wheels compared that lie beyond elastic shakedown");
  all.numbers("beyond_surface_flow_share", collect(c.crossings, [](const auto& x) { return x.beyond_surface_flow; }),
              "-", "share of the weight of the wheels compared with a surface fatigue index above 0");
  Group(file, "texts/").texts("steel_assumptions", c.steel_assumptions, "what the numbers of the steel rest on");
}

void write_head(hid_t file, std::span<const study::ComparedCrossing> crossings, const study::Comparison& c,
                std::string_view source_text) {
  h5::write_attribute(file, "format", std::string("wingnose comparison"));
  h5::write_attribute(file, "schema_version", compare_schema_version);
  h5::write_attribute(file, "version", std::string(version));
  h5::write_attribute(file, "commit", std::string(commit));
  h5::write_attribute(file, "caution", std::string(caution));
  const Group options(file, "options/");
  options.scalar("thin_nose_mm", 1e3 * c.options.thin_nose, "mm", "a transfer onto a thinner nose is early");
  options.scalar("confidence", c.options.confidence, "-", "of the intervals");
  options.scalar("resamples", static_cast<double>(c.options.resamples), "-", "of the bootstrap");
  options.scalar("seed", static_cast<double>(c.options.seed), "-", "of the bootstrap");
  options.scalar("population_count", static_cast<double>(c.population.members.size()), "-", "wheels");
  options.scalar("effective_count", c.effective_count, "-", "equal wheels that would say as much (Kish 1965)");
  const Group of_case(file, "case/");
  of_case.texts("text", {std::string(source_text)}, "the comparison file as read");
  of_case.texts("inputs", collect(c.inputs, [](const auto& x) { return x.role + "\t" + x.path + "\t" + x.sha256; }),
                "files the comparison came from: role, name, SHA-256, separated by tabs");
  const Group all(file, "crossings/");
  all.texts("name", collect(c.crossings, [](const auto& x) { return x.name; }),
            "crossings; the first is the reference");
  all.texts("case_name", collect(crossings, [](const auto& x) { return x.document.base().name; }), "name of each case");
  all.texts("case_text", collect(crossings, [](const auto& x) { return x.document.base().source_text; }),
            "case file of each crossing as read");
  all.numbers("failed_share", collect(c.crossings, [](const auto& x) { return x.failed; }), "-",
              "share of the weight of all wheels that could not be computed, those without transfer left out");
  all.numbers("no_transfer_share", collect(c.crossings, [](const auto& x) { return x.no_transfer; }), "-",
              "share of the weight of all wheels that never change over between wing and nose");
  all.numbers("lost_contact_share", collect(c.crossings, [](const auto& x) { return x.loses_contact; }), "-",
              "share of the weight of the wheels compared that lose contact");
  all.numbers("early_share", collect(c.crossings, [](const auto& x) { return x.early; }), "-",
              "share of the weight of the wheels compared that transfer onto a thin nose");
  if (c.options.steel) {
    write_steel(file, c);
  }
}

struct AsNumber {
  double operator()(double value) const { return value; }
  double operator()(const std::string&) const { return none; }
};
struct AsText {
  std::string operator()(double value) const { return number(value); }
  std::string operator()(const std::string& value) const { return value; }
};

void write_inputs(hid_t file, std::span<const study::ComparedCrossing> crossings, const study::Comparison& c) {
  std::map<std::string, std::vector<const KeyValue*>> keys;
  const auto& members = c.population.members;
  for (std::size_t m = 0; m < members.size(); ++m) {
    for (const auto& value : members[m].values) {
      keys.try_emplace(value.key, members.size(), nullptr).first->second[m] = &value.value;
    }
  }
  const Group inputs(file, "members/input/");
  for (const auto& [key, values] : keys) {
    const bool text = std::any_of(values.begin(), values.end(), [](const KeyValue* value) {
      return value != nullptr && std::holds_alternative<std::string>(*value);
    });
    const auto [unit, meaning] = compared_key(crossings, c.population, key);
    if (text) {
      inputs.texts(key, collect(values, [](const KeyValue* v) { return v == nullptr ? "" : std::visit(AsText{}, *v); }),
                   meaning);
    } else {
      inputs.numbers(
          key, collect(values, [](const KeyValue* v) { return v == nullptr ? none : std::visit(AsNumber{}, *v); }),
          unit, meaning);
    }
  }
}

void write_members(hid_t file, const study::Comparison& c) {
  const auto& members = c.population.members;
  const auto& classes = c.population.classes;
  const Group group(file, "members/");
  double total = 0.0;
  std::vector<double> of_class(classes.size(), 0.0);
  for (const auto& member : members) {
    total += member.weight;
    of_class[member.wheel_class] += member.weight;
  }
  group.texts("name", collect(members, [](const auto& m) { return m.name; }), "name of each wheel");
  group.texts("class", collect(members, [&](const auto& m) { return classes[m.wheel_class].name; }),
              "class of each wheel");
  group.numbers("share", collect(members, [](const auto& m) { return m.weight; }), "-", "share of the weight",
                1.0 / total);
  group.numbers("compared", collect(c.compared, [](bool compared) { return compared ? 1.0 : 0.0; }), "-",
                "1: computed on all crossings, and so compared");
  const auto& first = c.crossings.front().members;
  group.numbers("speed_km_h", collect(first, [](const auto& m) { return m.speed; }), "km/h",
                "speed, on the first crossing", 3.6);
  group.numbers("static_load_kN", collect(first, [](const auto& m) { return m.static_load; }), "kN",
                "static wheel load, on the first crossing", 1e-3);
  group.numbers("lateral_offset_mm", collect(first, [](const auto& m) { return m.lateral_offset; }), "mm",
                "lateral offset, on the first crossing", 1e3);
  const Group of_classes(file, "classes/");
  of_classes.texts("name", collect(classes, [](const auto& k) { return k.name; }), "wheel classes");
  of_classes.numbers("share", of_class, "-", "share of the weight of all wheels", 1.0 / total);
}

void write_quantities(hid_t file, const study::Comparison& c) {
  const auto list = compared_quantities(c.options.steel);
  const Group quantities(file, "quantities/");
  quantities.texts("key", collect(list, [](const auto& q) { return q.key; }), "quantities observed of each passage");
  quantities.texts("label", collect(list, [](const auto& q) { return q.label; }), "name in print");
  quantities.texts("unit", collect(list, [](const auto& q) { return q.unit; }), "unit of each");
  const auto statistics = collect(c.rankings, [](const auto& r) { return named(r.criterion); });
  const Group criteria(file, "criteria/");
  criteria.texts("key", collect(statistics, [](const auto& s) { return s.key; }), "what crossings are ranked by");
  criteria.texts("label", collect(statistics, [](const auto& s) { return s.label; }), "name in print");
  criteria.texts("unit", collect(statistics, [](const auto& s) { return s.unit; }), "unit of each");
  criteria.texts(
      "better",
      collect(c.rankings, [](const auto& r) { return std::string(r.criterion.higher_is_better ? "higher" : "lower"); }),
      "which values are better");
}

void write_rankings(hid_t file, const study::Comparison& c) {
  for (std::size_t i = 0; i < c.crossings.size(); ++i) {
    const Group group(file, "ranking/" + std::to_string(i) + "/");
    group.numbers("value", collect(c.rankings, [i](const auto& r) { return r.values[i] * named(r.criterion).per_si; }),
                  "see criteria/unit", "value by each criterion");
    group.numbers("rank", collect(c.rankings, [i](const auto& r) { return static_cast<double>(r.places[i]); }), "-",
                  "place by each criterion, 1 is best; equal values share a place");
    group.numbers("apart_from_next",
                  collect(c.rankings,
                          [i](const auto& r) {
                            const auto at = static_cast<std::size_t>(std::find(r.order.begin(), r.order.end(), i) -
                                                                     r.order.begin());
                            return at >= r.apart.size() ? none : r.apart[at] ? 1.0 : 0.0;
                          }),
                  "-", "1: the interval of the difference to the next place does not hold 0; none for the last place");
  }
  for (std::size_t k = 0; k < c.groups.size(); ++k) {
    for (std::size_t i = 0; i < c.crossings.size(); ++i) {
      const auto& rankings = c.groups[k].rankings;
      const Group group(file, "groups/" + std::to_string(k) + "/crossing/" + std::to_string(i) + "/");
      group.numbers("value", collect(rankings, [i](const auto& r) { return r.values[i] * named(r.criterion).per_si; }),
                    "see criteria/unit", "value by each criterion within the group");
      group.numbers("rank", collect(rankings, [i](const auto& r) { return static_cast<double>(r.places[i]); }), "-",
                    "place by each criterion within the group");
    }
  }
  for (std::size_t k = 0; k < c.groups.size(); ++k) {
    Group(file, "groups/" + std::to_string(k) + "/")
        .numbers("flips", collect(c.groups[k].flips, [](bool flips) { return flips ? 1.0 : 0.0; }), "-",
                 "1: by this criterion another crossing is best within the group, and clearly");
  }
  const Group groups(file, "groups/");
  groups.texts("name", collect(c.groups, [](const auto& g) { return g.name; }), "some of the wheels");
  groups.texts("kind",
               collect(c.groups,
                       [](const auto& g) {
                         return std::string(g.kind == study::Group::Kind::wheel_class ? "class"
                                            : g.kind == study::Group::Kind::speed     ? "speed"
                                                                                      : "load");
                       }),
               "by what the wheels are taken");
  groups.numbers("share", collect(c.groups, [](const auto& g) { return g.share; }), "-",
                 "share of the weight of the wheels compared");
}

void write_differences(hid_t file, const study::Comparison& c) {
  std::map<std::size_t, std::vector<study::Difference>> by_crossing;
  for (const auto& d : c.differences) {
    by_crossing[d.crossing].push_back(d);
  }
  for (const auto& [i, list] : by_crossing) {
    const auto per_si = [](const study::Difference& d) { return named(d.statistic).per_si; };
    if (i == by_crossing.begin()->first) {
      const Group all(file, "differences/");
      all.texts("key", collect(list, [](const auto& d) { return named(d.statistic).key; }), "what differs");
      all.texts("label", collect(list, [](const auto& d) { return named(d.statistic).label; }), "name in print");
      all.texts("unit", collect(list, [](const auto& d) { return named(d.statistic).unit; }), "unit of each");
    }
    const std::string unit = "see differences/unit", of = ", the crossing less the reference";
    const Group group(file, "differences/" + std::to_string(i) + "/");
    group.numbers("value", collect(list, [&](const auto& d) { return d.value * per_si(d); }), unit, "difference" + of);
    group.numbers("low", collect(list, [&](const auto& d) { return d.low * per_si(d); }), unit,
                  "lower end of the bootstrap interval" + of);
    group.numbers("high", collect(list, [&](const auto& d) { return d.high * per_si(d); }), unit,
                  "upper end of the bootstrap interval" + of);
    group.numbers("higher_share", collect(list, [](const auto& d) { return d.higher; }), "-",
                  "share of wheels whose quantity is higher than on the reference");
  }
}

} // namespace

void write_comparison(const fs::path& file, std::span<const study::ComparedCrossing> crossings,
                      const study::Comparison& c, std::string_view source_text) {
  check_result_target(file);
  if (c.crossings.empty() || crossings.size() != c.crossings.size()) {
    throw InputError("the comparison holds " + std::to_string(c.crossings.size()) + " crossings and " +
                     std::to_string(crossings.size()) + " are given; give those that were compared");
  }
  write_whole(file, [&](hid_t target) {
    write_head(target, crossings, c, source_text);
    write_members(target, c);
    write_inputs(target, crossings, c);
    write_quantities(target, c);
    for (std::size_t i = 0; i < c.crossings.size(); ++i) {
      write_crossing(target, c, i);
    }
    write_rankings(target, c);
    write_differences(target, c);
    const Group texts(target, "texts/");
    texts.texts("dependence", c.dependence, "what the ranking depends on");
    texts.texts("warnings", c.warnings, "early transfers onto a thin nose");
    texts.texts("notes", c.notes, "what a reader must know beside the numbers");
  });
}

} // namespace wingnose::io
