// The rails under all wheels of a vehicle: masses that run along under the wheels, or two rails that bend on bearers
// (track/chain) and, across, where the chain does not tell it, such masses. Both give their place and speed at the end
// of a step, and what they give way within it.
#pragma once

#include "wingnose/passage/space/ride.hpp"
#include "wingnose/track/chain/stepper.hpp"

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

namespace wingnose::passage::space {

using OfRails = Eigen::Vector4d; // wheel 0 y, z, wheel 1 y, z

// Steps of at most two lengths, s: the short and the long one.
using StepLengths = std::array<double, 2>;

// A mass on spring and damper, stepped exactly for a force that is straight over the step.
class RailMass {
public:
  RailMass() = default;
  RailMass(const RailDirection& rail, const StepLengths& steps);
  void settle(double force) { state_ = {force / stiffness_, 0.0}; } // N, at rest under it
  void use(std::size_t step) { now_ = step; }
  void predict(double force) { state_ = (of_[now_].keep * state_ + of_[now_].constant * force).eval(); }
  void correct(double growth) { state_ += of_[now_].growing * growth; }
  [[nodiscard]] double place() const { return state_(0); }            // m
  [[nodiscard]] double speed() const { return state_(1); }            // m/s
  [[nodiscard]] double moved() const { return of_[now_].growing(0); } // m/N, by a force that grows
  [[nodiscard]] double sped() const { return of_[now_].growing(1); }  // m/s/N
  [[nodiscard]] double give() const { return 1.0 / stiffness_; }      // m/N, at rest
  [[nodiscard]] double energy() const {                               // J
    return 0.5 * (stiffness_ * state_(0) * state_(0) + mass_ * state_(1) * state_(1));
  }
  [[nodiscard]] double damping_power() const { return damping_ * state_(1) * state_(1); } // W

private:
  struct Exact {
    Eigen::Matrix2d keep;
    Eigen::Vector2d constant, growing;
  };
  std::array<Exact, 2> of_;
  std::size_t now_ = 0;
  Eigen::Vector2d state_ = Eigen::Vector2d::Zero();
  double mass_ = 0.0, stiffness_ = 0.0, damping_ = 0.0;
};

// How far and how fast the rails under a wheelset move by forces on them that grow over the step.
struct RailGive {
  Eigen::Matrix4d moved = Eigen::Matrix4d::Zero(), sped = Eigen::Matrix4d::Zero(); // m/N, m/s/N
};

class Rails {
public:
  // axles: m, of wheelsets behind the leading one, 0 or less.
  Rails(const Ground& ground, std::vector<double> axles, const StepLengths& steps);

  // At rest under these forces on the wheels, with the leading axle at a station (m).
  void settle(std::span<const OfRails> on_wheels, double station);
  // Towards the end of a step, the forces staying as they are. from, to: m, of the leading axle; step: which length.
  void predict(std::span<const OfRails> on_wheels, double from, double to, std::size_t step);
  // Under a wheelset at the end of the step, under all forces set so far.
  [[nodiscard]] OfRails place(std::size_t wheelset) const; // m
  [[nodiscard]] OfRails speed(std::size_t wheelset) const; // m/s, of the material
  [[nodiscard]] const RailGive& give(std::size_t wheelset) const { return give_[wheelset]; }
  // Forces on the wheels at the end of the step, and those of which they have grown to it.
  void set(std::size_t wheelset, const OfRails& before, const OfRails& now);
  // What touches and lets go under the rails; the largest change of a force there (N), 0 where nothing does.
  [[nodiscard]] double meet_links() { return bends() && chain_->links() > 0 ? stepper_->meet_links() : 0.0; }
  void finish();

  [[nodiscard]] bool bends() const { return chain_ != nullptr; }
  [[nodiscard]] double energy() const;        // J
  [[nodiscard]] double damping_power() const; // W
  // W, that the drive gives rails along which a wheelset pushes its own trough: their material goes down under a wheel
  // that stays at its height.
  [[nodiscard]] double trough_power(std::size_t wheelset) const { return trough_power_[wheelset]; }

private:
  [[nodiscard]] std::size_t forces() const { return across_ ? 4 : 2; } // on the chain, of a wheelset
  [[nodiscard]] int first(std::size_t wheelset) const { return static_cast<int>(wheelset * forces()); }
  // Which of OfRails the k-th of these is, and its sign: forces on the chain over those on the wheel.
  [[nodiscard]] Eigen::Index row(std::size_t k) const { return across_ ? order_[k] : 2 * static_cast<int>(k) + 1; }
  [[nodiscard]] static double sign(Eigen::Index row) { return row % 2 == 0 ? -1.0 : 1.0; }
  [[nodiscard]] track::chain::RailPoint point(Eigen::Index row, double x) const;
  template <class Of> [[nodiscard]] double of_masses(const Of& of) const; // sum over those that stand for a rail
  void fill_give(std::size_t wheelset);

  static constexpr std::array<Eigen::Index, 4> order_{0, 1, 2, 3};
  std::vector<double> axle_;
  StepLengths steps_;
  std::vector<std::array<RailMass, 4>> mass_; // of every wheelset, in the order of OfRails
  std::vector<RailGive> give_;
  // Rails that bend.
  std::shared_ptr<const track::chain::Chain> chain_;
  bool across_ = false;       // laterally too
  std::array<int, 2> rail_{}; // of the chain, under wheel 0 and under wheel 1
  std::array<std::shared_ptr<const track::chain::StepFactor>, 2> factor_;
  std::optional<track::chain::Stepper> stepper_;
  std::optional<track::chain::Motion> motion_;
  std::vector<track::chain::WheelForce> from_, to_;
  std::vector<OfRails> place_, speed_; // at the start of the step, of rails that bend
  std::vector<OfRails> held_, now_of_; // N, on the wheels at the start and at the end
  std::vector<double> trough_power_;
  double h_ = 0.0;
  bool started_ = false;
};

} // namespace wingnose::passage::space
