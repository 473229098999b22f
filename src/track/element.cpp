#include "element.hpp"

#include <Eigen/LU>

#include <array>
#include <utility>

namespace wingnose::track::detail {

double shear_ratio(const RailProperties& rail, double L) { return 12.0 * rail.EI / (rail.kappa_GA * L * L); }

Eigen::Matrix4d element_stiffness(const RailProperties& rail, double L) {
  const double Phi = shear_ratio(rail, L);
  Eigen::Matrix4d k;
  k << 12.0, 6.0 * L, -12.0, 6.0 * L,                              //
      6.0 * L, (4.0 + Phi) * L * L, -6.0 * L, (2.0 - Phi) * L * L, //
      -12.0, -6.0 * L, 12.0, -6.0 * L,                             //
      6.0 * L, (2.0 - Phi) * L * L, -6.0 * L, (4.0 + Phi) * L * L;
  return k * (rail.EI / (L * L * L * (1.0 + Phi)));
}

Eigen::Matrix4d deflection_coefficients(const RailProperties& rail, double L) {
  const double Phi = shear_ratio(rail, L);
  Eigen::Matrix4d n;
  n << 1.0 + Phi, 0.0, 0.0, 0.0,                                 //
      -Phi, L * (1.0 + 0.5 * Phi), Phi, -L * 0.5 * Phi,          //
      -3.0, -L * (2.0 + 0.5 * Phi), 3.0, -L * (1.0 - 0.5 * Phi), //
      2.0, L, -2.0, L;
  return n / (1.0 + Phi);
}

Eigen::Matrix<double, 3, 4> rotation_coefficients(const RailProperties& rail, double L) {
  const double Phi = shear_ratio(rail, L);
  Eigen::Matrix<double, 3, 4> n;
  n << 0.0, 1.0 + Phi, 0.0, 0.0,                     //
      -6.0 / L, -(4.0 + Phi), 6.0 / L, -(2.0 - Phi), //
      6.0 / L, 3.0, -6.0 / L, 3.0;
  return n / (1.0 + Phi);
}

Eigen::Vector4d deflection_shape(const RailProperties& rail, double L, double s) {
  return deflection_coefficients(rail, L).transpose() * Eigen::Vector4d(1.0, s, s * s, s * s * s);
}

Eigen::Matrix4d element_mass(const RailProperties& rail, double L) {
  // Deflections are cubic, so their products have degree 6: four Gauss points integrate exactly.
  constexpr std::array<std::pair<double, double>, 4> gauss{{{-0.8611363115940526, 0.3478548451374538},
                                                            {-0.3399810435848563, 0.6521451548625461},
                                                            {0.3399810435848563, 0.6521451548625461},
                                                            {0.8611363115940526, 0.3478548451374538}}};
  const Eigen::Matrix4d w = deflection_coefficients(rail, L);
  const Eigen::Matrix<double, 3, 4> theta = rotation_coefficients(rail, L);
  Eigen::Matrix4d m = Eigen::Matrix4d::Zero();
  for (const auto& [point, weight] : gauss) {
    const double s = 0.5 * (1.0 + point);
    const Eigen::Vector4d nw = w.transpose() * Eigen::Vector4d(1.0, s, s * s, s * s * s);
    const Eigen::Vector4d nt = theta.transpose() * Eigen::Vector3d(1.0, s, s * s);
    m += 0.5 * L * weight * (rail.rho_A * nw * nw.transpose() + rail.rho_I * nt * nt.transpose());
  }
  // Natural frequencies from the consistent mass are too high by (omega L)^2 rho_A / (24 kappa_GA), because the cubic
  // cannot follow the shear of distributed inertia; those from the lumped mass are too low by the same amount. Their
  // mean converges with the fourth power of L instead of the second.
  const Eigen::Vector4d lumped(rail.rho_A, rail.rho_I, rail.rho_A, rail.rho_I);
  m.diagonal() += 0.5 * L * lumped;
  return 0.5 * m;
}

double held_compliance(const RailProperties& rail, double L, double s) {
  // Split at s into two exact elements and condense onto the point between them. At an end the shorter part vanishes
  // and with it the compliance.
  const double L1 = s * L;
  const double L2 = L - L1;
  if (L1 <= 1e-9 * L || L2 <= 1e-9 * L) {
    return 0.0;
  }
  const Eigen::Matrix2d middle =
      element_stiffness(rail, L1).bottomRightCorner<2, 2>() + element_stiffness(rail, L2).topLeftCorner<2, 2>();
  return middle(1, 1) / middle.determinant();
}

} // namespace wingnose::track::detail
