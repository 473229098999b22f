// Finite-element matrices of a Track: two-node Timoshenko elements exact for static shear-flexible bending
// (interdependent interpolation, Friedman and Kosmatka 1993, doi:10.1016/0045-7949(93)90243-7) with higher-order mass
// (mean of consistent and lumped), bearers as lumped masses. Plus static and frequency-domain answers. SI; forces on
// the rail and its deflections are downward positive in this room; rotation is dw/dx less the shear strain. Stations
// outside the rail: InputError.
#pragma once

#include "wingnose/track/track.hpp"

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include <array>
#include <complex>
#include <span>
#include <vector>

namespace wingnose::track {

struct Assembly {
  Eigen::SparseMatrix<double> M, C, K; // symmetric, full storage
  std::vector<double> node; // m, rail node stations, increasing; node i has dofs 2i (deflection), 2i+1 (rotation)
  std::vector<RailProperties> element; // properties of element i (node i .. i+1)
  std::vector<double> seat_station;    // m
  std::vector<Seat> seat;
  std::vector<int> bearer_dof; // dof of each seat's bearer
  std::vector<int> seat_node;  // rail node at each seat
  Track input;
  [[nodiscard]] int dofs() const { return static_cast<int>(K.rows()); }
};
[[nodiscard]] Assembly assemble(const Track& track); // throws InputError
// The same without matrices: where nodes and seats lie, what they are.
[[nodiscard]] Assembly laid_out(const Track& track); // throws InputError

// Interpolation of rail deflection at station x: element index and its four shape function values.
struct Interpolation {
  int element;
  std::array<double, 4> h;
};
[[nodiscard]] Interpolation interpolate(const Assembly&, double x);
// In-element static self compliance (m/N) at x with both element ends held ("bubble").
[[nodiscard]] double bubble_compliance(const Assembly&, double x);

// Static deflection (m, downward positive) under `load` (N) at x_load, at every x of `at` (m); exact for the beam, also
// inside an element. Throws ComputeError when the track is not held.
[[nodiscard]] std::vector<double> static_deflection(const Assembly&, double load, double x_load,
                                                    std::span<const double> at);

// Point receptance (m/N) at x for each frequency (Hz, 0 or above): direct solution of the damped dynamic stiffness
// incl. loss factors, plus the in-element compliance. Throws ComputeError where the dynamic stiffness is singular.
[[nodiscard]] std::vector<std::complex<double>> receptance(const Assembly&, double x,
                                                           std::span<const double> frequency);

} // namespace wingnose::track
