// What a reader must know beside the numbers: what was found, where, how grave it is and what to do about it.
//
//   note     belongs to the answer ("no first peak stands out")
//   warning  a number can mislead: the theory is stretched, a window cut, a closed form more lenient than the passages
//   grave    what was computed cannot happen, or hides what would: the numbers are told, but a comparison, a limit or a
//            search may count them only as the worst
//
// Every answer carries its findings (command line, files, JSON, Python, figures, pages), and a study those of all its
// cases. The kinds stand in one table, from which the reference page is made.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose {

enum class Gravity { note, warning, grave };

enum class FindingKind {
  // of what was measured
  wheel_datum,
  height_datum,
  noise_understated,
  point_off,
  section_off,
  sections_by_arc_length,
  // of the wheel path
  flange_contact,
  flange_on_plain_rail,
  unsupported_wheel,
  nose_point_hit,
  axle_ahead_of_nose,
  wheel_lifted,
  rim_contact,
  steep_contact,
  sharp_edge,
  conformal_contact,
  several_transfers,
  no_transfer,
  path_ends_in_window,
  contact_law_fit,
  points_thinned,
  // of the track
  linear_track,
  // of turnouts
  switch_without_blades,
  beyond_standard,
  nose_in_reach,
  nose_in_reach_of_worst,
  check_rail_short,
  nose_stands_off,
  wheelset_not_legal,
  curved_crossing,
  // of the passage
  window_begins_in_dip,
  window_cut,
  no_landing_of_its_own,
  no_first_peak,
  slow_first_peak,
  peak_before_landing,
  measures_cut,
  low_pass_overshoot,
  sensor_beyond_model,
  sensor_holds,
  // of contact and steel
  theory_stretched,
  beyond_shakedown,
  wear_changes_shape,
  steel_unknown,
  // of closed forms
  no_closed_form,
  dip_beyond_closed_form,
  closed_form_allows_more,
  // of studies
  not_computed,
  limit_unanswered,
  early_transfer,
  unlike_cases,
  reading, // how the numbers are to be read
  assumption
};

struct FindingWords {
  FindingKind kind;
  std::string_view key; // "rim_contact"
  Gravity gravity;
  std::string_view meaning;
  std::string_view advice; // what to do; may be empty
};
[[nodiscard]] std::span<const FindingWords> finding_kinds();
[[nodiscard]] const FindingWords& words_of(FindingKind kind);

struct Finding {
  FindingKind kind;
  std::string what;       // one sentence with its numbers, no full stop
  std::string where = {}; // "nose, stations 425 to 445 mm", "at 120 km/h", `on "worn"`; may be empty
  [[nodiscard]] friend bool operator==(const Finding&, const Finding&) = default;
};
using Findings = std::vector<Finding>;
inline void append(Findings& to, const Findings& more) { to.insert(to.end(), more.begin(), more.end()); }

[[nodiscard]] std::string_view name(Gravity gravity);
[[nodiscard]] inline Gravity gravity_of(const Finding& finding) { return words_of(finding.kind).gravity; }
[[nodiscard]] Gravity gravest(std::span<const Finding> findings); // a note where there are none
[[nodiscard]] bool any_grave(std::span<const Finding> findings);
[[nodiscard]] Findings of_gravity(std::span<const Finding> findings, Gravity gravity);
// Keys of their kinds, each once: "flange_contact, rim_contact".
[[nodiscard]] std::string kinds_of(std::span<const Finding> findings);
// "where: what; advice".
[[nodiscard]] std::string sentence(const Finding& finding);
// The same of several cases, each told once with its cases: "on 3 of 60 (first hollow 7): ...". Kinds in the order of
// the table; of one kind the first case's words stand for all.
class GatheredFindings {
public:
  void add(std::string_view one, std::span<const Finding> findings); // one: how the case is called
  // of: what was looked at ("60 wheels on \"worn\"").
  [[nodiscard]] Findings told(std::string_view of) const;

private:
  struct Group {
    Finding first;
    std::string called;
    std::size_t cases;
  };
  std::vector<Group> groups_;
};

} // namespace wingnose
