#include "tell.hpp"

#include "wingnose/case/document.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::study {
namespace {

std::string wheel_words(const cases::Wheel& wheel) {
  std::string words = cases::profile_of(wheel).name;
  if (wheel.lateral_offset != 0.0) {
    words += ", shifted " + number(wheel.lateral_offset * 1e3) + " mm";
  }
  for (const auto& [turned, angle] : {std::pair{", rolled ", wheel.roll}, std::pair{", yawed ", wheel.yaw}}) {
    if (angle != 0.0) {
      words += turned + number(angle * 1e3) + " mrad";
    }
  }
  return words;
}

} // namespace

std::string move_of(const Case& c) {
  return std::string(name(c.passage.direction)) + " at " + fixed(c.passage.speed * 3.6, 1) + " km/h";
}

std::string track_words(const cases::Track& t) {
  const std::string rails = cases::has_two_rails(t) ? "two rails on " : "one rail on ";
  const auto hanging = static_cast<std::size_t>(std::count_if(t.bearers.placed.begin(), t.bearers.placed.end(),
                                                              [](const auto& b) { return b.gap.value_or(0.0) > 0.0; }));
  const std::size_t voids = t.voids.size() + hanging;
  return rails + std::string(name(t.bearers.kind)) + " bearers" +
         (voids == 0   ? ""
          : voids == 1 ? ", one void"
                       : ", " + std::to_string(voids) + " voids");
}

void add_heading(Tree& tree, const Case& c, const std::string& move) {
  const vehicle::Vehicle v = cases::vehicle_of(c);
  const bool in_space = c.rung == cases::Rung::spatial;
  std::string vehicle = in_space ? cases::space_vehicle_of(c).name + ", in space" : v.name;
  if (v.wheels.size() > 1 && !in_space) {
    vehicle +=
        ", wheel " + std::to_string(c.passage.reported_wheel) + " of " + std::to_string(v.wheels.size()) + " reported";
  }
  tree.attributes.emplace_back("name", c.name);
  tree.attributes.emplace_back("excitation", std::string(name(c.excitation)));
  tree.attributes.emplace_back("vehicle", in_space ? cases::space_vehicle_of(c).name : v.name);
  Filler about(tree, "about", c.name, Layout::rows);
  about.text({"runs_over", "runs over", "what the wheel runs over"}, layout::description(c.excitation));
  about.text({"wheel", "wheel", "profile of the wheel, and how it is held"}, wheel_words(c.wheel));
  about.text({"vehicle", "vehicle", "what rolls"}, vehicle);
  about.text({"move", "move", "sense and speed"}, move);
  if (c.track.method == cases::TrackMethod::chain) {
    about.text({"track", "track", "rails and bearers, where they are a chain"}, track_words(c.track));
  }
}

std::string path_title(const Geometry& g) { return "Wheel path" + (g.path ? " (" + g.path->excitation + ")" : ""); }

void add_estimates(Tree& tree, std::span<const assess::Estimate> estimates) {
  using E = assess::Estimate;
  Filler filler(tree, "closed_form", "Closed forms (Jenkins et al. 1974)", Layout::columns);
  const std::string dim = "lumped_track";
  Columns(filler, dim, estimates).text({"track", "track", "lumped track the closed form stands on"}, &E::track_name);
  add_columns(filler, dim, estimates, assess::estimate_columns);
  add_columns(filler, dim, estimates, closedform::joint_columns, told, &E::input);
  Columns(filler, dim, estimates).text({"assumptions", "", "what the numbers rest on", told}, &E::assumptions);
  add_assumptions(tree, estimates);
}

void add_assumptions(Tree& tree, std::span<const assess::Estimate> estimates) {
  add_assumptions(tree, "Assumptions of the closed forms", "assumptions/closed_form",
                  each(estimates, [](const assess::Estimate& e) { return e.track_name + ": " + e.assumptions; }));
}

void add_assumptions(Tree& tree, const std::string& title, const std::string& group,
                     std::vector<std::string> sentences) {
  Filler(tree, group, title, Layout::sentences)
      .texts({"sentence", "", "what the numbers rest on"}, "sentence", std::move(sentences));
}

void add_inputs(Tree& tree, std::span<const cases::InputFile> inputs) {
  using F = cases::InputFile;
  Columns(Filler(tree, "case/inputs"), "input", inputs)
      .text({"role", "what it gave", "what the file gave"}, &F::role)
      .text({"file", "file", "name of the file"}, &F::path)
      .text({"sha256", "SHA-256", "checksum of its content"}, &F::sha256);
}

void add_case(Tree& tree, const Case& c, std::span<const cases::InputFile> further) {
  Filler(tree, "case").text({"text", "", "the case file as read, with its bases as comments", stored}, c.source_text);
  const auto keys = cases::all_keys(c);
  using K = cases::KeyText;
  Columns(Filler(tree, "case/keys"), "key", keys)
      .text({"key", "", "every key the case rests on, given or default", stored}, &K::key)
      .text({"value", "", "its value, as a case file says it", stored}, &K::value)
      .text({"key_unit", "", "its unit", stored}, &K::unit);
  std::vector<cases::InputFile> inputs = c.inputs;
  inputs.insert(inputs.end(), further.begin(), further.end());
  add_inputs(tree, inputs);
}

void add_end(Tree& tree, const Findings& findings, const Case& c, std::span<const cases::InputFile> further) {
  quantity::add_findings(tree, findings);
  add_case(tree, c, further);
}

} // namespace wingnose::study
