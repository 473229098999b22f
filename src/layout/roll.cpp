#include "wingnose/layout/path.hpp"

#include "body_roller.hpp"
#include "stations.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>

namespace wingnose::layout {
namespace {

constexpr double around_kink = 0.004;     // m
constexpr double around_transfer = 0.030; // m

std::vector<double> kinks_of(const Crossing& crossing) {
  std::vector<double> all;
  for (const Body& body : crossing.bodies) {
    const std::vector<double> k = std::visit([](const auto& b) { return b.kinks(); }, body.surface);
    all.insert(all.end(), k.begin(), k.end());
  }
  return all;
}

// Stations where two bodies exchange the load.
std::vector<double> exchanges(const std::vector<double>& x, const std::vector<Touch>& a, const std::vector<Touch>& b) {
  std::vector<double> found;
  for (std::size_t i = 0; i + 1 < x.size(); ++i) {
    const double d0 = a[i].height - b[i].height, d1 = a[i + 1].height - b[i + 1].height;
    if (d0 * d1 < 0.0) {
      const double share = std::isfinite(d0) && std::isfinite(d1) ? d0 / (d0 - d1) : 0.5;
      found.push_back(x[i] + share * (x[i + 1] - x[i]));
    }
  }
  return found;
}

std::vector<Touch> touch_all(const BodyRoller& roller, const std::vector<double>& x) {
  std::vector<Touch> t;
  t.reserve(x.size());
  for (const double at : x) {
    t.push_back(roller.touch(at));
  }
  return t;
}

// Rows for the finer stations, taking over those already computed.
std::vector<Touch> merge(const BodyRoller& roller, const std::vector<double>& old_x, const std::vector<Touch>& old,
                         const std::vector<double>& x) {
  std::vector<Touch> t;
  t.reserve(x.size());
  std::size_t i = 0;
  for (const double at : x) {
    while (i < old_x.size() && old_x[i] < at) {
      ++i;
    }
    t.push_back(i < old_x.size() && old_x[i] == at ? old[i] : roller.touch(at));
  }
  return t;
}

BodyPath columns(const Body& body, const std::vector<Touch>& rows) {
  BodyPath p;
  p.name = body.name;
  p.role = body.role;
  const auto fill = [&](std::vector<double>& column, double Touch::*field) {
    column.reserve(rows.size());
    for (const Touch& row : rows) {
      column.push_back(row.*field);
    }
  };
  fill(p.height, &Touch::height);
  fill(p.contact_y, &Touch::contact_y);
  fill(p.contact_dx, &Touch::contact_dx);
  fill(p.wheel_y, &Touch::wheel_y);
  fill(p.angle, &Touch::angle);
  fill(p.curvature_x, &Touch::curvature_x);
  fill(p.curvature_y, &Touch::curvature_y);
  return p;
}

} // namespace

WheelPath roll(const Crossing& crossing, const profile::WheelProfile& wheel, const PathOptions& options) {
  check(options);
  if (crossing.bodies.empty()) {
    throw InputError("crossing \"" + crossing.name + "\" has no bodies; give at least a wing and a nose");
  }
  const PlacedWheel placed(wheel, taping_line_y + options.lateral_offset, options.roll);
  std::vector<BodyRoller> rollers;
  rollers.reserve(crossing.bodies.size());
  for (const Body& body : crossing.bodies) {
    rollers.emplace_back(body.surface, placed, options);
  }
  std::vector<double> x = finer_stations(regular_stations(options), kinks_of(crossing), around_kink, options);
  std::vector<std::vector<Touch>> rows;
  rows.reserve(rollers.size());
  for (const BodyRoller& roller : rollers) {
    rows.push_back(touch_all(roller, x));
  }
  std::vector<double> places;
  for (std::size_t a = 0; a < rows.size(); ++a) {
    for (std::size_t b = a + 1; b < rows.size(); ++b) {
      const std::vector<double> found = exchanges(x, rows[a], rows[b]);
      places.insert(places.end(), found.begin(), found.end());
    }
  }
  if (!places.empty()) {
    const std::vector<double> finer = finer_stations(x, places, around_transfer, options);
    for (std::size_t i = 0; i < rollers.size(); ++i) {
      rows[i] = merge(rollers[i], x, rows[i], finer);
    }
    x = finer;
  }
  bool touched = false;
  WheelPath path{x,          {}, "crossing", std::nullopt, options.wheel_radius, options.lateral_offset, options.roll,
                 options.yaw};
  for (std::size_t i = 0; i < rollers.size(); ++i) {
    path.bodies.push_back(columns(crossing.bodies[i], rows[i]));
    for (const Touch& row : rows[i]) {
      touched = touched || std::isfinite(row.height);
    }
  }
  if (!touched) {
    throw ComputeError("the wheel touches no body of crossing \"" + crossing.name + "\" between stations " +
                       std::to_string(options.from) + " m and " + std::to_string(options.to) +
                       " m; check the stretch and the lateral position of the sections");
  }
  return path;
}

} // namespace wingnose::layout
