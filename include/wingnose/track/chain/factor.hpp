// Dynamic stiffness D(s) = s^2 M + s C + K of a chain, bays and bearers eliminated exactly onto the seats of the rails,
// what is left block-tridiagonal: factored from both ends, so that the answer at and around a load is known without
// going through the track. s = 0 gives statics, s = i omega receptance, s = r / h a time step of length h. SI.
#pragma once

#include "wingnose/track/chain/chain.hpp"

#include <complex>
#include <span>
#include <vector>

namespace wingnose::track::chain {

using Complex = std::complex<double>;

struct Factor {
  Complex s;
  bool losses = false;
  // Blocks of 2 lines x 2 lines (column-major) per seat i: S_i from the left as Gauss' elimination leaves it.
  std::vector<Complex> inverse;       // S_i^-1
  std::vector<Complex> inverse_right; // the same from the right; of the first seat it is empty
  std::vector<Complex> back;          // S_i^-1 U_i: left of a load Z_i = -back_i Z_i+1
  std::vector<Complex> ahead;         // the same from the right: right of a load Z_i+1 = -ahead_i Z_i
  std::vector<Complex> own;           // (D^-1)_ii
  std::vector<Complex> next;          // (D^-1)_i,i+1
  // Per kind of bearer: inverse of its own dynamic stiffness on pads and ballast, [n x n]; answer to unit motion of its
  // seats, [n x lines].
  std::vector<Eigen::MatrixXcd> bearer_inverse, bearer_seat;
  // Per kind of bay: 1 / (s^2 + omega^2) of its modes.
  std::vector<Eigen::Matrix<Complex, most_modes, 1>> mode;
};
// losses: with loss factors (receptance). Throws ComputeError where D(s) is singular.
[[nodiscard]] Factor factor(const Chain& chain, Complex s, bool losses = false);

// Right-hand side, then solution. Sizes as chain's: [seats * 2 lines], [bays * lines * most_modes], [coordinates].
struct Field {
  Eigen::VectorXcd seat, bay, bearer;
  explicit Field(const Chain& chain);
  void clear();
};

// Force (N) on a rail, added to the right-hand side.
void add_rail_force(const Chain& chain, Field& rhs, const RailPoint& at, Complex force);
// D^-1 in three steps, none of which allocates. `reduce` leaves the solution at the seats, from which the parts below
// read; forces may still be added with their exact columns; `finish` gives the rest.
void reduce(const Chain& chain, const Factor& f, Field& field);
void add_rail_column(const Chain& chain, const Factor& f, Field& field, const RailPoint& at, Complex force);
void finish(const Chain& chain, const Factor& f, Field& field);
// Between reduce and finish: deflection of the rail, but for the residual compliance of a force there.
[[nodiscard]] Complex deflection(const Chain& chain, const Factor& f, const Field& field, const RailPoint& at);
// Deflection at the point of a unit force there, without the residual compliance (m/N).
[[nodiscard]] Complex compliance(const Chain& chain, const Factor& f, const RailPoint& at);

// The links of bearer i act along directions: +1 at the rail's seat and minus the bearer's shape for pads, the shape
// for ballast. force: along the direction (a link in compression pushes against it).
void add_link_column(const Chain& chain, const Factor& f, Field& field, int bearer, int link, Complex force);
[[nodiscard]] Complex shortening(const Chain& chain, const Factor& f, const Field& field, int bearer, int link);
void add_link_force(const Chain& chain, Field& rhs, int bearer, int link, Complex force);
// The same for all links of a bearer at once: forces `scale` times `force`, and shortenings into `out`; [links].
void add_link_columns(const Chain& chain, const Factor& f, Field& field, int bearer, std::span<const double> force,
                      Complex scale);
void shortenings(const Chain& chain, const Factor& f, const Field& field, int bearer, std::span<Complex> out);

} // namespace wingnose::track::chain
