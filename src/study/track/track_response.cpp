#include "wingnose/study/track_response.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

namespace wingnose::study {
namespace {

namespace chain = track::chain;

std::vector<chain::Load> on_all_rails(const chain::Chain& track, double x, double load) {
  std::vector<chain::Load> loads;
  loads.reserve(track.rails);
  for (int rail = 0; rail < track.rails; ++rail) {
    loads.push_back({rail, x, load});
  }
  return loads;
}

std::vector<double> evenly(double from, double to, double apart) {
  std::vector<double> x;
  const auto n = static_cast<int>(std::ceil((to - from) / apart));
  x.reserve(n + 1);
  for (int i = 0; i <= n; ++i) {
    x.push_back(from + (to - from) * i / n);
  }
  return x;
}

track::Place place(const chain::Chain& track, double load, const std::vector<double>& frequency, std::string name,
                   double x) {
  const chain::RailPoint at = chain::rail_point(track, 0, x);
  const double w = chain::static_deflection(track, on_all_rails(track, x, load), std::array{at})[0];
  return {std::move(name), x, w, load / w, chain::receptance(track, at, at, frequency)};
}

// Every wheel's load on the first rail, its like abreast, with the reported one over the middle of the stretch.
std::vector<chain::Load> all_wheels(const Case& c, const chain::Chain& track, double middle) {
  const vehicle::VehicleModel v = vehicle::assemble(cases::vehicle_of(c));
  std::vector<chain::Load> loads;
  for (std::size_t w = 0; w < v.wheel_x.size(); ++w) {
    const double x = middle + v.wheel_x[w] - v.wheel_x[static_cast<std::size_t>(c.passage.reported_wheel - 1)];
    for (const chain::Load& one : on_all_rails(track, x, v.static_load[w])) {
      loads.push_back(one);
    }
  }
  return loads;
}

// Fills the places too.
ChainResponse as_chain(const Case& c, std::shared_ptr<const chain::Chain> made, TrackResponse& r) {
  ChainResponse found;
  const chain::Chain& track = *made;
  found.chain = std::move(made);
  const double from = c.passage.from, to = c.passage.to;
  const std::size_t near = [&] { // the seat next to the middle that has one behind it
    const auto middle = std::lower_bound(track.seat.begin(), track.seat.end() - 2, 0.5 * (from + to));
    return static_cast<std::size_t>(middle - track.seat.begin());
  }();
  const double over = track.seat[near], between = 0.5 * (over + track.seat[near + 1]);
  r.places = {place(track, r.load, r.frequency, "over a bearer", over),
              place(track, r.load, r.frequency, "mid-span", between)};
  const chain::RailPoint load = chain::rail_point(track, 0, over), free = chain::rail_point(track, 0, between);
  const auto of_bearer = [&](const std::vector<double>& frequency) {
    return chain::bearer_receptance(track, load, static_cast<int>(near), 0, track.model.bearers[near].seat[0].y,
                                    frequency);
  };
  found.bearer = of_bearer(r.frequency);
  constexpr int of_curve = 160;
  for (int i = 0; i < of_curve; ++i) {
    found.curve.frequency.push_back(20.0 * std::pow(100.0, static_cast<double>(i) / (of_curve - 1))); // to 2 kHz
  }
  found.curve.over = chain::receptance(track, load, load, found.curve.frequency);
  found.curve.between = chain::receptance(track, free, free, found.curve.frequency);
  found.curve.bearer = of_bearer(found.curve.frequency);

  constexpr double apart = 0.05; // m, a twelfth of a bay or so
  found.station = evenly(from, to, apart);
  for (const double x : found.station) {
    const std::array at{chain::rail_point(track, 0, x)};
    found.deflection.push_back(chain::static_deflection(track, on_all_rails(track, x, r.load), at)[0]);
    found.stiffness.push_back(r.load / found.deflection.back());
  }
  const std::vector<chain::Load> wheels = all_wheels(c, track, 0.5 * (from + to));
  found.shape_station = evenly(track.begin(), track.end(), apart);
  for (int rail = 0; rail < track.rails; ++rail) {
    std::vector<chain::RailPoint> at;
    at.reserve(found.shape_station.size());
    for (const double x : found.shape_station) {
      at.push_back(chain::rail_point(track, rail, x));
    }
    (rail == 0 ? found.shape : found.shape_other) = chain::static_deflection(track, wheels, at);
  }
  found.bearers = chain::loaded_bearers(track, r.load, from, to);
  for (int tenth = 1; tenth <= 20; ++tenth) { // to twice the wheel
    found.loads.push_back(0.1 * tenth * r.load);
  }
  found.voids = chain::closings(track, found.loads);
  return found;
}

} // namespace

TrackResponse track_response(const Case& c) {
  TrackResponse r;
  r.frequency = {20.0, 50.0, 100.0, 150.0, 200.0, 300.0, 500.0, 800.0, 1000.0, 1200.0, 1500.0, 2000.0};
  r.load = static_load(c);
  const auto start = std::chrono::steady_clock::now();
  if (c.track.method == cases::TrackMethod::chain) {
    auto track = chain::make_chain(chain_for(track_part(c)));
    r.set_up = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    r.chain = as_chain(c, std::move(track), r);
  } else {
    r.modal = track::modal_track(track_for(c));
    r.set_up = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    r.places = track::typical_places(r.modal->assembly, r.load, r.frequency);
  }
  return r;
}

} // namespace wingnose::study
