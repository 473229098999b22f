#include "link_matrices.hpp"

#include <Eigen/Geometry>

namespace wingnose::vehicle::space {
namespace {

Eigen::Matrix3d cross(const Eigen::Vector3d& a) {
  Eigen::Matrix3d out;
  out << 0.0, -a.z(), a.y(), a.z(), 0.0, -a.x(), -a.y(), a.x(), 0.0;
  return out;
}

} // namespace

EndRows stretch_rows(const Eigen::Vector3d& upper, const Eigen::Vector3d& lower) {
  EndRows rows;
  // A point at r moves by u + theta x r.
  rows << Eigen::Matrix3d::Identity(), -cross(upper), -Eigen::Matrix3d::Identity(), cross(lower);
  return rows;
}

EndRows turning_rows() {
  EndRows rows = EndRows::Zero();
  rows.block<3, 3>(0, 3).setIdentity();
  rows.block<3, 3>(0, 9) = -Eigen::Matrix3d::Identity();
  return rows;
}

// The link's stretch in its own axes, to second order in finite turning (rotation vectors a, b of the ends, m of the
// axes): e = s + 1/2 a x (a x r_a) - 1/2 b x (b x r_b) - m x s, s the stretch of first order, which at rest is zero but
// for the preload. The preload works on what is quadratic, and that form's matrix is the stiffness. As e does not
// change when both ends and the axes turn together, force and moment of the whole stay in balance (a test turns the
// vehicle).
EndMatrix geometric_matrix(const Eigen::Vector3d& tension, const Eigen::Vector3d& upper, const Eigen::Vector3d& lower,
                           double axes_with_upper) {
  const EndRows rows = stretch_rows(upper, lower);
  using Ends = Eigen::Matrix<double, 12, 1>;
  const auto energy = [&](const Ends& q) {
    const Eigen::Vector3d a = q.segment<3>(3), b = q.segment<3>(9);
    const Eigen::Vector3d axes = axes_with_upper * a + (1.0 - axes_with_upper) * b;
    const Eigen::Vector3d stretch =
        0.5 * a.cross(a.cross(upper)) - 0.5 * b.cross(b.cross(lower)) - axes.cross(rows * q);
    return tension.dot(stretch);
  };
  EndMatrix out;
  for (int i = 0; i < 12; ++i) {
    for (int j = 0; j <= i; ++j) {
      const Ends one = Ends::Unit(i), other = Ends::Unit(j);
      out(i, j) = out(j, i) = energy(one + other) - energy(one) - energy(other); // of a quadratic form: exact
    }
  }
  return out;
}

} // namespace wingnose::vehicle::space
