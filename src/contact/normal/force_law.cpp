#include "wingnose/contact/normal/force_law.hpp"

#include "wingnose/words/error.hpp"

#include <Eigen/Core>
#include <Eigen/QR>

#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>

#include <array>
#include <cstdint>
#include <initializer_list>
#include <string>

namespace wingnose::contact {
namespace {

constexpr double lightest = 0.1; // least weight of a sample: it still says how the law begins

// d2F/dd2 = (1 / sqrt(d)) p(sqrt(d)) with the parabola p(r) = 0.75 c0 + 2 c1 r + 3.75 c2 r^2, which must not be
// negative for 0 <= r <= R. In Bernstein's form p = b0 (1-t)^2 + 2 b1 t (1-t) + b2 t^2, t = r / R, that is exactly
// b0 >= 0, b2 >= 0, b1 >= -sqrt(b0 b2).
ForceLaw law_of(const Eigen::Vector3d& b, double R) {
  return {b[0] / 0.75, (b[1] - b[0]) / R, (b[0] - 2.0 * b[1] + b[2]) / (3.75 * R * R)};
}

bool convex(const Eigen::Vector3d& b) { return b[0] >= 0.0 && b[2] >= 0.0 && b[1] >= -std::sqrt(b[0] * b[2]); }

// Least squares A b = y within the convex ones: the free solution, or the best on the border of the cone.
class Cone {
public:
  Cone(const Eigen::MatrixX3d& A, const Eigen::VectorXd& y) : A_(A), y_(y) {}

  Eigen::Vector3d best() {
    Eigen::Vector3d unbound = A_.colPivHouseholderQr().solve(y_);
    if (convex(unbound)) {
      return unbound;
    }
    for (const std::array<int, 2> face : {std::array{0, 1}, std::array{1, 2}}) { // b2 = 0, b0 = 0
      on_face(face);
    }
    // b = s (1, -q, q^2): the parabola touches 0 inside. One number is sought, s follows.
    const auto rest = [&](double log_q) {
      const double q = std::exp(log_q);
      return along(Eigen::Vector3d(1.0, -q, q * q));
    };
    constexpr int bits = 20;
    // The error over q may have two dips: a coarse look first.
    double coarse = -4.0, least = std::numeric_limits<double>::infinity();
    for (double log_q = -5.0; log_q <= 5.0; log_q += 0.25) {
      const double e = rest(log_q);
      if (e < least) {
        least = e;
        coarse = log_q;
      }
    }
    (void)boost::math::tools::brent_find_minima(rest, coarse - 0.25, coarse + 0.25, bits);
    return best_;
  }

private:
  void on_face(const std::array<int, 2>& face) {
    const Eigen::MatrixX2d part = (Eigen::MatrixX2d(A_.rows(), 2) << A_.col(face[0]), A_.col(face[1])).finished();
    const Eigen::Vector2d s = part.colPivHouseholderQr().solve(y_);
    if ((s.array() >= 0.0).all()) {
      Eigen::Vector3d b = Eigen::Vector3d::Zero();
      b[face[0]] = s[0];
      b[face[1]] = s[1];
      (void)consider(b);
      return;
    }
    for (const int k : face) {
      (void)along(Eigen::Vector3d::Unit(k));
    }
  }
  double along(const Eigen::Vector3d& direction) {
    const Eigen::VectorXd column = A_ * direction;
    return consider(std::max(0.0, column.dot(y_) / column.squaredNorm()) * direction);
  }
  double consider(const Eigen::Vector3d& b) {
    const double error = (A_ * b - y_).squaredNorm();
    if (error < error_) {
      error_ = error;
      best_ = b;
    }
    return error;
  }

  const Eigen::MatrixX3d& A_;
  const Eigen::VectorXd& y_;
  double error_ = std::numeric_limits<double>::infinity();
  Eigen::Vector3d best_ = Eigen::Vector3d::Zero();
};

} // namespace

ForceLaw fit_force_law(std::span<const double> depth, std::span<const double> force, double reach, double light) {
  if (depth.size() != force.size() || depth.size() < 3) {
    throw InputError("samples of a contact law",
                     std::to_string(depth.size()) + " depths, " + std::to_string(force.size()) + " forces",
                     "as many of both, three or more", "Sample the law over the depths a wheel may reach.");
  }
  const double R = std::sqrt(reach);
  const double most = *std::max_element(force.begin(), force.end());
  if (!(most > 0.0)) {
    throw InputError("forces of a contact law", number(most) + " N", "some above 0",
                     "A body that cannot carry has no law.");
  }
  const auto n = static_cast<Eigen::Index>(depth.size());
  Eigen::MatrixX3d A(n, 3);
  Eigen::VectorXd y(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const double d = depth[static_cast<std::size_t>(i)], F = force[static_cast<std::size_t>(i)];
    // A sample without force counts by the force that stands for "light".
    const double weight = std::max(lightest, std::min(1.0, F / light)) / std::max(F, lightest * light);
    for (Eigen::Index k = 0; k < 3; ++k) {
      A(i, k) = weight * law_of(Eigen::Vector3d::Unit(k), R).at(d).force;
    }
    y[i] = weight * F;
  }
  return law_of(Cone(A, y).best(), R);
}

double depth_for_force(const ForceLaw& law, double force, double reach) {
  if (!(force >= 0.0 && std::isfinite(force))) {
    throw InputError("contact force", number(force) + " N", "0 or more",
                     "Wheel and rail can only press on each other.");
  }
  if (force == 0.0) {
    return 0.0;
  }
  double high = 1e-4;
  while (law.at(high, reach).force < force) {
    high *= 2.0;
    if (high > 1.0) {
      throw InputError("contact law", number(law.c0) + " N/m^1.5", "above 0", "A body that cannot carry has no law.");
    }
  }
  std::uintmax_t iterations = 80;
  const auto root = boost::math::tools::toms748_solve([&](double d) { return law.at(d, reach).force - force; }, 0.0,
                                                      high, boost::math::tools::eps_tolerance<double>(50), iterations);
  return 0.5 * (root.first + root.second);
}

} // namespace wingnose::contact
