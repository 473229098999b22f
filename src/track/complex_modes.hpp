// Complex (state-space) modes of a damped system given in its real undamped modes.
#pragma once

#include <Eigen/Core>

namespace wingnose::track::detail {

// Solutions of (lambda^2 + lambda C + Omega^2) q = 0, one of each conjugate pair (Im lambda > 0) and all real ones, by
// rising |lambda|. Columns of q obey q_i^T ((lambda_i + lambda_j) + C) q_j = delta_ij (plain transpose), so that the
// receptance of the system is the sum over all of q q^T / (j omega - lambda). Pairs are folded: their q is scaled by
// sqrt 2, and the receptance becomes half the sum over the kept ones of q q^T / (j omega - lambda) plus its mirror.
struct ComplexModes {
  Eigen::VectorXcd lambda; // rad/s
  Eigen::MatrixXcd q;      // [real modes x complex modes]
};
// omega: undamped frequencies (rad/s); damping: modal damping matrix, symmetric, full (1/s). Throws ComputeError.
[[nodiscard]] ComplexModes complex_modes(const Eigen::VectorXd& omega, const Eigen::MatrixXd& damping);

} // namespace wingnose::track::detail
