// The parts of a time step that touch every bay, bearer and seat, by the matrices of its length. Nothing allocates.
#pragma once

#include "wingnose/track/chain/statics.hpp"
#include "wingnose/track/chain/step_matrices.hpp"

namespace wingnose::track::chain::detail {

// s M v - K u on the seats, with what lies inside bays and bearers eliminated. seat: as Field's.
void onto_seats(const Chain& chain, const StepMatrices& m, const Motion& motion, Eigen::VectorXcd& seat);
// Z at the seats from that right-hand side, in place.
void solve_seats(const Chain& chain, const SeatSteps& steps, Eigen::VectorXcd& seat);
// Modes and bearers at the end of the step, from Z at the seats, but for what forces inside them add. The seats are to
// be as they were at its start.
void advance_inside(const Chain& chain, const StepMatrices& m, const Eigen::VectorXcd& seat, Motion& motion);
// ... and the seats.
void advance_seats(Complex s, double w, const Eigen::VectorXcd& seat, Motion& motion);

} // namespace wingnose::track::chain::detail
