// The vehicle between its wheels' contacts: a linear system stepped exactly, with what the route adds to it.
#pragma once

#include "linear_step.hpp"

#include "wingnose/layout/turnout/route.hpp"
#include "wingnose/vehicle/space/model.hpp"

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <vector>

namespace wingnose::passage::space {

// Coordinates of a wheelset that contacts act on, in this order.
inline constexpr int wheelset_motions = 5; // y, z, roll, pitch, yaw
using OfWheelset = Eigen::Matrix<double, wheelset_motions, 1>;
using Compliance = Eigen::Matrix<double, wheelset_motions, wheelset_motions>;

class VehicleMotion {
public:
  VehicleMotion(const vehicle::space::SpatialModel& model, const vehicle::space::Terms& terms,
                const layout::turnout::Route& route, double speed, const std::array<double, 2>& steps);
  void use(std::size_t step) { now_ = step; } // which of the two lengths the next step has

  // Displacements and velocities of one wheelset, 0 where held.
  [[nodiscard]] OfWheelset displacement(std::size_t wheelset) const { return gathered(wheelset, 0); }
  [[nodiscard]] OfWheelset velocity(std::size_t wheelset) const { return gathered(wheelset, free_); }
  // What a force that grows over the step has moved at its end, m/N and m/s/N.
  [[nodiscard]] const Compliance& moved(std::size_t wheelset) const { return steps_[now_].moved[wheelset]; }
  [[nodiscard]] const Compliance& sped(std::size_t wheelset) const { return steps_[now_].sped[wheelset]; }

  // All of the vehicle at rest over wheelsets that stand so; series dampers at rest.
  void settle(const std::vector<OfWheelset>& wheelsets);
  // Every part by so much to the side.
  void shift(double by);
  // One step with these forces (beyond those at rest) constant; station: of the leading wheelset in its middle.
  void predict(const std::vector<OfWheelset>& force, double station);
  // The same where the force of a wheelset has grown by so much at the end.
  void correct(std::size_t wheelset, const OfWheelset& growth) {
    x_.noalias() += steps_[now_].of_force[wheelset] * growth;
  }

  [[nodiscard]] double bodies_damping_power() const;     // W, of links, >= 0
  [[nodiscard]] double energy() const;                   // J, kinetic and of springs, about rest; seen from the track
  [[nodiscard]] double held_bodies_pull() const;         // N, ahead, that bodies need which are held along the track
  [[nodiscard]] double pull(std::size_t wheelset) const; // N, of links on a wheelset along the track
  [[nodiscard]] const Eigen::VectorXd& state() const { return x_; }
  [[nodiscard]] double coordinate(int part, vehicle::space::Motion motion) const; // m, rad
  [[nodiscard]] double rate(int part, vehicle::space::Motion motion) const;

private:
  [[nodiscard]] OfWheelset gathered(std::size_t wheelset, Eigen::Index from) const;
  [[nodiscard]] double link_force(int coordinate) const; // N, of small motion, on a coordinate of the model
  void route_terms(double station);
  void add_beyond();

  const vehicle::space::SpatialModel* model_;
  const layout::turnout::Route* route_;
  double speed_;
  Eigen::Index free_;                                          // coordinates that move
  std::vector<int> at_;                                        // of the model's coordinate among these, -1 held
  std::vector<std::array<int, wheelset_motions>> wheelset_at_; // likewise
  struct Step {
    LinearStep exact;
    std::vector<Eigen::Matrix<double, Eigen::Dynamic, wheelset_motions>> of_force; // growing, of each wheelset
    std::vector<Compliance> moved, sped;
  };
  [[nodiscard]] Step step_of(double h) const;
  std::array<Step, 2> steps_;
  std::size_t now_ = 0;
  Eigen::MatrixXd A_; // y' = A y + push
  Eigen::VectorXd x_, old_, push_, offset_;
  Eigen::VectorXd mass_;                             // of the moving coordinates
  Eigen::MatrixXd K_, C_;                            // of the whole model, with what preloads add
  std::vector<vehicle::space::SeriesDamper> series_; // over the moving coordinates
  std::vector<vehicle::space::BeyondSmall> beyond_;  // likewise
  bool curved_;                                      // somewhere
};

} // namespace wingnose::passage::space
