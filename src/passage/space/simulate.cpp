#include "wingnose/passage/space/history.hpp"

#include "rails.hpp"
#include "vehicle_motion.hpp"
#include "wheelset_step.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>

namespace wingnose::passage::space {
namespace {

using vehicle::space::Motion;

constexpr double most_shift = 0.05, most_roll = 0.08; // m, rad: beyond these a wheelset has left the track

void check(const Rolling& rolling, const Ground& ground, const Ride& ride) {
  demand_ranges(ride, "ride");
  demand_ranges(ground.rail.vertical, "rail, vertical");
  demand_ranges(ground.rail.lateral, "rail, lateral");
  if (ground.check) {
    demand_ranges(*ground.check, "check rail");
  }
  for (const layout::Side side : {layout::Side::crossing, layout::Side::opposite}) {
    if (std::none_of(ground.bodies.begin(), ground.bodies.end(), [&](const auto& b) { return b.side == side; })) {
      throw InputError("bodies of the track", "none of one side", "bodies under both wheels",
                       "Give the rail of the " + std::string(name(side)) + " side as well.");
    }
  }
  if (ride.longest_step > 0.0 && ride.longest_step < ride.step) {
    throw InputError("longest step of a ride", number(ride.longest_step) + " s", "0, or " + number(ride.step) + " s up",
                     "It is the step taken where short ones are not needed.");
  }
  if (ground.bends) {
    const track::chain::Chain& chain = *ground.bends;
    if (chain.rails != 2) {
      throw InputError("rails that bend", std::to_string(chain.rails), "2", "Wheelsets run on two rails.");
    }
    const double from = ride.begin + rolling.model.vehicle.wheelsets.back().x,
                 to = ride.begin + ride.length + ride.longest_step * ride.speed;
    if (!(chain.begin() <= from && to <= chain.end())) {
      throw InputError("rails that bend", "from " + number(chain.begin()) + " to " + number(chain.end()) + " m",
                       "from " + number(from) + " to " + number(to) + " m",
                       "Every wheelset has to stay on them; lengthen the track.");
    }
  }
  if (rolling.wheels.size() != rolling.model.vehicle.wheelsets.size()) {
    throw InputError("wheels", std::to_string(rolling.wheels.size()) + " pairs",
                     std::to_string(rolling.model.vehicle.wheelsets.size()) + " pairs",
                     "Every wheelset of the vehicle needs its two wheels.");
  }
}

std::vector<double> axles(const Rolling& rolling) {
  std::vector<double> x;
  for (const vehicle::space::Wheelset& set : rolling.model.vehicle.wheelsets) {
    x.push_back(set.x);
  }
  return x;
}
// Short steps that a long one holds.
long held_by_long(const Ride& ride) {
  return std::max(1L, static_cast<long>(std::floor(ride.longest_step / ride.step * (1.0 + 1e-9))));
}
StepLengths lengths(const Ride& ride) { return {ride.step, static_cast<double>(held_by_long(ride)) * ride.step}; }

class Running {
public:
  Running(const Rolling& rolling, const Ground& ground, const Ride& ride)
      : rolling_(&rolling), ground_(&ground), ride_(&ride),
        vehicle_(rolling.model, rolling.terms, ground.route, ride.speed, lengths(ride)),
        rails_(ground, axles(rolling), lengths(ride)), station_(ride.begin), long_(held_by_long(ride)) {
    const vehicle::space::SpatialVehicle& table = rolling.model.vehicle;
    const Eigen::VectorXd carried = rolling.model.K * rolling.model.settled + rolling.model.weight;
    sets_.reserve(rolling.wheels.size()); // steps point into it
    for (std::size_t i = 0; i < rolling.wheels.size(); ++i) {
      sets_.push_back({.wheel = rolling.wheels[i],
                       .bodies = ground.bodies,
                       .lie = ground.lie,
                       .backwards = ground.backwards,
                       .half_spacing = table.wheelsets[i].half_spacing,
                       .law = rolling.law});
      steps_.emplace_back(sets_.back(), table.wheelsets[i], ground, ride.speed);
      OfWheelset rest;
      int k = 0;
      for (const Motion motion : {Motion::y, Motion::z, Motion::roll, Motion::pitch, Motion::yaw}) {
        rest(k++) = carried(vehicle::space::index(static_cast<int>(i), motion));
      }
      rest_.push_back(rest);
      on_rails_.emplace_back(0.0, 0.5 * rest(1), 0.0, 0.5 * rest(1));
    }
    beyond_rest_.resize(steps_.size());
    settle();
    vehicle_.shift(ride.shift);
  }

  // Nothing is allocated.
  void step() {
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      beyond_rest_[i] = steps_[i].force() - rest_[i];
      on_rails_[i] = steps_[i].on_rails();
    }
    const bool far = goes_far();
    const double from = station_, h = far ? static_cast<double>(long_) * ride_->step : ride_->step;
    vehicle_.use(far ? 1 : 0);
    vehicle_.predict(beyond_rest_, station_ + 0.5 * ride_->speed * h);
    count_ += far ? long_ : 1;
    ++taken_;
    station_ = ride_->begin + static_cast<double>(count_) * ride_->speed * ride_->step;
    rails_.predict(on_rails_, from, station_, far ? 1 : 0);
    constexpr int most_sweeps = 10;
    constexpr double settled = 1.0; // N
    for (int sweep = 0; sweep < most_sweeps; ++sweep) {
      for (std::size_t i = 0; i < steps_.size(); ++i) {
        vehicle_.correct(i, steps_[i].step(vehicle_, rails_, i, station_ + rolling_->model.vehicle.wheelsets[i].x));
      }
      if (rails_.meet_links() < settled) {
        break;
      }
    }
    rails_.finish();
  }
  [[nodiscard]] long count() const { return count_; } // short steps so far

  // The wheel that has run into a body.
  [[nodiscard]] std::optional<RunInto> run_into() const {
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      if (const auto& c = steps_[i].beyond()) {
        return RunInto{static_cast<int>(i), c->wheel, c->body,
                       station_ + rolling_->model.vehicle.wheelsets[i].x + c->arm.x(), c->wheel_y};
      }
    }
    return std::nullopt;
  }
  void keep(SpaceHistory& to, Eigen::Index row) const;
  void keep(std::vector<ContactRecord>& to) const;
  [[nodiscard]] double evaluations() const {
    double sum = 0.0;
    for (const WheelsetStep& s : steps_) {
      sum += s.evaluations();
    }
    return sum / static_cast<double>(steps_.size()) / std::max(1.0, static_cast<double>(taken_));
  }

private:
  void settle();
  [[nodiscard]] bool goes_far() const;

  const Rolling* rolling_;
  const Ground* ground_;
  const Ride* ride_;
  VehicleMotion vehicle_;
  Rails rails_;
  double station_;
  long long_, count_ = 0, taken_ = 0; // short steps in a long one, and so far; steps of either length
  std::vector<contact::WheelsetOnBodies> sets_;
  std::vector<WheelsetStep> steps_;
  std::vector<OfWheelset> rest_, beyond_rest_; // N, N m: what rails give at rest, and beyond it
  std::vector<OfRails> on_rails_;              // N, on wheels
};

// All at rest: wheelsets stand on rails that give way by what they carry, which moves contacts little.
void Running::settle() {
  constexpr int rounds = 5;
  std::vector<OfWheelset> places(steps_.size());
  rails_.settle(on_rails_, ride_->begin);
  for (int round = 0; round < rounds; ++round) {
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      const double x = ride_->begin + rolling_->model.vehicle.wheelsets[i].x;
      places[i] = steps_[i].settle(x, rest_[i], rails_.place(i));
      on_rails_[i] = steps_[i].on_rails();
    }
    rails_.settle(on_rails_, ride_->begin);
  }
  vehicle_.settle(places);
}

// Whether the next step may be a long one: no wheel is, or comes, where short ones are needed, and no check rail near.
bool Running::goes_far() const {
  if (long_ == 1) {
    return false;
  }
  const double travel = static_cast<double>(long_) * ride_->speed * ride_->step;
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    const double x = station_ + rolling_->model.vehicle.wheelsets[i].x;
    const auto meets = [&](const Range& r) { return x + travel >= r.least && x <= r.most; };
    if (steps_[i].near_check() || std::any_of(ground_->short_steps.begin(), ground_->short_steps.end(), meets)) {
      return false;
    }
  }
  return true;
}

void Running::keep(SpaceHistory& to, Eigen::Index row) const {
  to.time.push_back(static_cast<double>(count_) * ride_->step);
  to.station.push_back(station_);
  const bool energy = ride_->energy;
  double drive = 0.0, damping = 0.0, stored = 0.0;
  if (energy) {
    drive = vehicle_.held_bodies_pull() * ride_->speed;
    damping = vehicle_.bodies_damping_power() + rails_.damping_power();
    stored = vehicle_.energy() + rails_.energy();
  }
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    const WheelsetStep& s = steps_[i];
    const auto set = static_cast<Eigen::Index>(i);
    const OfWheelset u = vehicle_.displacement(i);
    const double height = rolling_->model.vehicle.wheelsets[i].height();
    if (!(std::abs(u(0)) < most_shift && std::abs(u(2)) < most_roll)) {
      throw ComputeError("Wheelset " + std::to_string(i + 1) + " has left the track at station " + number(station_) +
                         " m; check speed, gauge and the shapes it runs on, or shorten the step.");
    }
    to.shift(row, set) = u(0);
    to.shift_at_rail(row, set) = u(0) + height * u(2);
    to.yaw(row, set) = u(4);
    to.roll(row, set) = u(2);
    to.height(row, set) = u(1);
    to.check_station(row, set) = s.check_station();
    double along = 0.0;        // N
    stored += rest_[i].dot(u); // what rests on a wheelset is lifted with it
    std::array<double, 2> heaviest{};
    for (const Carried& c : s.carried()) {
      const Eigen::Vector3d on_wheel = c.force.on_wheel(c.at);
      along += on_wheel.x();
      stored += (c.at.body < 0 ? 0.5 : 0.4) * c.force.normal * c.at.approach; // integral of the law over the approach
      if (c.at.body < 0) {
        to.check_force(row, set) = c.force.normal;
        continue;
      }
      if (!(c.force.normal > 0.0)) {
        continue;
      }
      const auto wheel = static_cast<std::size_t>(c.at.wheel);
      const Eigen::Index column = 2 * set + c.at.wheel;
      to.Y(row, column) -= on_wheel.y();
      to.Q(row, column) += on_wheel.z();
      if (ground_->bodies[static_cast<std::size_t>(c.at.body)].role == layout::Role::nose) {
        to.on_nose(row, column) += on_wheel.z();
      }
      to.creep_power(row, column) += c.force.power(ride_->speed);
      to.contacts(row, column) += 1.0;
      if (c.force.normal > heaviest[wheel]) {
        heaviest[wheel] = c.force.normal;
        to.contact_y(row, column) = c.at.wheel_y;
        to.contact_angle(row, column) = c.at.angle;
      }
    }
    if (!energy) {
      continue;
    }
    const double curvature = ground_->route.curvature(station_ + rolling_->model.vehicle.wheelsets[i].x);
    drive -= (along + vehicle_.pull(i)) * ride_->speed * (1.0 - curvature * u(0));
    drive += rails_.trough_power(i) + s.unevenness_power(u(4), station_ + rolling_->model.vehicle.wheelsets[i].x);
  }
  for (int part = 0; part < rolling_->model.parts(); ++part) {
    to.shift_rate(row, part) = vehicle_.rate(part, Motion::y);
    to.rise_rate(row, part) = vehicle_.rate(part, Motion::z);
    to.roll_rate(row, part) = vehicle_.rate(part, Motion::roll);
    to.part_roll(row, part) = vehicle_.coordinate(part, Motion::roll);
  }
  if (energy) {
    to.drive_power.push_back(drive);
    to.damping_power.push_back(damping);
    to.stored.push_back(stored);
  }
}

void Running::keep(std::vector<ContactRecord>& to) const {
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    const double axle = station_ + rolling_->model.vehicle.wheelsets[i].x;
    for (const Carried& c : steps_[i].carried()) {
      to.push_back({static_cast<int>(i), c.at.wheel, c.at.body, axle + c.at.arm.x(), c.at.y, c.at.wheel_y, c.at.angle,
                    c.at.radius, c.force.normal, c.force.creepage, c.force.creep, c.force.power(ride_->speed)});
    }
  }
}

SpaceHistory simulated(const Rolling& rolling, const Ground& ground, const Ride& ride,
                       std::vector<std::vector<ContactRecord>>* contacts) {
  check(rolling, ground, ride);
  const auto running = std::make_unique<Running>(rolling, ground, ride);
  const auto steps = static_cast<long>(std::ceil(ride.length / (ride.speed * ride.step) - 1e-9));
  const auto rows = static_cast<Eigen::Index>(steps / ride.stride);
  const auto sets = static_cast<Eigen::Index>(rolling.wheels.size());
  SpaceHistory out;
  out.rails_bend = ground.bends != nullptr;
  for (Eigen::MatrixXd* m :
       {&out.shift, &out.shift_at_rail, &out.yaw, &out.roll, &out.height, &out.check_force, &out.check_station}) {
    *m = Eigen::MatrixXd::Zero(rows, sets);
  }
  for (Eigen::MatrixXd* m : {&out.shift_rate, &out.rise_rate, &out.roll_rate, &out.part_roll}) {
    *m = Eigen::MatrixXd::Zero(rows, rolling.model.parts());
  }
  for (Eigen::MatrixXd* m :
       {&out.Y, &out.Q, &out.on_nose, &out.creep_power, &out.contact_y, &out.contact_angle, &out.contacts}) {
    *m = Eigen::MatrixXd::Zero(rows, 2 * sets);
  }
  for (std::vector<double>* v : {&out.time, &out.station, &out.drive_power, &out.damping_power, &out.stored}) {
    v->reserve(static_cast<std::size_t>(rows));
  }
  if (contacts != nullptr) {
    contacts->assign(static_cast<std::size_t>(rows), {});
  }
  Eigen::Index row = 0;
  for (long before = 0; before < rows * ride.stride;) {
    running->step();
    if ((out.run_into = running->run_into())) {
      break;
    }
    if (running->count() / ride.stride > before / ride.stride) { // a long step may pass several such instants
      running->keep(out, row);
      if (contacts != nullptr) {
        running->keep((*contacts)[static_cast<std::size_t>(row)]);
      }
      ++row;
    }
    before = running->count();
  }
  if (row < rows) {
    out.shorten();
  }
  out.evaluations_per_step = running->evaluations();
  return out;
}

} // namespace

SpaceHistory simulate(const Rolling& rolling, const Ground& ground, const Ride& ride) {
  return simulated(rolling, ground, ride, nullptr);
}
SpaceHistory simulate(const Rolling& rolling, const Ground& ground, const Ride& ride,
                      std::vector<std::vector<ContactRecord>>& contacts) {
  return simulated(rolling, ground, ride, &contacts);
}

} // namespace wingnose::passage::space
