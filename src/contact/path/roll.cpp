#include "wingnose/contact/path/wheel_path.hpp"

#include "stations.hpp"

#include "../search/sparse_rows.hpp"

#include "wingnose/words/error.hpp"

#include <array>
#include <cmath>
#include <utility>

namespace wingnose::contact {
namespace {

constexpr double around_kink = 0.004;     // m
constexpr double around_transfer = 0.030; // m

std::vector<double> kinks_of(const std::vector<layout::Body>& bodies) {
  std::vector<double> all;
  for (const layout::Body& body : bodies) {
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

// Heights to a tenth of a thousandth of what a contact yields under a wheel load, places to less than is drawn, and
// curvatures to less than their integral over a tenth of a millimetre tells.
constexpr std::array<Foreseen<Touch>, 8> foreseen{{{&Touch::height, 5e-9},
                                                   {&Touch::contact_y, 2e-6},
                                                   {&Touch::contact_dx, 2e-6},
                                                   {&Touch::wheel_y, 2e-6},
                                                   {&Touch::angle, 2e-6},
                                                   {&Touch::curvature_x, 2e-3},
                                                   {&Touch::curvature_y, 2e-3},
                                                   {&Touch::local_curvature_y, 2e-3}}};

std::vector<Touch> touch_all(const HeldWheel& wheel, std::size_t body, const std::vector<double>& x) {
  return sparse_rows<Touch>(
      x.size(), foreseen, [&](std::size_t i) { return wheel.touch(body, x[i]); },
      [&](std::size_t i, std::size_t j) {
        const double length = x[j] - x[i];
        return std::abs(length - static_cast<double>(j - i) * (x[i + 1] - x[i])) < 1e-6 * length;
      });
}

// Rows for the finer stations, taking over those already computed.
std::vector<Touch> merge(const HeldWheel& wheel, std::size_t body, const std::vector<double>& old_x,
                         const std::vector<Touch>& old, const std::vector<double>& x) {
  std::vector<Touch> t;
  t.reserve(x.size());
  std::size_t i = 0;
  for (const double at : x) {
    while (i < old_x.size() && old_x[i] < at) {
      ++i;
    }
    t.push_back(i < old_x.size() && old_x[i] == at ? old[i] : wheel.touch(body, at));
  }
  return t;
}

BodyPath columns(const layout::Body& body, const std::vector<Touch>& rows) {
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

// Rows of all bodies at the stations given, and finer where two of them exchange the load.
std::vector<std::vector<Touch>> rows_of(const HeldWheel& wheel, std::vector<double>& x) {
  std::vector<std::vector<Touch>> rows;
  for (std::size_t b = 0; b < wheel.bodies().size(); ++b) {
    rows.push_back(touch_all(wheel, b, x));
  }
  std::vector<double> places;
  for (std::size_t a = 0; a < rows.size(); ++a) {
    for (std::size_t b = a + 1; b < rows.size(); ++b) {
      const std::vector<double> found = exchanges(x, rows[a], rows[b]);
      places.insert(places.end(), found.begin(), found.end());
    }
  }
  if (!places.empty()) {
    const std::vector<double> finer = finer_stations(x, places, around_transfer, wheel.stretch());
    for (std::size_t b = 0; b < rows.size(); ++b) {
      rows[b] = merge(wheel, b, x, rows[b], finer);
    }
    x = finer;
  }
  return rows;
}

} // namespace

HeldWheel hold(const layout::Crossing& crossing, const profile::WheelProfile& wheel, const PathOptions& options) {
  check(options);
  if (crossing.bodies.empty()) {
    throw InputError("crossing \"" + crossing.name + "\" has no bodies; give at least a wing and a nose");
  }
  return {wheel,
          crossing.bodies,
          {options.wheel_radius, options.lateral_offset, options.roll, options.yaw},
          stretch_of(options)};
}

WheelPath roll(const HeldWheel& wheel) {
  const Stretch& stretch = wheel.stretch();
  const std::vector<layout::Body>& bodies = wheel.bodies();
  std::vector<double> x = finer_stations(regular_stations(stretch), kinks_of(bodies), around_kink, stretch);
  const std::vector<std::vector<Touch>> rows = rows_of(wheel, x);
  const Attitude& held = wheel.attitude();
  WheelPath path{std::move(x),        {},        "crossing", std::nullopt, held.wheel_radius,
                 held.lateral_offset, held.roll, held.yaw};
  bool touched = false;
  std::string names;
  for (std::size_t b = 0; b < bodies.size(); ++b) {
    path.bodies.push_back(columns(bodies[b], rows[b]));
    names += (b > 0 ? " and " : "") + bodies[b].name;
    for (const Touch& row : rows[b]) {
      touched = touched || std::isfinite(row.height);
    }
  }
  if (!touched) {
    throw ComputeError("the wheel touches no body (" + names + ") between stations " + number(stretch.from) +
                       " m and " + number(stretch.to) +
                       " m; check the stretch and the lateral position of the sections");
  }
  return path;
}

WheelPath roll(const layout::Crossing& crossing, const profile::WheelProfile& wheel, const PathOptions& options) {
  return roll(hold(crossing, wheel, options));
}

} // namespace wingnose::contact
