// A study of speeds as a tree, and the change between two speeds.
#include "speeds_parts.hpp"
#include "tell.hpp"

#include "wingnose/study/steel.hpp"

#include <cmath>

namespace wingnose::study {
namespace {

using quantity::Columns;
using quantity::Detail;
using quantity::Filler;
using quantity::Layout;
using quantity::Named;
using quantity::Tree;

constexpr double none = std::numeric_limits<double>::quiet_NaN();

QuantityChange change(QuantityChange c, bool ratio) {
  if (c.today && c.proposed) {
    c.difference = *c.proposed - *c.today;
    if (ratio && *c.today != 0.0) {
      c.percent = 100.0 * *c.difference / std::abs(*c.today);
    }
  }
  return c;
}

// Closed forms of all speeds by their track; a speed at which one does not exist holds none.
const assess::Estimate* estimate_on(const SpeedPoint& point, const std::string& track) {
  for (const auto& e : point.assessment.estimates) {
    if (e.track_name == track) {
      return &e;
    }
  }
  return nullptr;
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
  std::vector<const assess::Assessment*> passages;
  std::vector<std::string> marks;
  for (std::size_t i = 0; i < s.points.size(); ++i) {
    passages.push_back(&s.points[i].assessment);
    marks.emplace_back(s.today == i ? "today" : s.proposed == i ? "proposed" : "");
  }
  const bool first_peaks = std::any_of(passages.begin(), passages.end(),
                                       [](const assess::Assessment* a) { return a->measures->first_peak.has_value(); });
  std::vector<std::string_view> printed{"speed_km_h",     "p2_kN",          "p2_dynamic_factor",
                                        "peak_total_kN",  "dynamic_factor", "minimum_force_kN",
                                        "lost_contact_ms"};
  if (first_peaks) {
    printed.emplace_back("first_peak_kN");
  }
  if (s.geometry.crossing) {
    printed.emplace_back("peak_nose_kN");
  }
  Filler speeds(tree, "speeds", "Force against speed", Layout::columns);
  std::vector<const quantity::Quantity*> told;
  for (const quantity::Quantity& q : quantity::quantities()) {
    if (q.section == quantity::Section::passage) {
      told.push_back(&q);
    }
  }
  quantity::add_measures(tree, "speeds", "speed_km_h", passages, told, printed);
  speeds.texts({"mark", "", "today's and the proposed speed"}, "speed_km_h", std::move(marks));

  const auto tracks = tracks_of(s);
  const auto of_track = [&](double closedform::JointForces::*member) {
    std::vector<double> values;
    for (const SpeedPoint& p : s.points) {
      for (const auto& track : tracks) {
        const auto* e = estimate_on(p, track);
        values.push_back(e != nullptr ? e->forces.*member : none);
      }
    }
    return values;
  };
  Filler closed(tree, "closed_form", "Closed forms (Jenkins et al. 1974): P2 in kN, by track", Layout::columns);
  closed.list({"speed_km_h", "km/h", "speed", "speed", 1}, "speed_km_h", [&] {
    std::vector<double> speed;
    for (const SpeedPoint& p : s.points) {
      speed.push_back(p.speed);
    }
    return speed;
  }());
  closed.table({"p1_kN", "kN", "P1", "P1 after Jenkins et al. 1974, indicative only", 1, Detail::told},
               {{"speed_km_h", s.points.size()}, {"lumped_track", tracks.size()}},
               of_track(&closedform::JointForces::P1));
  closed.table({"p2_kN", "kN", "P2", "P2 after Jenkins et al. 1974", 1},
               {{"speed_km_h", s.points.size()}, {"lumped_track", tracks.size()}},
               of_track(&closedform::JointForces::P2));
  Filler(tree, "").texts({"lumped_track", "track", "lumped tracks of the closed forms", Detail::told}, "lumped_track",
                         tracks);
}

void add_steel_points(Tree& tree, const Case& c, const SpeedStudy& s) {
  if (!s.steel) {
    return;
  }
  std::vector<const assess::Assessment*> passages;
  for (const SpeedPoint& p : s.points) {
    passages.push_back(&p.assessment);
  }
  std::vector<const quantity::Quantity*> told{quantity::find("speed_km_h")};
  std::vector<std::string_view> printed{"speed_km_h"};
  for (const quantity::Quantity& q : quantity::quantities()) {
    if (quantity::of_steel(q)) {
      told.push_back(&q);
      if (q.uses.compared) {
        printed.push_back(q.key);
      }
    }
  }
  const assess::Steel steel = cases::steel_of(c);
  Filler filler(tree, "steel",
                "What the landing does to the steel: " + steel.name + ", friction " + number(c.damage.friction),
                Layout::columns);
  filler.text({"name", "steel", "steel of wing and nose", Detail::told}, steel.name);
  filler.number({"friction", "-", "friction", "coefficient of friction", 2, Detail::told}, c.damage.friction);
  quantity::add_measures(tree, "steel", "speed_km_h", passages, told, printed);
}

std::string kept_again(const LimitAnswer& answer) {
  std::string text;
  for (const SpeedInterval& interval : answer.kept_again) {
    text += (text.empty() ? "" : ", ") + number(interval.from * 3.6) +
            (interval.from == interval.to ? "" : " to " + number(interval.to * 3.6));
  }
  return text;
}

std::string answer_text(const SpeedStudy& s, std::size_t i) {
  const LimitAnswer& answer = s.answers[i];
  std::string text =
      sentence(s.limits[i]) + " (" + (s.limits[i].source.empty() ? "source not named" : s.limits[i].source) + "): ";
  switch (answer.outcome) {
  case LimitOutcome::found:
    text += "kept up to " + fixed(std::floor(*answer.speed * 36.0) / 10.0, 1) + " km/h";
    text += answer.first_broken_not_computed ? " (above, a passage could not be computed or is grave)" : "";
    break;
  case LimitOutcome::not_reached:
    text += "not reached up to " + in_km_h(s.points.back().speed);
    break;
  case LimitOutcome::broken_at_lowest:
    text += "already broken at " + in_km_h(s.points.front().speed) + ", the lowest speed";
    break;
  }
  text += answer.kept_again.empty() ? "" : "; not monotone, kept again at " + kept_again(answer) + " km/h";
  for (const ClosedFormSpeed& e : answer.estimates) {
    text += "; closed form (" + e.track_name +
            "): " + (e.speed ? fixed(std::floor(*e.speed * 36.0) / 10.0, 1) + " km/h" : "no speed");
    if (allows_more(s, answer, e)) { // whoever reads the speeds side by side must not overlook it
      text += ", more than the passages allow: do not take the higher speed from it";
    }
  }
  return text;
}

std::string verdict_text(const SpeedStudy& s) {
  const Verdict& v = s.permissible;
  switch (v.outcome) {
  case LimitOutcome::found:
    return "highest speed that keeps all limits: " + fixed(std::floor(*v.speed * 36.0) / 10.0, 1) +
           " km/h, governed by " + sentence(s.limits[*v.governs]);
  case LimitOutcome::not_reached:
    return "all limits are kept up to " + in_km_h(s.points.back().speed) + ", the highest speed scanned";
  case LimitOutcome::broken_at_lowest:
    break;
  }
  return "no speed from " + in_km_h(s.points.front().speed) +
         " upwards can be permitted: " + sentence(s.limits[*v.governs]) + " is broken there already";
}

void add_limits(Tree& tree, const SpeedStudy& s) {
  struct Row {
    const Limit& limit;
    const LimitAnswer& answer;
    std::string text;
  };
  std::vector<Row> rows;
  std::vector<double> closed;
  const auto tracks = tracks_of(s);
  for (std::size_t i = 0; i < s.limits.size(); ++i) {
    rows.push_back({s.limits[i], s.answers[i], answer_text(s, i)});
    for (const auto& track : tracks) {
      const auto& all = s.answers[i].estimates;
      const auto e =
          std::find_if(all.begin(), all.end(), [&](const ClosedFormSpeed& one) { return one.track_name == track; });
      closed.push_back(e == all.end() ? none : e->speed.value_or(none));
    }
  }
  using R = Row;
  const auto told = Detail::told;
  const auto speed = [&](std::string name, std::string meaning) {
    return Named{std::move(name), "km/h", {}, std::move(meaning), 1, Detail::told};
  };
  Filler limits(tree, "limits", s.limits.empty() ? "" : "Limits", Layout::sentences);
  Columns(limits, "limit", rows)
      .text({"answer", "answer", "what the speeds say of the limit, in a sentence"}, &R::text)
      .text({"quantity", "", "what is limited", told}, [](const R& r) { return r.limit.quantity->key; })
      .text({"kind", "", "whether the value is the most or the least allowed", told},
            [](const R& r) { return r.limit.at_least() ? "at least" : "at most"; })
      .text({"value_unit", "", "unit of the limit's value", told},
            [](const R& r) { return r.limit.quantity->unit.name; })
      .number({"value", "-", "", "value of the limit, see value_unit", 6, told},
              [](const R& r) { return r.limit.value * r.limit.quantity->unit.per_si; })
      .text({"source", "", "where the limit comes from; empty: not named", told},
            [](const R& r) { return r.limit.source; })
      .text({"outcome", "",
             "found: kept at all scanned speeds up to the permissible one; not_reached: kept at all scanned speeds; "
             "broken_at_lowest: broken at the lowest scanned speed",
             told},
            [](const R& r) { return name(r.answer.outcome); })
      .number(speed("permissible_speed_km_h",
                    "highest speed below which every scanned speed keeps the limit; none unless found"),
              [](const R& r) { return r.answer.speed.value_or(none); })
      .number(speed("first_broken_km_h", "lowest scanned speed that breaks the limit"),
              [](const R& r) { return r.answer.first_broken.value_or(none); })
      .number(
          {"first_broken_computed", "-", "", "0: no passage there, or a grave one", 0, told},
          [](const R& r) { return r.answer.first_broken ? (r.answer.first_broken_not_computed ? 0.0 : 1.0) : none; })
      .text({"kept_again_km_h", "",
             "scanned speeds above the first break that keep the limit again, in km/h: not monotone in speed", told},
            [](const R& r) { return kept_again(r.answer); });
  Filler(tree, "closed_form/limits")
      .table(speed("permissible_speed_km_h", "speed the closed form permits; limits on P2 only"),
             {{"limit", s.limits.size()}, {"lumped_track", tracks.size()}}, std::move(closed));
  Filler all(tree, "permissible", s.limits.empty() ? "" : "All limits", Layout::sentences);
  const Verdict& v = s.permissible;
  all.text({"answer", "answer", "over all limits, in a sentence"}, s.limits.empty() ? "" : verdict_text(s));
  all.number(speed("speed_km_h", "lowest permissible speed over all limits; none unless one was found"), v.speed);
  all.text({"outcome", "", "as limits/outcome, over all limits", told},
           s.limits.empty() ? "no_limits" : std::string(name(v.outcome)));
  all.text({"governed_by", "", "the limit that governs", told},
           v.governs ? std::string(s.limits[*v.governs].quantity->key) : "");
  all.number({"governing_limit", "-", "", "its number, from 0", 0, told},
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
  filler.number({"today_km_h", "km/h", "", "today's speed", 1, Detail::told}, at(s.today));
  filler.number({"proposed_km_h", "km/h", "", "proposed speed", 1, Detail::told}, at(s.proposed));
  using C = QuantityChange;
  const auto shown = [](const C& c, std::optional<double> value, bool sign) {
    return (sign && value && *value > 0.0 ? "+" : "") + fixed(value, c.decimals);
  };
  const auto number = [](std::string name, std::string meaning) {
    return Named{std::move(name), "-", {}, std::move(meaning), 6, Detail::told};
  };
  Columns(filler, "changed", changes)
      .text({"quantity", "", "what changes; closed forms are the last ones", Detail::told}, &C::key)
      .text({"label", "measure", "its name in print"}, &C::label)
      .text({"today_text", "today", "value today, as printed"}, [&](const C& c) { return shown(c, c.today, false); })
      .text({"proposed_text", "proposed", "value at the proposed speed, as printed"},
            [&](const C& c) { return shown(c, c.proposed, false); })
      .text({"difference_text", "change", "difference, as printed"},
            [&](const C& c) { return shown(c, c.difference, true); })
      .text({"value_unit", "unit", "unit of today, proposed and difference"}, &C::unit)
      .number({"difference_percent", "-", "change %", "difference in per cent of today's value", 1},
              [](const C& c) { return c.percent.value_or(none); })
      .number(number("today", "value at today's speed, see value_unit"),
              [](const C& c) { return c.today.value_or(none); })
      .number(number("proposed", "value at the proposed speed"), [](const C& c) { return c.proposed.value_or(none); })
      .number(number("difference", "proposed less today"), [](const C& c) { return c.difference.value_or(none); });
}

} // namespace

std::vector<QuantityChange> speed_changes(const SpeedStudy& study) {
  if (!study.today || !study.proposed) {
    return {};
  }
  const auto &today = study.points[*study.today], &proposed = study.points[*study.proposed];
  std::vector<QuantityChange> changes;
  for (const quantity::Quantity& q : quantity::quantities()) {
    const auto at = [&](const SpeedPoint& p) -> std::optional<double> {
      const double value = quantity::value(q, p.assessment);
      return std::isnan(value) ? std::nullopt : std::optional(value);
    };
    if (q.uses.change != quantity::Change::none && (at(today) || at(proposed))) {
      changes.push_back(change({std::string(q.key), std::string(q.label), std::string(q.unit.name), q.decimals,
                                at(today), at(proposed), std::nullopt, std::nullopt},
                               q.uses.change == quantity::Change::percent));
    }
  }
  for (const auto& track : tracks_of(study)) {
    const auto *before = estimate_on(today, track), *after = estimate_on(proposed, track);
    if (before != nullptr && after != nullptr) {
      changes.push_back(change({"closed_form/" + track + "/p2_kN", "P2, closed form " + track, "kN", 2,
                                before->forces.P2 * 1e-3, after->forces.P2 * 1e-3, std::nullopt, std::nullopt},
                               true));
    }
  }
  return changes;
}

Tree tell(const Case& c, const SpeedStudy& s) {
  Tree tree("speeds");
  add_heading(tree, c,
              std::string(name(c.passage.direction)) + ", " + in_km_h(s.range.from) + " to " + in_km_h(s.range.to) +
                  " in steps of " + in_km_h(s.range.step));
  quantity::add_measures(tree, assessment(c, s.geometry), quantity::Section::wheel_path, path_title(s.geometry));
  Filler range(tree, "range");
  for (const auto& [key, speed, meaning] :
       {std::tuple{"from_km_h", s.range.from, "lowest speed"}, std::tuple{"to_km_h", s.range.to, "highest speed"},
        std::tuple{"step_km_h", s.range.step, "step of the scan"}}) {
    range.number({key, "km/h", {}, meaning, 1, Detail::told}, speed);
  }
  range.number({"p2_filter_order", "-", {}, "order of the low-pass filter of P2 per pass", 0, Detail::told},
               c.measures.p2_order);
  add_points(tree, s);
  add_steel_points(tree, c, s);
  add_limits(tree, s);
  add_changes(tree, s);
  using F = SpeedFailure;
  Columns(Filler(tree, "failures"), "failure", s.failures)
      .number({"speed_km_h",
               "km/h",
               {},
               "scanned speeds without a passage; no limit counts as kept there",
               1,
               Detail::told},
              &F::speed)
      .text({"reason", "", "why", Detail::told}, &F::reason);
  std::vector<std::string> sentences;
  if (!s.points.empty()) {
    for (const auto& e : s.points.front().assessment.estimates) {
      sentences.push_back(e.track_name + ": " + e.assumptions);
    }
  }
  add_assumptions(tree, "Assumptions of the closed forms", "assumptions/closed_form", std::move(sentences));
  if (s.steel) {
    add_assumptions(tree, "What the numbers of the steel rest on", "assumptions/steel", steel_assumptions());
  }
  quantity::add_findings(tree, s.findings);
  add_case(tree, c);
  return tree;
}

} // namespace wingnose::study
