// One time step of a modal track, worked out once per track and step length and shared by every case that uses both.
//
// Exact recurrence of decoupled complex modes under a load that varies linearly within the step (first-order hold):
//   z(t+h) = E z(t) + alpha theta(x_n) f_n + beta theta(x_n+1) f_n+1,   E = exp(lambda h).
// Carrying y = z - beta theta f instead of z turns this into y_n+1 = E y_n + gamma theta_n f_n with gamma = E beta +
// alpha; scaling y and theta by sqrt(gamma) removes gamma as well, so that one pass over the modes is one complex
// multiply, one forcing term, one evaluation of the mode shape and one dot product. SI; deflection and force downward
// positive, as in track/modal.hpp.
#pragma once

#include "wingnose/track/modal.hpp"

#include <boost/align/aligned_allocator.hpp>

#include <memory>
#include <vector>

namespace wingnose::passage {

using AlignedVector = std::vector<double, boost::alignment::aligned_allocator<double, 64>>;

struct StepTable {
  std::shared_ptr<const track::ModalTrack> track;
  double step = 0.0;                // s
  int modes = 0;                    // padded count, multiple of 8
  AlignedVector decay_re, decay_im; // E, [modes]
  AlignedVector scale_re, scale_im; // sqrt(gamma): z = scale * y + beta theta f, [modes]
  AlignedVector lag_re, lag_im;     // beta / sqrt(gamma), acts on the scaled shape, [modes]
  AlignedVector shape_re, shape_im; // sqrt(gamma) theta as cubics, [(element * 4 + power) * modes + mode]
  int grid = 0;                     // points per element of `compliance`, ends included
  AlignedVector compliance;         // m/N, deflection at the load per unit end-of-step load, [element * grid + point]

  [[nodiscard]] const double* element_shape_re(int element) const { return shape_re.data() + element * 4 * modes; }
  [[nodiscard]] const double* element_shape_im(int element) const { return shape_im.data() + element * 4 * modes; }
  // Deflection at the load within the step per unit load at its end (m/N), residual compliance included. s in [0, 1].
  [[nodiscard]] double compliance_at(int element, double s) const;
};

// step: s, > 0. Throws InputError when it is not.
[[nodiscard]] std::shared_ptr<const StepTable> step_table(std::shared_ptr<const track::ModalTrack> track, double step);
// The same for steps taken where the force is smooth. They may be longer than the period of the track's highest modes:
// the recurrence is exact, and what is asked of those modes there is their static share.
[[nodiscard]] std::shared_ptr<const StepTable> long_step_table(std::shared_ptr<const track::ModalTrack> track,
                                                               double step);

} // namespace wingnose::passage
