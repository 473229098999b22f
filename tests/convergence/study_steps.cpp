// Steps that grow long where the force is smooth, against 10 us throughout and against the usual step throughout.
#include "catch.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/many.hpp"

#include <cmath>
#include <string>
#include <vector>

using namespace wingnose;

namespace {

using Cases = std::vector<cases::Case>;

cases::Case joint(const std::string& rail, double pad, double at, double speed = 30.0) {
  cases::Case c;
  c.name = rail + ", pads " + std::to_string(pad * 1e-6) + " MN/m, joint at " + std::to_string(at) + " m, " +
           std::to_string(speed) + " m/s";
  c.excitation = layout::DippedJoint{.dip_angle = 10e-3, .at = at};
  c.track.choice->section = rail;
  c.track.seat.pad_stiffness = pad;
  c.passage.speed = speed;
  return c;
}

cases::Case crossing(const std::string& file, Direction direction, double speed, const std::string& vehicle = "wheel") {
  cases::Case c = io::read_case(WINGNOSE_SOURCE_DIR "/profiles/" + file + ".toml");
  c.name = file + ", " + std::string(name(direction)) + ", " + vehicle + ", " + std::to_string(speed) + " m/s";
  c.passage.direction = direction;
  c.passage.speed = speed;
  if (vehicle != "wheel") {
    c.vehicle.preset = vehicle;
    c.vehicle.single = {};
  }
  return c;
}

cases::Case on_chain(cases::Case c, bool voids) {
  c.name += voids ? ", chain over two voids" : ", chain";
  c.track.method = cases::TrackMethod::chain;
  if (voids) {
    c.track.voids = {{0.0, 1e-3}, {0.6, 1e-3}};
  }
  return c;
}

cases::Case on_long_bearers(cases::Case c) {
  c.name += ", two rails on bearers that bend";
  c.track.method = cases::TrackMethod::chain;
  c.track.bearers.kind = cases::BearerKind::bending;
  c.track.bearers.all.length = 3.6;
  return c;
}

Cases all() {
  Cases set;
  for (const char* rail : {"54E1", "60E1"}) {
    for (const double pad : {60e6, 300e6}) {
      for (const double at : {0.3, 0.0, 0.15}) { // mid-span, over a bearer, between
        set.push_back(joint(rail, pad, at));
        set.push_back(on_chain(joint(rail, pad, at), false));
      }
    }
  }
  set.push_back(joint("60E1", 300e6, 0.3, 15.0));
  set.push_back(joint("60E1", 300e6, 0.3, 60.0));
  for (const Direction direction : {Direction::facing, Direction::trailing}) {
    for (const char* file : {"demo", "worn"}) {
      for (const double speed : {20.0, 30.0, 45.0}) {
        set.push_back(crossing(file, direction, speed));
      }
    }
    set.push_back(crossing("demo", direction, 30.0, "bogie"));
    for (const char* file : {"demo", "worn"}) {
      set.push_back(on_chain(crossing(file, direction, 30.0), false));
      set.push_back(on_chain(crossing(file, direction, 30.0), true));
    }
    set.push_back(on_long_bearers(crossing("demo", direction, 30.0)));
  }
#if defined(WINGNOSE_SANITIZED)
  Cases some; // the same code many times over
  for (std::size_t i = 0; i < set.size(); i += 4) {
    some.push_back(set[i]);
  }
  return some;
#else
  return set;
#endif
}

std::vector<assess::Measures> measured(Cases set, double step, double longest, bool probes = true) {
  for (cases::Case& c : set) {
    c.passage.step = step;
    c.passage.longest_step = longest;
  }
  std::vector<assess::Measures> all;
  for (const study::Outcome& outcome : study::run_many(set, {.probes = probes})) {
    INFO(outcome.failure);
    REQUIRE(outcome.assessment);
    all.push_back(*outcome.assessment.value().measures);
  }
  return all;
}

double apart(double a, double b) { return std::abs(a / b - 1.0); }

// Bars of relative changes, and of places (m).
struct Bars {
  double first_peak, p2, total, place;
};
void compare(const Cases& set, const std::vector<assess::Measures>& found, const std::vector<assess::Measures>& sought,
             const Bars& bars) {
  for (std::size_t i = 0; i < set.size(); ++i) {
    CAPTURE(set[i].name);
    const assess::Measures &a = found[i], &b = sought[i];
    REQUIRE(a.first_peak.has_value() == b.first_peak.has_value());
    CHECK(apart(a.first_peak.value_or(1.0), b.first_peak.value_or(1.0)) < bars.first_peak);
    CHECK(apart(a.p2, b.p2) < bars.p2);
    CHECK(apart(a.peak_total, b.peak_total) < bars.total);
    CHECK(apart(a.peak_nose.value_or(1.0), b.peak_nose.value_or(1.0)) < bars.total);
    CHECK(std::abs(a.landing_station - b.landing_station) < bars.place);
    REQUIRE(a.dynamic_transfer_station.has_value() == b.dynamic_transfer_station.has_value());
    CHECK(std::abs(a.dynamic_transfer_station.value_or(0.0) - b.dynamic_transfer_station.value_or(0.0)) < bars.place);
    CHECK(std::abs(a.lost_contact - b.lost_contact) < 1e-5); // s
  }
}

} // namespace

TEST_CASE("Long steps where the force is smooth move no peak by more than a thousandth, and hold the bars of 10 us") {
  const Cases set = all();
  const auto usual = measured(set, 4e-5, 4e-5), longer = measured(set, 4e-5, 160e-6), fine = measured(set, 1e-5, 1e-5);
  compare(set, longer, usual, {1e-3, 1e-3, 1e-3, 1e-5});
  compare(set, longer, fine, {5e-3, 2e-3, 2e-3, 1e-4});
}

TEST_CASE("Steps grow eight times as long and hold the same bars, and what fixed places tell hardly moves") {
  const Cases set = all();
  const auto longer = measured(set, 4e-5, 320e-6), usual = measured(set, 4e-5, 4e-5);
  compare(set, longer, usual, {1e-3, 1e-3, 1e-3, 1e-5});
  for (std::size_t i = 0; i < set.size(); ++i) {
    CAPTURE(set[i].name);
    CHECK(apart(longer[i].rail_acceleration.value_or(0.0), usual[i].rail_acceleration.value_or(1.0)) < 0.02);
    CHECK(apart(longer[i].bearer_acceleration.value_or(0.0), usual[i].bearer_acceleration.value_or(1.0)) < 0.02);
  }
}

TEST_CASE("Records at fixed places do not change the steps: forces and peaks are the same to the bit without them") {
  const Cases set{crossing("demo", Direction::facing, 30.0),
                  on_chain(crossing("demo", Direction::facing, 30.0), false)};
  const auto with = measured(set, 4e-5, 320e-6);
  const auto without = measured(set, 4e-5, 320e-6, false);
  for (std::size_t i = 0; i < set.size(); ++i) {
    CAPTURE(set[i].name);
    const assess::Measures& m = without[i];
    if (i == 1) { // by modes, a batch of one differs from a passage with records in the last digits
      CHECK(with[i].p2 == m.p2);
      CHECK(with[i].peak_total == m.peak_total);
    }
    CHECK(with[i].p2 == Approx(m.p2).epsilon(1e-9));
    CHECK(with[i].first_peak.value_or(1.0) == Approx(m.first_peak.value_or(1.0)).epsilon(1e-9));
  }
}
