// All contacts of one wheelset solved together at the end of a step: normal forces by Newton's method, creep by the
// secant of its law, read anew in every round. Two wheels share an axle, and each contact feels how far wheelset and
// rails give way within the step to the forces of all.
#pragma once

#include "rails.hpp"
#include "vehicle_motion.hpp"

#include "wingnose/contact/space/wheelset_contact.hpp"
#include "wingnose/passage/space/ride.hpp"

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <span>

namespace wingnose::passage::space {

// A contact with what it carries. Of the check rail: body -1.
struct Carried {
  contact::SpaceContact at;
  contact::ContactForce force;
};

// Forces on the wheelset, and what of them goes through its rails.
struct WheelsetForce {
  OfWheelset axle = OfWheelset::Zero();
  OfRails rails = OfRails::Zero(); // N, on the wheels
};
// Displacements or velocities by forces that grow over the step.
struct Give {
  Compliance axle = Compliance::Zero();
  Eigen::Matrix4d rails = Eigen::Matrix4d::Zero(); // by forces on the rails
};
// Where contacts were found, how all moves there, and the forces for which that holds.
struct Held {
  contact::AxleAxes axes;
  contact::AxleMotion motion;
  std::array<contact::RailMotion, 2> rails;
  WheelsetForce force;
};

class ContactSystem {
public:
  // speed: m/s, of travel. check: null where there is no check rail.
  ContactSystem(const contact::WheelsetOnBodies& set, const MetCheckRail* check, double speed)
      : set_(&set), check_(check), speed_(speed) {}

  void clear() { count_ = 0; }
  void add(const contact::SpaceContact& contact) { carried_[count_++] = {contact, {}}; } // up to `capacity`
  [[nodiscard]] std::span<const Carried> carried() const { return {carried_.data(), count_}; }

  // search: of the wheelset, for its workspace.
  void solve(const Held& held, const Give& moved, const Give& sped, contact::SpaceSearch& search);
  [[nodiscard]] WheelsetForce sum() const;

private:
  static constexpr std::size_t capacity = contact::SpaceContacts::capacity + 1;
  static constexpr int most = 3 * static_cast<int>(capacity);
  template <int rows> using Columns = Eigen::Matrix<double, rows, Eigen::Dynamic, 0, rows, most>;
  using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, most, most>;
  using Vector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, most, 1>;
  // How contacts move by unit forces in them: all of it, and by giving up the forces held.
  struct Response {
    Matrix by_forces;
    Vector by_held;
  };
  void geometry(const contact::AxleAxes& axes);
  void respond(const Give& give, const WheelsetForce& held, Response& out) const;
  void start(const Held& held);
  [[nodiscard]] contact::ContactForce law(std::size_t k, contact::SpaceSearch& search) const;
  [[nodiscard]] Eigen::Vector2d damping(std::size_t k) const; // N s/m, along and across
  void fill(std::size_t k, const Vector& moved_by_moments, const Vector& sped_by_moments);
  [[nodiscard]] double update(const Vector& moved_by_moments, const Vector& sped_by_moments);
  void finish();

  const contact::WheelsetOnBodies* set_;
  const MetCheckRail* check_;
  double speed_;
  std::size_t count_ = 0;
  std::array<Carried, capacity> carried_;
  std::array<Eigen::Vector3d, capacity> turning_; // of a unit moment about each normal: roll, pitch, yaw
  Columns<wheelset_motions> arms_;                // of unit forces along n, t_x, t_y of every contact
  Columns<4> on_rails_;                           // likewise
  Response moves_, slips_;
  Vector slip_;             // m/s, where contacts were found: along n, t_x, t_y
  Vector approach_, slide_; // m, m/s: in this round, every third of the first
  Vector spin_;             // -, over speed
  Matrix system_;
  Vector right_, solution_;
};

} // namespace wingnose::passage::space
