#include "commands.hpp"
#include "report.hpp"

#include "wingnose/io/speeds_output.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <cmath>
#include <ostream>

namespace wingnose::cli {
namespace {

using Outcome = study::LimitAnswer::Outcome;

// Down to the tenth: a permissible speed is not rounded up.
std::string floored(double speed) { return fixed(std::floor(speed * 36.0) / 10.0, 1); }
std::string km_h(double speed) { return brief(std::round(speed * 3600.0) / 1000.0); }

void print_speeds(std::ostream& out, const study::SpeedStudy& s) {
  std::vector<std::string> headings{"km/h", "P2 kN", "factor"};
  for (const auto& e : s.points.front().estimates) {
    headings.push_back("P2 " + e.track_name);
  }
  const bool crossing = s.points.front().measures.peak_nose.has_value();
  // Where no first peak stands out at any speed a closed form of it would have nothing to stand beside.
  const bool first_peaks = std::any_of(s.points.begin(), s.points.end(),
                                       [](const study::SpeedPoint& p) { return p.measures.first_peak.has_value(); });
  if (first_peaks) {
    headings.insert(headings.end(), {"first peak kN", "P1 closed form"});
  }
  headings.insert(headings.end(), {"largest kN", "factor"});
  if (crossing) {
    headings.emplace_back("on nose");
  }
  headings.emplace_back("least kN");
  headings.emplace_back("contact lost ms");
  std::vector<std::vector<std::string>> lines;
  for (std::size_t i = 0; i < s.points.size(); ++i) {
    const auto& p = s.points[i];
    const auto& m = p.measures;
    const char* mark = s.today == i ? " today" : s.proposed == i ? " proposed" : "";
    std::vector<std::string> line{km_h(p.speed) + mark, fixed(m.p2 * 1e-3, 1), fixed(m.p2_dynamic_factor, 2)};
    for (const auto& e : p.estimates) {
      line.push_back(fixed(e.forces.P2 * 1e-3, 1));
    }
    if (first_peaks) {
      line.push_back(m.first_peak ? fixed(*m.first_peak * 1e-3, 1) : "none");
      line.push_back(p.estimates.empty() ? "none" : fixed(p.estimates.front().forces.P1 * 1e-3, 1));
    }
    line.push_back(fixed(m.peak_total * 1e-3, 1));
    line.push_back(fixed(m.dynamic_factor, 2));
    if (crossing) {
      line.push_back(m.peak_nose ? fixed(*m.peak_nose * 1e-3, 1) : "none");
    }
    line.push_back(fixed(m.minimum_force * 1e-3, 1));
    line.push_back(fixed(m.lost_contact * 1e3, 1));
    lines.push_back(line);
  }
  const auto& m = s.points.front().measures;
  print_columns(out,
                "Force against speed (static " + fixed(m.static_load * 1e-3, 1) + " kN; P2 below " +
                    fixed(m.p2_cut_off, 0) + " Hz, beside it the closed forms in kN, by track)",
                headings, lines);
}

void print_steel(std::ostream& out, const study::SpeedStudy& s) {
  if (!s.steel) {
    return;
  }
  std::vector<std::string> headings{"km/h"};
  std::vector<std::vector<std::string>> lines;
  for (const auto& point : s.points) {
    lines.push_back({km_h(point.speed)});
  }
  const auto measures = io::steel_measures();
  for (std::size_t k = 0; k < measures.size(); ++k) {
    if (measures[k].value == &study::SteelMeasures::change_of_angle) { // a note tells where it matters
      continue;
    }
    headings.push_back(measures[k].label + (measures[k].unit == "-" ? "" : " " + measures[k].unit));
    for (std::size_t i = 0; i < s.points.size(); ++i) {
      lines[i].push_back(fixed(io::steel_at(s.points[i])[k], measures[k].decimals));
    }
  }
  print_columns(out, "What the landing does to the steel: " + s.steel_name + ", friction " + brief(s.friction),
                headings, lines);
}

std::string limit_text(const study::Limit& limit) {
  const auto q = io::limit_quantity(limit.quantity);
  return q.label + (study::is_lower_limit(limit.quantity) ? " at least " : " at most ") +
         brief(limit.value * q.per_si) + (q.unit == "-" ? "" : " " + q.unit);
}

std::string answer_text(const study::SpeedStudy& s, std::size_t i) {
  const auto& answer = s.answers[i];
  std::string text =
      limit_text(s.limits[i]) + " (" + (s.limits[i].source.empty() ? "source not named" : s.limits[i].source) + "): ";
  switch (answer.outcome) {
  case Outcome::found:
    text += "kept up to " + floored(*answer.speed) + " km/h";
    text += answer.first_broken_not_computed ? " (above, a passage could not be computed)" : "";
    break;
  case Outcome::not_reached:
    text += "not reached up to " + km_h(s.points.back().speed) + " km/h";
    break;
  case Outcome::broken_at_lowest:
    text += "already broken at " + km_h(s.points.front().speed) + " km/h, the lowest speed";
    break;
  }
  for (std::size_t k = 0; k < answer.kept_again.size(); ++k) {
    const auto& again = answer.kept_again[k];
    text += k == 0 ? "; not monotone, kept again " : ", ";
    text +=
        again.from == again.to ? "at " + km_h(again.from) : "between " + km_h(again.from) + " and " + km_h(again.to);
  }
  text += answer.kept_again.empty() ? "" : " km/h";
  for (const auto& e : answer.estimates) {
    text += "; closed form (" + e.track_name + "): " + (e.speed ? floored(*e.speed) + " km/h" : "no speed");
  }
  return text;
}

void print_limits(std::ostream& out, const study::SpeedStudy& s) {
  if (s.limits.empty()) {
    return;
  }
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < s.limits.size(); ++i) {
    texts.push_back(answer_text(s, i));
  }
  print_notes(out, "Limits", texts);
  const auto& v = s.permissible;
  switch (v.outcome) {
  case Outcome::found:
    out << "Highest speed that keeps all limits: " << floored(*v.speed) << " km/h, governed by "
        << limit_text(s.limits[*v.governs]) << "\n\n";
    break;
  case Outcome::not_reached:
    out << "All limits are kept up to " << km_h(s.points.back().speed) << " km/h, the highest speed scanned\n\n";
    break;
  case Outcome::broken_at_lowest:
    out << "No speed from " << km_h(s.points.front().speed)
        << " km/h upwards can be permitted: " << limit_text(s.limits[*v.governs]) << " is broken there already\n\n";
    break;
  }
}

void print_changes(std::ostream& out, const study::SpeedStudy& s) {
  const auto changes = io::speed_changes(s);
  if (changes.empty()) {
    return;
  }
  std::vector<std::vector<std::string>> lines;
  const auto with_sign = [](std::optional<double> value, int decimals) {
    return (value && *value > 0.0 ? "+" : "") + fixed(value, decimals);
  };
  const auto of_steel = io::steel_measures();
  for (const auto& c : changes) {
    const bool steel = std::any_of(of_steel.begin(), of_steel.end(), [&c](const auto& m) { return m.key == c.key; });
    const int decimals = steel ? c.decimals : std::min(c.decimals, 2);
    lines.push_back({c.label, fixed(c.today, decimals), fixed(c.proposed, decimals), with_sign(c.difference, decimals),
                     c.unit, c.percent ? with_sign(c.percent, 1) : "-"});
  }
  const std::string today = km_h(s.points[*s.today].speed), proposed = km_h(s.points[*s.proposed].speed);
  print_columns(out, "Change from today's " + today + " km/h to the proposed " + proposed + " km/h",
                {"measure", today + " km/h", proposed + " km/h", "change", "unit", "change %"}, lines);
}

// Limits and their sources come as separate options; which source belongs to which limit is told by their order.
std::vector<study::Limit> limits_of(const SpeedsRequest& r) {
  std::vector<study::Limit> limits;
  std::size_t limit = 0, source = 0;
  bool named = true; // nothing to name yet
  for (const char kind : r.order) {
    if (kind == 'l') {
      limits.push_back(io::parse_limit(r.limits.at(limit++), {}));
      named = false;
    } else if (named) {
      throw InputError("--source", "\"" + r.sources.at(source) + "\"", "one after each --limit",
                       "Name the source right after the limit it belongs to.");
    } else {
      limits.back().source = r.sources.at(source++);
      named = true;
    }
  }
  return limits;
}

} // namespace

void speeds_options(CLI::App& command, SpeedsRequest& r) {
  command.add_option("--from", r.from_km_h, "Lowest speed, km/h")->required();
  command.add_option("--to", r.to_km_h, "Highest speed, km/h")->required();
  command.add_option("--step", r.step_km_h, "Step of the scan, km/h (5 if not given)");
  command.add_option("--today", r.today_km_h, "Today's speed, km/h, to compare with --proposed");
  command.add_option("--proposed", r.proposed_km_h, "Proposed speed, km/h");
  auto* limit = command.add_option("--limit", r.limits, "Limit such as p2_kN=200; may be given several times")
                    ->allow_extra_args(false);
  auto* source =
      command.add_option("--source", r.sources, "Where the limit before it comes from")->allow_extra_args(false);
  command.add_flag("--steel", r.steel, "Tell what the landings do to the steel, too; a limit on it asks for that");
  command.add_option("--threads", r.threads, "Threads (one per core if not given)");
  command.callback([&command, &r, limit, source] {
    for (const CLI::Option* option : command.parse_order()) {
      if (option == limit || option == source) {
        r.order += option == limit ? 'l' : 's';
      }
    }
  });
}

void speeds(const std::filesystem::path& case_file, const std::filesystem::path& output, const SpeedsRequest& r,
            bool json, std::ostream& out) {
  const std::vector<study::Limit> limits = limits_of(r);
  if (r.today_km_h.has_value() != r.proposed_km_h.has_value()) {
    throw InputError("--today and --proposed belong together: give both, or none for a plain scan");
  }
  if (!output.empty()) {
    io::check_result_target(output);
  }
  const auto si = [](std::optional<double> speed) { return speed ? std::optional(*speed / 3.6) : std::nullopt; };
  with_case(case_file, [&](const study::Case& c) {
    study::SpeedOptions options;
    options.today = si(r.today_km_h);
    options.proposed = si(r.proposed_km_h);
    options.threads = r.threads;
    options.steel = r.steel;
    const study::SpeedStudy s =
        study::study_speeds(c, {r.from_km_h / 3.6, r.to_km_h / 3.6, r.step_km_h / 3.6}, limits, options);
    if (!output.empty()) {
      io::write_speeds(output, c, s);
    }
    if (json) {
      out << io::speeds_json(c, s) << '\n';
      return;
    }
    const bool facing = c.passage.direction == Direction::facing;
    print_rows(out, c.name,
               {{"runs over", s.geometry.path->excitation, "", true},
                {"wheel", c.wheel.name, "", true},
                {"vehicle", c.vehicle.name, "", true},
                {"move",
                 std::string(facing ? "facing" : "trailing") + ", " + km_h(s.range.from) + " to " + km_h(s.range.to) +
                     " km/h in steps of " + km_h(s.range.step) + " km/h",
                 "", true}});
    print_geometry(out, s.geometry);
    print_speeds(out, s);
    print_steel(out, s);
    print_notes(out, "WARNING", s.warnings);
    print_limits(out, s);
    print_changes(out, s);
    std::vector<std::string> assumptions;
    for (const auto& e : s.points.front().estimates) {
      assumptions.push_back(e.track_name + ": " + e.assumptions);
    }
    print_notes(out, "Assumptions of the closed forms", assumptions);
    print_notes(out, "Warnings of the wheel path", contact::sentences(s.geometry.kinematics.findings));
    print_notes(out, "Notes", s.notes);
    print_notes(out, "What the numbers of the steel rest on", s.steel_assumptions);
    if (!output.empty()) {
      out << "Stored in " << output.generic_string() << '\n';
    }
    print_caution(out);
  });
}

} // namespace wingnose::cli
