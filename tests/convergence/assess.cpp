// P1, P2 and the ripple on smooth rail against step, mesh, cut-off, length of the track and integration method, judged
// on a set of cases: joint over a seat, at mid-span and between; slow and fast; small and large dip.
#include "catch.hpp"
#include "passage_cases.hpp"

#include "wingnose/assess/measures.hpp"

#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <vector>

using namespace wingnose;

namespace {

struct Joint {
  double at, speed, dip; // m, m/s, rad
};
std::vector<Joint> joints() {
  std::vector<Joint> set;
  for (const double at : {0.0, 0.15, 0.3}) { // over a seat, between, at mid-span
    for (const double speed : {15.0, 50.0}) {
      for (const double dip : {5e-3, 15e-3}) {
        set.push_back({at, speed, dip});
      }
    }
  }
  return set;
}

struct Peaks {
  double p1, p2; // N
};
struct Model {
  cases::TrackPtr track = cases::usual_track();
  double step = passage::Settings{}.step;
  passage::Method method = passage::Method::modal_exponential;
  double tolerance = passage::Settings{}.tolerance;
};
Peaks peaks(const Joint& j, const Model& model) {
  auto s = cases::settings(j.speed, j.at - 1.2, j.at + 0.9);
  s.step = model.step;
  s.method = model.method;
  s.tolerance = model.tolerance;
  const auto h = passage::simulate(cases::over(cases::kink_path(j.dip, j.at), model.track, s, j.at));
  const auto m = assess::measure(h, j.at, {});
  REQUIRE(m.first_peak);
  REQUIRE(*m.first_peak_delay < 0.5e-3); // the first peak itself, not the crest behind it
  return {*m.first_peak, m.p2};
}

// Largest relative changes of P1 and P2 over the set.
Peaks largest_change(const Model& model, const Model& reference, const std::vector<Joint>& set = joints()) {
  Peaks worst{0.0, 0.0};
  for (const Joint& j : set) {
    const Peaks a = peaks(j, model), b = peaks(j, reference);
    worst.p1 = std::max(worst.p1, std::abs(a.p1 / b.p1 - 1.0));
    worst.p2 = std::max(worst.p2, std::abs(a.p2 / b.p2 - 1.0));
  }
  return worst;
}

// Bars of the project for the two peaks.
constexpr double bar_p1 = 0.005, bar_p2 = 0.002;

// Root mean square (N) of the force above 200 Hz on a smooth level rail, over whole bays.
double ripple(const cases::TrackPtr& track, double speed) {
  auto s = cases::settings(speed, -4.8, 4.8);
  s.step = 0.6 / speed / std::round(0.6 / speed / 2e-5); // whole numbers of steps in a bay
  const auto h = passage::simulate(cases::over(cases::level_path(), track, s));
  const auto slow = assess::low_pass_zero_phase(h.force, h.step, 200.0, 4);
  double sum = 0.0, count = 0.0;
  for (std::size_t i = 0; i < h.force.size(); ++i) {
    if (h.station[i] >= -1.8 - 1e-9 && h.station[i] < 1.8 - 1e-9) {
      sum += (h.force[i] - slow[i]) * (h.force[i] - slow[i]);
      count += 1.0;
    }
  }
  return std::sqrt(sum / count);
}

cases::TrackPtr meshed(int elements_per_bay, double cut_off = 5000.0) {
  track::Track t = cases::short_track();
  t.elements_per_bay = elements_per_bay;
  t.cut_off = cut_off;
  return track::modal_track(t);
}

} // namespace

TEST_CASE("Halving the default step moves P1 by less than 0.5 % and P2 by less than 0.2 %") {
  Model half;
  half.step *= 0.5;
  Model fine;
  fine.step = 4e-6;
  const Peaks halved = largest_change({}, half), error = largest_change({}, fine);
  CAPTURE(halved.p1, halved.p2, error.p1, error.p2);
  CHECK(halved.p1 < bar_p1);
  CHECK(halved.p2 < bar_p2);
  CHECK(error.p1 < bar_p1); // against a step ten times shorter
  CHECK(error.p2 < bar_p2);
}

TEST_CASE("On a rounded dip P2 and the largest force below 1 kHz converge with the square of the step") {
  // A cosine dip 0.6 mm deep and 0.5 m long, given every 0.1 mm: no corner that a step could cut, contact never lost.
  std::vector<double> x{-6.0}, z{0.0};
  for (int i = 0; i <= 5000; ++i) {
    const double u = i / 5000.0;
    x.push_back(-0.25 + 0.5 * u + 0.017);
    z.push_back(-0.0003 * (1.0 - std::cos(2.0 * std::numbers::pi * u)));
  }
  x.push_back(6.0);
  z.push_back(0.0);
  const auto path = cases::given_path(x, z);
  const auto run = [&](double step) {
    auto s = cases::settings(30.0, -1.2, 1.2);
    s.step = step;
    const auto h = passage::simulate(cases::over(path, cases::usual_track(), s, 0.0));
    const auto m = assess::measure(h, -0.2, {});
    CHECK(m.minimum_force > 0.2 * m.static_load);
    CHECK(m.peak_total > 1.2 * m.static_load);
    // Below 1 kHz, because each step looks the rail's compliance up in a table whose straight lines leave a ripple of
    // some 20 N at 6 kHz: far below any bar, but above the error of the step.
    assess::MeasureOptions options;
    options.p2_cut_off = 1000.0;
    return Peaks{assess::measure(h, -0.2, options).p2, m.p2};
  };
  const Peaks reference = run(2.5e-6);
  const auto error = [&](double step) {
    const Peaks p = run(step);
    return Peaks{std::abs(p.p1 - reference.p1), std::abs(p.p2 - reference.p2)};
  };
  const Peaks e80 = error(80e-6), e40 = error(40e-6), e20 = error(20e-6);
  CAPTURE(reference.p1, reference.p2, e80.p1, e40.p1, e20.p1, e80.p2, e40.p2, e20.p2);
  CHECK(std::log2(e80.p1 / e40.p1) > 1.8);
  CHECK(std::log2(e40.p1 / e20.p1) > 1.8);
  CHECK(std::log2(e80.p2 / e40.p2) > 1.8);
  CHECK(std::log2(e40.p2 / e20.p2) > 1.8);
}

TEST_CASE("Mesh: halving the eight elements per bay moves the ripple on smooth rail above 200 Hz by less than 5 % and "
          "the peaks within their bars") {
  const auto four = meshed(4), six = meshed(6), eight = meshed(8), sixteen = meshed(16);
  for (const double speed : {15.0, 30.0, 50.0}) {
    const double r4 = ripple(four, speed), r6 = ripple(six, speed), r8 = ripple(eight, speed),
                 r16 = ripple(sixteen, speed);
    CAPTURE(speed, r4, r6, r8, r16);
    CHECK(std::abs(r16 / r8 - 1.0) < 0.05);
    CHECK(std::abs(r16 - r8) < std::abs(r8 - r4));
  }
  const std::vector<Joint> set{{0.0, 50.0, 15e-3}, {0.15, 15.0, 5e-3}, {0.3, 50.0, 5e-3}, {0.3, 15.0, 15e-3}};
  const Peaks e6 = largest_change({.track = six}, {.track = sixteen}, set);
  const Peaks e8 = largest_change({.track = eight}, {.track = sixteen}, set);
  CAPTURE(e6.p1, e6.p2, e8.p1, e8.p2);
  CHECK(e6.p1 < bar_p1);
  CHECK(e6.p2 < bar_p2);
  CHECK(e8.p1 < bar_p1);
  CHECK(e8.p2 < bar_p2);
}

TEST_CASE("The default cut-off holds P1 to 0.5 % and P2 to 0.2 % against modes up to 9 kHz") {
  const auto reference = meshed(8, 9000.0);
  const Peaks usual = largest_change({.track = meshed(8), .step = 1e-5}, {.track = reference, .step = 1e-5});
  const Peaks low = largest_change({.track = meshed(8, 2500.0), .step = 1e-5}, {.track = reference, .step = 1e-5});
  CAPTURE(usual.p1, usual.p2, low.p1, low.p2);
  CHECK(usual.p1 < bar_p1);
  CHECK(usual.p2 < bar_p2);
  CHECK(usual.p1 < low.p1); // and the cut-off does matter
}

TEST_CASE("Forty bays answer as eighty do: nothing returns from the ends within the window") {
  track::Track t;
  t.elements_per_bay = 4;
  const auto forty = track::modal_track(t);
  t.bays = 80;
  const auto eighty = track::modal_track(t);
  const Peaks change = largest_change({.track = forty}, {.track = eighty});
  CAPTURE(change.p1, change.p2);
  CHECK(change.p1 < 0.1 * bar_p1);
  CHECK(change.p2 < 0.5 * bar_p2);
}

TEST_CASE("Tolerance of the adaptive method and the choice of method move P1 and P2 by less than 0.2 %") {
  const std::vector<Joint> set{{0.0, 50.0, 15e-3}, {0.15, 15.0, 5e-3}, {0.3, 50.0, 5e-3}, {0.3, 15.0, 15e-3}};
  const auto track = meshed(8);
  const auto adaptive = [&](double tolerance, double step) {
    return Model{track, step, passage::Method::adaptive_runge_kutta, tolerance};
  };
  const double usual = passage::Settings{}.tolerance;
  const Peaks halved = largest_change(adaptive(usual, 2e-5), adaptive(0.5 * usual, 2e-5), set);
  const Peaks tenfold = largest_change(adaptive(usual, 2e-5), adaptive(10.0 * usual, 2e-5), set);
  const Peaks methods = largest_change({.track = track, .step = 1e-5}, adaptive(usual, 1e-5), set);
  const Peaks default_step = largest_change({.track = track}, adaptive(usual, passage::Settings{}.step), set);
  CAPTURE(halved.p1, halved.p2, tenfold.p1, tenfold.p2, methods.p1, methods.p2, default_step.p1, default_step.p2);
  CHECK(halved.p1 < 0.002);
  CHECK(halved.p2 < 0.002);
  CHECK(tenfold.p1 < 0.002);
  CHECK(tenfold.p2 < 0.002);
  CHECK(methods.p1 < 0.002);
  CHECK(methods.p2 < 0.002);
  CHECK(default_step.p1 < bar_p1);
  CHECK(default_step.p2 < bar_p2);
}
