// Motion of one passage at an instant, and the working memory of a time step. SI; frame.hpp.
//
// A state is all that the next step depends on; copied, it goes on as the original does. Scratch carries nothing from
// one step to the next: in debug builds it is filled with NaN before every step.
#pragma once

#include "wingnose/contact/search/patches.hpp"
#include "wingnose/passage/plan.hpp"

#include <Eigen/Core>

#include <array>
#include <optional>
#include <vector>

namespace wingnose::passage {

// Made by `initial_state`; all arrays keep their size.
struct State {
  AlignedVector y_re, y_im;                      // scaled modal coordinates of the track, [modes]
  std::vector<AlignedVector> theta_re, theta_im; // scaled mode shapes at each wheel, [wheel][modes]
  Eigen::VectorXd vehicle;                       // displacements then velocities
  Eigen::VectorXd force;                         // N per wheel
  std::vector<std::array<double, 2>> body_force; // N, [wheel][body]
  std::vector<double> rail;                      // m, deflection under each wheel, downward
  std::vector<double> slope;                  // N, change of each force over the last step: a first guess for the next
  std::vector<int> path_index;                // interval of the path each wheel is in
  std::vector<int> element;                   // track element each wheel is on
  std::optional<track::chain::Motion> motion; // of a track that is a chain, which has no modes
  double station = 0.0;                       // m, reported wheel
  bool long_step = false;                     // which step y, theta and slope are those of
};
[[nodiscard]] State initial_state(const Passage& passage);

struct Scratch {
  explicit Scratch(const Passage& passage);
  void spoil();                                     // NaN everywhere
  Eigen::VectorXd vehicle_next, force_change;       // as State::vehicle; N, forces minus static loads
  std::vector<std::array<contact::GapLine, 2>> gap; // [wheel][body], where contact is searched at every step
};
#ifdef NDEBUG
inline constexpr bool spoils_scratch = false;
#else
inline constexpr bool spoils_scratch = true; // before every step
#endif

} // namespace wingnose::passage
