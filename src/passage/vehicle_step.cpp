#include "wingnose/passage/vehicle_step.hpp"

#include <unsupported/Eigen/MatrixFunctions>

#include <utility>

namespace wingnose::passage {

VehicleStep vehicle_step(const vehicle::VehicleModel& v, double step) {
  const Eigen::Index m = v.M.rows();
  const Eigen::Index wheels = v.wheels();
  VehicleStep s;
  const Eigen::MatrixXd inverse_mass = v.M.inverse();
  s.rate = Eigen::MatrixXd::Zero(2 * m, 2 * m);
  s.rate.topRightCorner(m, m).setIdentity();
  s.rate.bottomLeftCorner(m, m) = -inverse_mass * v.K;
  s.rate.bottomRightCorner(m, m) = -inverse_mass * v.C;
  s.rate_input = Eigen::MatrixXd::Zero(2 * m, wheels);
  s.rate_input.bottomRows(m) = inverse_mass.leftCols(wheels);

  // Van Loan (1978, doi:10.1109/TAC.1978.1101743): the exponential of the augmented matrix holds the transition and
  // both weights of the first-order hold.
  const Eigen::Index n = 2 * m;
  Eigen::MatrixXd augmented = Eigen::MatrixXd::Zero(n + 2 * wheels, n + 2 * wheels);
  augmented.topLeftCorner(n, n) = s.rate * step;
  augmented.block(0, n, n, wheels) = s.rate_input * step;
  augmented.block(n, n + wheels, wheels, wheels).setIdentity();
  const Eigen::MatrixXd e = augmented.exp();
  s.transition = e.topLeftCorner(n, n);
  s.input_end = e.topRightCorner(n, wheels);
  s.input_begin = e.block(0, n, n, wheels) - s.input_end;
  return s;
}

std::shared_ptr<const RunningVehicle> running(vehicle::VehicleModel vehicle, double step, int stride) {
  RunningVehicle made;
  made.step = vehicle_step(vehicle, step);
  if (stride > 1) {
    made.long_step = vehicle_step(vehicle, stride * step);
  }
  made.model = std::move(vehicle);
  return std::make_shared<const RunningVehicle>(std::move(made));
}

} // namespace wingnose::passage
