#include "linear_step.hpp"

#include <cmath>

namespace wingnose::passage::space {

// phi_1(z) = (e^z - 1) / z, phi_2(z) = (phi_1(z) - 1) / z by their series for a small part of the step, doubled from
// there: phi_1(2z) = (e^z + 1) phi_1(z) / 2, phi_2(2z) = (phi_1(z)^2 + 2 phi_2(z)) / 4 (Hochbruck, Ostermann 2010, Acta
// Numerica 19, doi:10.1017/S0962492910000048).
LinearStep linear_step(const Eigen::MatrixXd& A, double h) {
  constexpr double small = 0.25;
  constexpr int terms = 14;
  const Eigen::Index n = A.rows();
  const double norm = (A * h).cwiseAbs().rowwise().sum().maxCoeff();
  const int doublings = norm > small ? static_cast<int>(std::ceil(std::log2(norm / small))) : 0;
  const Eigen::MatrixXd z = A * (h * std::pow(0.5, doublings)), one = Eigen::MatrixXd::Identity(n, n);
  Eigen::MatrixXd power = one, phi1 = one, phi2 = 0.5 * one; // power: z^k / (k + 1)!
  for (int k = 1; k <= terms; ++k) {
    power = power * z / (k + 1.0);
    phi1 += power;
    phi2 += power / (k + 2.0);
  }
  Eigen::MatrixXd full = one + z * phi1;
  for (int k = 0; k < doublings; ++k) {
    phi2 = 0.25 * (phi1 * phi1 + 2.0 * phi2).eval();
    phi1 = 0.5 * (full * phi1 + phi1).eval();
    full = (full * full).eval();
  }
  return {full, h * phi1, h * phi2};
}

} // namespace wingnose::passage::space
