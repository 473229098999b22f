#include "findings.hpp"

#include "wingnose/words/number.hpp"
#include "wingnose/words/unit.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::study {
namespace {

namespace plan = layout::turnout;

constexpr double other_rate = 0.02;     // share by which a crossing may differ from the rails' own rate: chosen
constexpr double off_gauge_line = 2e-3; // m, of a nose: chosen, the sum of three readings to half a millimetre or so
constexpr double first_metal = 0.010;   // m, thickness of a nose that may be struck: chosen, as generated ones begin

std::string with_unit(double si, const std::string& name) {
  const Unit& u = unit(name);
  return number(si * u.per_si, 5) + " " + name;
}

std::string beyond(const std::string& what, double value, const std::string& in, const plan::Standard& standard,
                   std::string_view what_to_do) {
  return what + " is " + with_unit(value, in) + ", beyond the " + std::string(name(standard.kind)) + " of " +
         with_unit(standard.value, in) + " by " + with_unit(-standard.margin(value), in) + " (" +
         std::string(standard.source) + "; " + std::string(name(standard.trust)) + ")" +
         (what_to_do.empty() ? "" : ": " + std::string(what_to_do));
}

constexpr double rounding = 1e-9; // of lengths in m, speeds in m/s: a value that is the standard's keeps it

void beyond_standards(const TurnoutStudy& s, Findings& findings) {
  for (const plan::Dimension& d : plan::dimensions()) {
    const double value = d.of(s.found);
    if (d.standard && d.standard->margin(value) < -rounding) {
      findings.push_back(
          {FindingKind::beyond_standard, beyond(std::string(d.name), value, "mm", *d.standard, d.what_to_do)});
    }
  }
  for (const Held& h : s.held) {
    if (h.standard.margin(h.value) < -rounding) {
      findings.push_back({FindingKind::beyond_standard, beyond(h.what, h.value, h.unit, h.standard, ""),
                          std::string(name(s.way)) + " route at " + in_km_h(s.speed)});
    }
  }
}

void about_nose(const TurnoutStudy& s, Findings& findings) {
  const auto said = [&](const std::string& who, const plan::Touches& t) {
    return "the flange of the " + who + " wheelset meets the nose at a shift of " + in_mm(t.nose) + ", " +
           in_mm(t.check - t.nose) + " before the back of its other wheel meets the check rail (at " + in_mm(t.check) +
           ")";
  };
  if (s.nominal_margins.at_nose < -rounding) {
    findings.push_back({FindingKind::nose_in_reach, said("nominal", s.nominal_touches)});
  } else if (s.least_margins.at_nose < -rounding) {
    findings.push_back({FindingKind::nose_in_reach_of_worst, said("widest legal", s.widest_touches)});
  }
  const double worn = s.turnout.crossing.nose_wear;
  const double off = s.found.nose - s.found.gauge;
  if (std::abs(off - worn) > off_gauge_line) {
    findings.push_back({FindingKind::nose_stands_off, "protection and flangeway together are " + in_mm(std::abs(off)) +
                                                          (off > 0.0 ? " more" : " less") + " than the gauge"});
  }
}

void about_drawing(const cases::Case& c, const TurnoutStudy& s, Findings& findings) {
  const double from = -s.found.crossing_flangeway() * s.geometry.rate_at_nose,
               to = first_metal * s.geometry.rate_at_nose;
  const plan::CheckRail& rail = s.turnout.check_rail;
  if (rail.begin > from || rail.begin + rail.length < to) {
    findings.push_back({FindingKind::check_rail_short, "the parallel part reaches from " + in_mm(rail.begin) + " to " +
                                                           in_mm(rail.begin + rail.length) +
                                                           ", the gap from the knuckle (" + in_mm(from) +
                                                           ") to a nose 10 mm thick (" + in_mm(to) + ")"});
  }
  if (!plan::allows(s.limits, s.nominal)) {
    findings.push_back({FindingKind::wheelset_not_legal,
                        in_mm(s.nominal.back_to_back) + " back to back with flanges of " +
                            in_mm(s.nominal.flange_thickness) + " are not among those allowed for its wheels"});
  }
  const auto* shape = std::get_if<layout::CrossingShape>(&c.excitation);
  const auto* sections = std::get_if<layout::SectionedShape>(&c.excitation);
  if (shape != nullptr || sections != nullptr) {
    const double rate = shape != nullptr ? shape->rate : sections->rate;
    if (std::abs(rate / s.geometry.rate_at_nose - 1.0) > other_rate) {
      findings.push_back(
          {FindingKind::curved_crossing, "the rails cross at 1:" + number(s.geometry.rate_at_nose, 4) +
                                             " there, the crossing of the case is drawn 1:" + number(rate, 4)});
    }
  }
}

} // namespace

std::string in_mm(double value) { return fixed(value * 1e3, 1) + " mm"; }

Findings findings_of(const cases::Case& c, const TurnoutStudy& s) {
  Findings findings;
  about_nose(s, findings);
  beyond_standards(s, findings);
  about_drawing(c, s, findings);
  findings.push_back({FindingKind::switch_without_blades, "the switch is a step of curvature, or the beginning of a "
                                                          "transition; it has no blades"});
  findings.push_back({FindingKind::assumption,
                      "wheelset and check rail are rigid: the bending of a wheelset and the "
                      "deflection of a check rail, which take from the margin at the nose, are "
                      "left out"});
  findings.push_back({FindingKind::assumption, "standards' values are quoted from memory where their trust says so; "
                                               "look them up before you act on a margin"});
  return findings;
}

} // namespace wingnose::study
