// One case from end to end, for every kind of excitation and both senses of travel.
#include "catch.hpp"

#include "wingnose/study/run.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <string>

using namespace wingnose;

namespace {

cases::Case usual(Direction direction = Direction::facing) {
  cases::Case c;
  c.passage.direction = direction;
  c.passage.from = -2.5;
  c.passage.to = 2.5;
  return c;
}

void check_sound(const cases::Case& c, const study::Result& r) {
  const auto& h = r.history;
  REQUIRE(r.assessment.measures);
  const auto& m = *r.assessment.measures;
  const auto samples = static_cast<std::size_t>((c.passage.to - c.passage.from) / c.passage.speed / c.passage.step) + 1;
  CHECK(h.time.size() >= samples - 1);
  CHECK(h.time.size() <= samples + 1);
  for (const auto* v : {&h.station, &h.force, &h.wheel_height, &h.wheel_acceleration, &h.rail_deflection,
                        &h.rail_acceleration, &h.bearer_acceleration}) {
    REQUIRE(v->size() == h.time.size());
    CHECK(std::all_of(v->begin(), v->end(), [](double x) { return std::isfinite(x); }));
  }
  CHECK(*std::min_element(h.force.begin(), h.force.end()) >= 0.0);
  REQUIRE(h.body_force.size() == h.bodies.size());
  double mismatch = 0.0;
  for (std::size_t i = 0; i < h.force.size(); ++i) {
    double sum = 0.0;
    for (const auto& f : h.body_force) {
      sum += f[i];
    }
    mismatch = std::max(mismatch, std::abs(sum - h.force[i]));
  }
  CHECK(mismatch < 1e-6 * h.static_load);
  CHECK(h.method == "modal-exponential");
  CHECK((h.station.back() > h.station.front()) == (c.passage.direction == Direction::facing));
  CHECK(m.static_load == h.static_load);
  CHECK(m.p2 > m.static_load);
  CHECK(m.p2 < m.peak_total * 1.001);
  CHECK(m.peak_total < 10.0 * m.static_load);
  CHECK(m.dynamic_factor == Approx(m.peak_total / m.static_load));
  CHECK(m.p2_delay > 1e-3);
  REQUIRE(m.rail_acceleration);
  REQUIRE(m.bearer_acceleration);
  CHECK(*m.rail_acceleration > *m.bearer_acceleration); // pads shield the bearers
  REQUIRE(!r.assessment.estimates.empty());
  CHECK(r.assessment.estimates.front().track_name == "derived");
  CHECK(!r.assessment.estimates.front().assumptions.empty());
  const auto* joint = std::get_if<layout::DippedJoint>(&c.excitation); // what is given is used
  CHECK(r.assessment.estimates.front().input.dip_angle ==
        (joint != nullptr ? joint->dip_angle : r.geometry.kinematics.dip_angle));
  CHECK(r.assessment.estimates.front().forces.P2 > m.static_load);
}

} // namespace

TEST_CASE("The default crossing, facing: the wheel leaves the wing and lands on the nose near the kinematic transfer") {
  cases::Case c = usual();
  c.sets = {closedform::constant_sets().front().name};
  const study::Result r = study::run(c);
  check_sound(c, r);
  const auto& k = r.geometry.kinematics;
  REQUIRE(k.transfer_station);
  REQUIRE(r.geometry.crossing);
  CHECK(r.geometry.path->bodies.size() == 2);
  CHECK(r.assessment.measures->landing_body == "nose");
  CHECK(r.assessment.measures->landing_station == Approx(*k.transfer_station).margin(0.15));
  REQUIRE(r.assessment.measures->peak_nose);
  CHECK(*r.assessment.measures->peak_nose <= r.assessment.measures->peak_total * (1.0 + 1e-9));
  REQUIRE(r.assessment.measures->dynamic_transfer_station);
  CHECK(*r.assessment.measures->dynamic_transfer_station >= r.assessment.measures->landing_station);
  CHECK(r.history.rail_probe_station == Approx(*k.transfer_station));
  CHECK(std::abs(r.history.bearer_probe_station - *k.transfer_station) <= 0.3 + 1e-9);
  CHECK(r.assessment.estimates.size() == 2);
  CHECK(r.assessment.estimates[1].track_name == c.sets[0]);
  CHECK(study::landing_station(r.geometry) == *k.transfer_station);
}

TEST_CASE("The default crossing, trailing: the wheel leaves the nose and lands on the wing") {
  const cases::Case c = usual(Direction::trailing);
  const study::Result r = study::run(c);
  check_sound(c, r);
  CHECK(study::path_part(c).kinematics.direction == Direction::trailing);
  CHECK(r.assessment.measures->landing_body == "wing");
  REQUIRE(r.geometry.kinematics.transfer_station);
  CHECK(r.assessment.measures->landing_station == Approx(*r.geometry.kinematics.transfer_station).margin(0.15));
  // The geometric transfer does not depend on the sense of travel.
  const study::Geometry facing = study::geometry(usual());
  CHECK(*r.geometry.kinematics.transfer_station == Approx(*facing.kinematics.transfer_station).margin(1e-6));
}

TEST_CASE("Both shapes of dipped joint and a given path run as prescribed excitations") {
  cases::Case c = usual();
  const auto at = GENERATE(0.0, 0.3);
  SECTION("kink") {
    c.excitation = layout::DippedJoint{.dip_angle = 0.010, .half_length = 0.5, .at = at};
    const study::Result r = study::run(c);
    check_sound(c, r);
    CHECK(r.geometry.kinematics.dip_angle == Approx(0.010).epsilon(1e-6));
    CHECK(r.geometry.kinematics.dip_depth == Approx(0.5 * 0.005).epsilon(1e-6));
    CHECK(r.assessment.measures->landing_body == "path");
    CHECK(r.assessment.measures->landing_station == Approx(at).margin(1e-9));
    CHECK(r.assessment.measures->first_peak);
    CHECK(!r.geometry.crossing);
    CHECK(!r.geometry.kinematics.transfer_station);
    SECTION("a track made before and shared gives the same answer") {
      const study::Result shared = study::run(c, track::modal_track(study::track_for(c)));
      CHECK(shared.assessment.measures->p2 == r.assessment.measures->p2);
      CHECK(shared.assessment.measures->first_peak == r.assessment.measures->first_peak);
    }
  }
  SECTION("quadratic dip") {
    c.excitation = layout::DippedJoint{
        .dip_angle = 0.010, .half_length = 0.5, .shape = layout::DippedJoint::Shape::quadratic, .at = at};
    const study::Result r = study::run(c);
    check_sound(c, r);
    CHECK(r.assessment.measures->landing_station == Approx(at).margin(1e-9));
    // On the way down a quadratic dip the wheel is unloading before it lands.
    CHECK(r.assessment.measures->force_before_landing < r.assessment.measures->static_load);
  }
  SECTION("given path, trailing") {
    c.passage.direction = Direction::trailing;
    c.excitation = layout::GivenPath{{-4.0, at - 0.6, at, at + 0.6, 4.0}, {0.0, 0.0, -0.003, 0.0, 0.0}};
    const study::Result r = study::run(c);
    check_sound(c, r);
    CHECK(r.assessment.measures->landing_station == Approx(at).margin(1e-9));
    CHECK(r.geometry.kinematics.dip_angle == Approx(0.010).epsilon(1e-6));
  }
}

TEST_CASE("A coach passes: reporting its first or its second wheel describes one and the same passage") {
  cases::Case first = usual();
  first.vehicle.preset = "coach";
  first.track.elements_per_bay = 4;
  first.excitation = layout::DippedJoint{.dip_angle = 0.010, .half_length = 0.5};
  first.passage.from = -2.0;
  first.passage.to = 4.4;
  cases::Case second = first;
  second.passage.reported_wheel = 2;
  const auto wheels = cases::vehicle_of(first).wheels;
  const double apart = wheels[0].x - wheels[1].x; // m
  CHECK(apart == Approx(2.56));
  second.passage.from -= apart; // the same start of the whole vehicle
  second.passage.to -= apart;
  // The track must hold the trailing wheels 21.56 m behind, in both.
  const track::Track t = study::track_for(first);
  CHECK(t.bays * t.spacing > 6.4 + 21.56);
  const auto track = track::modal_track(t);
  const study::Result a = study::run(first, track), b = study::run(second, track);
  check_sound(first, a);
  check_sound(second, b);
  REQUIRE(a.history.wheel_peaks.size() == 4);
  for (std::size_t w = 0; w < 4; ++w) {
    CHECK(a.history.wheel_peaks[w] == Approx(b.history.wheel_peaks[w]).epsilon(1e-6));
  }
  // What one run reports of its wheel is what the other saw of it, but for the refinement of the peak between samples.
  CHECK(a.assessment.measures->peak_total == Approx(b.history.wheel_peaks[0]).epsilon(5e-3));
  CHECK(b.assessment.measures->peak_total == Approx(a.history.wheel_peaks[1]).epsilon(5e-3));
  CHECK(b.assessment.measures->landing_station == Approx(0.0).margin(1e-9));
  // Both wheels of a bogie meet the same joint with the same load.
  CHECK(b.assessment.measures->p2 == Approx(a.assessment.measures->p2).epsilon(0.03));
  CHECK(b.assessment.measures->peak_total != a.assessment.measures->peak_total);
}

TEST_CASE("A coach over the default crossing lands on the nose with its second wheel too") {
  cases::Case c = usual();
  c.vehicle.preset = "coach";
  c.track.elements_per_bay = 4;
  c.passage.reported_wheel = 2;
  const study::Result r = study::run(c);
  check_sound(c, r);
  CHECK(r.assessment.measures->landing_body == "nose");
  CHECK(r.history.static_load == Approx(54.55e3).epsilon(1e-3));
}

TEST_CASE("Cases that cannot be run say why") {
  cases::Case c = usual();
  SECTION("a wheel the vehicle does not have") {
    c.passage.reported_wheel = 2;
    CHECK_THROWS_AS(study::run(c), InputError);
    c.passage.reported_wheel = 0;
    CHECK_THROWS_AS(study::run(c), InputError);
    c.passage.reported_wheel = -1;
    CHECK_THROWS_AS(study::run(c), InputError);
  }
  SECTION("a vehicle without wheels") {
    c.vehicle.table = cases::VehicleTable{"", vehicle::Vehicle{}};
    CHECK_THROWS_AS(study::run(c), InputError);
  }
  SECTION("a level path has no landing") {
    c.excitation = layout::GivenPath{{-3.0, 3.0}, {0.0, 0.0}};
    CHECK_THROWS_AS(study::run(c), ComputeError);
  }
  SECTION("the window ends before the transfer") {
    c.passage.to = -1.0;
    CHECK_THROWS_AS(study::run(c), ComputeError);
  }
  SECTION("a speed or a step that cannot be") {
    c.passage.speed = 0.0;
    CHECK_THROWS_AS(study::run(c), InputError);
    c.passage.speed = 30.0;
    c.passage.step = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(study::run(c), InputError);
  }
}
