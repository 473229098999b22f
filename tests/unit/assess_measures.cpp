// Measures of histories whose answers are known because the histories are made up.
#include "catch.hpp"

#include "wingnose/assess/measures.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

using namespace wingnose;
using passage::Event;
using passage::History;

namespace {

constexpr double h = 2e-5, speed = 30.0, load = 90e3; // s, m/s, N

// A prescribed path: the reported wheel passes station 0 at `landing` (s), facing.
History on_path(const std::function<double(double)>& force_after_landing, double landing = 0.2, double end = 0.4) {
  History k;
  k.bodies = {"path"};
  k.roles = {layout::Role::stock};
  k.body_force.resize(1);
  k.step = h;
  k.static_load = load;
  const int n = static_cast<int>(std::lround(end / h));
  for (int i = 0; i <= n; ++i) {
    const double t = i * h;
    k.time.push_back(t);
    k.station.push_back(speed * (t - landing));
    k.force.push_back(force_after_landing(t - landing));
    k.body_force[0].push_back(k.force.back());
  }
  return k;
}

double bell(double t, double centre, double width) {
  const double u = (t - centre) / width;
  return std::exp(-u * u);
}
double half_sine(double t, double begin, double length) {
  return t > begin && t < begin + length ? std::sin(std::numbers::pi * (t - begin) / length) : 0.0;
}

bool found(const assess::Measures& m, FindingKind kind) {
  return std::any_of(m.findings.begin(), m.findings.end(), [&](const Finding& f) { return f.kind == kind; });
}

} // namespace

TEST_CASE("A kink: sharp first peak, slow second one") {
  constexpr double p1 = 110e3, p1_at = 0.31e-3, hump = 55e3;
  const auto k = on_path(
      [&](double t) { return t < 0.0 ? load : load + p1 * bell(t, p1_at, 0.12e-3) + hump * half_sine(t, 0.0, 14e-3); });
  const auto m = assess::measure(k, 0.0, {});
  CHECK(m.landing_body == "path");
  CHECK(m.landing_time == Approx(0.2).epsilon(1e-12));
  CHECK(m.landing_station == Approx(0.0).margin(1e-9));
  // First peak: the crest of the sum, found between samples by its parabola.
  double crest = 0.0, crest_at = 0.0;
  for (double t = 0.2e-3; t < 0.45e-3; t += 1e-8) {
    const double f = load + p1 * bell(t, p1_at, 0.12e-3) + hump * half_sine(t, 0.0, 14e-3);
    if (f > crest) {
      crest = f;
      crest_at = t;
    }
  }
  REQUIRE(m.first_peak);
  REQUIRE(m.first_peak_delay);
  // The parabola through samples 20 us apart misses 3/128 f'''' h^4 of a bell 0.12 ms wide: 2e-4 at worst.
  CHECK(*m.first_peak == Approx(crest).epsilon(2e-4));
  CHECK(*m.first_peak_delay == Approx(crest_at).margin(0.05 * h));
  CHECK(m.peak_total == Approx(crest).epsilon(2e-4));
  CHECK(m.peak_total_station == Approx(speed * crest_at).margin(0.05 * h * speed));
  // P2: the filter leaves little of the sharp peak and most of the hump.
  const auto slow = assess::low_pass_zero_phase(k.force, h, 150.0, 2);
  CHECK(m.p2 == Approx(*std::max_element(slow.begin(), slow.end())).epsilon(1e-6));
  CHECK(m.p2 > load + 0.8 * hump);
  CHECK(m.p2 < load + 1.15 * hump);
  CHECK(m.p2_cut_off == 150.0);
  CHECK(m.p2_delay > 3e-3);
  CHECK(m.p2_delay < 8e-3);
  // The impulse over 10 ms: exactly load times time and the two half waves, here by fine sums.
  double impulse = 0.0;
  for (double t = 0.5e-7; t < 10e-3; t += 1e-7) {
    impulse += 1e-7 * (load + p1 * bell(t, p1_at, 0.12e-3) + hump * half_sine(t, 0.0, 14e-3));
  }
  REQUIRE(m.landing_impulse);
  CHECK(*m.landing_impulse == Approx(impulse).epsilon(1e-4));
  CHECK(*assess::measure(k, 0.0, {.impulse_window = 1e-4}).landing_impulse < 0.02 * impulse);
  CHECK(!assess::measure(k, 0.0, {.impulse_window = 0.9}).landing_impulse); // the simulation ends before
  CHECK(m.static_load == load);
  CHECK(m.force_before_landing == Approx(load));
  CHECK(m.dynamic_factor == Approx(m.peak_total / load).epsilon(1e-12));
  CHECK(m.p2_dynamic_factor == Approx(m.p2 / load).epsilon(1e-12));
  CHECK(m.minimum_force == Approx(load));
  CHECK(m.lost_contact == 0.0);
  CHECK(m.overlap_length == 0.0);
  CHECK(!m.peak_nose);
  CHECK(!m.peak_wing);
  CHECK(!m.dynamic_transfer_station);
  CHECK(!m.rail_acceleration);
  CHECK(!found(m, FindingKind::no_first_peak));
}

TEST_CASE("A slow crest alone has no first peak, and the measures say so") {
  SECTION("a hump of 14 ms") {
    const auto m = assess::measure(on_path([](double t) { return load + 55e3 * half_sine(t, 0.0, 14e-3); }), 0.0, {});
    CHECK(!m.first_peak);
    CHECK(!m.first_peak_delay);
    CHECK(found(m, FindingKind::no_first_peak));
    CHECK(m.peak_total == Approx(load + 55e3).epsilon(1e-6));
  }
  SECTION("a ripple below the prominence asked for") {
    const auto force = [](double t) {
      return load + 55e3 * half_sine(t, 0.0, 14e-3) +
             (t > 0.0 ? 800.0 * std::sin(2.0 * std::numbers::pi * 1500.0 * t) : 0.0);
    };
    assess::MeasureOptions options;
    CHECK(!assess::measure(on_path(force), 0.0, options).first_peak);
  }
  SECTION("a sharp peak that comes later than the window for it") {
    const auto force = [](double t) { return load + 80e3 * bell(t, 2.6e-3, 0.12e-3); };
    CHECK(!assess::measure(on_path(force), 0.0, {}).first_peak);
    assess::MeasureOptions options;
    options.first_peak_window = 0.003;
    CHECK(assess::measure(on_path(force), 0.0, options).first_peak.value_or(0.0) == Approx(load + 80e3).epsilon(1e-3));
  }
}

TEST_CASE("A crest of the slow response that comes early is a first peak of its own kind, told as such") {
  const auto m = assess::measure(on_path([](double t) { return load + 55e3 * bell(t, 1.5e-3, 10e-3); }), 0.0, {});
  REQUIRE(m.first_peak);
  CHECK(*m.first_peak == Approx(load + 55e3).epsilon(1e-6));
  CHECK(*m.first_peak_over_valleys == Approx(55e3 * (1.0 - bell(-h, 1.5e-3, 10e-3))).epsilon(1e-6));
  const auto sharp = assess::measure(
      on_path([](double t) { return load + 55e3 * bell(t, 8e-3, 10e-3) + 9e3 * bell(t, 1e-3, 1e-4); }), 0.0, {});
  REQUIRE(sharp.first_peak_over_low_pass);
  CHECK(*sharp.first_peak_over_low_pass > 0.0);
  CHECK(sharp.high_frequency_excess == Approx(*sharp.first_peak_over_low_pass).epsilon(0.02));
  CHECK(!found(sharp, FindingKind::slow_first_peak));
  // A relief so deep that the crest within it stays below the low-passed course.
  const auto below = assess::measure(
      on_path([](double t) { return load - 60e3 * half_sine(t, -1e-3, 2.2e-3) + 14e3 * bell(t, 0.6e-3, 0.7e-4); }), 0.0,
      {});
  REQUIRE(below.first_peak);
  CHECK(*below.first_peak_over_low_pass < 0.0);
  CHECK(found(below, FindingKind::slow_first_peak));
}

TEST_CASE("The high-frequency excess is told with and without a first peak") {
  const auto k = on_path([](double t) { return load + 55e3 * half_sine(t, 0.0, 14e-3); });
  const auto m = assess::measure(k, 0.0, {});
  const auto slow = assess::low_pass_zero_phase(k.force, h, 150.0, 2);
  double most = 0.0;
  for (std::size_t i = 10000; i <= 13000; ++i) {
    most = std::max(most, k.force[i] - slow[i]);
  }
  CHECK(!m.first_peak);
  CHECK(m.high_frequency_excess == Approx(most).epsilon(1e-12));
  CHECK(most > 1e3); // the filter rounds the corner where the half wave begins
}

TEST_CASE("Measures that end before the response does say so, and a slow wheel is followed over a length") {
  // The wheel meets its hump 0.3 m behind the landing, whatever its speed: 10 ms later at 30 m/s, 150 ms at 2 m/s.
  const auto at = [](double v) {
    History k = on_path([v](double t) { return load + 40e3 * bell(v * t, 0.3, 0.05); }, 0.5, 1.0);
    for (std::size_t i = 0; i < k.time.size(); ++i) {
      k.station[i] = v * (k.time[i] - 0.5);
    }
    return k;
  };
  CHECK(assess::measure(at(2.0), 0.0, {}).peak_total == Approx(load + 40e3).epsilon(1e-6));
  CHECK(assess::measure(at(30.0), 0.0, {}).peak_total == Approx(load + 40e3).epsilon(1e-6));
  const assess::MeasureOptions by_time{.window_length = 0.0}; // 60 ms are 0.12 m: the force still rises
  const auto cut = assess::measure(at(2.0), 0.0, {.window = 0.13, .window_length = 0.0});
  CHECK(found(cut, FindingKind::measures_cut));
  CHECK(!found(assess::measure(at(2.0), 0.0, {}), FindingKind::measures_cut));
  CHECK(assess::measure(at(30.0), 0.0, {}).peak_total == assess::measure(at(30.0), 0.0, by_time).peak_total);
  // In the air where the window ends.
  const auto flying = on_path([](double t) { return t > 0.05 && t < 0.07 ? 0.0 : load; });
  CHECK(found(assess::measure(flying, 0.0, {}), FindingKind::measures_cut));
}

TEST_CASE("A force larger before the landing than after it is not left out in silence") {
  const auto k = on_path([](double t) { return load + 70e3 * bell(t, 5e-3, 2e-3) + 90e3 * bell(t, -5e-3, 1e-3); });
  const auto m = assess::measure(k, 0.0, {});
  CHECK(m.peak_total == Approx(load + 70e3).epsilon(1e-6));
  const auto f = std::find_if(m.findings.begin(), m.findings.end(),
                              [](const Finding& one) { return one.kind == FindingKind::peak_before_landing; });
  REQUIRE(f != m.findings.end());
  CHECK(f->what.find("reaches 180.00 kN") != std::string::npos);
  CHECK(!found(assess::measure(on_path([](double t) { return load + 70e3 * bell(t, 5e-3, 2e-3); }), 0.0, {}),
               FindingKind::peak_before_landing));
}

TEST_CASE("Of two sharp peaks the first counts, even if the second is higher") {
  const auto m = assess::measure(
      on_path([](double t) { return load + 40e3 * bell(t, 0.3e-3, 0.1e-3) + 90e3 * bell(t, 1.1e-3, 0.1e-3); }), 0.0,
      {});
  REQUIRE(m.first_peak);
  CHECK(*m.first_peak == Approx(load + 40e3).epsilon(2e-3));
  CHECK(*m.first_peak_delay == Approx(0.3e-3).margin(h));
  CHECK(m.peak_total == Approx(load + 90e3).epsilon(2e-3));
}

TEST_CASE("Impulse, lowest force and peaks count from the landing, within the window") {
  const auto k = on_path([](double t) {
    return load + 70e3 * half_sine(t, 2e-3, 10e-3) // 2 A T / pi of excess
           - 60e3 * half_sine(t, 20e-3, 10e-3)     // relief takes nothing away from the excess
           + 500e3 * bell(t, -5e-3, 0.5e-3)        // before the landing
           + 500e3 * bell(t, 80e-3, 0.5e-3)        // after the window
           - 80e3 * bell(t, -30e-3, 1e-3);         // lowest force may lie before the landing
  });
  const auto m = assess::measure(k, 0.0, {});
  CHECK(m.impulse == Approx(2.0 * 70e3 * 10e-3 / std::numbers::pi).epsilon(1e-4));
  CHECK(m.peak_total == Approx(load + 70e3).epsilon(1e-5));
  CHECK(m.minimum_force == Approx(load - 80e3).epsilon(1e-6));
}

TEST_CASE("A crossing, facing: landing on the nose, overlap, transfer, lost contact from the located events") {
  History k = on_path([](double t) { return t < 0.0 ? load : load + 30e3 * half_sine(t, 0.0, 10e-3); });
  k.bodies = {"wing", "nose"};
  k.roles = {layout::Role::wing, layout::Role::nose};
  k.body_force.assign(2, {});
  constexpr double touch = 0.2003, leave = 0.20087, off = 0.2101, on = 0.2143;
  for (const double t : k.time) {
    const double share = std::clamp((t - touch) / (leave - touch), 0.0, 1.0);
    double& force = k.force[k.body_force[0].size()];
    force = t > off && t < on ? 0.0 : force;
    k.body_force[0].push_back((1.0 - share) * force);
    k.body_force[1].push_back(share * force);
  }
  const auto event = [&](Event::Kind kind, const char* body, double t) {
    k.events.push_back({kind, body, t, speed * (t - 0.2)});
  };
  event(Event::Kind::touch, "nose", touch);
  event(Event::Kind::transfer, "nose", 0.2005);
  event(Event::Kind::lift_off, "wing", leave);
  event(Event::Kind::lift_off, "nose", off);
  event(Event::Kind::touch, "nose", on);
  const auto m = assess::measure(k, 0.0, {});
  CHECK(m.landing_body == "nose");
  CHECK(m.landing_time == Approx(touch).epsilon(1e-12));
  CHECK(m.landing_station == Approx(speed * 0.0003).epsilon(1e-9));
  CHECK(m.overlap_length == Approx(speed * (leave - touch)).epsilon(1e-9));
  CHECK(m.lost_contact == Approx(on - off).epsilon(1e-9));
  CHECK(m.minimum_force == 0.0);
  REQUIRE(m.dynamic_transfer_station);
  CHECK(*m.dynamic_transfer_station == Approx(speed * 0.0005).epsilon(1e-9));
  REQUIRE(m.peak_nose);
  REQUIRE(m.peak_wing);
  CHECK(*m.peak_nose == Approx(load + 30e3).epsilon(1e-5));
  CHECK(*m.peak_wing <= m.peak_total);
  // The wing's force jumps at the touch in this history; the parabola there may overshoot by a fraction of a sample.
  CHECK(*m.peak_wing == Approx(k.body_force[0][10015]).epsilon(5e-3));

  SECTION("the window cuts what it does not see") {
    assess::MeasureOptions options;
    options.window = 0.012;
    options.window_length = 0.0;
    CHECK(assess::measure(k, 0.0, options).lost_contact == Approx(touch + 0.012 - off).epsilon(1e-9));
  }
  SECTION("trailing: the same wheel lands on the wing") {
    for (double& x : k.station) {
      x = -x;
    }
    k.events.clear();
    event(Event::Kind::touch, "wing", touch);
    event(Event::Kind::lift_off, "nose", leave);
    std::swap(k.body_force[0], k.body_force[1]);
    const auto t = assess::measure(k, 0.0, {});
    CHECK(t.landing_body == "wing");
    CHECK(t.landing_time == Approx(touch).epsilon(1e-12));
    CHECK(t.landing_station == Approx(-speed * 0.0003).epsilon(1e-9));
    CHECK(t.overlap_length == Approx(speed * (leave - touch)).epsilon(1e-9));
    CHECK(t.overlap_length > 0.0);
  }
  SECTION("a wheel that never touches the nose lands where the kinematics say, with a note") {
    k.events.clear();
    const auto t = assess::measure(k, 0.0, {});
    CHECK(t.landing_time == Approx(0.2).epsilon(1e-9));
    CHECK(found(t, FindingKind::no_landing_of_its_own));
  }
}

TEST_CASE("Accelerations are the largest magnitude below their cut-off") {
  History k = on_path([](double) { return load; });
  k.rail_acceleration.assign(k.time.size(), 0.0);
  k.bearer_acceleration = k.rail_acceleration;
  for (std::size_t i = 0; i < k.time.size(); ++i) {
    const double t = k.time[i] - 0.2;
    k.rail_acceleration[i] = -300.0 * bell(t, 5e-3, 4e-3) + 4000.0 * std::sin(2.0 * std::numbers::pi * 12e3 * t);
    k.bearer_acceleration[i] = 50.0 * std::sin(2.0 * std::numbers::pi * 1000.0 * t);
  }
  const auto m = assess::measure(k, 0.0, {});
  REQUIRE(m.rail_acceleration);
  REQUIRE(m.bearer_acceleration);
  CHECK(*m.rail_acceleration == Approx(300.0).epsilon(0.01));
  CHECK(*m.bearer_acceleration == Approx(25.0).epsilon(0.01)); // half at the cut-off of 1000 Hz
}

TEST_CASE("A landing outside the history is no measure at all, and a short history says what it cuts") {
  const auto k = on_path([](double) { return load; });
  CHECK_THROWS_AS(assess::measure(k, -6.0, {}), ComputeError);
  CHECK_THROWS_AS(assess::measure(k, 6.0, {}), ComputeError);
  CHECK_THROWS_AS(assess::measure(k, 5.99, {}), ComputeError); // a third of a millisecond to spare
  const auto near_end = assess::measure(k, 5.4, {});           // 20 ms to spare
  CHECK(found(near_end, FindingKind::window_cut));
  CHECK(!found(assess::measure(k, 0.0, {}), FindingKind::window_cut));
  assess::MeasureOptions options;
  options.p2_cut_off = -1.0;
  CHECK_THROWS_AS(assess::measure(k, 0.0, options), InputError);
}
