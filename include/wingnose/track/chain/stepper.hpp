// One time step of a chain under forces that move along its rails: Pade's (2,2) approximation of the exponential, order
// 4, A-stable, without numerical damping, by one complex solve. The step length may change at any time, because a
// Motion is physical displacement and velocity and nothing else.
//
//   D(s) Z = s M v0 - K u0 + f0 + kappa (f1 - f0),  s = r / h,
//   u1 = u0 + Re[w (u0 + Z)],  v1 = v0 + Re[w s Z],  r = 3 + i sqrt 3, kappa = 1/2 - r/12, w = 4 i sqrt 3.
//
// Forces vary linearly within the step. Those at its end, of wheels and of links, are found by whoever steps, with the
// exact column of each:
//
//   stepper.begin(motion, factor, wheels, first guesses);
//   until nothing changes: for each wheel { free deflection, compliance -> force; set_force }; meet_links()
//   stepper.end(motion);
//
// No allocation from begin to end. SI.
#pragma once

#include "wingnose/track/chain/statics.hpp"
#include "wingnose/track/chain/step_matrices.hpp"

#include <span>
#include <utility>
#include <vector>

namespace wingnose::track::chain {

// What a step of h seconds needs. Shared, const.
struct StepFactor {
  double h = 0.0; // s
  Factor factor;
  StepMatrices matrices;
  // Of every bearer with links: shortening (m/N) and its rate (m/s/N) of each within the step per newton against each.
  struct Answer {
    int bearer;
    Eigen::MatrixXd shortening, rate; // [links x links]
  };
  std::vector<Answer> links;
};
// Throws InputError unless h > 0.
[[nodiscard]] StepFactor step_factor(const Chain& chain, double h);

// A force on a rail at an instant, in the plane of its point: a wheel that pushes both ways is two of these.
struct WheelForce {
  RailPoint at;
  double force = 0.0; // N
};

class Stepper {
public:
  // chain has to live as long; wheels: the most there will be.
  Stepper(const Chain& chain, int wheels);

  // From motion, with the forces of its instant, towards `to`, the same wheels at the end of the step, whose forces are
  // first guesses.
  void begin(const Motion& motion, const StepFactor& f, std::span<const WheelForce> from,
             std::span<const WheelForce> to);
  // At the end of the step, with what is set so far: deflection under wheel w without its own force (m), and per
  // newton of it (m/N).
  [[nodiscard]] double free_deflection(int w) const;
  [[nodiscard]] double compliance(int w) const { return own_[w]; }
  void set_force(int w, double force);
  // Of several wheels in one bay, which answer to each other within the step, such as both of a wheelset up and across:
  // what wheel w moves (m/N) and how fast the rail is there (m/s/N) per newton on wheel `by`, at the end of the step.
  struct Answer {
    double moved, sped;
  };
  [[nodiscard]] Answer answer(int w, int by) const;
  // Deflection (m) and velocity of the rail's material (m/s) under wheel w at the end of the step under all forces set
  // so far, its own included.
  [[nodiscard]] double deflection(int w) const;
  [[nodiscard]] double velocity(int w) const;
  // set_force() of wheels `first` and on, which lie in one bay, at the cost of one.
  void set_forces(int first, std::span<const double> forces);
  // Every link to its law at the end of the step, bearer by bearer; returns the largest change of a force (N).
  double meet_links();
  [[nodiscard]] std::span<const WheelForce> forces() const { return to_; } // at the end of the step
  void end(Motion& motion);

private:
  using ModalField = Eigen::Matrix<Complex, most_modes, 1>;
  [[nodiscard]] ModalField modes_by_motion(int bay, int line) const;
  void bearer_by_motion(int bearer);
  void touch(const RailPoint& at);
  void right_hand_side(std::span<const WheelForce> from);
  double meet_links(const StepFactor::Answer& answer);

  const Chain* chain_;
  const StepFactor* factor_ = nullptr;
  const Motion* motion_ = nullptr;
  // Right-hand side, then solution: complete at the seats; inside, in the bays that carry wheels and on the bearers
  // that have links.
  Field field_;
  Eigen::VectorXcd bearer_;                  // what of a bearer with links comes from its motion
  std::vector<std::pair<int, int>> touched_; // bays, with their lines, that carry a wheel at the start or at the end
  std::size_t touches_ = 0;
  std::vector<WheelForce> to_;
  std::vector<Eigen::Vector4cd> onto_; // what a unit force of each brings onto the boundary of its bay
  std::vector<double> own_;            // m/N, compliance of each wheel within the step
  std::vector<double> before_;         // m, deflection at the start of the step where each wheel ends it
  std::vector<double> link_;           // N, at the end of the step
};

} // namespace wingnose::track::chain
