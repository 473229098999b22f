#include "wingnose/contact/path/kinematics.hpp"

#include "path_findings.hpp"
#include "path_reading.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::contact {
namespace {

void check(const WheelPath& path, const KinematicsOptions& o) {
  if (path.station.size() < 2 || path.bodies.empty() || path.bodies.size() > 2) {
    throw InputError("a wheel path needs at least two stations and one or two bodies");
  }
  if (!(o.slope_length > 0.0 && o.slope_length <= 1.0)) {
    throw InputError("length of the slope fits (m)", number(o.slope_length), "above 0 and up to 1 m",
                     "0.02 m suits most crossings.");
  }
}

// The bodies left and landed on in this sense of travel; a facing wheel goes from the wing to the nose.
struct Exchange {
  const BodyPath *left, *landing;
};
Exchange exchange_of(const WheelPath& path, Direction direction) {
  const BodyPath *a = &path.bodies[0], *b = &path.bodies[1];
  if (a->role == layout::Role::nose) {
    std::swap(a, b);
  }
  return direction == Direction::facing ? Exchange{a, b} : Exchange{b, a};
}

std::optional<double> rim_margin(const WheelPath& path, const profile::WheelProfile& wheel) {
  if (path.bodies.front().role == layout::Role::stock) { // prescribed: nothing is known of the place on the wheel
    return std::nullopt;
  }
  const std::vector<int> carrying = carrying_body(path);
  std::optional<double> least;
  for (std::size_t i = 0; i < carrying.size(); ++i) {
    if (carrying[i] >= 0) {
      const double margin = wheel.y_max() - path.bodies[static_cast<std::size_t>(carrying[i])].wheel_y[i];
      least = std::min(least.value_or(margin), margin);
    }
  }
  return least;
}

} // namespace

Kinematics kinematics(const WheelPath& path, const layout::Crossing* crossing, const profile::WheelProfile& wheel,
                      const KinematicsOptions& o) {
  check(path, o);
  Kinematics k;
  const double s = sense(o.direction);
  const std::vector<double>& x = path.station;

  std::optional<double> event = path.landing;
  const BodyPath *left = &path.bodies.front(), *landing = left;
  std::vector<double> exchanges;
  if (path.bodies.size() == 2) {
    const Exchange r = exchange_of(path, o.direction);
    left = r.left;
    landing = r.landing;
    exchanges = landings(x, *left, *landing, o.direction);
    if (!exchanges.empty()) {
      event = k.transfer_station = exchanges.back();
    }
  }
  if (k.transfer_station) {
    const double at = *k.transfer_station;
    if (crossing != nullptr) {
      k.nose_thickness = crossing->nose_thickness(at);
    }
    const bool facing = o.direction == Direction::facing;
    k.contact_y_wing = value_at(x, (facing ? left : landing)->contact_y, at);
    k.contact_y_nose = value_at(x, (facing ? landing : left)->contact_y, at);
    const auto zone = zone_around(x, *left, *landing, at, o.zone_tolerance);
    k.zone_begin = zone.first;
    k.zone_end = zone.second;
  }
  if (event) {
    k.slope_before = s * straight_fit(x, left->height, *event - s * o.slope_length, *event);
    k.slope_after = s * straight_fit(x, landing->height, *event, *event + s * o.slope_length);
    // Equal to |before| + |after| where the wheel falls before and rises after; where it climbs a lifted wing before
    // the nose takes over only the change of slope is felt.
    k.dip_angle = std::abs(k.slope_after - k.slope_before);
  }
  const std::vector<double> combined = upper_envelope(path);
  const double reference = o.direction == Direction::facing ? combined.front() : combined.back();
  double lowest = std::numeric_limits<double>::infinity();
  for (const double h : combined) {
    lowest = std::isfinite(h) ? std::min(lowest, h) : lowest;
  }
  k.dip_depth = std::isfinite(reference) && std::isfinite(lowest) ? std::max(0.0, reference - lowest) : 0.0;
  k.rim_margin = rim_margin(path, wheel);
  k.findings = path_findings(path, crossing, wheel, o, exchanges);
  return k;
}

double landing_station(const WheelPath& path, const Kinematics& k) {
  if (k.transfer_station) {
    return *k.transfer_station;
  }
  if (path.landing) {
    return *path.landing;
  }
  if (path.station.empty()) {
    throw ComputeError("no landing on a wheel path without stations");
  }
  throw ComputeError("no transfer between wing and nose within stations " + number(path.station.front()) + " to " +
                     number(path.station.back()) + " m; lengthen the window or check the crossing's heights");
}

} // namespace wingnose::contact
