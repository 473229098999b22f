// One wheelset and the two rails under it through a step in time: contacts found at the predicted place, then solved
// together (contact_system.hpp); found anew only where that has moved the wheelset by much of an approach. The rail's
// give within the step is in the contact, its velocity with that give in the creepages.
#pragma once

#include "contact_system.hpp"
#include "rails.hpp"

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <optional>
#include <span>

namespace wingnose::passage::space {

class WheelsetStep {
public:
  WheelsetStep(const contact::WheelsetOnBodies& set, const vehicle::space::Wheelset& wheelset, const Ground& ground,
               double speed);

  // Stands on its rails, which have given way so far, in the middle of the track, carried by this much up and about the
  // roll axis; tells where. Throws ComputeError where wheels do not meet their rails there.
  [[nodiscard]] OfWheelset settle(double station, const OfWheelset& rest, const OfRails& rails);

  // After the prediction of vehicle and rails with `force()` and `on_rails()` constant, or after such a step: how much
  // the force has grown at the end. The rails are told theirs.
  [[nodiscard]] OfWheelset step(const VehicleMotion& vehicle, Rails& rails, std::size_t wheelset, double station);

  [[nodiscard]] const OfWheelset& force() const { return force_.axle; } // at the end of the step, in all
  [[nodiscard]] std::span<const Carried> carried() const { return contacts_.carried(); }
  [[nodiscard]] const OfRails& on_rails() const { return force_.rails; } // of it, through the rails; on the wheels
  [[nodiscard]] double check_station() const { return check_station_; }  // m, where the check rail was met last
  // Set where a wheel has run into a body instead of onto it, as a flange does into the tip of a nose.
  [[nodiscard]] const std::optional<contact::SpaceContact>& beyond() const { return beyond_; }
  // W, of contacts on wheels as surfaces that deviate go up and aside under them; station: of the axle, m.
  [[nodiscard]] double unevenness_power(double yaw, double station) const;
  [[nodiscard]] bool near_check() const { return near_check_; }  // a millimetre or less
  [[nodiscard]] int evaluations() const { return evaluations_; } // searches in all

private:
  // State of the wheelset and its rails, and the forces for which it holds.
  struct Instant {
    OfWheelset u = OfWheelset::Zero(), v = OfWheelset::Zero();
    OfRails rail = OfRails::Zero(), rail_speed = OfRails::Zero();
    WheelsetForce force;
  };
  [[nodiscard]] contact::AxlePlace place(const OfWheelset& u, double station) const;
  [[nodiscard]] double station_of(std::size_t wheel, double yaw, double station) const; // m, of its own
  [[nodiscard]] OfRails uneven(double yaw, double station) const; // m, how far rails lie off where they are drawn
  [[nodiscard]] Held held(const Instant& at, const contact::AxleAxes& axes, double curvature) const;
  void find(const Instant& at, double station);
  void find_check(const contact::AxlePlace& axle, const Eigen::Vector2d& off); // off: m, y and z, of its rail
  [[nodiscard]] Instant predicted(const VehicleMotion& vehicle, const Rails& rails, std::size_t wheelset);
  [[nodiscard]] Instant after(const Instant& predicted) const;
  [[nodiscard]] bool settled(const Instant& before, const Instant& now) const;

  const contact::WheelsetOnBodies* set_;
  const Ground* ground_;
  double height_, speed_, spin_; // m, m/s, rad/s
  std::size_t checked_;          // wheel whose back meets the check rail
  double tip_;                   // m, radius of its flange's tip
  contact::SpaceSearch search_;
  contact::SpaceContacts found_;
  ContactSystem contacts_;
  Give moved_, sped_;
  WheelsetForce force_;
  std::optional<contact::SpaceContact> beyond_;
  double check_station_ = 0.0;
  bool near_check_ = false;
  int evaluations_ = 0;
};

} // namespace wingnose::passage::space
