// What the track feels and what sensors read, through a case.
#include "catch.hpp"

#include "wingnose/study/many.hpp"
#include "wingnose/study/run.hpp"
#include "wingnose/study/speeds.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <string>

using namespace wingnose;

namespace {

cases::Case joint(cases::TrackMethod method) {
  cases::Case c;
  c.excitation = layout::DippedJoint{.dip_angle = 0.010, .half_length = 10.0};
  c.track.method = method;
  c.passage.from = -1.5;
  c.passage.to = 1.5;
  return c;
}
assess::Sensor sensor(const std::string& name, assess::Sensor::On on, double station) {
  assess::Sensor s;
  s.name = name;
  s.on = on;
  s.station = station;
  return s;
}
double number(const std::string& key, const study::Result& r) {
  return quantity::value(*quantity::find(key), r.assessment);
}

} // namespace

TEST_CASE("A passage tells what seats and ballast felt, with the bearer where it was most") {
  for (const auto method : {cases::TrackMethod::modes, cases::TrackMethod::chain}) {
    const study::Result r = study::run(joint(method));
    const double seat = number("seat_force_max_kN", r), station = number("seat_force_max_station_mm", r);
    CHECK(seat > 30.0);
    CHECK(seat < number("peak_total_kN", r));
    CHECK(std::abs(std::remainder(station, 600.0)) < 1e-6);
    const quantity::Tree tree = study::tell(joint(method), r);
    const auto all = tree.numbers("bearers/seat_force_max_kN");
    CHECK(*std::max_element(all.begin(), all.end()) == Approx(seat));
    CHECK(tree.numbers("bearers/station_mm").size() == 5); // -1.2 to 1.2 m
    CHECK(std::isnan(number("bearer_moment_max_kNm", r)));
    CHECK(tree.text("assumptions/track/sentence").find("bearers are lumps") != std::string::npos);
    // The stress at the rail foot only on a chain, and not where the section is another one.
    CHECK(std::isnan(number("rail_foot_stress_max_MPa", r)) == (method == cases::TrackMethod::modes));
  }
}

TEST_CASE("Stress at the rail foot is not told on a casting without a section modulus, and is on one with it") {
  cases::Case c = joint(cases::TrackMethod::chain);
  const double plain = number("rail_foot_stress_max_MPa", study::run(c));
  CHECK(plain > 50.0);
  CHECK(plain < 250.0);
  c.track.castings.push_back({-5.0, 5.0, 1.5, 1.5});
  CHECK(std::isnan(number("rail_foot_stress_max_MPa", study::run(c))));
  c.track.castings.back().foot_modulus = 600e-6;
  const double casting = number("rail_foot_stress_max_MPa", study::run(c));
  CHECK(casting > 0.3 * plain);
  CHECK(casting < plain); // less strain in a stiffer body, more of it away from its axis
  c.track.castings.clear();
  c.track.choice->foot_modulus = 2.0 * profile::rail_section("60E1").foot_modulus;
  CHECK(number("rail_foot_stress_max_MPa", study::run(c)) == Approx(0.5 * plain));
}

TEST_CASE("A limit on what this track cannot tell is unanswered, with the reason; one on what it can is answered") {
  const cases::Case c = joint(cases::TrackMethod::modes);
  const std::vector<study::Limit> limits{study::parse_limit("rail_foot_stress_max_MPa=100", "a test"),
                                         study::parse_limit("seat_force_max_kN=500", "a test")};
  const auto study = study::study_speeds(c, {20.0, 40.0, 20.0}, limits, {});
  CHECK(study.answers[0].outcome == assess::LimitOutcome::unanswered);
  CHECK(study.answers[1].outcome == assess::LimitOutcome::not_reached);
  const auto why = std::find_if(study.findings.begin(), study.findings.end(),
                                [](const Finding& f) { return f.kind == FindingKind::limit_unanswered; });
  REQUIRE(why != study.findings.end());
  CHECK(why->what.find("track.method = \"chain\"") != std::string::npos);
}

TEST_CASE("Sensors read the same by modes as on a chain, and their numbers are those of their records") {
  cases::Case a = joint(cases::TrackMethod::modes), b = joint(cases::TrackMethod::chain);
  for (cases::Case* c : {&a, &b}) {
    c->sensors = {sensor("bearer", assess::Sensor::On::bearer, 0.1), sensor("rail", assess::Sensor::On::rail, -0.3)};
    c->sensors[1].quantity = assess::Sensor::Reads::velocity;
  }
  const study::Result p = study::run(a), q = study::run(b);
  REQUIRE(p.assessment.sensors.size() == 2);
  for (std::size_t i = 0; i < 2; ++i) {
    const auto &x = p.assessment.sensors[i], &y = q.assessment.sensors[i];
    CHECK(x.peak_acceleration == Approx(y.peak_acceleration).epsilon(0.02));
    CHECK(x.peak_displacement == Approx(y.peak_displacement).epsilon(0.01));
    // Of the rail within 2 %: neither tells the wheel's own dent as it rolls over a sensor, each leaves out another
    // part.
    CHECK(x.indicator_acceleration == Approx(y.indicator_acceleration).epsilon(i == 0 ? 0.005 : 0.02));
    CHECK(x.quasi_static_peak == Approx(y.quasi_static_peak).epsilon(0.01));
  }
  CHECK(number("sensor_acceleration_m_s2", q) == Approx(q.assessment.sensors[0].peak_acceleration));
  const quantity::Tree tree = study::tell(b, q);
  double most = 0.0;
  for (const double value : tree.numbers("sensors/bearer/acceleration_m_s2")) {
    most = std::max(most, std::abs(value));
  }
  CHECK(most == Approx(tree.numbers("sensors/peak_acceleration_m_s2")[0]));
  CHECK(tree.find("sensors/rail/velocity_mm_s") != nullptr);
  CHECK(tree.find("sensors/rail/displacement_mm") == nullptr); // not asked for
  CHECK(std::any_of(q.assessment.findings.begin(), q.assessment.findings.end(),
                    [](const Finding& f) { return f.kind == FindingKind::sensor_beyond_model; }));
}

TEST_CASE("The rail beside feels the partner, and the wheel through the bearers; one rail has none beside it") {
  cases::Case c = joint(cases::TrackMethod::chain);
  c.sensors = {sensor("here", assess::Sensor::On::rail, 0.3), sensor("beside", assess::Sensor::On::other_rail, 0.3)};
  CHECK_THROWS_WITH(cases::check(c), Catch::Contains("sensor[2].on") && Catch::Contains("two rails"));
  c.track.rails = cases::Rails::two;
  c.track.bearers.kind = cases::BearerKind::bending;
  const auto rough = study::run(c).assessment.sensors;
  // The impact of the wheel over the joint comes through the bearers only.
  CHECK(rough[1].indicator_acceleration < 0.5 * rough[0].indicator_acceleration);
  CHECK(rough[1].indicator_acceleration > 0.0);
  // Without one the rails sink alike.
  c.excitation = layout::DippedJoint{.dip_angle = 1e-5, .half_length = 10.0};
  const auto smooth = study::run(c).assessment.sensors;
  CHECK(smooth[1].quasi_static_peak == Approx(smooth[0].quasi_static_peak).epsilon(0.01));
}

TEST_CASE("The peak of an acceleration depends on its filter, the indicator and the quasi-static share do not") {
  cases::Case c = joint(cases::TrackMethod::chain);
  c.passage.from = -3.0;
  for (const double high : {200.0, 500.0, 1000.0, 2000.0}) {
    assess::Sensor s = sensor("f" + std::to_string(static_cast<int>(high)), assess::Sensor::On::bearer, 0.0);
    s.high = high;
    c.sensors.push_back(s);
  }
  const auto readings = study::run(c).assessment.sensors;
  CHECK(readings.back().peak_acceleration > 1.3 * readings.front().peak_acceleration);
  for (std::size_t i = 1; i < readings.size(); ++i) {
    CHECK(readings[i].quasi_static_peak == Approx(readings[0].quasi_static_peak).epsilon(1e-12));
    CHECK(readings[i].indicator_acceleration == Approx(readings[0].indicator_acceleration).epsilon(1e-12));
  }
}

TEST_CASE("The model's displacement is better than its acceleration integrated twice") {
  cases::Case c = joint(cases::TrackMethod::chain);
  c.passage.from = -3.0;
  c.passage.to = 2.0;
  c.sensors = {sensor("a", assess::Sensor::On::bearer, 0.0)};
  const auto reading = study::run(c).assessment.sensors.front();
  const std::vector<double>&u = reading.displacement.sampled, &a = reading.acceleration.sampled;
  const double h = reading.time[1] - reading.time[0];
  const auto worst = [&](double bias) {
    double velocity = 0.0, moved = 0.0, most = 0.0;
    for (std::size_t i = 1; i < a.size(); ++i) {
      const double before = velocity;
      velocity += 0.5 * h * (a[i - 1] + a[i] + 2 * bias);
      moved += 0.5 * h * (before + velocity);
      most = std::max(most, std::abs(u[0] + moved - u[i]));
    }
    return most / reading.peak_displacement;
  };
  CHECK(worst(0.0) < 0.03); // the model agrees with itself
  CHECK(worst(0.05) > 0.5); // the bias of a real accelerometer does not leave much of it
}

TEST_CASE("Many cases with sensors tell what each tells alone, where probes are asked for") {
  std::vector<cases::Case> cases{joint(cases::TrackMethod::chain), joint(cases::TrackMethod::modes)};
  for (cases::Case& c : cases) {
    c.sensors = {sensor("a", assess::Sensor::On::bearer, 0.0)};
  }
  const auto with = study::run_many(cases, {.threads = 2, .probes = true});
  const auto without = study::run_many(cases, {.threads = 2});
  for (std::size_t i = 0; i < cases.size(); ++i) {
    REQUIRE(with[i].assessment);
    REQUIRE(without[i].assessment);
    const study::Result alone = study::run(cases[i]);
    CHECK(quantity::value(*quantity::find("sensor_indicator_m_s2"), *with[i].assessment) ==
          Approx(number("sensor_indicator_m_s2", alone)));
    CHECK(std::isnan(quantity::value(*quantity::find("sensor_indicator_m_s2"), *without[i].assessment)));
    CHECK(std::isnan(quantity::value(*quantity::find("seat_force_max_kN"), *without[i].assessment)));
    CHECK(without[i].assessment->measures->p2 == Approx(alone.assessment.measures->p2));
  }
}

TEST_CASE("Bearers that bend tell pressure, moment and strain, and carry sensors across the track") {
  cases::Case c = joint(cases::TrackMethod::chain);
  c.track.bearers.kind = cases::BearerKind::bending;
  c.sensors = {sensor("end", assess::Sensor::On::bearer, 0.0), sensor("rail", assess::Sensor::On::bearer, 0.0)};
  c.sensors[0].across = 1.2;
  const study::Result r = study::run(c);
  const double pressure = number("ballast_pressure_max_kPa", r), moment = number("bearer_moment_max_kNm", r);
  CHECK(pressure > 50.0);
  CHECK(pressure < 500.0);
  CHECK(moment > 1.0);
  CHECK(moment < 40.0);
  CHECK(number("bearer_strain_max_um_m", r) ==
        Approx(1e6 * 1e3 * moment * 0.5 * c.track.bearers.all.depth / c.track.bearers.all.EI));
  CHECK(r.assessment.track->missing.empty());
  CHECK(r.assessment.sensors[0].peak_displacement != Approx(r.assessment.sensors[1].peak_displacement).epsilon(0.01));
  CHECK(r.assessment.sensors[0].trusted >= 1000.0);
  // Bearers that hardly bend feel what lumps feel: on the ballast of half a bearer each.
  cases::Case lumps = joint(cases::TrackMethod::chain);
  c.track.bearers.all.EI = 1e9;
  c.sensors.clear();
  const study::Result stiff = study::run(c), lumped = study::run(lumps);
  CHECK(number("seat_force_max_kN", stiff) == Approx(number("seat_force_max_kN", lumped)).epsilon(0.05));
}
