// What a study of speeds finds: what must not be overlooked, what to know beside the numbers.
#include "speeds_parts.hpp"
#include "tell.hpp"

#include <algorithm>

namespace wingnose::study {
namespace {

// Findings of single passages: once each, with the speeds they hold for.
void add_of_passages(Findings& findings, const SpeedStudy& s) {
  struct Told {
    Finding finding;
    std::vector<double> speeds;
  };
  std::vector<Told> told;
  for (const SpeedPoint& p : s.points) {
    for (const Finding& f : p.assessment.findings) {
      const auto same = std::find_if(told.begin(), told.end(), [&](const Told& t) { return t.finding.kind == f.kind; });
      if (same == told.end()) {
        told.push_back({f, {p.speed}});
      } else if (same->speeds.back() != p.speed) {
        same->speeds.push_back(p.speed);
      }
    }
  }
  for (Told& t : told) {
    const std::string where = t.speeds.size() == s.points.size() ? "at all speeds"
                              : t.speeds.size() == 1
                                  ? "at " + in_km_h(t.speeds.front())
                                  : "at " + std::to_string(t.speeds.size()) + " speeds from " +
                                        in_km_h(t.speeds.front()) + " to " + in_km_h(t.speeds.back());
    const std::string first = t.finding.where.empty() ? "" : t.speeds.size() > 1 ? "; first " : "; ";
    t.finding.where = where + first + t.finding.where;
    findings.push_back(std::move(t.finding));
  }
}

} // namespace

Findings findings_of(const SpeedStudy& s) {
  Findings findings;
  add_of_passages(findings, s);
  for (std::size_t i = 0; i < s.answers.size(); ++i) {
    const LimitAnswer& answer = s.answers[i];
    if (answer.outcome == assess::LimitOutcome::unanswered) {
      std::string why;
      const auto& track = s.points.front().assessment.track;
      if (s.limits[i].quantity->section == quantity::Section::track && track) {
        for (const std::string& missing : track->missing) {
          why += "; " + missing;
        }
      }
      findings.push_back(
          {FindingKind::limit_unanswered, sentence(s.limits[i]) + ": no passage at any speed has it" + why, ""});
    }
    append(findings, assess::lenient_closed_forms(answer, scanned(s)));
  }
  for (const SpeedFailure& f : s.failures) {
    findings.push_back({FindingKind::not_computed,
                        "no passage (" + f.reason + "); no limit counts as kept at this speed",
                        "at " + in_km_h(f.speed)});
  }
  findings.push_back({FindingKind::reading,
                      "the range was scanned in steps of " + in_km_h(s.range.step) +
                          ": an exceedance narrower than a step between two scanned speeds is not seen; repeat with a "
                          "smaller step"});
  if (std::any_of(s.limits.begin(), s.limits.end(),
                  [](const Limit& l) { return l.quantity->section == quantity::Section::wheel_path; })) {
    findings.push_back({FindingKind::reading,
                        "the dip angle belongs to crossing and wheel and is the same at all speeds: a limit on it "
                        "allows or refuses the crossing, it does not give a speed"});
  }
  std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
    return gravity_of(a) > gravity_of(b); // grave ones first
  });
  return findings;
}

} // namespace wingnose::study
