#include "wingnose/layout/excitation.hpp"

#include "wingnose/numeric/overloaded.hpp"
#include "wingnose/words/number.hpp"

namespace wingnose::layout {

std::string description(const Excitation& excitation) {
  return std::visit(
      overloaded{
          [](const CrossingShape& s) { return s.name + ", 1:" + number(s.rate) + ", generated"; },
          [](const SectionedShape& s) { return s.name + ", 1:" + number(s.rate) + ", from sections"; },
          [](const DippedJoint& j) {
            return "dipped joint (" + std::string(name(j.shape)) + "), total dip angle " + number(j.dip_angle * 1e3) +
                   " mrad";
          },
          [](const GivenPath& p) { return "given wheel path of " + std::to_string(p.station.size()) + " points"; }},
      excitation);
}

std::optional<Crossing> crossing_of(const Excitation& excitation) {
  using Made = std::optional<Crossing>;
  return std::visit(overloaded{[](const CrossingShape& shape) { return Made(generate(shape)); },
                               [](const SectionedShape& shape) { return Made(from_sections(shape)); },
                               [](const DippedJoint&) { return Made(); }, [](const GivenPath&) { return Made(); }},
                    excitation);
}

} // namespace wingnose::layout
