// Vehicles on the analytic contact: small motion, critical speed, steady curve.
#include "on_rails.hpp"

#include "wingnose/numeric/roots.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wingnose::vehicle::space {
namespace {

// K and C of one wheelset over (y at rail level, yaw). Longitudinal creepage of the wheel at +-l: -+(yaw' l / V +
// conicity y / r), lateral y' / V - yaw, spin yaw' / V (Wickens 1965, with Kalker's spin coefficients).
void add_creep(const WheelsetOnRails& set, const AnalyticContact& c, double speed, LinearSystem& to) {
  const double l = set.half_spacing;
  const auto add = [&](Eigen::MatrixXd& matrix, int row, int column, double value) {
    if (row >= 0 && column >= 0) {
      const double at_row = row == set.shift ? set.at_rail : 1.0, at_column = column == set.shift ? set.at_rail : 1.0;
      matrix(row, column) += at_row * at_column * value;
    }
  };
  add(to.C, set.shift, set.shift, 2.0 * c.f22 / speed);
  add(to.C, set.shift, set.yaw, 2.0 * c.f23 / speed);
  add(to.C, set.yaw, set.shift, -2.0 * c.f23 / speed);
  add(to.C, set.yaw, set.yaw, 2.0 * (c.f11 * l * l + c.f33) / speed);
  add(to.K, set.shift, set.yaw, -2.0 * c.f22);
  add(to.K, set.yaw, set.shift, 2.0 * c.f11 * l * c.conicity / set.radius);
  add(to.K, set.yaw, set.yaw, 2.0 * c.f23);
}

} // namespace

OnRails on_rails(const SpatialModel& model, const AnalyticContact& contact) {
  demand_ranges(contact, "contact");
  OnRails out;
  std::vector<Eigen::VectorXd> shapes;
  const auto keep = [&](int at, const Eigen::VectorXd& shape) {
    if (std::find(model.free.begin(), model.free.end(), at) == model.free.end()) {
      return -1;
    }
    shapes.push_back(shape);
    out.names.push_back(model.coordinate[static_cast<std::size_t>(at)]);
    return static_cast<int>(shapes.size()) - 1;
  };
  for (int part = 0; part < model.wheelsets(); ++part) {
    const auto i = static_cast<std::size_t>(part);
    const Wheelset& wheelset = model.vehicle.wheelsets[i];
    const bool rolls = wheelset.free[static_cast<std::size_t>(Motion::roll)];
    const double roll = rolls ? contact.roll_per_shift : 0.0;
    Eigen::VectorXd shift = Eigen::VectorXd::Unit(model.size(), index(part, Motion::y));
    shift(index(part, Motion::roll)) = roll;
    const int at_yaw = index(part, Motion::yaw);
    out.wheelsets.push_back({keep(index(part, Motion::y), shift),
                             keep(at_yaw, Eigen::VectorXd::Unit(model.size(), at_yaw)), 1.0 + wheelset.height() * roll,
                             wheelset.half_spacing, wheelset.height(),
                             model.wheel_load[i][0] + model.wheel_load[i][1]});
  }
  for (const int at : model.free) {
    if (at >= index(model.wheelsets(), Motion::x)) {
      (void)keep(at, Eigen::VectorXd::Unit(model.size(), at));
    }
  }
  out.shapes.resize(model.size(), static_cast<Eigen::Index>(shapes.size()));
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    out.shapes.col(static_cast<Eigen::Index>(i)) = shapes[i];
  }
  return out;
}

void add_gravity(const WheelsetOnRails& set, const AnalyticContact& contact, LinearSystem& to) {
  if (set.shift >= 0) {
    to.K(set.shift, set.shift) += set.axle_load * contact.centring;
  }
  if (set.yaw >= 0) {
    to.K(set.yaw, set.yaw) -= set.axle_load * set.half_spacing * contact.contact_angle;
  }
}

LinearSystem running(const SpatialModel& model, const AnalyticContact& contact, double speed, const Terms& terms) {
  demand_within("speed", speed, speed_range, "m/s");
  const OnRails rails = on_rails(model, contact);
  LinearSystem out = reduced(model, rails.shapes, rails.names, speed, terms);
  for (const WheelsetOnRails& set : rails.wheelsets) {
    add_creep(set, contact, speed, out);
    add_gravity(set, contact, out);
  }
  return out;
}

std::optional<CriticalSpeed> critical_speed(const SpatialModel& model, const AnalyticContact& contact, Range speeds,
                                            const Terms& terms) {
  demand_within("least speed", speeds.least, speed_range, "m/s");
  demand_within("largest speed", speeds.most, speed_range, "m/s");
  const auto growth = [&](double speed) { return growth_rate(running(model, contact, speed, terms)); };
  const auto answer = [&](double speed) {
    const std::vector<SpaceMode> all = modes(running(model, contact, speed, terms));
    const auto least_damped = std::max_element(all.begin(), all.end(), [](const SpaceMode& a, const SpaceMode& b) {
      return a.eigenvalue.real() < b.eigenvalue.real();
    });
    return CriticalSpeed{speed, std::abs(least_damped->eigenvalue.imag()) / (2.0 * std::numbers::pi),
                         least_damped->dominant};
  };
  constexpr double step = 1.0; // m/s
  double below = speeds.least;
  if (growth(below) > 0.0) {
    return answer(below);
  }
  while (below < speeds.most) {
    const double above = std::min(below + step, speeds.most);
    if (growth(above) > 0.0) {
      return answer(numeric::root_in(growth, below, above, 1e-9 * above, "the critical speed"));
    }
    below = above;
  }
  return std::nullopt;
}

CurveRun steady_curve(const SpatialModel& model, const AnalyticContact& contact, double curvature,
                      double lateral_acceleration, const Terms& terms) {
  demand_within("curvature", curvature, {-0.05, 0.05}, "1/m");
  demand_within("lateral acceleration", lateral_acceleration, {-20.0, 20.0}, "m/s2");
  const OnRails rails = on_rails(model, contact);
  const LinearSystem system = running(model, contact, 1.0, terms); // its stiffness knows no speed

  // Where the track stands at each part, seen from the leading wheelset: links feel the difference between their ends.
  Eigen::VectorXd track = Eigen::VectorXd::Zero(model.size()), force = Eigen::VectorXd::Zero(model.size());
  for (int part = 0; part < model.parts(); ++part) {
    const double x = part < model.wheelsets()
                         ? model.vehicle.wheelsets[static_cast<std::size_t>(part)].x
                         : model.vehicle.bodies[static_cast<std::size_t>(part - model.wheelsets())].x;
    const int y = index(part, Motion::y);
    track(y) = 0.5 * curvature * x * x;
    track(index(part, Motion::yaw)) = curvature * x;
    force(y) = -model.M(y, y) * lateral_acceleration;
  }
  Eigen::VectorXd load = rails.shapes.transpose() * (force - model.K * track);
  for (const WheelsetOnRails& set : rails.wheelsets) {
    // The axle turns by the curvature per metre: the outer wheel has the longer way, both spin.
    if (set.shift >= 0) {
      load(set.shift) -= set.at_rail * 2.0 * contact.f23 * curvature;
    }
    if (set.yaw >= 0) {
      load(set.yaw) -= 2.0 * (contact.f11 * set.half_spacing * set.half_spacing + contact.f33) * curvature;
    }
  }
  return {rails.shapes * system.K.partialPivLu().solve(load)};
}

} // namespace wingnose::vehicle::space
