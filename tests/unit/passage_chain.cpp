// A passage over a track that is a chain.
#include "catch.hpp"
#include "passage_cases.hpp"

#include "wingnose/passage/chain_stepper.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <vector>

using namespace wingnose;
using namespace cases;
namespace chain = wingnose::track::chain;

namespace {

using ChainPtr = std::shared_ptr<const chain::Chain>;

passage::Passage over_chain(PathPtr path, ChainPtr ground, const passage::Settings& s,
                            std::optional<double> landing = std::nullopt,
                            const vehicle::VehicleModel& vehicle = usual_wheel()) {
  passage::PlanParts p = parts(std::move(path), nullptr, s, vehicle);
  p.chain = std::move(ground);
  return passage::make_passage(passage::make_plan(std::move(p)), passage::run_of(s, landing));
}

ChainPtr usual_chain() {
  static const ChainPtr shared = chain::make_chain(chain::one_rail(track::Track{}));
  return shared;
}

// Half as many bays as usual: 6 m either way, more than the windows of these tests.
track::Track short_track() {
  track::Track ground;
  ground.bays = 20;
  return ground;
}
ChainPtr short_chain() {
  static const ChainPtr shared = chain::make_chain(chain::one_rail(short_track()));
  return shared;
}

// The same finely meshed, with modes to 20 kHz: what modes converge to.
TrackPtr fine_track() {
  static const TrackPtr shared = [] {
    track::Track fine = short_track();
    fine.elements_per_bay = 16;
    fine.cut_off = 20e3;
    return track::modal_track(fine);
  }();
  return shared;
}

// The same track on two rails and rigid bearers.
chain::Model on_bearers(double EI) {
  chain::Model m = chain::one_rail(track::Track{});
  m.rails.push_back(m.rails.front());
  for (chain::Bearer& b : m.bearers) {
    b.body = chain::BeamBearer{-1.3, 1.3, 300.0 / 2.6, EI};
    b.ballast.stiffness /= 1.3;
    b.ballast.damping /= 1.3;
    b.seat.front().y = -0.75;
    b.seat.push_back(b.seat.front());
    b.seat.back().y = 0.75;
  }
  return m;
}

double peak(const passage::History& h, double from, double to) {
  double top = 0.0;
  for (std::size_t i = 0; i < h.time.size(); ++i) {
    top = h.station[i] >= from && h.station[i] <= to ? std::max(top, h.force[i]) : top;
  }
  return top;
}

// Force smoothed over 2.5 ms: what P2 is made of.
std::vector<double> slow(const passage::History& h) {
  const int half = static_cast<int>(std::lround(1.25e-3 / h.step));
  std::vector<double> mean;
  for (int i = half; i + half < static_cast<int>(h.force.size()); ++i) {
    double sum = 0.0;
    for (int k = -half; k <= half; ++k) {
      sum += h.force[i + k];
    }
    mean.push_back(sum / (2 * half + 1));
  }
  return mean;
}

} // namespace

TEST_CASE("A passage over a chain of one rail agrees with that over its modes") {
  const auto modes = fine_track();
  for (const double at : {0.3, 0.0, 0.15}) { // kink between, over and near bearers
    for (const Direction direction : {Direction::facing, Direction::trailing}) {
      const passage::Settings s = settings(30.0, at - 3.0, at + 2.0, direction);
      const auto path = kink_path(0.010, at);
      const passage::History a = passage::simulate(over(path, modes, s));
      const passage::History b = passage::simulate(over_chain(path, short_chain(), s));
      REQUIRE(a.force.size() == b.force.size());
      INFO("kink at " << at << " m");
      CHECK(largest_difference(a.force, b.force) < 0.003 * largest(a.force));
      CHECK(peak(b, at - 0.1, at + 0.1) ==
            Approx(peak(a, at - 0.1, at + 0.1)).epsilon(0.002)); // P1; 16 elements a bay err by some 0.1 % themselves
      const std::vector<double> p = slow(a), q = slow(b);
      CHECK(*std::max_element(q.begin(), q.end()) == Approx(*std::max_element(p.begin(), p.end())).epsilon(0.001));
      CHECK(largest_difference(a.rail_deflection, b.rail_deflection) < 0.002 * largest(a.rail_deflection));
    }
  }
}

TEST_CASE("A wheel on level rail over a chain starts where it stays") {
  const passage::Settings s = settings(20.0, -2.0, 1.0);
  const passage::History modes = passage::simulate(over(level_path(), fine_track(), s));
  const passage::History h = passage::simulate(over_chain(level_path(), short_chain(), s));
  CHECK(h.force.front() == Approx(usual_wheel().static_load[0]).epsilon(1e-9));
  CHECK(largest_difference(h.force, modes.force) < 2e-3 * h.force.front());
}

TEST_CASE("Probes of rail and bearer tell the same over chain and modes") {
  passage::Settings s = settings(30.0, -3.0, 2.0);
  s.probes = true;
  const auto path = kink_path(0.010, 0.3);
  const passage::History a = passage::simulate(over(path, usual_track(), s, 0.3));
  const passage::History b = passage::simulate(over_chain(path, usual_chain(), s, 0.3));
  CHECK(a.bearer_probe_station == b.bearer_probe_station);
  CHECK(largest_difference(a.bearer_acceleration, b.bearer_acceleration) < 0.03 * largest(a.bearer_acceleration));
}

TEST_CASE("Two wheels of a bogie over a chain agree with those over modes") {
  const vehicle::VehicleModel bogie = vehicle::assemble(vehicle::preset("bogie"));
  passage::Settings s = settings(30.0, -2.0, 2.5);
  s.reported_wheel = 1;
  const auto path = kink_path(0.010, 0.3, 50.0, -8.0, 8.0);
  const passage::History a = passage::simulate(over(path, usual_track(), s, std::nullopt, bogie));
  const passage::History b = passage::simulate(over_chain(path, usual_chain(), s, std::nullopt, bogie));
  CHECK(largest_difference(a.force, b.force) < 0.01 * largest(a.force));
  for (std::size_t w = 0; w < a.wheel_peaks.size(); ++w) {
    CHECK(b.wheel_peaks[w] == Approx(a.wheel_peaks[w]).epsilon(0.006));
  }
}

TEST_CASE("Rigid bearers under two rails carry a wheel and its partner as one rail does before the partner differs") {
  // On the level both wheels press alike.
  const passage::Settings s = settings(20.0, -2.0, 1.0);
  const passage::History one = passage::simulate(over_chain(level_path(), usual_chain(), s));
  const passage::History two = passage::simulate(over_chain(level_path(), chain::make_chain(on_bearers(6.4e12)), s));
  CHECK(two.rail_deflection.front() == Approx(one.rail_deflection.front()).epsilon(1e-6));
  CHECK(largest_difference(one.rail_deflection, two.rail_deflection) < 2e-3 * largest(one.rail_deflection));
  CHECK(largest_difference(one.force, two.force) < 2e-3 * largest(one.force));
}

TEST_CASE("A void below the landing lowers the rail and loads the neighbours") {
  const passage::Settings s = settings(30.0, -3.0, 2.0);
  const auto path = kink_path(0.010, 0.0);
  chain::Model m = on_bearers(6.4e6);
  const passage::History full = passage::simulate(over_chain(path, chain::make_chain(m), s));
  const auto nearest = std::min_element(m.bearers.begin(), m.bearers.end(),
                                        [](auto& a, auto& b) { return std::abs(a.x) < std::abs(b.x); });
  nearest->voids.push_back({-2.0, 2.0, 0.5e-3});
  const passage::Passage voided = over_chain(path, chain::make_chain(m), s);
  passage::ChainStepper stepper(voided);
  passage::State state = passage::initial_state(voided);
  double lowest = 0.0, most = 0.0;
  const int samples = static_cast<int>(full.force.size());
  const auto bearer = static_cast<int>(nearest - m.bearers.begin());
  for (int i = 0; i + 1 < samples; ++i) {
    stepper.do_step(voided, state, i * s.step, s.step);
    lowest = std::max(lowest, state.rail[0]);
    most = std::max(most, chain::ballast_force(*voided.plan->chain, *state.motion, bearer + 1));
  }
  CHECK(std::isfinite(state.force[0]));
  CHECK(lowest > 1.05 * largest(full.rail_deflection));
  CHECK(most > 0.0);
  CHECK(stepper.most_sweeps() <= 8);
}

TEST_CASE("A plan takes modes or a chain, and a chain only with the default method") {
  passage::Settings s = settings(30.0, -3.0, 2.0);
  passage::PlanParts both = parts(level_path(), usual_track(), s);
  both.chain = usual_chain();
  CHECK_THROWS_AS(passage::make_plan(both), InputError);
  CHECK_THROWS_AS(passage::make_plan(parts(level_path(), nullptr, s)), InputError);
  chain::Model three = chain::one_rail(track::Track{});
  three.rails.resize(3, three.rails.front());
  for (chain::Bearer& b : three.bearers) {
    b.seat.resize(3, b.seat.front());
  }
  CHECK_THROWS_AS(over_chain(level_path(), chain::make_chain(three), s), InputError);
  s.method = passage::Method::adaptive_runge_kutta;
  CHECK_THROWS_AS(over_chain(level_path(), usual_chain(), s), InputError);
  s.method = passage::Method::modal_exponential;
  s.to = 20.0; // beyond the track
  CHECK_THROWS_AS(over_chain(level_path(-30.0, 30.0), usual_chain(), s), InputError);
}
