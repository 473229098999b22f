// The vehicle's own motion over one time step, exact. SI.
#pragma once

#include "wingnose/vehicle/vehicle.hpp"

#include <Eigen/Core>

#include <memory>

namespace wingnose::passage {

// Under wheel forces that vary linearly in the step: s_n+1 = A s_n + B0 f_n + B1 f_n+1, with s = (displacements,
// velocities) from static equilibrium, up, and f the wheel forces minus their static values.
struct VehicleStep {
  Eigen::MatrixXd transition, input_begin, input_end; // [2m x 2m], [2m x wheels], [2m x wheels]
  Eigen::MatrixXd rate, rate_input;                   // ds/dt = rate s + rate_input f
};
[[nodiscard]] VehicleStep vehicle_step(const vehicle::VehicleModel& vehicle, double step);

struct RunningVehicle {
  vehicle::VehicleModel model;
  VehicleStep step, long_step; // the second is empty where no step is long
  [[nodiscard]] const VehicleStep& over(bool is_long) const { return is_long ? long_step : step; }
};
// stride: as Plan::stride.
[[nodiscard]] std::shared_ptr<const RunningVehicle> running(vehicle::VehicleModel vehicle, double step, int stride = 1);

} // namespace wingnose::passage
