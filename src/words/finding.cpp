#include "wingnose/words/finding.hpp"

#include <algorithm>
#include <array>

namespace wingnose {
namespace {

using enum FindingKind;
using enum Gravity;

constexpr std::array table{
    FindingWords{wheel_datum, "wheel_datum", grave, "the lateral datum of the wheel's points is not the taping line",
                 "shift y so that the flange back lies at -70 mm"},
    FindingWords{height_datum, "height_datum", warning, "the heights of the wheel's points have another zero",
                 "subtract it, or give the radius the zero stands for"},
    FindingWords{noise_understated, "noise_understated", warning, "the points scatter more than the noise stated",
                 "state the true noise: curvatures and pressures are those of the scatter"},
    FindingWords{point_off, "point_off", warning, "measured points lie off the line of their neighbours",
                 "remove them if they are mistakes: the fit is drawn towards them or smooths them away"},
    FindingWords{section_off, "section_off", warning, "a section stands off the line of its neighbours",
                 "check it: a wheel rolls over it as over a step"},
    FindingWords{
        sections_by_arc_length, "sections_by_arc_length", warning,
        "sections of one body could not be matched by edge, shoulder and crown",
        "measure every section from its face across the rounding: between sections 50 to 100 mm apart the slope "
        "may err by a milliradian"},
    FindingWords{flange_contact, "flange_contact", grave, "the flange carries the wheel",
                 "a free wheelset would be pushed aside; give a smaller offset or a wider flangeway"},
    FindingWords{flange_on_plain_rail, "flange_on_plain_rail", grave, "no track holds a wheel at this offset",
                 "the forces mean nothing; give an offset the clearance between flange and rail allows"},
    FindingWords{unsupported_wheel, "unsupported_wheel", grave, "the wheel is over no body",
                 "check the stretch covered by the sections and the lateral offset"},
    FindingWords{nose_point_hit, "nose_point_hit", grave, "the wheel runs against the first metal of the nose",
                 "check offset, flangeway and the depth of the nose at its point"},
    FindingWords{axle_ahead_of_nose, "axle_ahead_of_nose", note, "at the transfer the axle is not over the nose",
                 "the nose thickness told is the distance of the gauge lines at the axle, where there is no metal"},
    FindingWords{wheel_lifted, "wheel_lifted", grave, "the wheel is lifted far above its level",
                 "no crossing lifts a wheel so far; check heights, modifiers and sections"},
    FindingWords{rim_contact, "rim_contact", warning, "the wheel is carried near its field face",
                 "check the offset, the wheel and the width of the wing"},
    FindingWords{steep_contact, "steep_contact", warning, "the contact angle is steep",
                 "lateral forces, which are not computed, are large there"},
    FindingWords{sharp_edge, "sharp_edge", warning, "the wheel is carried by a sharp edge",
                 "contact stress there is beyond elastic theory; forces are less affected"},
    FindingWords{conformal_contact, "conformal_contact", note, "wheel and body are almost of one shape",
                 "use contact.law = \"strips\" for pressures"},
    FindingWords{several_transfers, "several_transfers", warning, "the wheel changes over more than once",
                 "the last transfer in the sense of travel is reported; look at the wheel path"},
    FindingWords{no_transfer, "no_transfer", warning, "the wheel never changes over between wing and nose",
                 "lengthen the window or check the heights of the crossing"},
    FindingWords{path_ends_in_window, "path_ends_in_window", warning, "the wheel path ends inside the window",
                 "shorten the window or give a longer path"},
    FindingWords{contact_law_fit, "contact_law_fit", warning, "the law of contact kept along the path is a rough fit",
                 "passages hardly feel it; contact.search = \"step\" shows how much"},
    FindingWords{points_thinned, "points_thinned", note, "a measured wheel has more points than are used",
                 "give fewer points, or points smoothed by the device, to choose them yourself"},
    FindingWords{linear_track, "linear_track", warning, "receptances leave voids and knees out",
                 "statics and passages have them: wingnose run"},
    FindingWords{switch_without_blades, "switch_without_blades", note,
                 "the switch is a step of curvature, or the beginning of a transition, without blades",
                 "nothing here speaks of blades, of their gaps or of the passage beside an open one"},
    FindingWords{beyond_standard, "beyond_standard", warning, "a number lies beyond the value of a standard",
                 "look the value up in the issue that binds you before you act on it"},
    FindingWords{nose_in_reach, "nose_in_reach", warning,
                 "a flange reaches the nose before the check rail holds the wheelset",
                 "check gauge and check rail on site and set the nose protection right before trains rely on it"},
    FindingWords{nose_in_reach_of_worst, "nose_in_reach_of_worst", note,
                 "the widest wheelset the limits allow reaches the nose before the check rail holds it", ""},
    FindingWords{check_rail_short, "check_rail_short", warning,
                 "the parallel part of the check rail does not cover the gap",
                 "lengthen it, or move it, so that it guides from the knuckle of the wing to the nose"},
    FindingWords{nose_stands_off, "nose_stands_off", warning,
                 "the readings put the face of the nose off the gauge line",
                 "read gauge, protection and flangeway anew"},
    FindingWords{wheelset_not_legal, "wheelset_not_legal", warning, "the wheelset given is outside its limits",
                 "check turnout.back_to_back_mm and turnout.flange_thickness_mm"},
    FindingWords{curved_crossing, "curved_crossing", note, "a crossing in the curve is flatter than its turnout's name",
                 "draw the crossing at the rate at which the rails cross (crossing.rate)"},
    FindingWords{window_begins_in_dip, "window_begins_in_dip", warning, "the window begins inside the dip",
                 "start further ahead (passage.from_m, or passage.to_m of a trailing move)"},
    FindingWords{window_cut, "window_cut", warning, "the simulation ends before the window of the measures does",
                 "lengthen the stretch (passage.to_m, or passage.from_m of a trailing move)"},
    FindingWords{no_landing_of_its_own, "no_landing_of_its_own", note,
                 "the body landed on was never touched as a separate one", ""},
    FindingWords{no_first_peak, "no_first_peak", note, "no first peak stands out after the landing", ""},
    FindingWords{slow_first_peak, "slow_first_peak", note, "the first peak is the crest of the slow response",
                 "read it as a shoulder of P2, not as P1"},
    FindingWords{peak_before_landing, "peak_before_landing", warning, "the force is largest before the landing",
                 "the largest forces told are those after it; look at the force along the track"},
    FindingWords{measures_cut, "measures_cut", warning, "the measures end before the response does",
                 "lengthen measures.window_ms or measures.window_m"},
    FindingWords{low_pass_overshoot, "low_pass_overshoot", note, "P2 lies above the largest total force",
                 "the low-pass filter overshoots where the force leaps up from a lost contact"},
    FindingWords{sensor_beyond_model, "sensor_beyond_model", warning,
                 "a sensor's band or its indicator reaches beyond what the model of the track holds to",
                 "end the band lower, or describe the track more finely"},
    FindingWords{sensor_holds, "sensor_holds", note, "up to which frequency a sensor's numbers hold", ""},
    FindingWords{theory_stretched, "theory_stretched", warning, "the half-space is stretched",
                 "pressures there are rough estimates"},
    FindingWords{beyond_shakedown, "beyond_shakedown", note, "the steel yields with every wheel",
                 "shapes flow under it and real pressures settle below these"},
    FindingWords{wear_changes_shape, "wear_changes_shape", warning, "the wear would change the shape",
                 "read it as a rate for the shape given, not as a forecast"},
    FindingWords{steel_unknown, "steel_unknown", warning, "nothing is known of the steel", ""},
    FindingWords{no_closed_form, "no_closed_form", note, "a closed form is not available", ""},
    FindingWords{dip_beyond_closed_form, "dip_beyond_closed_form", warning,
                 "the dip angle is beyond what the closed form was made for", "do not rely on the closed form"},
    FindingWords{closed_form_allows_more, "closed_form_allows_more", warning,
                 "the closed form is more lenient than the passages", "do not take the higher speed from it"},
    FindingWords{not_computed, "not_computed", warning, "a passage could not be computed", ""},
    FindingWords{limit_unanswered, "limit_unanswered", warning, "a limit was held against nothing",
                 "it counts neither as kept nor as broken; limit another number"},
    FindingWords{early_transfer, "early_transfer", warning, "wheels transfer where the nose is thin", ""},
    FindingWords{unlike_cases, "unlike_cases", warning, "cases compared differ in more than the crossing",
                 "differences are not those of the crossings alone"},
    FindingWords{reading, "reading", note, "how the numbers are to be read", ""},
    FindingWords{assumption, "assumption", note, "what the numbers rest on", ""},
};

} // namespace

std::span<const FindingWords> finding_kinds() { return table; }

const FindingWords& words_of(FindingKind kind) {
  return *std::find_if(table.begin(), table.end(), [kind](const FindingWords& w) { return w.kind == kind; });
}

std::string_view name(Gravity gravity) { return gravity == note ? "note" : gravity == warning ? "warning" : "grave"; }

Gravity gravest(std::span<const Finding> findings) {
  Gravity most = Gravity::note;
  for (const Finding& finding : findings) {
    most = std::max(most, gravity_of(finding));
  }
  return most;
}

bool any_grave(std::span<const Finding> findings) {
  return std::any_of(findings.begin(), findings.end(), [](const Finding& f) { return gravity_of(f) == grave; });
}

Findings of_gravity(std::span<const Finding> findings, Gravity gravity) {
  Findings some;
  std::copy_if(findings.begin(), findings.end(), std::back_inserter(some),
               [gravity](const Finding& f) { return gravity_of(f) == gravity; });
  return some;
}

std::string kinds_of(std::span<const Finding> findings) {
  std::string kinds;
  for (auto f = findings.begin(); f != findings.end(); ++f) {
    if (std::none_of(findings.begin(), f, [&](const Finding& before) { return before.kind == f->kind; })) {
      kinds += (kinds.empty() ? "" : ", ") + std::string(words_of(f->kind).key);
    }
  }
  return kinds;
}

std::string sentence(const Finding& f) {
  const std::string_view advice = words_of(f.kind).advice;
  return (f.where.empty() ? "" : f.where + ": ") + f.what + (advice.empty() ? "" : "; " + std::string(advice));
}

void GatheredFindings::add(std::string_view one, std::span<const Finding> findings) {
  std::vector<FindingKind> seen; // a case counts once, however often it finds the same
  for (const Finding& f : findings) {
    if (std::find(seen.begin(), seen.end(), f.kind) != seen.end()) {
      continue;
    }
    seen.push_back(f.kind);
    const auto group =
        std::find_if(groups_.begin(), groups_.end(), [&](const Group& g) { return g.first.kind == f.kind; });
    if (group == groups_.end()) {
      groups_.push_back({f, std::string(one), 1});
    } else {
      ++group->cases;
    }
  }
}

Findings GatheredFindings::told(std::string_view of) const {
  Findings findings;
  for (const FindingWords& kind : table) {
    for (const Group& g : groups_) {
      if (g.first.kind == kind.kind) {
        const std::string count = std::to_string(g.cases) + " of " + std::string(of);
        findings.push_back({kind.kind, g.first.what + (g.first.where.empty() ? "" : " (" + g.first.where + ")"),
                            count + (g.cases > 1 ? ", first " : ", ") + g.called});
      }
    }
  }
  return findings;
}

} // namespace wingnose
