// A vehicle through the turnout of a case: what is told of it, and what is refused.
#include "catch.hpp"
#include "said.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/many.hpp"
#include "wingnose/study/speeds.hpp"
#include "wingnose/study/sweep.hpp"
#include "wingnose/study/turnout_ride.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

using namespace wingnose;

namespace {

const std::string diverging = "[turnout]\ngeometry = \"preset\"\npreset = \"R300-1:9\"\nway = \"diverging\"\n";
const std::string bogie = "[case]\nrung = \"spatial\"\n[spatial]\nvehicle = \"bogie\"\nstep_us = 400\n";

cases::Case case_of(const std::string& text) { return io::parse_case(text, "test.toml", "."); }
study::TurnoutRide ride(const std::string& text) { return study::ride_through(case_of(text)); }
double told(const study::TurnoutRide& r, const char* key) {
  return quantity::value(*quantity::find(key), r.assessment);
}

} // namespace

TEST_CASE("A bogie through the diverging route is told wheelset by wheelset, the leading one on the check rail") {
  const cases::Case c = case_of(bogie + diverging + "[passage]\nspeed_km_h = 50\n");
  const study::TurnoutRide answer = study::ride_through(c);
  const auto& sets = answer.assessment.guidance->wheelsets;
  REQUIRE(sets.size() == 2);
  CHECK(sets[0].check);
  CHECK_FALSE(sets[1].check);
  CHECK(sets[0].sum_of_Y > sets[1].sum_of_Y);
  CHECK(sets[0].flange_energy > 0.0);
  CHECK_FALSE(any_grave(answer.assessment.findings));
  CHECK(std::any_of(answer.assessment.findings.begin(), answer.assessment.findings.end(), [](const Finding& f) {
    return f.kind == FindingKind::assumption && f.what.find("its [vehicle], its [track]") != std::string::npos;
  }));
  const quantity::Tree tree = study::run_told(c);
  CHECK(tree.kind() == "turnout_ride");
  CHECK(tree.text("ride/way") == "diverging");
  CHECK(tree.number("ride/speed_km_h") == Approx(50.0));
  CHECK(tree.number("measures/speed_km_h") == Approx(50.0));
  CHECK(tree.number("measures/check_peak_kN") == Approx(sets[0].check->peak * 1e-3));
  CHECK(std::isnan(tree.number("measures/p2_kN")));
  CHECK(std::isnan(tree.number("measures/dip_angle_mrad")));
}

TEST_CASE("Numbers of a vehicle in space are the worst of its wheelsets, and none of a passage") {
  const study::TurnoutRide r = ride(bogie + diverging + "[passage]\nspeed_km_h = 50\n");
  const auto& sets = r.assessment.guidance->wheelsets;
  CHECK(told(r, "sum_of_Y_2m_kN") == Approx(1e-3 * std::max(sets[0].sum_of_Y, sets[1].sum_of_Y)));
  CHECK(told(r, "least_Q_2m_kN") == Approx(1e-3 * std::min(sets[0].least_Q, sets[1].least_Q)));
  CHECK(told(r, "dynamic_transfer_station_mm") == Approx(1e3 * *sets[0].transfer));
  // S1002 stands at 70 degrees: 1.3416 with 0.3 (Nadal 1896).
  CHECK(told(ride(bogie + diverging + "[damage]\nfriction = 0.3\n[passage]\nspeed_km_h = 50\n"), "nadal_Y_over_Q") ==
        Approx(1.3416).epsilon(1e-3));
  const assess::Assessment passage;
  for (const quantity::Quantity* q : quantity::of_section(quantity::Section::guidance)) {
    CHECK_FALSE(q->of(passage).has_value());
  }
}

TEST_CASE("On rails that bend a ride tells the peaks of every wheelset, and softer ballast lowers its P2") {
  const std::string through = "[turnout]\ngeometry = \"preset\"\npreset = \"R300-1:9\"\nway = \"through\"\n"
                              "[passage]\nspeed_km_h = 100\n";
  const std::string one =
      "[case]\nrung = \"spatial\"\n[spatial]\nvehicle = \"wheelset\"\nrails = \"bending\"\nstep_us = 400\n";
  const cases::Case c = case_of(one + through);
  const study::TurnoutRide r = study::ride_through(c);
  REQUIRE(r.impact.front());
  const assess::Measures& space = *r.impact.front();
  CHECK(told(r, "p2_kN") == Approx(1e-3 * space.p2));
  CHECK(told(r, "peak_total_kN") == Approx(1e-3 * space.peak_total));
  CHECK(space.p2 > space.static_load);
  CHECK(space.landing_body == "nose");
  std::vector<double> steps;
  for (std::size_t k = 1; k < r.history.time.size(); ++k) {
    steps.push_back(r.history.time[k] - r.history.time[k - 1]);
  }
  const auto [least, most] = std::minmax_element(steps.begin(), steps.end());
  CHECK(*most == Approx(400e-6));  // on plain rail ...
  CHECK(*least == Approx(200e-6)); // ... and on the crossing
  const study::TurnoutRide soft = ride(one + through + "[track]\nballast_stiffness_MN_m = 20\n");
  CHECK(told(soft, "p2_kN") < 0.95 * told(r, "p2_kN"));
  const quantity::Tree tree = study::run_told(c);
  CHECK(tree.number("measures/p2_kN") == Approx(1e-3 * space.p2));
  CHECK(tree.numbers("impact/p2_kN").front() == Approx(1e-3 * space.p2));
  CHECK(std::none_of(r.assessment.findings.begin(), r.assessment.findings.end(), [](const Finding& f) {
    return f.what.find("masses on springs that run along") != std::string::npos;
  }));
}

TEST_CASE("A ride tells what accelerometers on its parts show, those of axle boxes on rails that bend") {
  const std::string fifty = diverging + "[passage]\nspeed_km_h = 50\n";
  const study::TurnoutRide r = ride(bogie + fifty);
  const auto& parts = r.assessment.guidance->accelerations;
  REQUIRE(parts.size() == 2);
  CHECK(told(r, "frame_vertical_100hz_m_s2") == Approx(*parts[1].vertical));
  CHECK(told(r, "frame_lateral_100hz_m_s2") == Approx(*parts[1].lateral));
  CHECK(told(r, "car_body_vertical_10hz_m_s2") == Approx(*parts[0].vertical));
  CHECK(std::isnan(told(r, "car_body_lateral_10hz_m_s2"))); // it heaves and is held in all else
  CHECK(std::isnan(told(r, "axle_box_vertical_500hz_m_s2")));
  CHECK(told(ride(bogie + "rails = \"bending\"\n" + fifty), "axle_box_vertical_500hz_m_s2") > 10.0);
  const quantity::Tree tree = study::run_told(case_of(bogie + fifty));
  CHECK(tree.numbers("acceleration/cut_off_hz")[1] == 100.0);
  CHECK(tree.numbers("acceleration/lateral_m_s2")[1] == Approx(*parts[1].lateral));
}

TEST_CASE("A stiffer check rail is hit harder, and the band over its range holds the ride's own peak") {
  const std::string given = bogie +
                            "check_stiffness_MN_m = 50\nleast_check_stiffness_MN_m = 25\n"
                            "most_check_stiffness_MN_m = 100\n" +
                            diverging + "[passage]\nspeed_km_h = 50\n";
  const study::TurnoutRide r = ride(given);
  const assess::GuidedWheelset& leading = r.assessment.guidance->wheelsets[0];
  REQUIRE(leading.check_peak);
  CHECK(leading.check_peak->least < leading.check->peak);
  CHECK(leading.check_peak->most > leading.check->peak);
  cases::Case stiff = case_of(given);
  stiff.spatial.check_stiffness = 100e6;
  CHECK(study::ride_through(stiff).assessment.guidance->wheelsets[0].check->peak == Approx(leading.check_peak->most));
}

TEST_CASE("Wetter rails take guiding force off the leading wheelset") {
  const study::TurnoutRide dry = ride(bogie + diverging + "[damage]\nfriction = 0.4\n[passage]\nspeed_km_h = 50\n");
  const study::TurnoutRide wet = ride(bogie + diverging + "[damage]\nfriction = 0.15\n[passage]\nspeed_km_h = 50\n");
  CHECK(wet.assessment.guidance->wheelsets[0].outward_over_Q < dry.assessment.guidance->wheelsets[0].outward_over_Q);
}

TEST_CASE("On the through route flanges have their whole play to the nose and the check rail is not touched") {
  const study::TurnoutRide middle =
      ride(bogie + "[turnout]\ngeometry = \"preset\"\npreset = \"R300-1:9\"\n[passage]\nspeed_km_h = 100\n");
  // 1435 less 1360 and two flanges of 32.5 mm: 5 mm on either side; wheelsets run in the middle within half of one.
  CHECK(told(middle, "nose_margin_mm") == Approx(5.0).margin(0.5));
  CHECK_FALSE(middle.assessment.guidance->wheelsets[0].check);
  CHECK_FALSE(any_grave(middle.assessment.findings));
}

TEST_CASE("A nose protection too large lets the check rail hold even a wheelset that runs in the middle") {
  const study::TurnoutRide held = ride(bogie + "[turnout]\ngeometry = \"preset\"\npreset = \"R300-1:9\"\n"
                                               "nose_protection_reading_mm = 1399\n[passage]\nspeed_km_h = 100\n");
  CHECK(held.assessment.guidance->wheelsets[0].check); // 36 mm are left where a back stands at 37.5
}

TEST_CASE("Only the body whose friction is another one gives other creep forces") {
  const std::string fifty = diverging + "[damage]\nfriction = 0.3\n[passage]\nspeed_km_h = 50\n";
  const study::TurnoutRide same =
      ride(bogie + "stock_friction = 0.3\nwing_friction = 0.3\nnose_friction = 0.3\n" + fifty);
  const study::TurnoutRide all = ride(bogie + fifty), oiled = ride(bogie + "stock_friction = 0.1\n" + fifty);
  CHECK(told(same, "Y_over_Q_2m") == told(all, "Y_over_Q_2m"));
  CHECK(told(oiled, "Y_over_Q_2m") < 0.9 * told(all, "Y_over_Q_2m"));
  const study::TurnoutRide nose = ride(bogie + "nose_friction = 0.1\n" + fifty);
  // Until the nose is met the rides are the same.
  const auto row = [](const study::TurnoutRide& r, double station) {
    return std::lower_bound(r.history.station.begin(), r.history.station.end(), station) - r.history.station.begin();
  };
  const auto ahead = row(nose, -1.0);
  CHECK(nose.history.Y.topRows(ahead) == all.history.Y.topRows(ahead));
  CHECK_FALSE(nose.history.Y == all.history.Y);
}

TEST_CASE("Irregular rails are left and right as the turnout is built, whichever hand it has") {
  // The left rail sinks ahead of the nose and both lie aside.
  std::vector<layout::IrregularityPoint> points;
  for (int i = 0; i <= 12; ++i) {
    const double x = -9.0 + i, fade = i % 12 == 0 ? 0.0 : std::pow(std::sin(0.2617993878 * i), 2);
    points.push_back({x, -3e-3 * fade, 0.0, 1e-3 * fade, 2e-3 * fade});
  }
  const std::string fifty = "[passage]\nspeed_km_h = 50\n";
  cases::Case left = case_of(bogie + diverging + fifty),
              right = case_of(bogie + diverging + "hand = \"right\"\n" + fifty);
  const study::TurnoutRide even = study::ride_through(left);
  left.spatial.irregularity = points;
  right.spatial.irregularity = layout::Irregularity(points).mirrored().points();
  const study::TurnoutRide one = study::ride_through(left), other = study::ride_through(right);
  CHECK(one.history.Q == other.history.Q);
  CHECK(one.history.shift == other.history.shift);
  CHECK((one.history.Q - even.history.Q).cwiseAbs().maxCoeff() > 2e3); // N
  CHECK(std::any_of(one.assessment.findings.begin(), one.assessment.findings.end(), [](const Finding& f) {
    return f.kind == FindingKind::assumption &&
           f.what.find("up to 3.0 mm in height and 2.0 mm across") != std::string::npos;
  }));
  // On the diverging route of a left-hand turnout the crossing is on the right: what is under its wheel is the right
  // rail.
  const auto under = one.ground.irregularity->at(0, -3.0);
  CHECK(under.z == 0.0);
  CHECK(under.y == Approx(-2e-3));
}

TEST_CASE("Many rides on several threads give what each gives alone, as cases of a sweep and speeds of a study") {
  const cases::Case c = case_of(bogie + diverging + "[passage]\nspeed_km_h = 50\n");
  cases::Case slow = c;
  slow.passage.speed = 10.0;
  const std::array cases{c, slow};
  const auto outcomes = study::run_many(cases, {.threads = 2});
  for (std::size_t i = 0; i < cases.size(); ++i) {
    REQUIRE(outcomes[i].assessment);
    const assess::Assessment alone = study::ride_through(cases[i]).assessment;
    for (const quantity::Quantity* q : quantity::of_section(quantity::Section::guidance)) {
      CHECK(q->of(alone) == q->of(*outcomes[i].assessment));
    }
  }
  const study::Sweep sweep(cases::Document{c}, {{"wheel.lateral_offset_mm", {0.0, 2.0}}}, true);
  const auto rows = study::answer_cases(sweep, 0, 2);
  REQUIRE(rows);
  CHECK(rows->numbers("measures/sum_of_Y_2m_kN").size() == 2);
  CHECK(std::isfinite(rows->numbers("measures/sum_of_Y_2m_kN")[1]));
  const std::array limits{study::parse_limit("check_peak_kN=1", "")};
  const auto speeds = study::study_speeds(c, {10.0, 14.0, 4.0}, limits);
  CHECK(speeds.answers.front().outcome == assess::LimitOutcome::broken_at_lowest);
  CHECK_THROWS_AS(study::Sweep(cases::Document{c}, {{"wheel.lateral_offset_mm", {0.0}}}, true, {.steel = true}),
                  InputError);
}

TEST_CASE("A ride asks for a turnout, a generated crossing, a facing move and a vehicle in space") {
  const auto refused = [](const std::string& text, const std::string& says) {
    INFO(text);
    REQUIRE_THROWS_AS(ride(text), InputError);
    try {
      (void)ride(text);
    } catch (const InputError& error) {
      CHECK(said::has(error.what(), says));
    }
  };
  refused("[passage]\nspeed_km_h = 50\n", "this case has no turnout");
  refused(diverging + "[passage]\ndirection = \"trailing\"\n", "facing move");
  refused(diverging + "[crossing]\nkind = \"joint\"\ndip_angle_mrad = 10\n", "generated crossing");
  refused(bogie + "[passage]\nspeed_km_h = 50\n", "turnout.geometry");
  refused(bogie + diverging + "[passage]\ndirection = \"trailing\"\n", "facing");
  refused(bogie + diverging + "[wheel]\nlateral_offset_mm = 25\n", "-20 to 20 mm");
  refused(bogie + "check_stiffness_MN_m = 50\nleast_check_stiffness_MN_m = 60\n" + diverging, "spatial.least_check");
  const cases::Case spatial = case_of(bogie + diverging);
  CHECK_THROWS_AS(study::run(spatial), InputError);
}
