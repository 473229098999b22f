// What a study of speeds says in sentences: what must not be overlooked, what to know beside the numbers.
#include "speeds_parts.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::study {

std::string in_km_h(double speed) { return number(std::round(speed / km_h * 1e3) * 1e-3) + " km/h"; }
std::string floored_km_h(double speed) { return number(std::floor(speed / km_h * 10.0) * 0.1) + " km/h"; }

// The closed form knows the wheel path by its dip angle alone: where it permits more than the passages do, nobody may
// overlook it.
std::vector<std::string> warnings_of(const SpeedStudy& s) {
  std::vector<std::string> warnings;
  for (std::size_t i = 0; i < s.limits.size(); ++i) {
    const LimitAnswer& a = s.answers[i];
    if (a.outcome == LimitAnswer::Outcome::not_reached) {
      continue;
    }
    const double simulated = a.speed.value_or(s.points.front().speed);
    for (const ClosedFormSpeed& e : a.estimates) {
      if (e.speed && *e.speed > simulated + 0.5 * km_h) {
        warnings.push_back("the closed form (" + e.track_name + ") would allow " + floored_km_h(*e.speed) +
                           " where the simulated passages keep the limit on P2 " +
                           (a.speed ? "only up to " + floored_km_h(simulated)
                                    : "at no speed from " + in_km_h(simulated) + " upwards") +
                           ": do not take the higher speed from it");
      }
    }
  }
  for (const SpeedFailure& f : s.failures) {
    warnings.push_back("no passage at " + in_km_h(f.speed) + " (" + f.reason +
                       "); no limit counts as kept at this speed");
  }
  return warnings;
}

std::vector<std::string> notes_of(const SpeedStudy& s) {
  std::vector<std::string> notes{
      "the range was scanned in steps of " + in_km_h(s.range.step) +
      ": an exceedance narrower than a step between two scanned speeds is not seen; repeat with a smaller step"};
  const bool dip_limited =
      std::any_of(s.limits.begin(), s.limits.end(), [](const Limit& l) { return l.quantity == Quantity::dip_angle; });
  if (dip_limited) {
    notes.emplace_back("the dip angle belongs to crossing and wheel and is the same at all speeds: a limit on it "
                       "allows or refuses the crossing, it does not give a speed");
  }
  const auto above = std::count_if(s.points.begin(), s.points.end(),
                                   [](const SpeedPoint& p) { return p.measures.p2 > p.measures.peak_total; });
  if (above > 0) {
    notes.push_back("at " + std::to_string(above) +
                    " speeds P2 lies a little above the largest total force: the low-pass filter overshoots where the "
                    "force leaps up from a lost or almost lost contact");
  }
  // Notes of single passages: once each, with the speeds they hold for.
  std::vector<std::pair<std::string, std::vector<double>>> told;
  const auto tell = [&told](const std::string& note, double speed) {
    const auto same = std::find_if(told.begin(), told.end(), [&](const auto& t) { return t.first == note; });
    (same == told.end() ? told.emplace_back(note, std::vector<double>{}) : *same).second.push_back(speed);
  };
  for (const SpeedPoint& p : s.points) {
    for (const std::string& note : p.measures.notes) {
      tell(note, p.speed);
    }
    if (!p.steel_failure.empty()) {
      tell("nothing is known of the steel: " + p.steel_failure, p.speed);
    }
    if (p.steel && p.steel->change_of_angle > stretched_angle) {
      tell("the half-space is stretched: the contact angle changes by more than " + number(stretched_angle) +
               " rad inside a patch, pressures there are rough estimates",
           p.speed);
    }
  }
  for (const auto& [note, speeds] : told) {
    const std::string where = speeds.size() == s.points.size() ? "at all speeds"
                              : speeds.size() == 1             ? "at " + in_km_h(speeds.front())
                                                   : "at " + std::to_string(speeds.size()) + " speeds from " +
                                                         in_km_h(speeds.front()) + " to " + in_km_h(speeds.back());
    notes.push_back(where + ": " + note);
  }
  return notes;
}

} // namespace wingnose::study
