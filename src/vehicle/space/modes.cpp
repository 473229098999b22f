#include "wingnose/vehicle/space/modes.hpp"

#include "wingnose/words/error.hpp"

#include <boost/math/constants/constants.hpp>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>

namespace wingnose::vehicle::space {
namespace {

constexpr double two_pi = boost::math::constants::two_pi<double>();

LinearSystem selected(const SpatialModel& model, const std::vector<int>& at, double speed, const Terms& terms) {
  Eigen::MatrixXd shapes = Eigen::MatrixXd::Zero(model.size(), static_cast<Eigen::Index>(at.size()));
  std::vector<std::string> names;
  for (std::size_t i = 0; i < at.size(); ++i) {
    shapes(at[i], static_cast<Eigen::Index>(i)) = 1.0;
    names.push_back(model.coordinate[static_cast<std::size_t>(at[i])]);
  }
  return reduced(model, shapes, names, speed, terms);
}

// Metres against radians, and the places inside dampers, by their share in energy.
Eigen::VectorXd scales(const LinearSystem& system) {
  const Eigen::Index n = system.size(), inside = static_cast<Eigen::Index>(system.series.size());
  Eigen::VectorXd out(2 * n + inside);
  out.head(n) = out.segment(n, n) = system.M.diagonal().cwiseSqrt().cwiseInverse();
  for (Eigen::Index i = 0; i < inside; ++i) {
    out(2 * n + i) = 1.0 / std::sqrt(system.series[static_cast<std::size_t>(i)].stiffness);
  }
  return out;
}

std::string dominant(const LinearSystem& system, const Eigen::VectorXcd& shape) {
  const Eigen::VectorXd energy = system.M.diagonal().cwiseProduct(shape.cwiseAbs2());
  std::string out;
  for (Eigen::Index i = 0; i < energy.size(); ++i) {
    if (energy(i) >= 0.5 * energy.maxCoeff()) {
      out += (out.empty() ? "" : " + ") + system.coordinate[static_cast<std::size_t>(i)];
    }
  }
  return out;
}

[[noreturn]] void not_converged() {
  throw ComputeError("The vehicle's modes did not converge; check masses, stiffnesses and dampings for values far out "
                     "of proportion.");
}

Eigen::EigenSolver<Eigen::MatrixXd> solved(const LinearSystem& system, const Eigen::VectorXd& scale, bool shapes) {
  const Eigen::MatrixXd A = scale.cwiseInverse().asDiagonal() * state_matrix(system) * scale.asDiagonal();
  Eigen::EigenSolver<Eigen::MatrixXd> eigen(A, shapes);
  if (eigen.info() != Eigen::Success) {
    not_converged();
  }
  return eigen;
}

} // namespace

LinearSystem reduced(const SpatialModel& model, const Eigen::MatrixXd& shapes, std::vector<std::string> names,
                     double speed, const Terms& terms) {
  Eigen::MatrixXd C = model.C, K = model.K;
  if (terms.geometric) {
    K += model.geometric;
  }
  if (terms.gyroscopic) {
    C += speed * model.gyroscopic;
  }
  LinearSystem out{shapes.transpose() * model.M * shapes,
                   shapes.transpose() * C * shapes,
                   shapes.transpose() * K * shapes,
                   {},
                   std::move(names)};
  for (const SeriesDamper& damper : model.series) {
    const Eigen::VectorXd stretch = shapes.transpose() * damper.stretch;
    if (terms.series) {
      out.series.push_back({stretch, damper.stiffness, damper.damping});
    } else {
      out.C += damper.damping * stretch * stretch.transpose();
    }
  }
  return out;
}

LinearSystem wheelsets_held(const SpatialModel& model, const Terms& terms) {
  std::vector<int> at;
  std::copy_if(model.free.begin(), model.free.end(), std::back_inserter(at),
               [&](int i) { return i >= index(model.wheelsets(), Motion::x); });
  return selected(model, at, 0.0, terms);
}

LinearSystem lifted(const SpatialModel& model, double speed, const Terms& terms) {
  return selected(model, model.free, speed, terms);
}

Eigen::MatrixXd state_matrix(const LinearSystem& system) {
  const Eigen::Index n = system.size(), inside = static_cast<Eigen::Index>(system.series.size());
  Eigen::MatrixXd force = Eigen::MatrixXd::Zero(n, 2 * n + inside); // on the masses, of the state
  force.leftCols(n) = -system.K;
  force.middleCols(n, n) = -system.C;
  Eigen::MatrixXd A = Eigen::MatrixXd::Zero(2 * n + inside, 2 * n + inside);
  A.block(0, n, n, n).setIdentity();
  for (Eigen::Index i = 0; i < inside; ++i) {
    const SeriesDamper& damper = system.series[static_cast<std::size_t>(i)];
    // Force k (stretch . u - w) of the spring is that of the damper, c w'.
    force.leftCols(n) -= damper.stiffness * damper.stretch * damper.stretch.transpose();
    force.col(2 * n + i) += damper.stiffness * damper.stretch;
    const double rate = damper.stiffness / damper.damping;
    A.row(2 * n + i).head(n) = rate * damper.stretch.transpose();
    A(2 * n + i, 2 * n + i) = -rate;
  }
  A.middleRows(n, n) = system.M.ldlt().solve(force);
  return A;
}

std::vector<double> undamped_frequencies(const LinearSystem& system) {
  if (system.size() == 0) {
    return {};
  }
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> eigen(system.K, system.M, Eigen::EigenvaluesOnly);
  if (eigen.info() != Eigen::Success) {
    not_converged();
  }
  const double noise = 1e-12 * eigen.eigenvalues().cwiseAbs().maxCoeff(); // rounding of a rigid motion's zero
  std::vector<double> out;
  for (const double value : eigen.eigenvalues()) {
    out.push_back(value > noise ? std::sqrt(value) / two_pi : 0.0);
  }
  return out;
}

double growth_rate(const LinearSystem& system) {
  return system.size() == 0 ? 0.0 : solved(system, scales(system), false).eigenvalues().real().maxCoeff();
}

std::vector<SpaceMode> modes(const LinearSystem& system) {
  if (system.size() == 0) {
    return {};
  }
  const Eigen::VectorXd scale = scales(system);
  const auto eigen = solved(system, scale, true);
  std::vector<SpaceMode> out;
  for (Eigen::Index i = 0; i < eigen.eigenvalues().size(); ++i) {
    const std::complex<double> lambda = eigen.eigenvalues()(i);
    if (lambda.imag() < 0.0) {
      continue;
    }
    const Eigen::VectorXcd shape = scale.head(system.size())
                                       .cast<std::complex<double>>()
                                       .cwiseProduct(eigen.eigenvectors().col(i).head(system.size()));
    const double size = std::abs(lambda);
    out.push_back({lambda, size / two_pi, size > 0.0 ? -lambda.real() / size : 0.0, dominant(system, shape)});
  }
  std::sort(out.begin(), out.end(), [](const SpaceMode& a, const SpaceMode& b) { return a.frequency < b.frequency; });
  return out;
}

} // namespace wingnose::vehicle::space
