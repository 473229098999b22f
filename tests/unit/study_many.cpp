#include "catch.hpp"

#include "../../src/study/many/many_parts.hpp"

#include "wingnose/study/many.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace wingnose;
using OutcomeState = study::Outcome::State;

namespace {

// A dipped joint on a short coarse track: everything shares one modal track, each dip angle has its own path.
cases::Case joint(double dip, double speed = 30.0) {
  cases::Case c;
  c.excitation = layout::DippedJoint{.dip_angle = dip, .half_length = 10.0};
  c.track.bays = 24;
  c.track.elements_per_bay = 4;
  c.passage.speed = speed;
  c.passage.from = -0.6;
  c.passage.to = 0.9;
  c.measures.window = 0.02;
  return c;
}

// Eleven cases: more than one batch, two speeds, one that cannot work in the middle.
std::vector<cases::Case> mixed() {
  std::vector<cases::Case> cases;
  for (int i = 0; i < 11; ++i) {
    cases.push_back(joint(0.004 + 0.001 * i, i % 3 == 0 ? 20.0 : 30.0));
  }
  cases[5].passage.speed = -1.0;
  return cases;
}

bool same_bits(const study::Outcome& a, const study::Outcome& b) {
  if (a.state != b.state || a.failure != b.failure) {
    return false;
  }
  return !a.assessment || (a.assessment->measures->p2 == b.assessment->measures->p2 &&
                           a.assessment->measures->peak_total == b.assessment->measures->peak_total &&
                           a.assessment->measures->impulse == b.assessment->measures->impulse &&
                           a.assessment->measures->first_peak == b.assessment->measures->first_peak);
}

} // namespace

TEST_CASE(
    "Many cases give the same bits whatever the number of threads and their order; one that fails stops no other") {
  const auto cases = mixed();
  const auto one = study::run_many(cases, {.threads = 1});
  REQUIRE(one.size() == cases.size());
  for (std::size_t i = 0; i < one.size(); ++i) {
    CAPTURE(i, one[i].failure);
    CHECK((one[i].state == OutcomeState::done) == (i != 5));
  }
  CHECK(one[5].state == OutcomeState::bad_input);
  CHECK(one[5].failure.find("speed") != std::string::npos);

  const auto three = study::run_many(cases, {.threads = 3});
  auto reversed = cases;
  std::reverse(reversed.begin(), reversed.end());
  auto backwards = study::run_many(reversed, {.threads = 2});
  std::reverse(backwards.begin(), backwards.end());
  for (std::size_t i = 0; i < cases.size(); ++i) {
    CAPTURE(i);
    CHECK(same_bits(one[i], three[i]));
    CHECK(same_bits(one[i], backwards[i]));
  }

  // Eight at a time or alone: the same passage to rounding.
  const auto r = study::run(cases[4]);
  CHECK(one[4].assessment->measures->p2 == Approx(r.assessment.measures->p2).epsilon(1e-8));
  CHECK(one[4].assessment->measures->peak_total == Approx(r.assessment.measures->peak_total).epsilon(1e-8));
  CHECK(!one[4].assessment->measures->rail_acceleration); // no probes unless asked for
  CHECK(!one[4].kept);
}

TEST_CASE("A case gives the same bits alone, among others and on any number of threads, however its steps grow") {
  std::vector<cases::Case> cases;
  for (int i = 0; i < 10; ++i) {
    cases::Case c = joint(0.0, i < 5 ? 30.0 : 45.0);
    c.excitation = layout::CrossingShape{};
    c.wheel.lateral_offset = i % 2 == 0 ? 0.0 : 2e-3; // two paths, each with kinks of its own
    c.vehicle.single.static_load = 60e3 + 8e3 * i;
    c.passage.from = -1.5;
    c.passage.to = 2.0;
    c.passage.longest_step = 160e-6;
    cases.push_back(c);
  }
  const auto together = study::run_many(cases, {.threads = 1}), threads = study::run_many(cases, {.threads = 3});
  for (std::size_t i = 0; i < cases.size(); ++i) {
    CAPTURE(i, together[i].failure);
    REQUIRE(together[i].state == OutcomeState::done);
    CHECK(same_bits(together[i], threads[i]));
    CHECK(same_bits(together[i], study::run_many(std::vector{cases[i]}, {.threads = 1}).front()));
    auto short_steps = cases[i];
    short_steps.passage.longest_step = short_steps.passage.step;
    const auto other = study::run_many(std::vector{short_steps}, {.threads = 1}).front();
    CHECK(other.assessment->measures->p2 != together[i].assessment->measures->p2); // it was another plan of steps
    CHECK(other.assessment->measures->p2 == Approx(together[i].assessment->measures->p2).epsilon(1e-3));
  }
}

TEST_CASE("A vehicle that cannot stand spoils no other case on the same path, whichever comes first") {
  std::vector<cases::Case> cases{joint(0.006), joint(0.006), joint(0.006)};
  cases[0].vehicle.single.unsprung_mass = -1.0;
  cases[2].vehicle.single.unsprung_mass = 1.5 * cases::vehicle_of(cases[1]).wheels[0].unsprung_mass;
  const auto outcomes = study::run_many(cases, {.threads = 1});
  CHECK(outcomes[0].state == OutcomeState::bad_input);
  REQUIRE(outcomes[1].state == OutcomeState::done);
  REQUIRE(outcomes[2].state == OutcomeState::done);
  CHECK(outcomes[2].assessment->measures->p2 > outcomes[1].assessment->measures->p2);
}

TEST_CASE("Many cases report progress, keep histories and probes when asked, and end soon when told to") {
  const std::vector<cases::Case> cases{joint(0.006), joint(0.009), joint(0.012)};
  std::vector<std::size_t> reported; // one thread reports at a time
  study::ManyOptions options{.threads = 2, .probes = true, .keep_history = true};
  options.progress = [&](std::size_t done, std::size_t total) { reported.push_back(total == 3 ? done : 99); };
  study::SharedParts parts;
  const auto kept = study::run_many(cases, options, &parts);
  CHECK(reported == std::vector<std::size_t>{1, 2, 3});
  CHECK(kept[1].kept->history.time.size() > 100);
  CHECK(kept[1].assessment->measures->rail_acceleration.value_or(0.0) > 0.0);
  CHECK(kept[1].kept->geometry.path != nullptr);

  // The parts made for the first call serve the second.
  const auto again = study::run_many(cases, options, &parts);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    CHECK(same_bits(kept[i], again[i]));
  }

  const std::atomic<bool> cancel = true;
  const auto none = study::run_many(cases, {.threads = 1, .cancel = &cancel});
  CHECK(std::all_of(none.begin(), none.end(),
                    [](const auto& o) { return o.state == OutcomeState::not_run && !o.assessment; }));
  CHECK_THROWS_AS(study::run_many(cases, {.threads = -1}), InputError);
  CHECK(study::run_many({}, {}).empty());
}

TEST_CASE("A look at each result sees its history and path, which are then let go unless they are to be kept") {
  const auto cases = mixed();
  std::vector<double> peaks(cases.size(), 0.0);
  study::ManyOptions options{.threads = 3};
  options.look = [&](std::size_t i, const cases::Case& c, const study::Result& result) {
    if (&c == &cases[i] && result.geometry.path && result.geometry.kinematics.dip_angle > 0.0) {
      peaks[i] = *std::max_element(result.history.force.begin(), result.history.force.end());
    }
  };
  const auto seen = study::run_many(cases, options), plain = study::run_many(cases, {.threads = 1});
  for (std::size_t i = 0; i < cases.size(); ++i) {
    CAPTURE(i);
    CHECK(same_bits(seen[i], plain[i]));
    REQUIRE((peaks[i] > 0.0) == (i != 5));
    if (i != 5) {
      CHECK(peaks[i] == Approx(seen[i].assessment->measures->peak_total).epsilon(0.01)); // sought between the samples
      CHECK(!seen[i].kept);
      CHECK(seen[i].assessment->kinematics.dip_angle > 0.0);
    }
  }
  SECTION("what it refuses is the refusal of that case alone") {
    options.look = [](std::size_t i, const cases::Case&, const study::Result&) {
      if (i == 2) {
        throw ComputeError("seen nothing");
      }
    };
    const auto refused = study::run_many(cases, options);
    CHECK(refused[2].failure == "seen nothing");
    CHECK(same_bits(refused[3], plain[3]));
  }
  SECTION("anything else it throws ends the work") {
    options.look = [](std::size_t, const cases::Case&, const study::Result&) { throw std::bad_alloc(); };
    CHECK_THROWS_AS(study::run_many(cases, options), std::bad_alloc);
  }
}

TEST_CASE("Cases share a wheel path only where all is alike that it and the contact along it rest on") {
  const cases::Case usual;
  const auto shared = [](const cases::Case& a, const cases::Case& b) {
    const auto one = study::path_part(a), other = study::path_part(b);
    CHECK((study::hash(one) == study::hash(other) || one != other)); // a pool finds equal parts by it
    return one == other;
  };
  CHECK(shared(usual, usual));
  const auto differs = [&](auto change) {
    cases::Case other = usual;
    change(other);
    return !shared(usual, other) && !shared(other, usual);
  };
  CHECK(differs([](cases::Case& c) { c.wheel.lateral_offset = 0.001; }));
  CHECK(differs([](cases::Case& c) { c.wheel.roll = 0.001; }));
  CHECK(differs([](cases::Case& c) { c.wheel.yaw = 0.001; }));
  CHECK(differs([](cases::Case& c) { c.contact.law = contact::Strips{}; }));
  CHECK(differs([](cases::Case& c) { c.contact.search = contact::SearchAt::step; }));
  CHECK(differs([](cases::Case& c) { c.passage.to += 0.1; }));
  CHECK(differs([](cases::Case& c) { c.wheel.shape = cases::Cone{0.05}; }));
  CHECK(differs([](cases::Case& c) { c.wheel.radius = 0.47; }));
}
