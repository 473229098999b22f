#include "wingnose/numeric/smoothing_spline.hpp"

#include "wingnose/numeric/roots.hpp"
#include "wingnose/words/error.hpp"

#include <Eigen/SparseCholesky>

#include <algorithm>
#include <cmath>
#include <string>

namespace wingnose::numeric {
namespace {

using Eigen::Index;
using Eigen::VectorXd;
using Matrix = Eigen::SparseMatrix<double>;

using Numbers = std::span<const double>;

void check(Numbers x, Numbers y, Numbers sigma, Numbers freedom) {
  const std::size_t n = x.size();
  if (y.size() != n || sigma.size() != n || (!freedom.empty() && freedom.size() != n)) {
    throw InputError("points to be smoothed",
                     std::to_string(n) + ", " + std::to_string(y.size()) + " and " + std::to_string(sigma.size()) +
                         " values of x, y and noise",
                     "equal numbers", "Give one y and one noise level for every x.");
  }
  if (n < 4) {
    throw InputError("points to be smoothed", std::to_string(n) + " points", "at least 4", "Measure more points.");
  }
  for (std::size_t i = 0; i < n; ++i) {
    if (!std::isfinite(x[i]) || !std::isfinite(y[i]) || !std::isfinite(sigma[i]) || !(sigma[i] > 0.0)) {
      throw InputError("point " + std::to_string(i + 1) + " to be smoothed",
                       "x = " + number(x[i]) + ", y = " + number(y[i]) + ", noise = " + number(sigma[i]),
                       "finite numbers with noise above 0", "Correct or remove the point.");
    }
    if (!freedom.empty() && (!std::isfinite(freedom[i]) || !(freedom[i] > 0.0))) {
      throw InputError("point " + std::to_string(i + 1) + " to be smoothed", "freedom to bend " + number(freedom[i]),
                       "finite numbers above 0", "Give 1 for even smoothing, more where the curve may bend sharply.");
    }
    if (i > 0 && !(x[i] > x[i - 1])) {
      throw InputError("point " + std::to_string(i + 1) + " to be smoothed", "x = " + number(x[i]),
                       "above the x before it, " + number(x[i - 1]), "Sort the points and merge equal x.");
    }
  }
}

// The problem of Reinsch 1967 in units of mean spacing and mean noise, so that one range of smoothing suits every
// caller, and with a freedom to bend rho(x), linear between points. The minimum of
//   sum (r_i / sigma_i)^2 + lambda integral g''^2 / rho
// has g'' = rho gamma with gamma linear between points; with hat functions N_i and R_ij = integral N_i N_j rho its
// values at the inner points solve (R + lambda Q' D^2 Q) gamma = Q' y, and the fit is y - lambda D^2 Q gamma. With rho
// = 1 these are Reinsch's equations.
struct Problem {
  VectorXd u, v, d, h, rho; // abscissa, ordinate, noise, spacing; scaled; freedom
  Matrix q, r, a;           // n x (n-2), (n-2) x (n-2), a = Q' D^2 Q
  VectorXd qv;
  Eigen::SimplicialLDLT<Matrix, Eigen::Lower, Eigen::NaturalOrdering<int>> solver; // pentadiagonal: no fill-in

  struct Fit {
    VectorXd gamma, residual; // residual: y - g, scaled
    double sum;               // of (residual / noise)^2
  };

  Problem(Numbers x, Numbers y, Numbers sigma, Numbers freedom, double pitch, double noise) {
    const Index n = static_cast<Index>(x.size());
    u = (Eigen::Map<const VectorXd>(x.data(), n).array() - x[0]) / pitch;
    v = Eigen::Map<const VectorXd>(y.data(), n) / noise;
    d = Eigen::Map<const VectorXd>(sigma.data(), n) / noise;
    h = u.tail(n - 1) - u.head(n - 1);
    rho = freedom.empty() ? VectorXd::Ones(n) : VectorXd(Eigen::Map<const VectorXd>(freedom.data(), n));
    rho /= std::exp(rho.array().log().mean()); // only ratios matter
    std::vector<Eigen::Triplet<double>> tq, tr;
    for (Index j = 0; j < n - 2; ++j) {
      tq.emplace_back(j, j, 1.0 / h[j]);
      tq.emplace_back(j + 1, j, -1.0 / h[j] - 1.0 / h[j + 1]);
      tq.emplace_back(j + 2, j, 1.0 / h[j + 1]);
      tr.emplace_back(j, j, h[j] * (rho[j] + 3.0 * rho[j + 1]) / 12.0);
      tr.emplace_back(j, j, h[j + 1] * (3.0 * rho[j + 1] + rho[j + 2]) / 12.0);
      if (j + 1 < n - 2) {
        tr.emplace_back(j, j + 1, h[j + 1] * (rho[j + 1] + rho[j + 2]) / 12.0);
        tr.emplace_back(j + 1, j, h[j + 1] * (rho[j + 1] + rho[j + 2]) / 12.0);
      }
    }
    q.resize(n, n - 2);
    q.setFromTriplets(tq.begin(), tq.end());
    r.resize(n - 2, n - 2);
    r.setFromTriplets(tr.begin(), tr.end());
    const Matrix dq = d.asDiagonal() * q;
    a = dq.transpose() * dq;
    qv = q.transpose() * v;
    solver.analyzePattern(r + a);
  }

  Fit fit(double lambda) {
    solver.factorize(r + lambda * a);
    if (solver.info() != Eigen::Success) {
      throw ComputeError("the points could not be smoothed: their spacing differs by too many orders of magnitude; "
                         "merge points that nearly coincide.");
    }
    Fit out;
    out.gamma = solver.solve(qv);
    const VectorXd weighted = lambda * d.cwiseProduct(q * out.gamma);
    out.residual = d.cwiseProduct(weighted);
    out.sum = weighted.squaredNorm();
    return out;
  }

  // Limit of unbounded smoothing: the weighted straight line.
  [[nodiscard]] Fit line() const {
    const auto w = d.array().square().inverse();
    const double total = w.sum(), mean = (w * u.array()).sum() / total, level = (w * v.array()).sum() / total;
    const Eigen::ArrayXd du = u.array() - mean;
    const double slope = (w * du * (v.array() - level)).sum() / (w * du.square()).sum();
    const VectorXd residual = (v.array() - level - slope * du).matrix();
    return {VectorXd::Zero(u.size() - 2), residual, residual.cwiseQuotient(d).squaredNorm()};
  }
};

// log10 of the smoothing at which the residuals are as large as the noise; their sum grows steadily with smoothing.
double balance(Problem& problem, double target) {
  const auto excess = [&](double log_lambda) {
    return std::log(std::max(problem.fit(std::pow(10.0, log_lambda)).sum, 1e-300) / target);
  };
  double low = 0.0, high = 0.0;
  while (excess(low) > 0.0 && low > -40.0) {
    low -= 2.0;
  }
  while (excess(high) < 0.0 && high < 18.0) {
    high += 2.0;
  }
  return root_in(excess, low, high, 1e-9, "the smoothing that leaves residuals as large as the stated noise");
}

} // namespace

SmoothingSpline smoothing_spline(Numbers x, Numbers y, Numbers sigma, Numbers freedom) {
  check(x, y, sigma, freedom);
  const std::size_t n = x.size();
  const double pitch = (x[n - 1] - x[0]) / static_cast<double>(n - 1);
  const double noise = Eigen::Map<const VectorXd>(sigma.data(), static_cast<Index>(n)).mean();
  Problem problem(x, y, sigma, freedom, pitch, noise);

  const double target = static_cast<double>(n);
  SmoothingSpline out;
  Problem::Fit fit = problem.line();
  if (fit.sum > target) {
    fit = problem.fit(std::pow(10.0, balance(problem, target)));
  }
  out.residual_rms = std::sqrt(fit.sum / target);
  out.knot.assign(x.begin(), x.end());
  out.piece.reserve(n - 1);
  const VectorXd g = problem.v - fit.residual;
  VectorXd gamma = VectorXd::Zero(static_cast<Index>(n));
  gamma.segment(1, static_cast<Index>(n) - 2) = fit.gamma;
  for (Index k = 0; k + 1 < static_cast<Index>(n); ++k) { // g'' = rho gamma, integrated twice between its end values
    const double h = problem.h[k], g0 = gamma[k], dg = gamma[k + 1] - g0;
    const double r0 = problem.rho[k], dr = problem.rho[k + 1] - r0;
    const double c2 = 0.5 * g0 * r0, c3 = (g0 * dr + r0 * dg) / (6.0 * h), c4 = dg * dr / (12.0 * h * h);
    const double c1 = (g[k + 1] - g[k]) / h - h * (c2 + h * (c3 + h * c4));
    const double p = 1.0 / pitch;
    out.piece.push_back(
        {g[k] * noise, c1 * noise * p, c2 * noise * p * p, c3 * noise * p * p * p, c4 * noise * p * p * p * p});
  }
  return out;
}

SplinePoint evaluate(const SmoothingSpline& spline, double x) {
  const auto above = std::upper_bound(spline.knot.begin(), spline.knot.end(), x);
  const auto last = static_cast<std::ptrdiff_t>(spline.piece.size()) - 1;
  const auto k = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(above - spline.knot.begin() - 1, 0, last));
  const auto& c = spline.piece[k];
  const double t = x - spline.knot[k], s = std::clamp(t, 0.0, spline.knot[k + 1] - spline.knot[k]), beyond = t - s;
  const double slope = c[1] + s * (2.0 * c[2] + s * (3.0 * c[3] + s * 4.0 * c[4]));
  const double value = c[0] + s * (c[1] + s * (c[2] + s * (c[3] + s * c[4])));
  return {value + beyond * slope, slope, beyond == 0.0 ? 2.0 * c[2] + s * (6.0 * c[3] + s * 12.0 * c[4]) : 0.0};
}

} // namespace wingnose::numeric
