// A passage, a wheel path and closed forms as trees.
#include "tell.hpp"

#include <algorithm>
#include <limits>

namespace wingnose::study {
namespace {

using quantity::Columns;
using quantity::Detail;
using quantity::Filler;
using quantity::Layout;
using quantity::Named;
using quantity::Section;
using quantity::Tree;
constexpr Detail told = Detail::told, stored = Detail::stored;

void add_history(Tree& tree, const passage::History& h) {
  Filler filler(tree, "history");
  const auto column = [&](const Named& named, const std::vector<double>& values) {
    filler.list(named, "time_s", values);
  };
  column({"time_s", "s", "time", "time since the start, uniform", 5, stored}, h.time);
  column({"station_mm", "mm", "station", "station of the reported wheel's axle", 1, stored}, h.station);
  column({"force_N", "N", "contact force", "total contact force, not filtered", 0, stored}, h.force);
  for (std::size_t b = 0; b < h.bodies.size(); ++b) {
    column({"force_" + h.bodies[b] + "_N", "N", "force on " + h.bodies[b], "contact force on this body, not filtered",
            0, stored},
           h.body_force[b]);
  }
  column({"wheel_height_mm", "mm", "wheel height",
          "height of the wheel, up, from static equilibrium over an undeflected track", 4, stored},
         h.wheel_height);
  column({"wheel_acceleration_m_s2", "m/s2", "wheel acceleration", "acceleration of the wheel, up", 2, stored},
         h.wheel_acceleration);
  column({"rail_deflection_mm", "mm", "rail deflection", "rail under the wheel, downward", 4, stored},
         h.rail_deflection);
  if (!h.rail_acceleration.empty()) {
    column({"rail_acceleration_m_s2", "m/s2", "rail acceleration", "rail at the fixed probe near the landing, downward",
            1, stored},
           h.rail_acceleration);
    column({"bearer_acceleration_m_s2", "m/s2", "bearer acceleration",
            "bearer at the fixed probe near the landing, downward", 1, stored},
           h.bearer_acceleration);
  }
  using E = passage::Event;
  Columns(Filler(tree, "events"), "event", h.events)
      .number({"time_s", "s", "time", "time of the event", 5, stored}, &E::time)
      .number({"station_mm", "mm", "station", "station of the axle at the event", 1, stored}, &E::station)
      .text({"kind", "kind", "touch, lift-off or transfer", stored}, [](const E& e) { return name(e.kind); })
      .text({"body", "body", "the body touched or left; for a transfer the one that now carries more", stored},
            &E::body);
  if (!h.wheel_peaks.empty()) {
    Filler(tree, "wheels")
        .list({"peak_force_N", "N", "peak force", "largest contact force of every wheel, leading first", 0, stored},
              "wheel", h.wheel_peaks);
  }
}

void add_path(Tree& tree, const contact::WheelPath& path) {
  Filler filler(tree, "path");
  std::vector<double> over_all(path.station.size(), -std::numeric_limits<double>::infinity());
  for (const auto& body : path.bodies) {
    for (std::size_t i = 0; i < over_all.size(); ++i) {
      over_all[i] = std::max(over_all[i], body.height[i]);
    }
  }
  filler.list({"station_mm", "mm", "station", "station of the axle", 1, stored}, "station_mm", path.station);
  filler.list({"height_mm", "mm", "height", "wheel over all bodies: taping-circle bottom over rail level", 4, stored},
              "station_mm", over_all);
  using B = contact::BodyPath;
  for (const auto& body : path.bodies) {
    Filler of_body(tree, "path/" + body.name);
    const auto column = [&](const Named& named, std::vector<double> B::*member) {
      of_body.list(named, "station_mm", body.*member);
    };
    column({"height_mm", "mm", "height on " + body.name,
            "wheel on this body alone: taping-circle bottom over rail level", 4, stored},
           &B::height);
    column({"contact_y_mm", "mm", "contact y", "contact from the track centre line", 2, stored}, &B::contact_y);
    column({"contact_dx_mm", "mm", "contact ahead", "contact ahead (+x) of the axle", 2, stored}, &B::contact_dx);
    column({"wheel_y_mm", "mm", "contact on wheel", "contact on the wheel from its taping line", 2, stored},
           &B::wheel_y);
    column({"angle_mrad", "mrad", "contact angle", "contact angle in the cross-section", 1, stored}, &B::angle);
    column({"curvature_x_1_m", "1/m", "curvature along", "sum of curvatures along the track", 3, stored},
           &B::curvature_x);
    column({"curvature_y_1_m", "1/m", "curvature across", "sum of curvatures across the track", 3, stored},
           &B::curvature_y);
  }
}

std::string passage_title(const Case& c, const assess::Measures& m) {
  return "Passage (landing on: " + m.landing_body + "; P2 filter: zero-phase Butterworth, order " +
         std::to_string(c.measures.p2_order) + " forward and back)";
}

} // namespace

Tree tell(const Case& c, const Result& r) {
  const assess::Measures none{};
  const assess::Measures& m = r.assessment.measures ? *r.assessment.measures : none;
  Tree tree("run");
  add_heading(tree, c, move_of(c));
  tree.attributes.emplace_back("method", r.history.method);
  quantity::add_measures(tree, r.assessment, Section::wheel_path, path_title(r.geometry));
  quantity::add_measures(tree, r.assessment, Section::passage, passage_title(c, m));
  Filler measures(tree, "measures");
  measures.text({"landing_on", "", "body landed on", told}, m.landing_body);
  measures.number({"p2_filter_order", "-", "", "order of the low-pass filter of P2 per pass", 0, told},
                  c.measures.p2_order);
  quantity::add_measures(tree, r.assessment, Section::closed_form, {}, told);
  if (r.assessment.steel) {
    quantity::add_measures(tree, r.assessment, Section::steel, "Steel under one wheel");
  }
  add_estimates(tree, r.assessment.estimates);
  add_history(tree, r.history);
  if (r.geometry.path) {
    add_path(tree, *r.geometry.path);
  }
  quantity::add_findings(tree, r.assessment.findings);
  add_case(tree, c);
  return tree;
}

Tree tell(const Case& c, const Geometry& g) {
  Tree tree("geometry");
  add_heading(tree, c, move_of(c));
  const assess::Assessment a = assessment(c, g);
  quantity::add_measures(tree, a, Section::wheel_path, path_title(g));
  if (g.path) {
    add_path(tree, *g.path);
  }
  quantity::add_findings(tree, a.findings);
  add_case(tree, c);
  return tree;
}

Tree tell_estimates(const Case& c, const Geometry& g) {
  assess::Assessment a = assessment(c, g);
  a.estimates = estimate(c, g, &a.findings);
  return tell_estimates(c, a);
}

Tree tell_estimates(const Case& c, const assess::Assessment& a) {
  Tree tree("estimate");
  add_heading(tree, c, move_of(c));
  quantity::add_measures(tree, a, Section::wheel_path, {}, told);
  using J = closedform::JointCase;
  const auto input = [&a](double J::*member) {
    return a.estimates.empty() ? std::nullopt : std::optional(a.estimates.front().input.*member);
  };
  Filler filler(tree, "closed_form_input", "Input of the closed forms", Layout::rows);
  filler.number({"static_load_kN", "kN", "static wheel load", "put in", 2}, input(&J::static_load));
  filler.number({"unsprung_mass_kg", "kg", "unsprung mass per wheel", "put in", 0}, input(&J::unsprung_mass));
  filler.number({"dip_angle_mrad", "mrad", "total dip angle", "put in", 2}, input(&J::dip_angle));
  filler.number({"contact_stiffness_GN_m", "GN/m", "contact stiffness, linearised", "put in", 3}, input(&J::k_H));
  filler.number({"effective_rail_mass_kg", "kg", "effective rail mass", "put in", 1}, input(&J::m_e));
  add_estimates(tree, a.estimates);
  quantity::add_findings(tree, a.findings);
  add_case(tree, c);
  return tree;
}

} // namespace wingnose::study
