#include "tell.hpp"

#include "wingnose/case/document.hpp"
#include "wingnose/numeric/overloaded.hpp"

#include <cmath>

namespace wingnose::study {
namespace {

using quantity::Columns;
using quantity::Detail;
using quantity::Filler;
using quantity::Layout;
using quantity::Tree;

std::string runs_over(const layout::Excitation& excitation) {
  return std::visit(
      overloaded{[](const layout::CrossingShape& s) { return s.name + ", 1:" + number(s.rate) + ", generated"; },
                 [](const layout::SectionedShape& s) { return s.name + ", 1:" + number(s.rate) + ", from sections"; },
                 [](const layout::DippedJoint& j) {
                   return "dipped joint (" + std::string(name(j.shape)) + "), total dip angle " +
                          number(j.dip_angle * 1e3) + " mrad";
                 },
                 [](const layout::GivenPath& p) {
                   return "given wheel path of " + std::to_string(p.station.size()) + " points";
                 }},
      excitation);
}

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

std::string in_km_h(double speed) { return number(std::round(speed * 3.6 * 1e3) * 1e-3) + " km/h"; }
std::string floored_km_h(double speed) { return number(std::floor(speed * 36.0) * 0.1) + " km/h"; }

std::string move_of(const Case& c) {
  return std::string(name(c.passage.direction)) + " at " + fixed(c.passage.speed * 3.6, 1) + " km/h";
}

void add_heading(Tree& tree, const Case& c, const std::string& move) {
  const vehicle::Vehicle v = cases::vehicle_of(c);
  std::string vehicle = v.name;
  if (v.wheels.size() > 1) {
    vehicle +=
        ", wheel " + std::to_string(c.passage.reported_wheel) + " of " + std::to_string(v.wheels.size()) + " reported";
  }
  tree.attributes.emplace_back("name", c.name);
  tree.attributes.emplace_back("excitation", std::string(name(c.excitation)));
  tree.attributes.emplace_back("vehicle", v.name);
  Filler about(tree, "about", c.name, Layout::rows);
  about.text({"runs_over", "runs over", "what the wheel runs over"}, runs_over(c.excitation));
  about.text({"wheel", "wheel", "profile of the wheel, and how it is held"}, wheel_words(c.wheel));
  about.text({"vehicle", "vehicle", "what rolls"}, vehicle);
  about.text({"move", "move", "sense and speed"}, move);
}

std::string path_title(const Geometry& g) { return "Wheel path" + (g.path ? " (" + g.path->excitation + ")" : ""); }

void add_estimates(Tree& tree, std::span<const assess::Estimate> estimates) {
  using E = assess::Estimate;
  Columns(Filler(tree, "closed_form", "Closed forms (Jenkins et al. 1974)", Layout::columns), "lumped_track", estimates)
      .text({"track", "track", "lumped track the closed form stands on"}, &E::track_name)
      .number({"p1_kN", "kN", "P1", "P1, indicative only", 1}, [](const E& e) { return e.forces.P1; })
      .number({"p2_kN", "kN", "P2", "P2", 1}, [](const E& e) { return e.forces.P2; })
      .number({"p2_frequency_hz", "Hz", "f2", "frequency of P2", 1}, [](const E& e) { return e.forces.f2; })
      .number({"p2_damping_ratio", "-", "damping", "damping ratio of P2", 3}, [](const E& e) { return e.forces.zeta; })
      .number({"track_mass_kg", "kg", "mass", "lumped mass of the track", 0},
              [](const E& e) { return e.input.track.m_T2; })
      .number({"track_stiffness_MN_m", "MN/m", "stiffness", "lumped stiffness of the track", 1},
              [](const E& e) { return e.input.track.k_T2; })
      .number({"track_damping_kNs_m", "kN s/m", "damper", "lumped damper of the track", 1},
              [](const E& e) { return e.input.track.c_T2; })
      .number({"static_load_kN", "kN", "", "static wheel load put in", 2, Detail::told},
              [](const E& e) { return e.input.static_load; })
      .number({"unsprung_mass_kg", "kg", "", "unsprung mass put in", 2, Detail::told},
              [](const E& e) { return e.input.unsprung_mass; })
      .number({"speed_km_h", "km/h", "", "speed put in", 2, Detail::told}, [](const E& e) { return e.input.speed; })
      .number({"dip_angle_mrad", "mrad", "", "total dip angle put in", 2, Detail::told},
              [](const E& e) { return e.input.dip_angle; })
      .number({"contact_stiffness_GN_m", "GN/m", "", "contact stiffness put in", 2, Detail::told},
              [](const E& e) { return e.input.k_H; })
      .number({"effective_rail_mass_kg", "kg", "", "effective rail mass put in", 2, Detail::told},
              [](const E& e) { return e.input.m_e; })
      .text({"assumptions", "", "what the numbers rest on", Detail::told}, &E::assumptions);
  std::vector<std::string> sentences;
  for (const E& e : estimates) {
    sentences.push_back(e.track_name + ": " + e.assumptions);
  }
  add_assumptions(tree, "Assumptions of the closed forms", "assumptions/closed_form", std::move(sentences));
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
  Filler(tree, "case")
      .text({"text", "", "the case file as read, with its bases as comments", Detail::stored}, c.source_text);
  const auto keys = cases::all_keys(c);
  using K = cases::KeyText;
  Columns(Filler(tree, "case/keys"), "key", keys)
      .text({"key", "", "every key the case rests on, given or default", Detail::stored}, &K::key)
      .text({"value", "", "its value, as a case file says it", Detail::stored}, &K::value)
      .text({"key_unit", "", "its unit", Detail::stored}, &K::unit);
  std::vector<cases::InputFile> inputs = c.inputs;
  inputs.insert(inputs.end(), further.begin(), further.end());
  add_inputs(tree, inputs);
}

} // namespace wingnose::study
