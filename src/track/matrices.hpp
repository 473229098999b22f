// Global matrices of a laid-out track (nodes, seats and element properties already set). SI, symmetric, full storage.
#pragma once

#include "wingnose/track/assembly.hpp"

namespace wingnose::track::detail {

[[nodiscard]] Eigen::SparseMatrix<double> mass(const Assembly& a);
[[nodiscard]] Eigen::SparseMatrix<double> damping(const Assembly& a);
[[nodiscard]] Eigen::SparseMatrix<double> stiffness(const Assembly& a);
// Loss factor times stiffness of rail, pads and ballast: the imaginary part of the frequency-domain stiffness.
[[nodiscard]] Eigen::SparseMatrix<double> hysteretic_stiffness(const Assembly& a);

} // namespace wingnose::track::detail
