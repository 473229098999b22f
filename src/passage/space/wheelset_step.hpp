// One wheelset and the two rails under it through a step in time: contacts found at the predicted place, then solved
// together (contact_system.hpp); found anew only where that has moved the wheelset by much of an approach. The rail's
// give within the step is in the contact, its velocity with that give in the creepages.
#pragma once

#include "contact_system.hpp"

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <optional>
#include <span>

namespace wingnose::passage::space {

// A mass on spring and damper, stepped exactly for a force that is straight over the step.
class RailMass {
public:
  RailMass() = default;
  RailMass(const RailDirection& rail, double step);
  void settle(double force) { state_ = {force / stiffness_, 0.0}; } // N, at rest under it
  void predict(double force) { state_ = (keep_ * state_ + constant_ * force).eval(); }
  void correct(double growth) { state_ += growing_ * growth; }
  [[nodiscard]] double place() const { return state_(0); }   // m
  [[nodiscard]] double speed() const { return state_(1); }   // m/s
  [[nodiscard]] double moved() const { return growing_(0); } // m/N, by a force that grows
  [[nodiscard]] double sped() const { return growing_(1); }  // m/s/N
  [[nodiscard]] double energy() const {                      // J
    return 0.5 * (stiffness_ * state_(0) * state_(0) + mass_ * state_(1) * state_(1));
  }
  [[nodiscard]] double damping_power() const { return damping_ * state_(1) * state_(1); } // W

private:
  Eigen::Matrix2d keep_;
  Eigen::Vector2d constant_, growing_, state_ = Eigen::Vector2d::Zero();
  double mass_ = 0.0, stiffness_ = 0.0, damping_ = 0.0;
};

class WheelsetStep {
public:
  WheelsetStep(const contact::WheelsetOnBodies& set, const vehicle::space::Wheelset& wheelset, const Ground& ground,
               double speed, double step);

  // Stands on its rails in the middle of the track, carried by this much up and about the roll axis; tells where.
  // Throws ComputeError where wheels do not meet their rails there.
  [[nodiscard]] OfWheelset settle(double station, const OfWheelset& rest);

  // After the vehicle's prediction with `force()` constant: how much the force has grown at the end.
  [[nodiscard]] OfWheelset step(const VehicleMotion& vehicle, std::size_t wheelset, double station);

  [[nodiscard]] const OfWheelset& force() const { return force_.axle; } // at the end of the step, in all
  [[nodiscard]] std::span<const Carried> carried() const { return contacts_.carried(); }
  [[nodiscard]] const std::array<RailMass, 4>& rails() const { return rail_; }
  [[nodiscard]] double check_station() const { return check_station_; } // m, where the check rail was met last
  // Set where a wheel has run into a body instead of onto it, as a flange does into the tip of a nose.
  [[nodiscard]] const std::optional<contact::SpaceContact>& beyond() const { return beyond_; }
  [[nodiscard]] int evaluations() const { return evaluations_; } // searches in all

private:
  // State of the wheelset and its rails, and the forces for which it holds.
  struct Instant {
    OfWheelset u = OfWheelset::Zero(), v = OfWheelset::Zero();
    OfRails rail = OfRails::Zero(), rail_speed = OfRails::Zero();
    WheelsetForce force;
  };
  [[nodiscard]] contact::AxlePlace place(const OfWheelset& u, double station) const;
  [[nodiscard]] Held held(const Instant& at, const contact::AxleAxes& axes, double curvature) const;
  void find(const Instant& at, double station);
  void find_check(const contact::AxlePlace& axle);
  [[nodiscard]] Instant predicted(const VehicleMotion& vehicle, std::size_t wheelset);
  [[nodiscard]] Instant after(const Instant& predicted) const;
  [[nodiscard]] bool settled(const Instant& before, const Instant& now) const;

  const contact::WheelsetOnBodies* set_;
  const Ground* ground_;
  double height_, speed_, spin_, tip_; // m, m/s, rad/s, m: radius of the flange's tip of wheel 1
  std::array<RailMass, 4> rail_;       // as OfRails
  contact::SpaceSearch search_;
  contact::SpaceContacts found_;
  ContactSystem contacts_;
  Give moved_, sped_;
  WheelsetForce force_;
  std::optional<contact::SpaceContact> beyond_;
  double check_station_ = 0.0;
  int evaluations_ = 0;
};

} // namespace wingnose::passage::space
