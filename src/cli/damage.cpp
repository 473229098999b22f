#include "commands.hpp"
#include "report.hpp"

#include "wingnose/io/damage_output.hpp"
#include "wingnose/study/steel_damage.hpp"

#include <CLI/CLI.hpp>

#include <cmath>
#include <ostream>

namespace wingnose::cli {
namespace {

// Options of the command line go before keys of the case.
study::Case with_options(study::Case c, const DamageRequest& request) {
  c.grade = request.steel ? assess::steel(*request.steel) : c.grade;
  c.damage.friction = request.friction.value_or(c.damage.friction);
  assess::check(c.damage);
  return c;
}

io::DamageReport assess_damage(const study::Case& c, const DamageRequest& request) {
  const study::Result result = study::run(c);
  io::DamageReport report;
  report.steel = c.grade;
  report.options = c.damage;
  report.trail = study::contact_trail(c, result);
  report.damage = assess::damage(report.trail, report.steel, report.options);
  if (request.tonnage_MGT) {
    report.tonnage = *request.tonnage_MGT * 1e9;
    const std::vector<assess::TrafficWheel> one{
        {.trail = &report.trail, .wheels = 1.0, .load = result.history.static_load}};
    report.traffic = assess::damage_of_traffic(assess::for_tonnage(one, report.tonnage), report.steel, report.options,
                                               request.stages);
  }
  return report;
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
}

void damage(const std::filesystem::path& case_file, const std::filesystem::path& output, const DamageRequest& request,
            bool json, std::ostream& out) {
  if (!output.empty()) {
    io::check_result_target(output);
  }
  with_case(case_file, [&](const study::Case& given) {
    const study::Case c = with_options(given, request); // a misspelt grade is told before the passage is simulated
    const io::DamageReport report = assess_damage(c, request);
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
      print_rows(out, "Traffic of such wheels", rows);
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
