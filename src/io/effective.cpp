// The values a case rests on, listed by the keys of a case file.
#include "schema.hpp"

#include "wingnose/io/case_file.hpp"

namespace wingnose::io {

namespace {

struct ToDraft {
  Draft& draft;
  void operator()(const layout::CrossingShape& shape) const {
    draft.kind = "generated";
    draft.shape = shape;
  }
  void operator()(const layout::SectionedShape& shape) const {
    draft.kind = "sections";
    draft.shape.name = shape.name;
    draft.shape.rate = shape.rate;
    draft.shape.gauge = shape.gauge;
    draft.section_noise = shape.noise;
  }
  void operator()(const layout::DippedJoint& joint) const {
    draft.kind = "joint";
    draft.joint = joint;
    draft.joint_shape = joint.shape == layout::DippedJoint::Shape::kink ? "kink" : "quadratic";
  }
  void operator()(const layout::GivenPath&) const { draft.kind = "path"; }
};

Draft draft_of(const study::Case& c) {
  Draft draft;
  draft.c = c;
  std::visit(ToDraft{draft}, c.excitation);
  draft.vehicle = c.vehicle;
  const auto& rail = c.track.rail;
  draft.EI = rail.EI;
  draft.kappa_GA = rail.kappa_GA;
  draft.rho_A = rail.rho_A;
  draft.rho_I = rail.rho_I;
  for (const auto& zone : c.track.zones) {
    draft.castings.push_back({zone.begin, zone.end, zone.rail.EI / rail.EI, zone.rail.rho_A / rail.rho_A,
                              zone.rail.kappa_GA / rail.kappa_GA});
  }
  draft.normal_law = name(c.normal_law);
  draft.contact_search = name(c.contact_search);
  draft.direction = c.passage.direction == Direction::facing ? "facing" : "trailing";
  draft.method = c.passage.method == passage::Method::modal_exponential ? "modal-exponential" : "runge-kutta";
  draft.reported_wheel = c.passage.reported_wheel + 1;
  draft.grade = c.grade.name;
  draft.creep_law = name_of(c.damage.creep_law);
  draft.shakedown_shape = name_of(c.damage.shakedown_shape);
  for (const auto& set : c.lumped) {
    draft.sets.push_back(set.name);
  }
  return draft;
}

bool applies(const Key& key, const Draft& draft) {
  const std::string& value = key.section == "passage"  ? draft.method
                             : key.section == "damage" ? draft.creep_law
                                                       : draft.kind;
  return key.only.empty() || ('|' + key.only + '|').find('|' + value + '|') != std::string::npos;
}

void append(std::vector<std::string>& lines, const Schema& schema, const std::string& prefix, Draft& draft) {
  for (const auto& [section, meaning] : schema.sections) {
    const ElementList* list = nullptr;
    for (const auto& each : schema.lists) {
      list = each.section == section ? &each : list;
    }
    const std::size_t count = list == nullptr ? 1 : list->size(draft);
    for (std::size_t i = 0; i < count; ++i) {
      if (list != nullptr) {
        list->load(draft, i);
      }
      const std::string element = list == nullptr ? "" : "[" + std::to_string(i + 1) + "]";
      for (const auto& key : schema.keys) {
        if (key.section == section && key.in_case && applies(key, draft)) {
          const std::string home = section.empty() ? "" : section + element + ".";
          lines.push_back(prefix + home + key.name + " = " + value_text(key, draft));
        }
      }
    }
  }
}

} // namespace

std::vector<std::string> case_keys(const study::Case& c) {
  Draft draft = draft_of(c);
  std::vector<std::string> lines;
  append(lines, case_schema(), "", draft);
  lines.push_back("wheel.profile = " + c.wheel.name);
  append(lines, vehicle_schema(), "vehicle.", draft);
  return lines;
}

} // namespace wingnose::io
