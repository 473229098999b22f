#include "vehicle_motion.hpp"

#include "wingnose/layout/turnout/kinematics.hpp"
#include "wingnose/vehicle/space/link_force.hpp"
#include "wingnose/vehicle/space/modes.hpp"
#include "wingnose/words/frame.hpp"

#include <Eigen/Cholesky>

#include <cmath>

namespace wingnose::passage::space {
namespace {

using vehicle::space::index;
using vehicle::space::Motion;

constexpr std::array<Motion, wheelset_motions> of_wheelset{Motion::y, Motion::z, Motion::roll, Motion::pitch,
                                                           Motion::yaw};

double x_of(const vehicle::space::SpatialModel& model, int part) {
  return part < model.wheelsets() ? model.vehicle.wheelsets[static_cast<std::size_t>(part)].x
                                  : model.vehicle.bodies[static_cast<std::size_t>(part - model.wheelsets())].x;
}
double z_of(const vehicle::space::SpatialModel& model, int part) {
  return part < model.wheelsets() ? model.vehicle.wheelsets[static_cast<std::size_t>(part)].height()
                                  : model.vehicle.bodies[static_cast<std::size_t>(part - model.wheelsets())].z;
}

double cant_angle(const layout::turnout::Route& route, double s) {
  return std::asin(route.cant(s) / layout::turnout::tape_lines);
}

} // namespace

VehicleMotion::VehicleMotion(const vehicle::space::SpatialModel& model, const vehicle::space::Terms& terms,
                             const layout::turnout::Route& route, double speed, const std::array<double, 2>& steps)
    : model_(&model), route_(&route), speed_(speed), free_(static_cast<Eigen::Index>(model.free.size())),
      at_(static_cast<std::size_t>(model.size()), -1), K_(model.K), C_(model.C), curved_(!route.stretches().empty()) {
  if (terms.geometric) {
    K_ += model.geometric;
  }
  if (!terms.series) {
    for (const vehicle::space::SeriesDamper& damper : model.series) {
      C_ += damper.damping * damper.stretch * damper.stretch.transpose();
    }
  }
  for (std::size_t i = 0; i < model.free.size(); ++i) {
    at_[static_cast<std::size_t>(model.free[i])] = static_cast<int>(i);
  }
  const vehicle::space::LinearSystem system = vehicle::space::lifted(model, speed, terms);
  series_ = system.series;
  A_ = vehicle::space::state_matrix(system);
  mass_ = system.M.diagonal();
  x_ = old_ = push_ = Eigen::VectorXd::Zero(A_.rows());
  offset_ = Eigen::VectorXd::Zero(A_.rows());
  for (const vehicle::space::BeyondSmall& link : model.beyond) {
    beyond_.push_back({Eigen::VectorXd(link.stretch(model.free)), link.law, terms.series ? link.series : -1});
  }
  for (int part = 0; part < model.wheelsets(); ++part) {
    std::array<int, wheelset_motions> at{};
    for (std::size_t k = 0; k < of_wheelset.size(); ++k) {
      at[k] = at_[static_cast<std::size_t>(index(part, of_wheelset[k]))];
    }
    wheelset_at_.push_back(at);
  }
  steps_[0] = step_of(steps[0]);
  steps_[1] = steps[1] == steps[0] ? steps_[0] : step_of(steps[1]);
}

VehicleMotion::Step VehicleMotion::step_of(double h) const {
  Step out{linear_step(A_, h), {}, {}, {}};
  for (const auto& at : wheelset_at_) {
    Eigen::Matrix<double, Eigen::Dynamic, wheelset_motions> growing =
        Eigen::Matrix<double, Eigen::Dynamic, wheelset_motions>::Zero(A_.rows(), wheelset_motions);
    for (std::size_t k = 0; k < of_wheelset.size(); ++k) {
      if (at[k] >= 0) {
        growing.col(static_cast<Eigen::Index>(k)) = out.exact.growing.col(free_ + at[k]) / mass_(at[k]);
      }
    }
    Compliance moved = Compliance::Zero(), sped = Compliance::Zero();
    for (std::size_t k = 0; k < of_wheelset.size(); ++k) {
      if (at[k] >= 0) {
        moved.row(static_cast<Eigen::Index>(k)) = growing.row(at[k]);
        sped.row(static_cast<Eigen::Index>(k)) = growing.row(free_ + at[k]);
      }
    }
    out.of_force.push_back(growing);
    out.moved.push_back(moved);
    out.sped.push_back(sped);
  }
  return out;
}

OfWheelset VehicleMotion::gathered(std::size_t wheelset, Eigen::Index from) const {
  OfWheelset out = OfWheelset::Zero();
  for (std::size_t k = 0; k < of_wheelset.size(); ++k) {
    if (const int at = wheelset_at_[wheelset][k]; at >= 0) {
      out(static_cast<Eigen::Index>(k)) = x_(from + at);
    }
  }
  return out;
}

void VehicleMotion::settle(const std::vector<OfWheelset>& wheelsets) {
  Eigen::VectorXd u = Eigen::VectorXd::Zero(model_->size());
  std::vector<int> bodies;
  for (const int at : model_->free) {
    if (at >= index(model_->wheelsets(), Motion::x)) {
      bodies.push_back(at);
    }
  }
  for (std::size_t i = 0; i < wheelsets.size(); ++i) {
    for (std::size_t k = 0; k < of_wheelset.size(); ++k) {
      u(index(static_cast<int>(i), of_wheelset[k])) = wheelsets[i](static_cast<Eigen::Index>(k));
    }
  }
  if (!bodies.empty()) {
    const Eigen::VectorXd from_wheelsets = -(K_ * u)(bodies);
    u(bodies) = Eigen::VectorXd(K_(bodies, bodies).ldlt().solve(from_wheelsets));
  }
  x_.setZero();
  x_.head(free_) = u(model_->free);
  for (std::size_t i = 0; i < series_.size(); ++i) {
    x_(2 * free_ + static_cast<Eigen::Index>(i)) = series_[i].stretch.dot(x_.head(free_));
  }
}

void VehicleMotion::shift(double by) {
  for (int part = 0; part < model_->parts(); ++part) {
    if (const int at = at_[static_cast<std::size_t>(index(part, Motion::y))]; at >= 0) {
      x_(at) += by;
    }
  }
  for (std::size_t i = 0; i < series_.size(); ++i) {
    x_(2 * free_ + static_cast<Eigen::Index>(i)) = series_[i].stretch.dot(x_.head(free_));
  }
}

// Where the frames of the parts stand against that of the vehicle's middle, and what curvature and cant ask of masses.
void VehicleMotion::route_terms(double station) {
  const double middle = station + 0.5 * model_->vehicle.wheelsets.back().x;
  const layout::turnout::Place from = route_->at(middle);
  const double c = std::cos(from.heading), s = std::sin(from.heading), roll_from = -cant_angle(*route_, middle);
  offset_.setZero();
  for (int part = 0; part < model_->parts(); ++part) {
    const double here = station + x_of(*model_, part), curvature = route_->curvature(here);
    const layout::turnout::Place place = route_->at(here);
    const double cant = cant_angle(*route_, here), across = c * (place.y - from.y) - s * (place.x - from.x);
    const double turned = place.heading - from.heading, rolled = -cant - roll_from;
    const auto at = [&](Motion motion) { return at_[static_cast<std::size_t>(index(part, motion))]; };
    const double towards = speed_ * speed_ * curvature, sine = std::sin(cant), cosine = std::cos(cant);
    if (const int y = at(Motion::y); y >= 0) {
      offset_(y) = across - z_of(*model_, part) * rolled;
      offset_(free_ + y) = speed_ * turned;
      push_(free_ + y) += gravity * sine - towards * cosine;
    }
    if (const int z = at(Motion::z); z >= 0) {
      push_(free_ + z) += gravity * (1.0 - cosine) - towards * sine;
    }
    if (const int roll = at(Motion::roll); roll >= 0) {
      offset_(roll) = rolled;
      constexpr double apart = 0.01; // m, to see a ramp of the cant
      push_(roll) += speed_ * (cant_angle(*route_, here + apart) - cant_angle(*route_, here - apart)) / (2.0 * apart);
    }
    if (const int yaw = at(Motion::yaw); yaw >= 0) {
      offset_(yaw) = turned;
      push_(yaw) -= speed_ * curvature;
    }
  }
  // Links feel the offsets; places do not change by them.
  push_.tail(A_.rows() - free_).noalias() += A_.bottomRows(A_.rows() - free_) * offset_;
}

// What stops and dampers that give way add to small motion.
void VehicleMotion::add_beyond() {
  for (const vehicle::space::BeyondSmall& link : beyond_) {
    const double stretch = link.stretch.dot(x_.head(free_) + offset_.head(free_));
    double more = vehicle::space::spring_force(link.law, stretch) - link.law.stiffness * stretch;
    if (link.series < 0) {
      const double speed = link.stretch.dot(x_.segment(free_, free_) + offset_.segment(free_, free_));
      more += vehicle::space::damper_force(link.law, speed) - link.law.damping * speed;
    } else {
      const Eigen::Index inside = 2 * free_ + link.series;
      const double force = link.law.series_stiffness * (stretch - x_(inside));
      push_(inside) += vehicle::space::damper_speed(link.law, force) - force / link.law.damping;
    }
    push_.segment(free_, free_).array() -= more * link.stretch.array() / mass_.array();
  }
}

void VehicleMotion::predict(const std::vector<OfWheelset>& force, double station) {
  push_.setZero();
  if (curved_) {
    route_terms(station);
  }
  add_beyond();
  for (std::size_t i = 0; i < force.size(); ++i) {
    for (std::size_t k = 0; k < of_wheelset.size(); ++k) {
      if (const int at = wheelset_at_[i][k]; at >= 0) {
        push_(free_ + at) += force[i](static_cast<Eigen::Index>(k)) / mass_(at);
      }
    }
  }
  old_.swap(x_);
  x_.noalias() = steps_[now_].exact.keep * old_;
  x_.noalias() += steps_[now_].exact.constant * push_;
}

double VehicleMotion::coordinate(int part, Motion motion) const {
  const int at = at_[static_cast<std::size_t>(index(part, motion))];
  return at < 0 ? 0.0 : x_(at);
}
double VehicleMotion::rate(int part, Motion motion) const {
  const int at = at_[static_cast<std::size_t>(index(part, motion))];
  return at < 0 ? 0.0 : x_(free_ + at);
}

// Links act in the frame of the vehicle's middle, against which that of the wheelset is turned.
double VehicleMotion::pull(std::size_t wheelset) const {
  const int part = static_cast<int>(wheelset), yaw = at_[static_cast<std::size_t>(index(part, Motion::yaw))];
  const double turned = yaw < 0 ? 0.0 : offset_(yaw);
  return link_force(index(part, Motion::x)) + turned * link_force(index(part, Motion::y));
}

double VehicleMotion::held_bodies_pull() const {
  double force = 0.0;
  for (int part = model_->wheelsets(); part < model_->parts(); ++part) {
    if (const int x = index(part, Motion::x); at_[static_cast<std::size_t>(x)] < 0) {
      force -= link_force(x);
    }
  }
  return force;
}

double VehicleMotion::link_force(int row) const {
  double force = 0.0;
  for (std::size_t i = 0; i < model_->free.size(); ++i) {
    const auto k = static_cast<Eigen::Index>(i);
    force -= K_(row, model_->free[i]) * (x_(k) + offset_(k)) +
             C_(row, model_->free[i]) * (x_(free_ + k) + offset_(free_ + k));
  }
  for (std::size_t i = 0; i < series_.size(); ++i) {
    const double stretch = series_[i].stretch.dot(x_.head(free_) + offset_.head(free_));
    force -= model_->series[i].stretch(row) * series_[i].stiffness *
             (stretch - x_(2 * free_ + static_cast<Eigen::Index>(i)));
  }
  return force;
}

double VehicleMotion::bodies_damping_power() const {
  double power = 0.0;
  const auto speed = [&](Eigen::Index i) { return x_(free_ + i) + offset_(free_ + i); };
  for (Eigen::Index i = 0; i < free_; ++i) {
    for (Eigen::Index j = 0; j < free_; ++j) {
      power += speed(i) * speed(j) *
               C_(model_->free[static_cast<std::size_t>(i)], model_->free[static_cast<std::size_t>(j)]);
    }
  }
  for (std::size_t i = 0; i < series_.size(); ++i) {
    const double stretch = series_[i].stretch.dot(x_.head(free_) + offset_.head(free_));
    const double force = series_[i].stiffness * (stretch - x_(2 * free_ + static_cast<Eigen::Index>(i)));
    power += force * force / series_[i].damping;
  }
  return power;
}

double VehicleMotion::energy() const {
  double energy = 0.0;
  for (Eigen::Index i = 0; i < free_; ++i) {
    energy += 0.5 * mass_(i) * x_(free_ + i) * x_(free_ + i);
    for (Eigen::Index j = 0; j < free_; ++j) {
      energy += 0.5 * (x_(i) + offset_(i)) * (x_(j) + offset_(j)) *
                K_(model_->free[static_cast<std::size_t>(i)], model_->free[static_cast<std::size_t>(j)]);
    }
  }
  for (std::size_t i = 0; i < series_.size(); ++i) {
    const double stretch =
        series_[i].stretch.dot(x_.head(free_) + offset_.head(free_)) - x_(2 * free_ + static_cast<Eigen::Index>(i));
    energy += 0.5 * series_[i].stiffness * stretch * stretch;
  }
  // A wheelset turns at V / r besides: 1/2 J (V / r + rate)^2 less what it has at rest.
  for (int part = 0; part < model_->wheelsets(); ++part) {
    const vehicle::space::Wheelset& set = model_->vehicle.wheelsets[static_cast<std::size_t>(part)];
    energy += set.spin_inertia * speed_ / set.height() * rate(part, Motion::pitch);
  }
  for (int part = model_->wheelsets(); part < model_->parts(); ++part) { // likewise ahead
    energy += model_->M(index(part, Motion::x), index(part, Motion::x)) * speed_ * rate(part, Motion::x);
  }
  return energy;
}

} // namespace wingnose::passage::space
