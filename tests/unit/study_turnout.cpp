// The turnout of a case: what is told of it, and what is found.
#include "catch.hpp"
#include "said.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/tree_file.hpp"
#include "wingnose/study/run.hpp"
#include "wingnose/study/turnout.hpp"

#include <cmath>
#include <string>

using namespace wingnose;
using said::has;
using said::of_kind;
using said::says;

namespace {

study::TurnoutStudy turnout(const std::string& keys, const std::string& more = "") {
  return study::study_turnout(io::parse_case("[turnout]\n" + keys + "\n" + more, "test.toml", "."));
}

bool beyond(const Findings& findings, const std::string& what) {
  return says(of_kind(findings, FindingKind::beyond_standard), what);
}

} // namespace

TEST_CASE("60 instead of 50 km/h through R 300 is told as beyond the abrupt change allowed, 50 km/h is not") {
  const std::string way = "geometry = \"preset\"\npreset = \"R300-1:9\"\nway = \"diverging\"";
  const auto today = turnout(way, "[passage]\nspeed_km_h = 50"), faster = turnout(way, "[passage]\nspeed_km_h = 60");
  CHECK(of_kind(today.findings, FindingKind::beyond_standard).empty());
  CHECK(beyond(faster.findings, "abrupt change of cant deficiency is 141.6 mm, beyond the max of 130 mm by 11.6 mm"));
  CHECK(beyond(faster.findings, "unbalanced acceleration is 0.92593 m/s2, beyond the max of 0.65 m/s2"));
  CHECK(faster.speed_for_design * 3.6 == Approx(50.42).margin(0.005));
  CHECK(
      turnout("geometry = \"preset\"\npreset = \"R300-1:9\"", "[passage]\nspeed_km_h = 160").kinematics.abrupt_change ==
      0.0); // through
}

TEST_CASE("Nose protection read at 1391 with gauge 1438: told as unsafe, by how much and what touches first") {
  const std::string read =
      "geometry = \"preset\"\npreset = \"R300-1:9\"\nnose_protection_reading_mm = 1391\ngauge_reading_mm = 1438";
  const auto s = turnout(read);
  CHECK(s.nominal_margins.at_nose * 1e3 == Approx(-1.5));
  CHECK(s.least_margins.at_nose * 1e3 == Approx(-3.5));
  CHECK(beyond(s.findings, "nose protection is 1391 mm, beyond the min of 1392 mm by 1 mm"));
  CHECK(says(of_kind(s.findings, FindingKind::nose_in_reach),
             "at a shift of 6.5 mm, 1.5 mm before the back of its other"));
  const auto tree = study::tell(cases::Case{}, s);
  CHECK(tree.text("nose/nominal_held") == "no");
  CHECK(has(tree.text("nose/first_back"), "on the wing rail, at 5.0 mm"));
  const auto as_drawn = turnout("geometry = \"preset\"\npreset = \"R300-1:9\"");
  CHECK(of_kind(as_drawn.findings, FindingKind::nose_in_reach).empty());
  CHECK_FALSE(of_kind(as_drawn.findings, FindingKind::nose_in_reach_of_worst).empty());
  CHECK(of_kind(as_drawn.findings, FindingKind::beyond_standard).empty());
}

TEST_CASE("What is left out is said in every answer: blades, bending of the wheelset, deflection of the check rail") {
  const auto s = turnout("geometry = \"preset\"\npreset = \"R760-1:14\"");
  CHECK_FALSE(of_kind(s.findings, FindingKind::switch_without_blades).empty());
  CHECK(says(s.findings, "bending of a wheelset and the deflection of a check rail"));
}

TEST_CASE("A crossing drawn at its turnout's name is told to lie flatter in the curve") {
  const std::string named = "[crossing]\nrate = 9", true_rate = "[crossing]\nrate = 10.2";
  CHECK(says(
      of_kind(turnout("geometry = \"preset\"\npreset = \"R300-1:9\"", named).findings, FindingKind::curved_crossing),
      "1:10.2"));
  CHECK(
      of_kind(turnout("geometry = \"preset\"\npreset = \"R300-1:9\"", true_rate).findings, FindingKind::curved_crossing)
          .empty());
}

TEST_CASE("Short check rails, illegal wheelsets and readings that disagree are told") {
  const std::string of = "geometry = \"preset\"\npreset = \"R500-1:12\"\n";
  CHECK_FALSE(of_kind(turnout(of + "check_length_mm = 1200").findings, FindingKind::check_rail_short).empty());
  CHECK_FALSE(of_kind(turnout(of + "back_to_back_mm = 1366").findings, FindingKind::wheelset_not_legal).empty());
  const std::string read = of + "gauge_reading_mm = 1435\nnose_protection_reading_mm = 1394\n";
  CHECK_FALSE(
      of_kind(turnout(read + "check_flangeway_reading_mm = 45").findings, FindingKind::nose_stands_off).empty());
  CHECK(of_kind(turnout(read + "check_flangeway_reading_mm = 42").findings, FindingKind::nose_stands_off).empty());
}

TEST_CASE("How far a check rail may wear: its protection falls with it, and the standard's value is met at 2 mm") {
  const auto at = [](const std::string& wear) {
    return turnout("geometry = \"preset\"\npreset = \"R300-1:9\"\ncheck_wear_mm = " + wear).findings;
  };
  CHECK_FALSE(beyond(at("2"), "nose protection"));
  CHECK(beyond(at("2.1"), "nose protection is 1391.9 mm, beyond the min of 1392 mm by 0.1 mm"));
}

TEST_CASE("Gauge and flangeway of the crossing count where the turnout states none") {
  const auto s =
      turnout("geometry = \"preset\"\npreset = \"R300-1:9\"", "[crossing]\ngauge_mm = 1437\nflangeway_mm = 46");
  CHECK(s.drawn.gauge * 1e3 == Approx(1437.0));
  CHECK(s.drawn.crossing_flangeway() * 1e3 == Approx(46.0));
  const auto stated =
      turnout("geometry = \"preset\"\npreset = \"R300-1:9\"\ngauge_mm = 1433\ncrossing_flangeway_mm = 42");
  CHECK(stated.drawn.gauge * 1e3 == Approx(1433.0));
  CHECK(stated.drawn.crossing_flangeway() * 1e3 == Approx(42.0));
}

TEST_CASE("A case without a turnout is asked for one, and a turnout changes no passage") {
  CHECK(has(said::refusal<InputError>([] { (void)study::study_turnout(cases::Case{}); }), "give one under [turnout]"));
  const cases::Case plain = io::parse_case("[crossing]\nkind = \"joint\"\ndip_angle_mrad = 10", "joint.toml", ".");
  cases::Case with = plain;
  with.turnout.geometry = cases::TurnoutFrom::preset;
  with.turnout.preset = "R300-1:9";
  CHECK(study::path_part(plain) == study::path_part(with));
  CHECK(study::track_part(plain) == study::track_part(with));
}

TEST_CASE("A turnout's answer holds both routes for drawing, and comes back from JSON's and file's one tree") {
  const auto s = turnout("geometry = \"preset\"\npreset = \"R300-1:9\"\nhand = \"right\"\nway = \"diverging\"");
  const auto tree = study::tell(cases::Case{}, s);
  CHECK(tree.numbers("diverging/y_m").back() < -1.5); // to the right
  CHECK(tree.numbers("through/y_m").back() == 0.0);
  CHECK(tree.number("route/nose_from_start_m") == Approx(29.343).margin(0.001));
  CHECK(tree.number("route/flange_contact_m") == Approx(std::sqrt(2 * 300 * 0.005)).epsilon(1e-4));
  CHECK(tree.numbers("dimensions/margin_mm").size() == layout::turnout::dimensions().size());
  CHECK(has(io::json(tree), "\"angle_at_nose_deg\""));
}
