#include "rails.hpp"

#include "linear_step.hpp"

#include <algorithm>
#include <utility>

namespace wingnose::passage::space {

using track::chain::Plane;

RailMass::RailMass(const RailDirection& rail, const StepLengths& steps)
    : mass_(rail.mass), stiffness_(rail.stiffness), damping_(rail.damping) {
  Eigen::Matrix2d A;
  A << 0.0, 1.0, -rail.stiffness / rail.mass, -rail.damping / rail.mass;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const LinearStep exact = linear_step(A, steps[i]);
    of_[i] = {exact.keep, exact.constant.col(1) / rail.mass, exact.growing.col(1) / rail.mass};
  }
}

Rails::Rails(const Ground& ground, std::vector<double> axles, const StepLengths& steps)
    : axle_(std::move(axles)), steps_(steps), chain_(ground.bends) {
  const RailMass lateral(ground.rail.lateral, steps), vertical(ground.rail.vertical, steps);
  mass_.assign(axle_.size(), {lateral, vertical, lateral, vertical});
  give_.assign(axle_.size(), {});
  trough_power_.assign(axle_.size(), 0.0);
  if (!chain_) {
    return;
  }
  across_ = track::chain::is_lateral(chain_->model);
  const std::vector<track::chain::RailSeat>& seats = chain_->model.bearers.front().seat;
  rail_ = seats[0].y > seats[1].y ? std::array{0, 1} : std::array{1, 0};
  for (std::size_t i = 0; i < steps.size(); ++i) {
    factor_[i] = i > 0 && steps[i] == steps[0]
                     ? factor_[0]
                     : std::make_shared<const track::chain::StepFactor>(track::chain::step_factor(*chain_, steps[i]));
  }
  const std::size_t all = axle_.size() * forces();
  stepper_.emplace(*chain_, static_cast<int>(all));
  motion_.emplace(*chain_);
  from_.resize(all);
  to_.resize(all);
  place_.assign(axle_.size(), OfRails::Zero());
  speed_ = held_ = now_of_ = place_;
}

track::chain::RailPoint Rails::point(Eigen::Index row, double x) const {
  return track::chain::rail_point(*chain_, rail_[static_cast<std::size_t>(row / 2)], x,
                                  row % 2 == 0 ? Plane::lateral : Plane::vertical);
}

void Rails::settle(std::span<const OfRails> on_wheels, double station) {
  for (std::size_t i = 0; i < mass_.size(); ++i) {
    for (std::size_t k = 0; k < mass_[i].size(); ++k) {
      mass_[i][k].settle(-on_wheels[i](static_cast<Eigen::Index>(k)));
    }
  }
  if (!bends()) {
    return;
  }
  std::vector<track::chain::Load> loads;
  for (std::size_t i = 0; i < axle_.size(); ++i) {
    for (std::size_t k = 0; k < forces(); ++k) {
      const Eigen::Index at = row(k);
      loads.push_back({rail_[static_cast<std::size_t>(at / 2)], station + axle_[i], sign(at) * on_wheels[i](at),
                       at % 2 == 0 ? Plane::lateral : Plane::vertical});
    }
  }
  *motion_ = track::chain::at_rest(*chain_, loads);
  for (std::size_t i = 0; i < axle_.size(); ++i) {
    for (std::size_t k = 0; k < forces(); ++k) {
      const Eigen::Index at = row(k);
      track::chain::WheelForce& one = to_[static_cast<std::size_t>(first(i)) + k];
      one = {point(at, station + axle_[i]), sign(at) * on_wheels[i](at)};
      place_[i](at) =
          -sign(at) * (track::chain::rail_deflection(*chain_, *motion_, one.at) + one.at.residual * one.force);
    }
    speed_[i].setZero();
    now_of_[i] = on_wheels[i];
  }
  started_ = false;
}

// Also before the first step, after settling.
OfRails Rails::place(std::size_t i) const {
  OfRails out;
  for (std::size_t k = 0; k < 4; ++k) {
    out(static_cast<Eigen::Index>(k)) = mass_[i][k].place();
  }
  for (std::size_t k = 0; bends() && k < forces(); ++k) {
    out(row(k)) = started_ ? -sign(row(k)) * stepper_->deflection(first(i) + static_cast<int>(k)) : place_[i](row(k));
  }
  return out;
}

OfRails Rails::speed(std::size_t i) const {
  OfRails out;
  for (std::size_t k = 0; k < 4; ++k) {
    out(static_cast<Eigen::Index>(k)) = mass_[i][k].speed();
  }
  for (std::size_t k = 0; bends() && k < forces(); ++k) {
    out(row(k)) = started_ ? -sign(row(k)) * stepper_->velocity(first(i) + static_cast<int>(k)) : speed_[i](row(k));
  }
  return out;
}

void Rails::fill_give(std::size_t i) {
  RailGive& g = give_[i];
  for (std::size_t k = 0; k < 4; ++k) {
    const auto at = static_cast<Eigen::Index>(k);
    g.moved(at, at) = mass_[i][k].moved();
    g.sped(at, at) = mass_[i][k].sped();
  }
  for (std::size_t k = 0; bends() && k < forces(); ++k) {
    for (std::size_t by = 0; by <= k; ++by) {
      const auto answer = stepper_->answer(first(i) + static_cast<int>(k), first(i) + static_cast<int>(by));
      const double s = sign(row(k)) * sign(row(by));
      g.moved(row(k), row(by)) = g.moved(row(by), row(k)) = s * answer.moved;
      g.sped(row(k), row(by)) = g.sped(row(by), row(k)) = s * answer.sped;
    }
  }
}

void Rails::predict(std::span<const OfRails> on_wheels, double from, double to, std::size_t step) {
  h_ = steps_[step];
  for (std::size_t i = 0; i < mass_.size(); ++i) {
    for (std::size_t k = 0; k < 4; ++k) {
      mass_[i][k].use(step);
      mass_[i][k].predict(-on_wheels[i](static_cast<Eigen::Index>(k)));
    }
  }
  if (bends()) {
    for (std::size_t i = 0; i < axle_.size(); ++i) {
      held_[i] = now_of_[i] = on_wheels[i];
      for (std::size_t k = 0; k < forces(); ++k) {
        const Eigen::Index at = row(k);
        const std::size_t w = static_cast<std::size_t>(first(i)) + k;
        const double force = sign(at) * on_wheels[i](at), x = from + axle_[i];
        from_[w] = {to_[w].at.x == x ? to_[w].at : point(at, x), force}; // mostly where the last step has ended
        to_[w] = {point(at, to + axle_[i]), force};
      }
    }
    stepper_->begin(*motion_, *factor_[step], from_, to_);
    started_ = true;
  }
  for (std::size_t i = 0; i < axle_.size(); ++i) {
    fill_give(i);
  }
}

void Rails::set(std::size_t i, const OfRails& before, const OfRails& now) {
  for (std::size_t k = 0; k < 4; ++k) {
    const auto at = static_cast<Eigen::Index>(k);
    mass_[i][k].correct(before(at) - now(at));
  }
  if (bends()) {
    std::array<double, 4> force{};
    for (std::size_t k = 0; k < forces(); ++k) {
      force[k] = sign(row(k)) * now(row(k));
    }
    stepper_->set_forces(first(i), std::span(force).first(forces()));
    now_of_[i] = now;
  }
}

void Rails::finish() {
  if (!bends()) {
    return;
  }
  for (std::size_t i = 0; i < axle_.size(); ++i) {
    const OfRails placed = place(i), sped = speed(i);
    double power = 0.0;
    for (std::size_t k = 0; k < forces(); ++k) {
      const Eigen::Index at = row(k);
      const double force = -0.5 * (held_[i](at) + now_of_[i](at)); // on the rail
      power += force * (0.5 * (speed_[i](at) + sped(at)) - (placed(at) - place_[i](at)) / h_);
    }
    trough_power_[i] = power;
    place_[i] = placed;
    speed_[i] = sped;
  }
  stepper_->end(*motion_);
  started_ = false;
}

template <class Of> double Rails::of_masses(const Of& of) const {
  double sum = 0.0;
  for (const std::array<RailMass, 4>& masses : mass_) {
    for (std::size_t k = 0; k < 4; ++k) {
      if (!bends() || (k % 2 == 0 && !across_)) {
        sum += of(masses[k]);
      }
    }
  }
  return sum;
}

// What a rail gives under a wheel by its residual compliance is neither here nor in trough_power(): it goes in there as
// a way of the wheel and nowhere else.
double Rails::energy() const {
  return (bends() ? track::chain::energy(*chain_, *motion_) : 0.0) +
         of_masses([](const RailMass& m) { return m.energy(); });
}

double Rails::damping_power() const {
  return (bends() ? track::chain::damping_power(*chain_, *motion_) : 0.0) +
         of_masses([](const RailMass& m) { return m.damping_power(); });
}

} // namespace wingnose::passage::space
