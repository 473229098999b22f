// A study of speeds as a tree, and the change between two speeds.
#include "speeds_parts.hpp"
#include "tell.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::study {
namespace {

using quantity::Quantity;
using quantity::Section;

auto passages_of(const SpeedStudy& s) {
  return each(s.points, [](const SpeedPoint& p) { return &p.assessment; });
}

// Closed forms of all speeds by their track; a speed at which one does not exist holds none.
template <class Estimates> auto on_track(const Estimates& all, const std::string& track) {
  const auto e = std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.track_name == track; });
  return e == all.end() ? nullptr : &*e;
}
const assess::Estimate* estimate_on(const SpeedPoint& point, const std::string& track) {
  return on_track(point.assessment.estimates, track);
}

std::vector<std::string> tracks_of(const SpeedStudy& s) {
  std::vector<std::string> tracks;
  for (const SpeedPoint& p : s.points) {
    for (const auto& e : p.assessment.estimates) {
      if (std::find(tracks.begin(), tracks.end(), e.track_name) == tracks.end()) {
        tracks.push_back(e.track_name);
      }
    }
  }
  return tracks;
}

void add_points(Tree& tree, const SpeedStudy& s) {
  const auto passages = passages_of(s);
  std::vector<std::string_view> printed{"speed_km_h",     "p2_kN",          "p2_dynamic_factor",
                                        "peak_total_kN",  "dynamic_factor", "minimum_force_kN",
                                        "lost_contact_ms"};
  if (std::any_of(passages.begin(), passages.end(),
                  [](const auto* a) { return a->measures && a->measures->first_peak.has_value(); })) {
    printed.emplace_back("first_peak_kN");
  }
  if (s.geometry.crossing) {
    printed.emplace_back("peak_nose_kN");
  }
  const std::string dim = "speed_km_h";
  Filler speeds(tree, "speeds", "Force against speed", Layout::columns);
  std::vector sections{Section::passage, Section::track, Section::sensor};
  if (std::any_of(passages.begin(), passages.end(), [](const auto* a) { return a->guidance.has_value(); })) {
    printed = {"speed_km_h",     "sum_of_Y_2m_kN",         "Y_over_Q_2m", "wheel_unloading_2m_percent", "check_peak_kN",
               "nose_margin_mm", "flange_wear_power_2m_kW"};
    sections.push_back(Section::guidance);
  }
  for (const Section section : sections) {
    quantity::add_measures(tree, "speeds", dim, passages, quantity::of_section(section), printed);
  }
  std::vector<std::string> marks;
  std::vector<double> gravity;
  for (std::size_t i = 0; i < s.points.size(); ++i) {
    marks.emplace_back(s.today == i ? "today" : s.proposed == i ? "proposed" : "");
    gravity.push_back(static_cast<double>(gravest(s.points[i].assessment.findings)));
  }
  speeds.texts({"mark", "", "today's and the proposed speed"}, dim, std::move(marks));
  speeds.list(
      {"gravity", "gravity", "gravest finding at a speed: 0 none or a note, 1 a warning, 2 a grave one", 0, told}, dim,
      std::move(gravity));

  const auto tracks = tracks_of(s);
  const Dims both{{dim, s.points.size()}, {"lumped_track", tracks.size()}};
  const auto forces = [&](double closedform::JointForces::*of) {
    return grid(both, [&](std::size_t i, std::size_t k) {
      const auto* e = estimate_on(s.points[i], tracks[k]);
      return e != nullptr ? e->forces.*of : none;
    });
  };
  Filler closed(tree, "closed_form", "Closed forms (Jenkins et al. 1974): P2 in kN, by track", Layout::columns);
  Columns(closed, dim, s.points).number({"speed_km_h", "speed", "speed", 1}, &SpeedPoint::speed);
  closed.table({"p1_kN", "P1", "P1 after Jenkins et al. 1974, indicative only", 1, told}, both,
               forces(&closedform::JointForces::P1));
  closed.table({"p2_kN", "P2", "P2 after Jenkins et al. 1974", 1}, both, forces(&closedform::JointForces::P2));
  Filler(tree, "").texts({"lumped_track", "track", "lumped tracks of the closed forms", told}, "lumped_track", tracks);
}

void add_steel_points(Tree& tree, const Case& c, const SpeedStudy& s) {
  auto rows = quantity::of_section(Section::steel);
  std::vector<std::string_view> printed{"speed_km_h"};
  for (const Quantity* q : rows) {
    if (q->uses.compared) {
      printed.push_back(q->key);
    }
  }
  rows.insert(rows.begin(), quantity::find("speed_km_h"));
  const assess::Steel steel = cases::steel_of(c);
  Filler filler(tree, "steel",
                "What the landing does to the steel: " + steel.name + ", friction " + number(c.damage.friction),
                Layout::columns);
  filler.text({"name", "steel", "steel of wing and nose", told}, steel.name);
  filler.number({"friction", "friction", "coefficient of friction", 2, told}, c.damage.friction);
  quantity::add_measures(tree, "steel", "speed_km_h", passages_of(s), rows, printed);
}

Named speed_named(std::string name, std::string meaning) { return {std::move(name), {}, std::move(meaning), told}; }

void add_limits(Tree& tree, const SpeedStudy& s) {
  struct Row {
    const Limit& limit;
    const LimitAnswer& answer;
    std::string text;
  };
  std::vector<Row> rows;
  for (std::size_t i = 0; i < s.limits.size(); ++i) {
    rows.push_back({s.limits[i], s.answers[i],
                    sentence(s.limits[i]) + " (" +
                        (s.limits[i].source.empty() ? "source not named" : s.limits[i].source) +
                        "): " + sentence(s.answers[i], scanned(s))});
  }
  using R = Row;
  Columns(Filler(tree, "limits", s.limits.empty() ? "" : "Limits", Layout::sentences), "limit", rows)
      .text({"answer", "answer", "what the speeds say of the limit, in a sentence"}, &R::text)
      .text({"quantity", "", "what is limited", told}, [](const R& r) { return r.limit.quantity->key; })
      .text({"kind", "", "whether the value is the most or the least allowed", told},
            [](const R& r) { return r.limit.at_least() ? "at least" : "at most"; })
      .text({"value_unit", "", "unit of the limit's value", told},
            [](const R& r) { return r.limit.quantity->unit.name; })
      .number({"value", "", "value of the limit, see value_unit", 6, told},
              [](const R& r) { return r.limit.value * r.limit.quantity->unit.per_si; })
      .text({"source", "", "where the limit comes from; empty: not named", told},
            [](const R& r) { return r.limit.source; })
      .text({"outcome", "",
             "found: kept at all scanned speeds up to the permissible one; not_reached: kept at all scanned speeds; "
             "broken_at_lowest: broken at the lowest scanned speed; unanswered: no passage has what is limited",
             told},
            [](const R& r) { return name(r.answer.outcome); })
      .number(speed_named("permissible_speed_km_h",
                          "highest speed below which every scanned speed keeps the limit; none unless found"),
              [](const R& r) { return r.answer.speed.value_or(none); })
      .number(speed_named("first_broken_km_h", "lowest scanned speed that breaks the limit"),
              [](const R& r) { return r.answer.first_broken.value_or(none); })
      .number(
          {"first_broken_computed", "", "0: no passage there, or a grave one", 0, told},
          [](const R& r) { return r.answer.first_broken ? (r.answer.first_broken_not_computed ? 0.0 : 1.0) : none; })
      .text({"kept_again_km_h", "",
             "scanned speeds above the first break that keep the limit again, in km/h: not monotone in speed", told},
            [](const R& r) { return assess::kept_again_km_h(r.answer); });
  const auto tracks = tracks_of(s);
  const Dims on_tracks{{"limit", s.limits.size()}, {"lumped_track", tracks.size()}};
  Filler(tree, "closed_form/limits")
      .table(speed_named("permissible_speed_km_h", "speed the closed form permits; limits on P2 only"), on_tracks,
             grid(on_tracks, [&](std::size_t i, std::size_t k) {
               const auto* e = on_track(s.answers[i].estimates, tracks[k]);
               return e != nullptr ? e->speed.value_or(none) : none;
             }));
  Filler all(tree, "permissible", s.limits.empty() ? "" : "All limits", Layout::sentences);
  const assess::Verdict& v = s.permissible;
  all.text({"answer", "answer", "over all limits, in a sentence"},
           s.limits.empty() ? "" : sentence(v, scanned(s), v.governs ? sentence(s.limits[*v.governs]) : ""));
  all.number(speed_named("speed_km_h", "lowest permissible speed over all limits; none unless one was found"), v.speed);
  all.text({"outcome", "", "as limits/outcome, over all limits", told},
           std::string(s.limits.empty() ? "no_limits" : name(v.outcome)));
  all.text({"governed_by", "", "the limit that governs", told},
           v.governs ? std::string(s.limits[*v.governs].quantity->key) : "");
  all.number({"governing_limit", "", "its number, from 0", 0, told},
             v.governs ? std::optional(static_cast<double>(*v.governs)) : std::nullopt);
}

void add_changes(Tree& tree, const SpeedStudy& s) {
  const auto changes = speed_changes(s);
  const auto at = [&](std::optional<std::size_t> i) { return i ? s.points[*i].speed : none; };
  Filler filler(tree, "change",
                changes.empty()
                    ? ""
                    : "Change from today's " + in_km_h(at(s.today)) + " to the proposed " + in_km_h(at(s.proposed)),
                Layout::columns);
  filler.number(speed_named("today_km_h", "today's speed"), at(s.today));
  filler.number(speed_named("proposed_km_h", "proposed speed"), at(s.proposed));
  using C = QuantityChange;
  const auto shown = [](std::optional<double> C::*of, bool sign = false) {
    return [of, sign](const C& c) { return (sign && c.*of && *(c.*of) > 0.0 ? "+" : "") + fixed(c.*of, c.decimals); };
  };
  const auto value = [](std::optional<double> C::*of) { return [of](const C& c) { return (c.*of).value_or(none); }; };
  Columns(filler, "changed", changes)
      .text({"quantity", "", "what changes; closed forms are the last ones", told}, &C::key)
      .text({"label", "measure", "its name in print"}, &C::label)
      .text({"today_text", "today", "value today, as printed"}, shown(&C::today))
      .text({"proposed_text", "proposed", "value at the proposed speed, as printed"}, shown(&C::proposed))
      .text({"difference_text", "change", "difference, as printed"}, shown(&C::difference, true))
      .text({"value_unit", "unit", "unit of today, proposed and difference"}, &C::unit)
      .number(Named("difference_percent", "change %", "difference in per cent of today's value").without_unit(),
              value(&C::percent))
      .number({"today", {}, "value at today's speed, see value_unit", 6, told}, value(&C::today))
      .number({"proposed", {}, "value at the proposed speed", 6, told}, value(&C::proposed))
      .number({"difference", {}, "proposed less today", 6, told}, value(&C::difference));
}

QuantityChange change(std::string key, std::string label, std::string_view unit, int decimals,
                      std::optional<double> today, std::optional<double> proposed, bool ratio) {
  QuantityChange c{std::move(key), std::move(label), std::string(unit), decimals, today, proposed, {}, {}};
  if (today && proposed) {
    c.difference = *proposed - *today;
    if (ratio && *today != 0.0) {
      c.percent = 100.0 * *c.difference / std::abs(*today);
    }
  }
  return c;
}

} // namespace

std::vector<QuantityChange> speed_changes(const SpeedStudy& study) {
  if (!study.today || !study.proposed) {
    return {};
  }
  const auto &today = study.points[*study.today], &proposed = study.points[*study.proposed];
  std::vector<QuantityChange> changes;
  for (const Quantity& q : quantity::quantities()) {
    const auto at = [&](const SpeedPoint& p) {
      const double value = quantity::value(q, p.assessment);
      return std::isnan(value) ? std::nullopt : std::optional(value);
    };
    if (q.uses.change != quantity::Change::none && (at(today) || at(proposed))) {
      changes.push_back(change(std::string(q.key), std::string(q.label), q.unit.name, q.decimals, at(today),
                               at(proposed), q.uses.change == quantity::Change::percent));
    }
  }
  for (const auto& track : tracks_of(study)) {
    const auto *before = estimate_on(today, track), *after = estimate_on(proposed, track);
    if (before != nullptr && after != nullptr) {
      changes.push_back(change("closed_form/" + track + "/p2_kN", "P2, closed form " + track, "kN", 2,
                               before->forces.P2 * 1e-3, after->forces.P2 * 1e-3, true));
    }
  }
  return changes;
}

Tree tell(const Case& c, const SpeedStudy& s) {
  Tree tree("speeds");
  add_heading(tree, c,
              std::string(name(c.passage.direction)) + ", " + in_km_h(s.range.from) + " to " + in_km_h(s.range.to) +
                  " in steps of " + in_km_h(s.range.step));
  quantity::add_measures(tree, assessment(c, s.geometry), Section::wheel_path, path_title(s.geometry));
  Filler range(tree, "range");
  range.number(speed_named("from_km_h", "lowest speed"), s.range.from);
  range.number(speed_named("to_km_h", "highest speed"), s.range.to);
  range.number(speed_named("step_km_h", "step of the scan"), s.range.step);
  range.number({"p2_filter_order", {}, "order of the low-pass filter of P2 per pass", 0, told}, c.measures.p2_order);
  add_points(tree, s);
  if (s.steel) {
    add_steel_points(tree, c, s);
  }
  add_limits(tree, s);
  add_changes(tree, s);
  Columns(Filler(tree, "failures"), "failure", s.failures)
      .number(speed_named("speed_km_h", "scanned speeds without a passage; no limit counts as kept there"),
              &SpeedFailure::speed)
      .text({"reason", "", "why", told}, &SpeedFailure::reason);
  const std::vector<assess::Estimate> nothing;
  add_assumptions(tree, s.points.empty() ? nothing : s.points.front().assessment.estimates);
  if (s.steel) {
    add_assumptions(tree, "What the numbers of the steel rest on", "assumptions/steel", assess::assumptions_of_steel());
  }
  add_end(tree, s.findings, c);
  return tree;
}

} // namespace wingnose::study
