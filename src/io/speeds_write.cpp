#include "hdf5_handle.hpp"
#include "whole_file.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/speeds_output.hpp"
#include "wingnose/version.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <limits>

namespace wingnose::io {
namespace {

namespace fs = std::filesystem;
using Values = std::vector<double>;
constexpr double none = std::numeric_limits<double>::quiet_NaN();

double km_h(std::optional<double> speed) { return speed ? *speed * 3.6 : none; }

// "GM/TT0088" would make a group in a group.
std::string group_name(std::string set) {
  std::replace(set.begin(), set.end(), '/', '-');
  return set;
}

template <class List, class Get> Values collect(const List& list, Get get) {
  Values values;
  for (const auto& one : list) {
    values.push_back(get(one));
  }
  return values;
}

void write_head(hid_t file, const study::Case& c, const study::SpeedStudy& s) {
  h5::write_attribute(file, "format", std::string("wingnose speeds"));
  h5::write_attribute(file, "schema_version", speeds_schema_version);
  h5::write_attribute(file, "version", std::string(version));
  h5::write_attribute(file, "commit", std::string(commit));
  h5::write_attribute(file, "name", c.name);
  h5::write_attribute(file, "excitation", s.geometry.path ? s.geometry.path->excitation : std::string());
  h5::write_attribute(file, "vehicle", c.vehicle.name);
  h5::write_attribute(file, "caution", std::string(caution));
  for (const auto& measure : geometry_measures()) {
    h5::write_numbers(file, "measures/" + measure.key, {measure.value(s.geometry).value_or(none)}, true, measure.unit,
                      measure.description);
  }
}

void write_points(hid_t file, const study::SpeedStudy& s) {
  const auto list = passage_measures();
  std::vector<Values> columns(list.size());
  for (const auto& point : s.points) {
    const auto values = measures_at(point);
    for (std::size_t i = 0; i < list.size(); ++i) {
      columns[i].push_back(values[i].value_or(none));
    }
  }
  for (std::size_t i = 0; i < list.size(); ++i) {
    h5::write_numbers(file, "speeds/" + list[i].key, columns[i], false, list[i].unit,
                      list[i].description + "; one value per speed");
  }
  const auto of_steel = s.steel ? steel_measures() : std::vector<SteelMeasure>{};
  for (std::size_t i = 0; i < of_steel.size(); ++i) {
    h5::write_numbers(file, "speeds/" + of_steel[i].key,
                      collect(s.points, [i](const auto& p) { return steel_at(p)[i].value_or(none); }), false,
                      of_steel[i].unit, of_steel[i].description + "; one value per speed");
  }
  const auto& sets = s.points.front().estimates;
  for (std::size_t e = 0; e < sets.size(); ++e) {
    const std::string group = "closed_form/" + group_name(sets[e].track_name) + "/";
    const std::string on = " after Jenkins et al. 1974 on the track " + sets[e].track_name + "; one value per speed";
    h5::write_numbers(file, group + "p1_kN",
                      collect(s.points, [e](const auto& p) { return p.estimates[e].forces.P1 * 1e-3; }), false, "kN",
                      "P1" + on);
    h5::write_numbers(file, group + "p2_kN",
                      collect(s.points, [e](const auto& p) { return p.estimates[e].forces.P2 * 1e-3; }), false, "kN",
                      "P2" + on);
    h5::write_texts(file, group + "assumptions", {sets[e].assumptions}, "what the closed form rests on");
  }
}

void write_failures(hid_t file, const study::SpeedStudy& s) {
  std::vector<std::string> reasons;
  for (const auto& failure : s.failures) {
    reasons.push_back(failure.reason);
  }
  h5::write_numbers(file, "failures/speed_km_h", collect(s.failures, [](const auto& f) { return km_h(f.speed); }),
                    false, "km/h", "scanned speeds without a passage; no limit counts as kept there");
  h5::write_texts(file, "failures/reason", reasons, "why");
}

void write_limits(hid_t file, const study::SpeedStudy& s) {
  std::vector<std::string> keys, units, kinds, sources, outcomes, again;
  Values values;
  for (std::size_t i = 0; i < s.limits.size(); ++i) {
    const LimitQuantity q = limit_quantity(s.limits[i].quantity);
    keys.push_back(q.key);
    units.push_back(q.unit);
    kinds.emplace_back(study::is_lower_limit(q.quantity) ? "at least" : "at most");
    sources.push_back(s.limits[i].source);
    outcomes.emplace_back(outcome_name(s.answers[i].outcome));
    values.push_back(s.limits[i].value * q.per_si);
    std::string intervals;
    for (const auto& interval : s.answers[i].kept_again) {
      intervals += (intervals.empty() ? "" : ", ") + number(km_h(interval.from)) + " to " + number(km_h(interval.to));
    }
    again.push_back(intervals);
  }
  h5::write_texts(file, "limits/quantity", keys, "what is limited");
  h5::write_texts(file, "limits/kind", kinds, "whether the value is the most or the least allowed");
  h5::write_numbers(file, "limits/value", values, false, "see limits/value_unit", "value of each limit");
  h5::write_texts(file, "limits/value_unit", units, "unit of each limit's value");
  h5::write_texts(file, "limits/source", sources, "where each limit comes from; empty: not named");
  h5::write_texts(file, "limits/outcome", outcomes,
                  "found: kept at all scanned speeds up to the permissible one; not_reached: kept at all scanned "
                  "speeds; broken_at_lowest: broken at the lowest scanned speed");
  h5::write_numbers(file, "limits/permissible_speed_km_h",
                    collect(s.answers, [](const auto& a) { return km_h(a.speed); }), false, "km/h",
                    "highest speed below which every scanned speed keeps the limit; not a number unless found");
  h5::write_numbers(file, "limits/first_broken_km_h",
                    collect(s.answers, [](const auto& a) { return km_h(a.first_broken); }), false, "km/h",
                    "lowest scanned speed that breaks the limit");
  h5::write_texts(file, "limits/kept_again_km_h", again,
                  "scanned speeds above the first break that keep the limit again, in km/h: not monotone in speed");
  h5::write_numbers(file, "permissible/speed_km_h", {km_h(s.permissible.speed)}, true, "km/h",
                    "lowest permissible speed over all limits; not a number unless one was found");
  h5::write_texts(file, "permissible/outcome",
                  {s.limits.empty() ? std::string("no_limits") : std::string(outcome_name(s.permissible.outcome))},
                  "as limits/outcome, over all limits");
  h5::write_texts(file, "permissible/governed_by",
                  {s.permissible.governs ? keys[*s.permissible.governs] : std::string()}, "the limit that governs");
}

void write_changes(hid_t file, const study::SpeedStudy& s) {
  const auto changes = speed_changes(s);
  if (changes.empty()) {
    return;
  }
  h5::write_numbers(file, "change/today_km_h", {km_h(s.points[*s.today].speed)}, true, "km/h", "today's speed");
  h5::write_numbers(file, "change/proposed_km_h", {km_h(s.points[*s.proposed].speed)}, true, "km/h", "proposed speed");
  std::vector<std::string> keys, units;
  for (const auto& change : changes) {
    keys.push_back(change.key);
    units.push_back(change.unit);
  }
  h5::write_texts(file, "change/quantity", keys, "what changes; closed forms are the last ones");
  h5::write_texts(file, "change/value_unit", units, "unit of today, proposed and difference");
  const std::string unit = "see change/value_unit";
  h5::write_numbers(file, "change/today", collect(changes, [](const auto& c) { return c.today.value_or(none); }), false,
                    unit, "value at today's speed");
  h5::write_numbers(file, "change/proposed", collect(changes, [](const auto& c) { return c.proposed.value_or(none); }),
                    false, unit, "value at the proposed speed");
  h5::write_numbers(file, "change/difference",
                    collect(changes, [](const auto& c) { return c.difference.value_or(none); }), false, unit,
                    "proposed less today");
  h5::write_numbers(file, "change/difference_percent",
                    collect(changes, [](const auto& c) { return c.percent.value_or(none); }), false, "%",
                    "difference in per cent of today's value");
}

void write_texts(hid_t file, const study::Case& c, const study::SpeedStudy& s) {
  std::vector<std::string> inputs;
  for (const auto& input : c.inputs) {
    inputs.push_back(input.role + "\t" + input.path + "\t" + input.sha256);
  }
  h5::write_texts(file, "case/text", {c.source_text}, "the case file as read; its own speed is not used");
  h5::write_texts(file, "case/keys", case_keys(c), "every key the case rests on, given or default");
  h5::write_texts(file, "case/inputs", inputs, "input files: role, name, SHA-256, separated by tabs");
  h5::write_texts(file, "notes/warnings", s.warnings, "what must not be overlooked");
  h5::write_texts(file, "notes/wheel_path", contact::sentences(s.geometry.kinematics.findings),
                  "warnings of the wheel path");
  h5::write_texts(file, "notes/speeds", s.notes, "what a reader must know beside the numbers");
  if (s.steel) {
    h5::write_texts(file, "steel/name", {s.steel_name}, "steel of wing and nose");
    h5::write_numbers(file, "steel/friction", {s.friction}, true, "-", "coefficient of friction");
    h5::write_texts(file, "notes/steel", s.steel_assumptions, "what the numbers of the steel rest on");
  }
}

} // namespace

void write_speeds(const fs::path& file, const study::Case& c, const study::SpeedStudy& study) {
  check_result_target(file);
  if (study.points.empty()) {
    throw InputError("the study holds no speeds and cannot be stored; run it first");
  }
  write_whole(file, [&](hid_t target) {
    write_head(target, c, study);
    write_points(target, study);
    write_failures(target, study);
    write_limits(target, study);
    write_changes(target, study);
    write_texts(target, c, study);
  });
}

} // namespace wingnose::io
