#include "commands.hpp"
#include "progress.hpp"
#include "report.hpp"

#include "wingnose/io/damage_output.hpp"
#include "wingnose/io/population_file.hpp"
#include "wingnose/study/steel_damage.hpp"

#include <CLI/CLI.hpp>

#include <cmath>
#include <optional>
#include <ostream>
#include <utility>

namespace wingnose::cli {
namespace {

// Options of the command line go before keys of the case.
study::Case with_options(study::Case c, const DamageRequest& request) {
  c.grade = request.steel ? assess::steel(*request.steel) : c.grade;
  c.damage.friction = request.friction.value_or(c.damage.friction);
  assess::check(c.damage);
  return c;
}

// A mixed traffic over the crossing of the case.
void add_mix(io::DamageReport& report, const std::filesystem::path& case_file, const io::PopulationFile& file,
             const DamageRequest& request) {
  const study::Population wheels = study::wheels_of(file.wheels);
  const StopOnSignal stop;
  Progress progress(0, 2 * wheels.members.size(), "passes"); // rolled and assessed
  study::TrafficOptions options;
  options.tonnage = report.tonnage;
  options.stages = request.stages;
  options.steel = report.steel;
  options.damage = report.options;
  options.threads = request.threads;
  options.cancel = &StopOnSignal::asked();
  options.progress = [&progress](std::size_t done, std::size_t) { progress.show(done); };
  auto mix = study::traffic(io::read_case_document(case_file), wheels, options);
  progress.clear();
  if (!mix) {
    throw Interrupted("stopped: the traffic was given up and nothing was stored");
  }
  report.traffic = mix->damage;
  report.mix = std::move(mix);
  report.mix_text = file.text;
  report.mix_inputs = file.inputs;
}

// The passage of the case's own wheel.
io::DamageReport assess_passage(const study::Case& c, const DamageRequest& request) {
  const study::Result result = study::run(c);
  io::DamageReport report;
  report.steel = c.grade;
  report.options = c.damage;
  report.trail = study::contact_trail(c, result);
  report.damage = assess::damage(report.trail, report.steel, report.options);
  if (request.tonnage_MGT) {
    report.tonnage = *request.tonnage_MGT * 1e9;
    if (request.traffic.empty()) {
      const std::vector<assess::TrafficWheel> one{
          {.trail = &report.trail, .wheels = 1.0, .load = result.history.static_load}};
      report.traffic = assess::damage_of_traffic(assess::for_tonnage(one, report.tonnage), report.steel, report.options,
                                                 request.stages);
    }
  }
  return report;
}

// Told before anything is simulated.
void check(const DamageRequest& request) {
  if (!request.traffic.empty() && !request.tonnage_MGT) {
    throw InputError("--traffic needs --tonnage-MGT: how many million gross tonnes of such wheels roll");
  }
  if (request.tonnage_MGT && !(*request.tonnage_MGT > 0.0)) {
    throw InputError("tonnage", brief(*request.tonnage_MGT) + " MGT", "above 0",
                     "Busy lines carry 10 to 60 MGT a year.");
  }
  if (request.stages < 1 || request.stages > 1000) {
    throw InputError("stages of the traffic", std::to_string(request.stages), "1 to 1000",
                     "Ten stages show how a steel hardens.");
  }
}

void print_mix(std::ostream& out, const study::Traffic& t) {
  const auto largest = [](double value, double so_far) { return value > so_far ? value : so_far; };
  std::vector<std::vector<std::string>> lines;
  const std::size_t classes = t.population.classes.size();
  double all = 0.0;
  for (const auto& member : t.members) {
    all += member.wheels;
  }
  for (std::size_t k = 0; k <= classes; ++k) { // the last line is of all wheels
    std::size_t count = 0, failed = 0;
    double wheels = 0.0, load = 0.0, shakedown = 0.0, index = -1.0, t_gamma = 0.0;
    for (std::size_t m = 0; m < t.members.size(); ++m) {
      const auto& a = t.members[m];
      if (k < classes && t.population.members[m].wheel_class != k) {
        continue;
      }
      ++count;
      failed += a.failure.empty() ? 0 : 1;
      wheels += a.wheels;
      load += a.failure.empty() ? a.wheels * a.static_load : 0.0;
      shakedown = largest(a.shakedown, shakedown); // a failed wheel has NaN, which is never larger
      index = largest(a.fatigue_index, index);
      t_gamma = largest(a.t_gamma, t_gamma);
    }
    const bool any = wheels > 0.0;
    const auto shown = [any](double value, int decimals) {
      return fixed(any ? std::optional(value) : std::nullopt, decimals);
    };
    lines.push_back({k < classes ? t.population.classes[k].name : "all wheels", std::to_string(count),
                     std::to_string(failed), fixed(100.0 * wheels / all, 1), shown(1e-3 * load / wheels, 1),
                     shown(shakedown, 2), shown(index, 3), shown(t_gamma, 1)});
  }
  print_columns(out, "Wheels of the traffic; largest values of one wheel over new steel",
                {"class", "kinds", "failed", "share %", "mean load kN", "shakedown", "fatigue index", "T-gamma N"},
                lines);
}

void print_numbers(std::ostream& out, const std::string& title, const std::vector<io::DamageNumber>& numbers) {
  std::vector<std::vector<std::string>> lines;
  for (const auto& n : numbers) {
    const bool placed = n.peak && !n.peak->body.empty();
    lines.push_back({n.label, fixed(n.value, n.decimals), n.unit == "-" ? "" : n.unit, placed ? n.peak->body : "",
                     placed ? fixed(n.peak->x * 1e3, 0) : "", placed ? fixed(n.peak->y * 1e3, 1) : ""});
  }
  print_columns(out, title, {"", "largest", "unit", "on", "station mm", "y mm"}, lines);
}

} // namespace

void damage_options(CLI::App& command, DamageRequest& request) {
  std::string known;
  for (const std::string& name : assess::steel_names()) {
    known += (known.empty() ? "" : ", ") + name;
  }
  command.add_option("--steel", request.steel,
                     "Steel of wing and nose (default: the case's, otherwise R350HT): " + known);
  command.add_option("--friction", request.friction,
                     "Coefficient of friction, 0 to 1 (default: the case's, otherwise 0.3)");
  command.add_option("--tonnage-MGT", request.tonnage_MGT,
                     "Add up the damage of so many million gross tonnes of such wheels");
  command.add_option("--stages", request.stages, "Stages of that traffic between which the steel hardens (default 10)");
  command.add_option("--traffic", request.traffic,
                     "File of the wheels that roll (TOML, as profiles/traffic.toml), instead of the case's own alone");
  command.add_option("--threads", request.threads, "Threads for such a traffic (one per core if not given)");
}

void damage(const std::filesystem::path& case_file, const std::filesystem::path& output, const DamageRequest& request,
            bool json, std::ostream& out) {
  if (!output.empty()) {
    io::check_result_target(output);
  }
  check(request);
  const auto wheels = request.traffic.empty() ? std::nullopt : std::optional(io::read_population(request.traffic));
  with_case(case_file, [&](const study::Case& given) {
    const study::Case c = with_options(given, request); // a misspelt grade is told before the passage is simulated
    io::DamageReport report = assess_passage(c, request);
    if (wheels) {
      add_mix(report, case_file, *wheels, request);
    }
    if (!output.empty()) {
      io::write_damage(output, c, report);
    }
    if (json) {
      out << io::damage_json(c, report) << '\n';
      return;
    }
    print_heading(out, c);
    print_numbers(out,
                  "Steel under one wheel: " + report.steel.name + ", k " +
                      fixed(assess::shear_yield(report.steel) * 1e-6, 0) + " MPa, friction " +
                      brief(report.options.friction),
                  io::damage_numbers(report));
    if (report.traffic) {
      std::vector<Row> rows;
      for (const auto& n : io::traffic_numbers(report)) {
        rows.push_back({n.label, fixed(n.value, n.decimals), n.unit});
      }
      if (report.mix) {
        print_mix(out, *report.mix);
      }
      print_rows(out,
                 report.mix ? "Traffic of " + std::to_string(report.mix->members.size()) + " kinds of wheels"
                            : "Traffic of such wheels",
                 rows);
    }
    std::vector<std::string> notes{"Steel " + report.steel.name + ": " + report.steel.trust + "."};
    notes.insert(notes.end(), report.damage.notes.begin(), report.damage.notes.end());
    if (report.traffic) {
      notes.insert(notes.end(), report.traffic->notes.begin(), report.traffic->notes.end());
    }
    print_notes(out, "Notes", notes);
    if (!output.empty()) {
      out << "Stored in " << output.generic_string() << '\n';
    }
    print_caution(out);
  });
}

} // namespace wingnose::cli
