#include "ride_ground.hpp"

#include "../tell.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::study {
namespace {

namespace space = passage::space;
using R = const TurnoutRide&;

// Plain rails of both sides are called alike; here they are told apart.
std::string called(const layout::Body& body) {
  return body.role != layout::Role::stock ? body.name : body.side == layout::Side::crossing ? "run_in" : "stock";
}
double side_of(const layout::Body& body) { return body.side == layout::Side::crossing ? 1.0 : -1.0; }
contact::Lie lie_of(R r, std::size_t body) { return r.ground.lie.empty() ? contact::Lie{} : r.ground.lie[body]; }

Range covered(R r, std::size_t body) {
  const contact::Lie lie = lie_of(r, body);
  const auto [begin, end] = std::visit(
      [](const auto& s) {
        return std::pair{s.x_begin(), s.x_end()};
      },
      r.ground.bodies[body].surface);
  const double from = r.history.station.empty() ? 0.0 : r.history.station.front(),
               to = r.history.station.empty() ? 0.0 : r.history.station.back();
  return {std::max({begin, lie.within.least, from}), std::min({end, lie.within.most, to})};
}

void add_plan(Tree& tree, R r, std::size_t body) {
  constexpr double pitch = 50e-3; // m
  const layout::Body& b = r.ground.bodies[body];
  const Range range = covered(r, body);
  std::vector<double> x, y;
  const auto steps = static_cast<long>(std::ceil((range.most - range.least) / pitch));
  for (long i = 0; i <= steps; ++i) {
    x.push_back(std::min(range.least + static_cast<double>(i) * pitch, range.most));
    const double edge = std::visit([&](const auto& s) { return s.edge(x.back()); }, b.surface);
    y.push_back(side_of(b) * (edge + lie_of(r, body).outward));
  }
  Filler f(tree, "plan/" + called(b));
  f.list({"station_m", "station", "along the running edge", 3, stored}, called(b) + "_edge", std::move(x));
  f.list({"y_mm", "running edge", "from the middle of the track", 2, stored}, called(b) + "_edge", std::move(y));
}

void add_check_face(Tree& tree, R r) {
  if (!r.ground.check) {
    return;
  }
  const space::MetCheckRail& check = *r.ground.check;
  std::vector<double> y;
  for (const double width : check.face.width) {
    y.push_back(width - 0.5 * standard_gauge - check.outward);
  }
  Filler f(tree, "plan/check");
  f.list({"station_m", "station", "along the face of the check rail", 3, stored}, "check_face", check.face.x);
  f.list({"y_mm", "face", "from the middle of the track", 2, stored}, "check_face", std::move(y));
  f.number({"top_mm", "top", "of the check rail over the running surface", 1, stored}, check.face.top);
}

// Where to look across: plain rail, wing, theoretical point, before the wheel changes over, and behind.
std::vector<double> looked_at(R r) {
  const auto& g = r.assessment.guidance;
  const double transfer = g && !g->wheelsets.empty() ? g->wheelsets.front().transfer.value_or(0.5) : 0.5; // m
  std::vector<double> stations{-3.0, -1.0, 0.0, 0.5 * transfer, transfer, transfer + 0.3};
  std::erase_if(stations, [&](double x) {
    return r.history.station.empty() || x < r.history.station.front() || x > r.history.station.back();
  });
  return stations;
}

void add_sections(Tree& tree, R r) {
  constexpr std::size_t points = 161;
  const std::vector<double> stations = looked_at(r);
  const Dims dims{{"section", stations.size()}, {"point", points}};
  Filler f(tree, "sections");
  f.list({"station_m", "station", "of the section, and of the leading axle", 3, stored}, "section", stations);
  std::vector<std::size_t> rows;
  for (const double x : stations) {
    const auto at = std::lower_bound(r.history.station.begin(), r.history.station.end(), x);
    rows.push_back(static_cast<std::size_t>(std::min(at, r.history.station.end() - 1) - r.history.station.begin()));
  }
  const auto leading = [&](const Named& named, const Eigen::MatrixXd& of) {
    f.list(named, "section", each(rows, [&](std::size_t row) { return of(static_cast<Eigen::Index>(row), 0); }));
  };
  leading({"axle_shift_mm", "axle's shift", "of the leading wheelset, of its axle", 3, stored}, r.history.shift);
  leading({"roll_mrad", "roll", "of the leading wheelset", 3, stored}, r.history.roll);
  leading({"lift_mm", "lift", "of the leading wheelset's axle over its height at rest", 3, stored}, r.history.height);
  for (std::size_t body = 0; body < r.ground.bodies.size(); ++body) {
    const layout::Body& b = r.ground.bodies[body];
    const contact::Lie lie = lie_of(r, body);
    const auto at = [&](std::size_t section, std::size_t point) {
      const double x = stations[section];
      return std::visit(
          [&](const auto& s) {
            const bool there = x >= std::max(s.x_begin(), lie.within.least) && x < std::min(s.x_end(), lie.within.most);
            const double eta = s.width(x) * static_cast<double>(point) / (points - 1.0);
            return there ? std::pair{side_of(b) * (s.edge(x) + s.side() * eta + lie.outward), s.height(x, eta)}
                         : std::pair{none, none};
          },
          b.surface);
    };
    Filler of_body(tree, "sections/" + called(b));
    of_body.table({"y_mm", "y", "from the middle of the track", 3, stored}, dims,
                  grid(dims, [&](std::size_t i, std::size_t k) { return at(i, k).first; }));
    of_body.table({"z_mm", "z", "over the running surface", 3, stored}, dims,
                  grid(dims, [&](std::size_t i, std::size_t k) { return at(i, k).second; }));
  }
}

void add_wheel(Tree& tree, const Case& c, R r) {
  constexpr int points = 260;
  const profile::WheelProfile wheel = cases::profile_of(c.wheel);
  std::vector<double> y, height;
  for (int i = 0; i <= points; ++i) {
    y.push_back(wheel.y_min() + (wheel.y_max() - wheel.y_min()) * i / points);
    height.push_back(wheel.height(y.back()));
  }
  Filler f(tree, "wheel_profile");
  f.list({"y_mm", "y", "from the taping line, + to the field side", 3, stored}, "profile_point", std::move(y));
  f.list({"height_mm", "height", "+ to the flange tip", 3, stored}, "profile_point", std::move(height));
  const auto& sets = r.rolling.model.vehicle.wheelsets;
  f.number({"half_spacing_mm", "half spacing", "middle of the track to the taping line", 2, stored},
           sets.empty() ? std::optional<double>() : sets.front().half_spacing);
  f.number({"radius_mm", "radius", "of the leading wheels, at the taping line", 1, stored},
           sets.empty() ? std::optional<double>() : sets.front().wheel[0].radius);
}

} // namespace

void add_ground(Tree& tree, const Case& c, const TurnoutRide& r) {
  Filler f(tree, "ground");
  f.texts({"body", "body", "what lies on the ground; contacts count from 1, 0 is the check rail", stored}, "body",
          each(r.ground.bodies, [](const layout::Body& b) { return called(b); }));
  for (std::size_t body = 0; body < r.ground.bodies.size(); ++body) {
    add_plan(tree, r, body);
  }
  add_check_face(tree, r);
  if (!r.history.station.empty()) {
    add_sections(tree, r);
  }
  add_wheel(tree, c, r);
}

} // namespace wingnose::study
