// What a step of one length makes of each bay, each bearer and each block over a seat, as real matrices that a step
// only has to multiply: those inside bays and bearers eliminated onto the seats of the rails and taken back from there,
// the seats from both ends to the middle and out again. Complex numbers lie as two reals. Made once for a length;
// const. SI.
#pragma once

#include "wingnose/track/chain/factor.hpp"

#include <array>
#include <vector>

namespace wingnose::track::chain {

// Of a kind of bay. Boundary: the four unknowns at its ends. Modes lie side by side, unused ones are zero.
struct BayStep {
  using Lanes = std::array<double, most_modes>;
  int modes = 0;
  // Right-hand side on the boundary, [8 x (8 + 2 modes)], of displacements and velocities there, modes, their rates.
  std::vector<double> onto;
  std::array<Lanes, 4> coupling{};
  // At the end of the step, of: mode, its rate, coupling times boundary velocities, and times both parts of Z there.
  std::array<Lanes, 5> mode{}, rate{};
};

// Of a kind of bearer of n coordinates.
struct BearerStep {
  int n = 0;
  // Right-hand side on its seats, [2 lines x (2 n + lines)], of coordinates, their rates, deflections of the rails.
  std::vector<double> onto;
  // Coordinates and rates at the end of the step, [2 n x (2 n + 3 lines)], of the same and of Z (both parts) at the
  // rails.
  std::vector<double> after;
};

// Blocks over the seats, [4 lines x 4 lines] each, by columns.
struct SeatSteps {
  int middle = 0;
  std::vector<double>
      inward;              // what the right-hand side of a seat takes from that of its neighbour away from the middle
  std::vector<double> own; // Z of a seat by its right-hand side alone
  std::vector<double> outward; // what Z of a seat takes from Z of its neighbour towards the middle
};

struct StepMatrices {
  std::vector<BayStep> bay;       // per kind
  std::vector<BearerStep> bearer; // per kind
  SeatSteps seats;
};
// w: what the imaginary part of Z counts, negative, in displacements; see stepper.hpp.
[[nodiscard]] StepMatrices step_matrices(const Chain& chain, const Factor& f, double w);

} // namespace wingnose::track::chain
