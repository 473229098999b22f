#include "commands.hpp"
#include "report.hpp"

#include <ostream>

namespace wingnose::cli {

namespace {

void print_forces(std::ostream& out, const study::Case& c, const study::Result& result) {
  std::vector<Row> rows;
  for (const auto& measure : io::passage_measures()) {
    const auto value = measure.value(c, result);
    // That there is no first peak is an answer; other absent values just do not apply to this case.
    const bool needs_two_bodies = measure.key == "overlap_mm";
    if (needs_two_bodies && result.history.bodies.size() < 2) {
      continue;
    }
    if (value || measure.key == "first_peak_kN") {
      rows.push_back({measure.label, fixed(value, measure.decimals), measure.unit});
    }
  }
  print_rows(out,
             "Passage (landing on: " + result.measures.landing_body + "; P2 filter: zero-phase Butterworth, order " +
                 std::to_string(c.measures.p2_order) + " forward and back)",
             rows);
}

} // namespace

void run(const std::filesystem::path& case_file, const std::filesystem::path& output, bool json, std::ostream& out) {
  if (!output.empty()) {
    io::check_result_target(output);
  }
  with_case(case_file, [&](const study::Case& c) {
    const study::Result result = study::run(c);
    if (!output.empty()) {
      io::write_result(output, c, result);
    }
    if (json) {
      out << io::measures_json(c, result) << '\n';
      return;
    }
    print_heading(out, c);
    print_geometry(out, result.geometry);
    print_forces(out, c, result);
    print_estimates(out, result.estimates);
    print_notes(out, "Warnings", contact::sentences(result.geometry.kinematics.findings));
    print_notes(out, "Notes", result.measures.notes);
    if (!output.empty()) {
      out << "Stored in " << output.generic_string() << '\n';
    }
    print_caution(out);
  });
}

} // namespace wingnose::cli
