#include "report.hpp"

#include <ostream>

namespace wingnose::cli {

namespace {

struct Describe {
  std::string operator()(const layout::CrossingShape& shape) const {
    return shape.name + ", 1:" + brief(shape.rate) + ", generated";
  }
  std::string operator()(const layout::SectionedShape& shape) const {
    return shape.name + ", 1:" + brief(shape.rate) + ", from sections";
  }
  std::string operator()(const layout::DippedJoint& joint) const {
    const bool kink = joint.shape == layout::DippedJoint::Shape::kink;
    return std::string(kink ? "kinked" : "quadratic") + " joint, total dip angle " + brief(joint.dip_angle * 1e3) +
           " mrad";
  }
  std::string operator()(const layout::GivenPath& path) const {
    return "given wheel path of " + std::to_string(path.station.size()) + " points";
  }
};

} // namespace

void print_heading(std::ostream& out, const study::Case& c) {
  std::string vehicle = c.vehicle.name;
  if (c.vehicle.wheels.size() > 1) {
    vehicle += ", wheel " + std::to_string(c.passage.reported_wheel + 1) + " of " +
               std::to_string(c.vehicle.wheels.size()) + " reported";
  }
  const bool facing = c.passage.direction == Direction::facing;
  std::string wheel = c.wheel.name;
  if (c.lateral_offset != 0.0) {
    wheel += ", shifted " + brief(c.lateral_offset * 1e3) + " mm";
  }
  for (const auto& [turned, angle] : {std::pair{", rolled ", c.roll}, std::pair{", yawed ", c.yaw}}) {
    if (angle != 0.0) {
      wheel += turned + brief(angle * 1e3) + " mrad";
    }
  }
  const std::string move =
      std::string(facing ? "facing" : "trailing") + " at " + fixed(c.passage.speed * 3.6, 1) + " km/h";
  print_rows(out, c.name,
             {{"runs over", std::visit(Describe{}, c.excitation), "", true},
              {"wheel", wheel, "", true},
              {"vehicle", vehicle, "", true},
              {"move", move, "", true}});
}

void print_geometry(std::ostream& out, const study::Geometry& geometry) {
  std::vector<Row> rows;
  for (const auto& measure : io::geometry_measures()) {
    const auto value = measure.value(geometry);
    if (value) {
      rows.push_back({measure.label, fixed(value, measure.decimals), measure.unit});
    }
  }
  print_rows(out, "Wheel path (" + geometry.path->excitation + ")", rows);
}

void print_estimates(std::ostream& out, const std::vector<study::Estimate>& estimates) {
  std::vector<std::vector<std::string>> lines;
  std::vector<std::string> notes;
  for (const auto& e : estimates) {
    lines.push_back({e.track_name, fixed(e.forces.P1 * 1e-3, 1), fixed(e.forces.P2 * 1e-3, 1), fixed(e.forces.f2, 1),
                     fixed(e.forces.zeta, 3), fixed(e.input.track.m_T2, 0), fixed(e.input.track.k_T2 * 1e-6, 1),
                     fixed(e.input.track.c_T2 * 1e-3, 1)});
    notes.push_back(e.track_name + ": " + e.assumptions);
  }
  print_columns(out, "Closed forms (Jenkins et al. 1974)",
                {"track", "P1 kN", "P2 kN", "f2 Hz", "damping -", "mass kg", "stiffness MN/m", "damper kN s/m"}, lines);
  print_notes(out, "Assumptions of the closed forms", notes);
}

} // namespace wingnose::cli
