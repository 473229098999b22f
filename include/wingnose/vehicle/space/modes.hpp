// Small motion of a vehicle in space: the equations reduced to the motions looked at, their eigenvalues and modes.
#pragma once

#include "wingnose/vehicle/space/model.hpp"
#include "wingnose/vehicle/vehicle.hpp"

#include <Eigen/Core>

#include <complex>
#include <string>
#include <vector>

namespace wingnose::vehicle::space {

// M u'' + C u' + K u + (dampers in series) = force. C and K need not be symmetric.
struct LinearSystem {
  Eigen::MatrixXd M, C, K;
  std::vector<SeriesDamper> series;
  std::vector<std::string> coordinate;
  [[nodiscard]] Eigen::Index size() const { return M.rows(); }
};

// shapes: one column for each motion, over the model's coordinates. speed: m/s.
[[nodiscard]] LinearSystem reduced(const SpatialModel& model, const Eigen::MatrixXd& shapes,
                                   std::vector<std::string> names, double speed, const Terms& terms);
// Bodies move, wheelsets are held on straight level track.
[[nodiscard]] LinearSystem wheelsets_held(const SpatialModel& model, const Terms& terms = {});
// Everything free, as if lifted off the track; wheelsets still run at the forward speed (m/s).
[[nodiscard]] LinearSystem lifted(const SpatialModel& model, double speed, const Terms& terms = {});

// y' = A y with y = (u, u', w), w the place between each damper and its spring in series (m).
[[nodiscard]] Eigen::MatrixXd state_matrix(const LinearSystem& system);

// Hz, ascending; dampers left out. Throws ComputeError where the eigenvalues do not converge.
[[nodiscard]] std::vector<double> undamped_frequencies(const LinearSystem& system);

struct SpaceMode {
  std::complex<double> eigenvalue; // 1/s
  double frequency;                // Hz, |eigenvalue| / (2 pi)
  double damping_ratio;            // -, -Re / | |
  std::string dominant;            // coordinates that hold most of the kinetic energy, joined by " + "
};
// Ascending frequency, one of each conjugate pair; motions that creep back without swinging have the ratio 1.
[[nodiscard]] std::vector<SpaceMode> modes(const LinearSystem& system);
// Largest real part of the eigenvalues (1/s): above 0 some motion grows.
[[nodiscard]] double growth_rate(const LinearSystem& system);

} // namespace wingnose::vehicle::space
