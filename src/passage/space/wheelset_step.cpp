#include "wheelset_step.hpp"

#include "linear_step.hpp"

#include "wingnose/numeric/roots.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>

namespace wingnose::passage::space {
namespace {

using Eigen::Vector3d;

constexpr int most_evaluations = 4;
// No contact of wheel and rail is so deep (m): some 4 MN on a rail head. What overlaps so far has run into an end.
constexpr double deepest = 1e-3;
// Contacts are found anew where the solution has moved the wheelset by more than this share of the least approach,
// taken between these (m).
constexpr double moved_share = 0.05, least_approach = 1e-5, most_approach = 1e-4;

} // namespace

WheelsetStep::WheelsetStep(const contact::WheelsetOnBodies& set, const vehicle::space::Wheelset& wheelset,
                           const Ground& ground, double speed)
    : set_(&set), ground_(&ground), height_(wheelset.height()), speed_(speed), spin_(speed / wheelset.height()),
      checked_(ground.check && ground.check->side == layout::Side::crossing ? 0 : 1),
      tip_(set.wheel[checked_].radius() +
           *std::max_element(set.wheel[checked_].height().begin(), set.wheel[checked_].height().end())),
      search_(contact::make_search(set)), contacts_(set, ground.check ? &*ground.check : nullptr, speed) {}

contact::AxlePlace WheelsetStep::place(const OfWheelset& u, double station) const {
  return {.station = station, .y = u(0), .z = height_ + u(1), .roll = u(2), .yaw = u(4)};
}

double WheelsetStep::station_of(std::size_t wheel, double yaw, double station) const {
  return station - (wheel == 0 ? 1.0 : -1.0) * set_->half_spacing * std::sin(yaw);
}

OfRails WheelsetStep::uneven(double yaw, double station) const {
  OfRails out = OfRails::Zero();
  for (std::size_t wheel = 0; ground_->irregularity && wheel < 2; ++wheel) {
    const auto deviation = ground_->irregularity->at(wheel, station_of(wheel, yaw, station));
    out.segment<2>(2 * static_cast<Eigen::Index>(wheel)) << deviation.y, deviation.z;
  }
  return out;
}

double WheelsetStep::unevenness_power(double yaw, double station) const {
  double power = 0.0;
  for (const Carried& c : contacts_.carried()) {
    if (ground_->irregularity) {
      const auto wheel = static_cast<std::size_t>(c.at.wheel);
      const auto deviation = ground_->irregularity->at(wheel, station_of(wheel, yaw, station));
      power += speed_ * c.force.normal * (c.at.n.y() * deviation.y_slope + c.at.n.z() * deviation.z_slope);
    }
  }
  return power;
}

Held WheelsetStep::held(const Instant& at, const contact::AxleAxes& axes, double curvature) const {
  return {.axes = axes,
          .motion = {.forward = speed_ * (1.0 - curvature * at.u(0)),
                     .lateral = at.v(0),
                     .vertical = at.v(1),
                     .roll_rate = at.v(2),
                     .yaw_rate = at.v(4),
                     .spin = spin_ + at.v(3)},
          .rails = {contact::RailMotion{at.rail_speed(0), at.rail_speed(1)}, {at.rail_speed(2), at.rail_speed(3)}},
          .force = at.force};
}

void WheelsetStep::find(const Instant& at, double station) {
  ++evaluations_;
  const contact::AxlePlace axle = place(at.u, station);
  const OfRails off = uneven(axle.yaw, station), rail = at.rail + off;
  contact::find_contacts(*set_, axle, {contact::RailPlace{rail(0), rail(1)}, {rail(2), rail(3)}}, search_, found_);
  contacts_.clear();
  beyond_.reset();
  for (const contact::SpaceContact& c : found_.list()) {
    if (c.approach > deepest) {
      beyond_ = c;
    }
    contacts_.add(c);
  }
  if (ground_->check) {
    find_check(axle, off.segment<2>(2 * static_cast<Eigen::Index>(checked_)));
  }
}

// The back of the checked wheel is a plane disc; its normal is that of the axle also where an edge of it meets a flare.
void WheelsetStep::find_check(const contact::AxlePlace& axle, const Eigen::Vector2d& off) {
  const layout::turnout::CheckFace& face = ground_->check->face;
  const contact::AxleAxes a = contact::axes(axle);
  const double out = checked_ == 0 ? 1.0 : -1.0; // towards the wheel's own rail
  const double inside = out * (set_->half_spacing - taping_line_from_back), down = axle.z - off(1) - face.top;
  const double y = axle.y + inside * a.axle.y() + down * a.axle.z(); // of the disc's middle, at the top of the face
  const double station = axle.station + inside * a.axle.x();
  const layout::turnout::BackDisc disc{-out * (y - off(0)) + 0.5 * standard_gauge + ground_->check->outward,
                                       -out * axle.yaw, down < tip_ ? std::sqrt(tip_ * tip_ - down * down) : 0.0};
  const auto met = layout::turnout::depth(face, disc, station);
  constexpr double near = 1e-3; // m
  near_check_ = met && met->depth > -near;
  if (!met || !(met->depth > 0.0)) {
    return;
  }
  contact::SpaceContact c;
  c.wheel = static_cast<int>(checked_);
  c.body = -1;
  c.n = out * a.axle;
  c.t_x = (Vector3d::UnitX() - c.n.x() * c.n).normalized();
  c.t_y = c.n.cross(c.t_x);
  c.dx = met->where - station;
  c.y = y + axle.yaw * c.dx;
  c.arm = {met->where - axle.station, c.y - axle.y, -down};
  c.approach = met->depth;
  check_station_ = met->where;
  contacts_.add(c);
}

WheelsetStep::Instant WheelsetStep::predicted(const VehicleMotion& vehicle, const Rails& rails, std::size_t wheelset) {
  moved_ = {vehicle.moved(wheelset), rails.give(wheelset).moved};
  sped_ = {vehicle.sped(wheelset), rails.give(wheelset).sped};
  Instant out;
  out.u = vehicle.displacement(wheelset);
  out.v = vehicle.velocity(wheelset);
  out.force = force_;
  out.rail = rails.place(wheelset);
  out.rail_speed = rails.speed(wheelset);
  return out;
}

// Where wheelset and rails are at the end of the step under the forces now carried.
WheelsetStep::Instant WheelsetStep::after(const Instant& predicted) const {
  Instant out = predicted;
  const OfWheelset growth = force_.axle - predicted.force.axle;
  const OfRails rail_growth = predicted.force.rails - force_.rails; // on the rails
  out.u += moved_.axle * growth;
  out.v += sped_.axle * growth;
  out.rail += moved_.rails * rail_growth;
  out.rail_speed += sped_.rails * rail_growth;
  out.force = force_;
  return out;
}

bool WheelsetStep::settled(const Instant& before, const Instant& now) const {
  double least = most_approach;
  for (const Carried& c : contacts_.carried()) {
    least = std::min(least, std::max(least_approach, c.at.approach));
  }
  return (now.u - before.u).head<2>().cwiseAbs().maxCoeff() < moved_share * least &&
         (now.rail - before.rail).cwiseAbs().maxCoeff() < moved_share * most_approach;
}

OfWheelset WheelsetStep::step(const VehicleMotion& vehicle, Rails& rails, std::size_t wheelset, double station) {
  const double curvature = ground_->route.curvature(station);
  const Instant from = predicted(vehicle, rails, wheelset);
  Instant at = from;
  for (int evaluation = 0; evaluation < most_evaluations; ++evaluation) {
    find(at, station);
    contacts_.solve(held(at, contact::axes(place(at.u, station)), curvature), moved_, sped_, search_);
    force_ = contacts_.sum();
    const Instant before = at;
    at = after(from);
    if (beyond_ || settled(before, at)) {
      break;
    }
  }
  rails.set(wheelset, from.force.rails, force_.rails);
  return force_.axle - from.force.axle;
}

// Rolling straight ahead, the creep of its spin included.
OfWheelset WheelsetStep::settle(double station, const OfWheelset& rest, const OfRails& rails) {
  Instant at;
  at.rail = rails;
  const auto carried = [&](double height, double roll) {
    at.u(1) = height;
    at.u(2) = roll;
    find(at, station);
    contacts_.solve(held(at, contact::axes(place(at.u, station)), 0.0), {}, {}, search_); // nothing gives way
    force_ = contacts_.sum();
  };
  constexpr double reach = 3e-3, lean = 5e-3;              // m, rad
  constexpr double fine_height = 1e-15, fine_roll = 1e-14; // a picometre is a millinewton of contact
  const OfRails off = uneven(0.0, station);
  const double top = std::max(at.rail(1) + off(1), at.rail(3) + off(3));
  const auto balance = [&](double roll) {
    const auto load = [&](double height) {
      carried(height, roll);
      return force_.axle(1) - rest(1);
    };
    const double height = numeric::root_in(load, top - reach, top + reach + lean, fine_height,
                                           "the height at which a wheelset carries its load");
    carried(height, roll);
    return force_.axle(2) - rest(2);
  };
  const double roll =
      numeric::root_in(balance, -lean, lean, fine_roll, "the roll at which both wheels carry their load");
  (void)balance(roll);
  return at.u;
}

} // namespace wingnose::passage::space
