#include "wingnose/track/modal.hpp"

#include "check.hpp"
#include "complex_modes.hpp"
#include "element.hpp"
#include "reduced_basis.hpp"
#include "residual.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace wingnose::track {
namespace {

void store_element_shapes(ModalTrack& m, const detail::NodalShapes& nodal) {
  const auto padded = static_cast<std::size_t>(m.padded);
  m.theta_re.assign(static_cast<std::size_t>(m.elements()) * 4 * padded, 0.0);
  m.theta_im = m.theta_re;
  for (int e = 0; e < m.elements(); ++e) {
    const auto i = static_cast<std::size_t>(e);
    const Eigen::Matrix4d cubic =
        detail::deflection_coefficients(m.assembly.element[i], m.assembly.node[i + 1] - m.assembly.node[i]);
    const Eigen::MatrixXd re = cubic * nodal.re.middleRows<4>(2 * e);
    const Eigen::MatrixXd im = cubic * nodal.im.middleRows<4>(2 * e);
    for (int c = 0; c < 4; ++c) {
      const std::size_t row = (i * 4 + static_cast<std::size_t>(c)) * padded;
      for (int k = 0; k < m.modes; ++k) {
        m.theta_re[row + static_cast<std::size_t>(k)] = re(c, k);
        m.theta_im[row + static_cast<std::size_t>(k)] = im(c, k);
      }
    }
  }
}

void store_bearer_shapes(ModalTrack& m, const detail::NodalShapes& nodal) {
  const auto padded = static_cast<std::size_t>(m.padded);
  m.bearer_re.assign(m.assembly.seat.size() * padded, 0.0);
  m.bearer_im = m.bearer_re;
  for (std::size_t j = 0; j < m.assembly.seat.size(); ++j) {
    for (int k = 0; k < m.modes; ++k) {
      m.bearer_re[j * padded + static_cast<std::size_t>(k)] = nodal.re(m.assembly.bearer_dof[j], k);
      m.bearer_im[j * padded + static_cast<std::size_t>(k)] = nodal.im(m.assembly.bearer_dof[j], k);
    }
  }
}

void store_eigenvalues(ModalTrack& m, const Eigen::VectorXcd& lambda) {
  m.modes = static_cast<int>(lambda.size());
  m.padded = (m.modes + 7) / 8 * 8;
  m.lambda_re.assign(static_cast<std::size_t>(m.padded), -1.0);
  m.lambda_im.assign(static_cast<std::size_t>(m.padded), 0.0);
  for (int k = 0; k < m.modes; ++k) {
    m.lambda_re[static_cast<std::size_t>(k)] = lambda[k].real();
    m.lambda_im[static_cast<std::size_t>(k)] = lambda[k].imag();
  }
}

// Three moments of the impulse response at every rail node that complex and real modes must share: initial deflection
// (zero), initial velocity (inverse mass) and static compliance. Each relative to its own sum of positive terms.
double disagreement(const detail::RealModes& real, const Eigen::VectorXcd& lambda, const detail::NodalShapes& nodal,
                    int nodes) {
  double worst = 0.0;
  const Eigen::ArrayXd omega = real.omega.array();
  for (int i = 0; i < nodes; ++i) {
    const Eigen::ArrayXd square = real.shape.row(2 * i).transpose().array().square();
    Eigen::ArrayXcd theta(lambda.size());
    theta.real() = nodal.re.row(2 * i).transpose().array();
    theta.imag() = nodal.im.row(2 * i).transpose().array();
    const Eigen::ArrayXcd theta2 = theta.square();
    const double compliance = (square / omega.square()).sum();
    const double velocity = square.sum();
    worst = std::max({worst, std::abs(-(theta2 / lambda.array()).sum().real() - compliance) / compliance,
                      std::abs(theta2.sum().real()) / (square / omega).sum(),
                      std::abs((theta2 * lambda.array()).sum().real() - velocity) / velocity});
  }
  return worst;
}

struct Kept {
  Eigen::VectorXcd lambda;
  detail::NodalShapes nodal;
};
// Damped modes that oscillate no faster than the cut-off (Hz). The fast ones have served to make these right. Decay
// does not count: of an overdamped pair both members stay, because one alone has no meaning.
Kept below(double cut_off, const Kept& all) {
  const double highest = 2.0 * std::numbers::pi * cut_off;
  std::vector<Eigen::Index> chosen;
  for (Eigen::Index k = 0; k < all.lambda.size(); ++k) {
    if (std::abs(all.lambda[k].imag()) <= highest) {
      chosen.push_back(k);
    }
  }
  return {all.lambda(chosen), {all.nodal.re(Eigen::all, chosen), all.nodal.im(Eigen::all, chosen)}};
}

} // namespace

int ModalTrack::element_at(double x) const {
  detail::check_station(x, begin(), end());
  const auto after = std::upper_bound(assembly.node.begin() + 1, assembly.node.end() - 1, x);
  return static_cast<int>(after - assembly.node.begin()) - 1;
}

OnElement ModalTrack::place(double x) const {
  const int e = element_at(x);
  return {e, (x - assembly.node[e]) / (assembly.node[e + 1] - assembly.node[e])};
}

std::vector<std::complex<double>> ModalTrack::shapes(double x) const {
  const OnElement at = place(x);
  std::vector<std::complex<double>> theta(static_cast<std::size_t>(padded));
  for (int k = 0; k < padded; ++k) {
    theta[static_cast<std::size_t>(k)] = shape(at, k);
  }
  return theta;
}

double ModalTrack::residual_at(double x) const {
  const OnElement at = place(x);
  const auto points = static_cast<std::size_t>(residual_points);
  return detail::interpolate_residual(
      std::span(residual).subspan(static_cast<std::size_t>(at.element) * points, points), at.s);
}

std::shared_ptr<const ModalTrack> modal_track(const Track& track) {
  auto m = std::make_shared<ModalTrack>();
  m->assembly = assemble(track);
  const Assembly& a = m->assembly;
  const Eigen::MatrixXd compliance = detail::static_compliance(a); // first: refuses a track that hangs free
  const detail::RealModes basis = detail::reduced_basis(a, track.cut_off);
  const detail::ComplexModes damped = detail::complex_modes(basis.omega, basis.shape.transpose() * (a.C * basis.shape));
  detail::NodalShapes nodal{basis.shape * damped.q.real(), basis.shape * damped.q.imag()};
  m->bilinearity_error = disagreement(basis, damped.lambda, nodal, static_cast<int>(a.node.size()));
  if (!(m->bilinearity_error <= 1e-6)) {
    throw ComputeError("track modes: damped and undamped modes disagree by " + number(m->bilinearity_error) +
                       " (1e-6 allowed), because damped modes nearly coincide; change a pad or ballast damping "
                       "slightly.");
  }

  const Kept all{damped.lambda, std::move(nodal)};
  Kept kept = below(track.cut_off, all);
  m->residual_points = detail::residual_points;
  m->residual = detail::residual(a, compliance, kept.lambda, kept.nodal);
  // Stepping through time needs a rail that gives way, not one that pushes back, where the modes leave off. With all
  // modes of the basis kept that is certain; with some dropped, pads damped near critically can spoil it.
  if (kept.lambda.size() == 0 || *std::min_element(m->residual.begin(), m->residual.end()) < 0.0) {
    kept = all;
    m->residual = detail::residual(a, compliance, kept.lambda, kept.nodal);
    for (double& r : m->residual) {
      r = std::max(r, 0.0); // rounding only
    }
  }
  store_eigenvalues(*m, kept.lambda);
  store_element_shapes(*m, kept.nodal);
  store_bearer_shapes(*m, kept.nodal);
  m->highest_frequency = kept.lambda.cwiseAbs().maxCoeff() / (2.0 * std::numbers::pi);
  return m;
}

std::complex<double> modal_receptance(const ModalTrack& m, double x, double frequency) {
  using Complex = std::complex<double>;
  const OnElement at = m.place(x);
  const Complex j_omega(0.0, 2.0 * std::numbers::pi * frequency);
  Complex sum = 0.0;
  for (int k = 0; k < m.modes; ++k) {
    const auto i = static_cast<std::size_t>(k);
    const Complex lambda(m.lambda_re[i], m.lambda_im[i]), theta = m.shape(at, k), square = theta * theta;
    sum += 0.5 * (square / (j_omega - lambda) + std::conj(square) / (j_omega - std::conj(lambda)));
  }
  return sum + m.residual_at(x);
}

} // namespace wingnose::track
