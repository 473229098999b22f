// Natural frequencies and damping ratios of the assembled vehicle.
#include "wingnose/vehicle/vehicle.hpp"

#include "wingnose/words/error.hpp"

#include <boost/math/constants/constants.hpp>

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <complex>

namespace wingnose::vehicle {
namespace {

constexpr double two_pi = boost::math::constants::two_pi<double>();

struct Part { // the coordinates that may move
  Eigen::MatrixXd M, C, K;
  std::vector<std::string> names;
};

Part moving_part(const VehicleModel& model, bool wheels_held) {
  const Eigen::Index first = wheels_held ? model.wheels() : 0;
  const Eigen::Index size = model.M.rows() - first;
  return {model.M.bottomRightCorner(size, size),
          model.C.bottomRightCorner(size, size),
          model.K.bottomRightCorner(size, size),
          {model.coordinate.begin() + first, model.coordinate.end()}};
}

// Coordinates that hold at least half of the largest kinetic energy, so that twin bodies in one mode are both named.
std::string dominant(const Part& part, const Eigen::VectorXcd& shape) {
  const Eigen::VectorXd energy = part.M.diagonal().cwiseProduct(shape.cwiseAbs2());
  std::string out;
  for (Eigen::Index i = 0; i < energy.size(); ++i) {
    if (energy(i) >= 0.5 * energy.maxCoeff()) {
      out += (out.empty() ? "" : " + ") + part.names[static_cast<std::size_t>(i)];
    }
  }
  return out;
}

} // namespace

std::vector<double> undamped_frequencies(const VehicleModel& model, bool wheels_held) {
  const Part part = moving_part(model, wheels_held);
  if (part.M.rows() == 0) {
    return {};
  }
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> eigen(part.K, part.M, Eigen::EigenvaluesOnly);
  if (eigen.info() != Eigen::Success) {
    throw ComputeError("The vehicle's natural frequencies did not converge; check masses and stiffnesses for "
                       "values far out of proportion.");
  }
  const double noise = 1e-12 * eigen.eigenvalues().cwiseAbs().maxCoeff(); // rounding of a rigid motion's zero
  std::vector<double> out;
  for (const double value : eigen.eigenvalues()) {
    out.push_back(value > noise ? std::sqrt(value) / two_pi : 0.0);
  }
  return out;
}

std::vector<Mode> modes(const VehicleModel& model, bool wheels_held) {
  const Part part = moving_part(model, wheels_held);
  const Eigen::Index size = part.M.rows();
  if (size == 0) {
    return {};
  }
  // y' = A y with y = (M^1/2 u, M^1/2 u'): the scaling balances metres against radians.
  const Eigen::VectorXd scale = part.M.diagonal().cwiseSqrt().cwiseInverse();
  Eigen::MatrixXd A = Eigen::MatrixXd::Zero(2 * size, 2 * size);
  A.topRightCorner(size, size).setIdentity();
  A.bottomLeftCorner(size, size) = -(scale.asDiagonal() * part.K * scale.asDiagonal());
  A.bottomRightCorner(size, size) = -(scale.asDiagonal() * part.C * scale.asDiagonal());
  const Eigen::EigenSolver<Eigen::MatrixXd> eigen(A);
  if (eigen.info() != Eigen::Success) {
    throw ComputeError("The vehicle's damped modes did not converge; check masses, stiffnesses and dampings for "
                       "values far out of proportion.");
  }

  // A rigid motion is a defective double zero, which rounding splits by about the square root of the precision.
  const double noise = 1e-6 * eigen.eigenvalues().cwiseAbs().maxCoeff();
  std::vector<Mode> out;
  bool second_of_zero_pair = false;
  for (Eigen::Index i = 0; i < eigen.eigenvalues().size(); ++i) {
    const std::complex<double> lambda = eigen.eigenvalues()(i);
    const Eigen::VectorXcd shape =
        scale.cast<std::complex<double>>().cwiseProduct(eigen.eigenvectors().col(i).head(size));
    if (std::abs(lambda) <= noise) {
      if (!second_of_zero_pair) {
        out.push_back({0.0, 0.0, dominant(part, shape)});
      }
      second_of_zero_pair = !second_of_zero_pair;
    } else if (lambda.imag() >= 0.0) {
      out.push_back({std::abs(lambda) / two_pi, -lambda.real() / std::abs(lambda), dominant(part, shape)});
    }
  }
  std::sort(out.begin(), out.end(), [](const Mode& a, const Mode& b) { return a.frequency < b.frequency; });
  return out;
}

} // namespace wingnose::vehicle
