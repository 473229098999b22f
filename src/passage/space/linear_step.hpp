// The exact step of a linear system, x' = A x + b: b constant over the step, or growing from nothing in a straight
// line.
#pragma once

#include <Eigen/Core>

namespace wingnose::passage::space {

struct LinearStep {
  Eigen::MatrixXd keep;     // e^(A h)
  Eigen::MatrixXd constant; // s: what a constant b gives
  Eigen::MatrixXd growing;  // s: what b gives that is 0 at the start and whole at the end
};
[[nodiscard]] LinearStep linear_step(const Eigen::MatrixXd& A, double h);

} // namespace wingnose::passage::space
