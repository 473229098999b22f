#include "contact_system.hpp"

#include "wingnose/contact/space/rubbing.hpp"

#include <Eigen/Geometry>
#include <Eigen/LU>

#include <algorithm>
#include <cmath>

namespace wingnose::passage::space {
namespace {

using Eigen::Vector3d;

constexpr int most_rounds = 6;
constexpr double enough = 1e-3; // relative change of approaches between rounds; of slips ten times as much
constexpr double slow = 1e-3;   // m/s, below which friction of the check rail gives way

Eigen::Index row_of(std::size_t k) { return static_cast<Eigen::Index>(3 * k); }

} // namespace

// What unit forces of every contact along n, t_x and t_y do to the wheelset's coordinates and to its rails.
void ContactSystem::geometry(const contact::AxleAxes& a) {
  const auto columns = row_of(count_);
  arms_.resize(wheelset_motions, columns);
  on_rails_.resize(4, columns);
  on_rails_.setZero();
  for (std::size_t k = 0; k < count_; ++k) {
    const contact::SpaceContact& c = carried_[k].at;
    turning_[k] = {c.n.dot(a.roll), c.n.dot(a.axle), c.n.dot(a.yaw)};
    Eigen::Index column = row_of(k);
    for (const Vector3d* d : {&c.n, &c.t_x, &c.t_y}) {
      const Vector3d moment = c.arm.cross(*d);
      arms_.col(column) << d->y(), d->z(), moment.dot(a.roll), moment.dot(a.axle), moment.dot(a.yaw);
      if (c.body >= 0) {
        on_rails_.block<2, 1>(2 * c.wheel, column) = d->tail<2>();
      }
      ++column;
    }
  }
}

void ContactSystem::respond(const Give& give, const WheelsetForce& held, Response& out) const {
  const Columns<wheelset_motions> axle = give.axle * arms_;
  const Columns<4> rails = give.rails * on_rails_;
  out.by_forces.noalias() = arms_.transpose() * axle;
  out.by_forces.noalias() += on_rails_.transpose() * rails;
  const OfWheelset axle_held = give.axle * held.axle;
  const OfRails rails_held = give.rails * held.rails;
  out.by_held.noalias() = arms_.transpose() * axle_held;
  out.by_held.noalias() += on_rails_.transpose() * rails_held;
}

void ContactSystem::start(const Held& held) {
  for (Vector* v : {&slip_, &approach_, &spin_, &right_, &solution_}) {
    v->setZero(row_of(count_));
  }
  system_.resize(row_of(count_), row_of(count_));
  for (std::size_t k = 0; k < count_; ++k) {
    const contact::SpaceContact& c = carried_[k].at;
    const contact::RailMotion under =
        c.body < 0 ? contact::RailMotion{} : held.rails[static_cast<std::size_t>(c.wheel)];
    const Vector3d s = contact::slip_velocity(c, held.axes, held.motion, under);
    slip_.segment<3>(row_of(k)) << s.dot(c.n), s.dot(c.t_x), s.dot(c.t_y);
    spin_(row_of(k)) = contact::spin_velocity(c, held.axes, held.motion) / speed_;
    approach_(row_of(k)) = c.approach;
  }
  slide_ = slip_;
}

contact::ContactForce ContactSystem::law(std::size_t k, contact::SpaceSearch& search) const {
  const contact::SpaceContact& c = carried_[k].at;
  const Eigen::Index row = row_of(k);
  const double approach = approach_(row);
  contact::ContactForce out;
  out.creepage = {slide_(row + 1) / speed_, slide_(row + 2) / speed_, spin_(row)};
  if (!(approach > 0.0)) {
    return out;
  }
  if (c.body < 0) { // Coulomb: the back slides over the check rail at any speed
    out.normal = check_->stiffness * approach;
    const double per_slip =
        check_->friction * out.normal / std::max(std::hypot(slide_(row + 1), slide_(row + 2)), slow);
    out.creep = {-per_slip * slide_(row + 1), -per_slip * slide_(row + 2), 0.0};
    return out;
  }
  out.normal = c.ellipse.stiffness * approach * std::sqrt(approach);
  out.creep = contact::creep_on(*set_, c.body, c.ellipse.under(out.normal, set_->ellipse.shear_modulus()), out.creepage,
                                speed_, search.strips);
  return out;
}

// The linear law's, less by as much as the law has bent the force.
Eigen::Vector2d ContactSystem::damping(std::size_t k) const {
  const auto& [c, f] = carried_[k];
  if (!(f.normal > 0.0)) {
    return Eigen::Vector2d::Zero();
  }
  if (c.body < 0) {
    const double slides = speed_ * std::hypot(f.creepage.longitudinal, f.creepage.lateral);
    return Eigen::Vector2d::Constant(check_->friction * f.normal / std::max(slides, slow));
  }
  const contact::RollingContact rolling = c.ellipse.under(f.normal, set_->ellipse.shear_modulus());
  const contact::CreepForce linear = contact::linear_creep_force(rolling, f.creepage);
  const double whole = std::hypot(linear.longitudinal, linear.lateral);
  const double share = whole > 0.0 ? std::hypot(f.creep.longitudinal, f.creep.lateral) / whole : 1.0;
  return share * rolling.shear_modulus * rolling.a * rolling.b / speed_ *
         Eigen::Vector2d(rolling.linear.C11, rolling.linear.C22);
}

// Three rows: N + k move = N here + k (approach held - approach here), F + d slip = F here + d (slip here - slip held),
// move and slip by the unknown forces, by those given up, and by the moments about normals of the round before.
void ContactSystem::fill(std::size_t k, const Vector& moved_by_moments, const Vector& sped_by_moments) {
  const auto& [c, f] = carried_[k];
  const Eigen::Index row = row_of(k);
  double tangent = 0.0;
  if (approach_(row) > 0.0) {
    tangent = c.body < 0 ? check_->stiffness : 1.5 * f.normal / approach_(row);
  }
  system_.row(row) = tangent * moves_.by_forces.row(row);
  system_(row, row) += 1.0;
  right_(row) = f.normal + tangent * (c.approach + moves_.by_held(row) - moved_by_moments(row) - approach_(row));
  const Eigen::Vector2d d = damping(k), force(f.creep.longitudinal, f.creep.lateral);
  for (Eigen::Index way = 0; way < 2; ++way) {
    const Eigen::Index at = row + 1 + way;
    system_.row(at) = d(way) * slips_.by_forces.row(at);
    system_(at, at) += 1.0;
    right_(at) = force(way) + d(way) * (slide_(at) - slip_(at) + slips_.by_held(at) - sped_by_moments(at));
  }
}

// Approaches and slips under the solution; tells how much they have changed.
double ContactSystem::update(const Vector& moved_by_moments, const Vector& sped_by_moments) {
  const Vector move = moves_.by_forces * solution_ - moves_.by_held + moved_by_moments;
  const Vector slip = slip_ + slips_.by_forces * solution_ - slips_.by_held + sped_by_moments;
  double change = 0.0;
  for (std::size_t k = 0; k < count_; ++k) {
    const Eigen::Index row = row_of(k);
    const double there = carried_[k].at.approach - move(row);
    change = std::max(change, std::abs(there - approach_(row)) / (std::abs(there) + 1e-7));
    approach_(row) = there;
    for (Eigen::Index at = row + 1; at < row + 3; ++at) {
      change = std::max(change, 0.1 * std::abs(slip(at) - slide_(at)) / (std::abs(slip(at)) + 1e-4 * speed_));
      slide_(at) = slip(at);
    }
  }
  return change;
}

void ContactSystem::finish() {
  for (std::size_t k = 0; k < count_; ++k) {
    const Eigen::Index row = row_of(k);
    contact::ContactForce& f = carried_[k].force;
    f.creepage = {slide_(row + 1) / speed_, slide_(row + 2) / speed_, spin_(row)};
    if (!(approach_(row) > 0.0 && solution_(row) > 0.0)) {
      f.normal = 0.0;
      f.creep = {};
      continue;
    }
    f.normal = solution_(row);
    f.creep.longitudinal = solution_(row + 1);
    f.creep.lateral = solution_(row + 2);
  }
}

void ContactSystem::solve(const Held& held, const Give& moved, const Give& sped, contact::SpaceSearch& search) {
  if (count_ == 0) {
    return;
  }
  geometry(held.axes);
  respond(moved, held.force, moves_);
  respond(sped, held.force, slips_);
  start(held);
  for (int round = 0; round < most_rounds; ++round) {
    OfWheelset moments = OfWheelset::Zero();
    for (std::size_t k = 0; k < count_; ++k) {
      carried_[k].force = law(k, search);
      moments.tail<3>() += carried_[k].force.creep.moment * turning_[k];
    }
    const OfWheelset axle_moved = moved.axle * moments, axle_sped = sped.axle * moments;
    const Vector moved_by_moments = arms_.transpose() * axle_moved, sped_by_moments = arms_.transpose() * axle_sped;
    for (std::size_t k = 0; k < count_; ++k) {
      fill(k, moved_by_moments, sped_by_moments);
    }
    solution_ = system_.partialPivLu().solve(right_);
    if (update(moved_by_moments, sped_by_moments) < enough) {
      break;
    }
  }
  finish();
}

WheelsetForce ContactSystem::sum() const {
  WheelsetForce out;
  for (std::size_t k = 0; k < count_; ++k) {
    const contact::ContactForce& f = carried_[k].force;
    out.axle += arms_.middleCols<3>(row_of(k)) * Vector3d(f.normal, f.creep.longitudinal, f.creep.lateral);
    out.axle.tail<3>() += f.creep.moment * turning_[k];
    if (carried_[k].at.body >= 0) {
      out.rails.segment<2>(2 * carried_[k].at.wheel) += f.on_wheel(carried_[k].at).tail<2>();
    }
  }
  return out;
}

} // namespace wingnose::passage::space
