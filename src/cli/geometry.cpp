#include "commands.hpp"
#include "report.hpp"

#include <ostream>

namespace wingnose::cli {

void geometry(const std::filesystem::path& case_file, bool json, std::ostream& out) {
  with_case(case_file, [&](const study::Case& c) {
    const study::Geometry g = study::geometry(c);
    if (json) {
      out << io::geometry_json(c, g) << '\n';
      return;
    }
    print_heading(out, c);
    print_geometry(out, g);
    print_notes(out, "Warnings", contact::sentences(g.kinematics.findings));
    print_caution(out);
  });
}

void estimate(const std::filesystem::path& case_file, bool json, std::ostream& out) {
  with_case(case_file, [&](const study::Case& c) {
    const study::Geometry g = study::geometry(c);
    const auto estimates = study::estimate(c, g);
    if (json) {
      out << io::estimates_json(c, g, estimates) << '\n';
      return;
    }
    print_heading(out, c);
    if (!estimates.empty()) {
      const auto& input = estimates.front().input;
      print_rows(out, "Input of the closed forms",
                 {{"static wheel load", fixed(input.static_load * 1e-3, 2), "kN"},
                  {"unsprung mass per wheel", fixed(input.unsprung_mass, 0), "kg"},
                  {"total dip angle", fixed(input.dip_angle * 1e3, 2), "mrad"},
                  {"contact stiffness, linearised", fixed(input.k_H * 1e-9, 3), "GN/m"},
                  {"effective rail mass", fixed(input.m_e, 1), "kg"}});
    }
    print_estimates(out, estimates);
    print_notes(out, "Warnings", contact::sentences(g.kinematics.findings));
    print_caution(out);
  });
}

} // namespace wingnose::cli
