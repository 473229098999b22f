// Static and frequency-domain answers straight from the finite-element matrices.
#include "wingnose/track/assembly.hpp"
#include "wingnose/words/error.hpp"

#include "check.hpp"
#include "element.hpp"
#include "matrices.hpp"

#include <Eigen/SparseCholesky>
#include <Eigen/SparseLU>

#include <cmath>
#include <numbers>
#include <string>

namespace wingnose::track {
namespace {

template <typename Scalar>
Eigen::Matrix<Scalar, Eigen::Dynamic, 1> nodal_load(const Assembly& a, const Interpolation& at) {
  Eigen::Matrix<Scalar, Eigen::Dynamic, 1> f = Eigen::Matrix<Scalar, Eigen::Dynamic, 1>::Zero(a.dofs());
  for (int i = 0; i < 4; ++i) {
    f[2 * at.element + i] = at.h[static_cast<std::size_t>(i)];
  }
  return f;
}

template <typename Vector> auto deflection_at(const Vector& u, const Interpolation& at) {
  typename Vector::Scalar w = 0.0;
  for (int i = 0; i < 4; ++i) {
    w += u[2 * at.element + i] * at.h[static_cast<std::size_t>(i)];
  }
  return w;
}

// Deflection at s under a unit force at r, both in the same element with its ends held (m/N): the part of the exact
// answer the nodal values do not carry. Same splitting as held_compliance, followed by interpolation.
double held_influence(const RailProperties& rail, double L, double r, double s) {
  if (r <= 1e-9 || r >= 1.0 - 1e-9) {
    return 0.0;
  }
  const double w = detail::held_compliance(rail, L, r);
  const Eigen::Matrix2d middle = detail::element_stiffness(rail, r * L).bottomRightCorner<2, 2>() +
                                 detail::element_stiffness(rail, L - r * L).topLeftCorner<2, 2>();
  const double theta = -middle(1, 0) * w / middle(1, 1);
  if (s <= r) {
    const Eigen::Vector4d h = detail::deflection_shape(rail, r * L, s / r);
    return h[2] * w + h[3] * theta;
  }
  const Eigen::Vector4d h = detail::deflection_shape(rail, L - r * L, (s - r) / (1.0 - r));
  return h[0] * w + h[1] * theta;
}

} // namespace

std::vector<double> static_deflection(const Assembly& a, double load, double x_load, std::span<const double> at) {
  if (!std::isfinite(load)) {
    throw InputError("track static load", number(load) + " N", "any finite force", "Correct the value.");
  }
  const Interpolation loaded = interpolate(a, x_load);
  const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> solver(a.K);
  if (solver.info() != Eigen::Success || solver.vectorD().minCoeff() <= 1e-14 * solver.vectorD().maxCoeff()) {
    detail::refuse_loose_track();
  }
  const Eigen::VectorXd u = solver.solve(nodal_load<double>(a, loaded));
  const auto e = static_cast<std::size_t>(loaded.element);
  const double L = a.node[e + 1] - a.node[e];
  std::vector<double> w;
  w.reserve(at.size());
  for (const double x : at) {
    const Interpolation here = interpolate(a, x);
    double value = deflection_at(u, here);
    if (here.element == loaded.element) {
      value += held_influence(a.element[e], L, (x_load - a.node[e]) / L, (x - a.node[e]) / L);
    }
    w.push_back(load * value);
  }
  return w;
}

std::vector<std::complex<double>> receptance(const Assembly& a, double x, std::span<const double> frequency) {
  using Complex = std::complex<double>;
  using Sparse = Eigen::SparseMatrix<Complex>;
  const Interpolation at = interpolate(a, x);
  const Eigen::VectorXcd f = nodal_load<Complex>(a, at);
  const Sparse K = a.K.cast<Complex>() + Complex(0.0, 1.0) * detail::hysteretic_stiffness(a).cast<Complex>();
  const Sparse C = a.C.cast<Complex>();
  const Sparse M = a.M.cast<Complex>();
  const Complex bubble = bubble_compliance(a, x) / Complex(1.0, a.input.rail_loss);
  Eigen::SparseLU<Sparse> solver;
  std::vector<Complex> result;
  result.reserve(frequency.size());
  for (const double hertz : frequency) {
    if (!(std::isfinite(hertz) && hertz >= 0.0)) {
      throw InputError("track receptance frequency", number(hertz) + " Hz", "0 or above and finite",
                       "Correct the value.");
    }
    const double omega = 2.0 * std::numbers::pi * hertz;
    Sparse D = K + Complex(0.0, omega) * C - Complex(omega * omega, 0.0) * M;
    D.makeCompressed();
    if (result.empty()) {
      solver.analyzePattern(D);
    }
    solver.factorize(D);
    if (solver.info() != Eigen::Success) {
      throw ComputeError("track receptance at " + number(hertz) +
                         " Hz: the dynamic stiffness is singular; add damping or move the frequency.");
    }
    result.push_back(deflection_at(Eigen::VectorXcd(solver.solve(f)), at) + bubble);
  }
  return result;
}

} // namespace wingnose::track
