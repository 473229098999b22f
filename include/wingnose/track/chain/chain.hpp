// A Model turned into constants: bays of rail by exact static boundary shapes and a few modes with held ends (Craig and
// Bampton 1968, doi:10.2514/3.4741), bearers in a few coordinates of their own. Built once, immutable, shared by
// threads. What is equal is kept once.
//
// A line is one plane in which one rail bends: rail r vertically is line r, laterally, if it does, line rails + r.
// Unknowns: deflection and rotation of every line over every bearer (block i, [w theta] per line), the held-end modes
// of every bay, the coordinates of every bearer. Kelvin pads and ballast join them: M u'' + C u' + K u = f. SI,
// downward positive, laterally towards +y.
#pragma once

#include "wingnose/track/chain/link.hpp"
#include "wingnose/track/chain/model.hpp"

#include <Eigen/Core>

#include <array>
#include <memory>
#include <span>
#include <vector>

namespace wingnose::track::chain {

inline constexpr int most_rails = 4;
inline constexpr int most_lines = 2 * most_rails;
inline constexpr int most_modes = 8;        // of a bay
inline constexpr int most_coordinates = 20; // of a bearer
inline constexpr int most_links = 72;       // of a bearer

enum class Plane { vertical, lateral };

using Modes = Eigen::Matrix<double, most_modes, 1>; // unused ones are zero

// A stretch of a bay with one section. Deflections along it as polynomials: w(j, i) times function j (hat functions,
// then integrated Legendre polynomials, legendre.hpp) for boundary shape or mode i.
struct BayPiece {
  static constexpr int degree = 10;
  double begin = 0.0, length = 0.0; // m from the bay's first seat, m
  RailProperties section;
  Eigen::Matrix<double, degree + 1, 4 + most_modes> w;
  // m/N, static compliance at a point of the bay with held ends: a polynomial of degree 6 in s in [-1, 1] along it.
  Eigen::Matrix<double, 7, 1> held;
};

// One line between two seats. Boundary unknowns w, theta at its first, then at its second end.
struct RailBay {
  double length = 0.0; // m
  int modes = 0;
  Eigen::Matrix4d K, M;                          // of the boundary shapes
  Modes stiffness = Modes::Zero();               // omega^2 of the modes, whose mass is 1
  Eigen::Matrix<double, 4, most_modes> coupling; // mass between boundary shapes and modes
  Eigen::Vector4d weight;                        // kg: times g, the bay's own weight on the boundary shapes ...
  Modes modal_weight = Modes::Zero();            // ... and on the modes
  std::vector<BayPiece> piece;                   // a new one wherever the section changes
  Eigen::MatrixXd held;                          // static compliance of the nodes between pieces with held ends
};

// A spot of ballast under a bearer.
struct BallastPoint {
  double y = 0.0;                        // m
  double length = 0.0;                   // m of bearer it stands for; 1 under a lumped bearer
  double stiffness = 0.0, damping = 0.0; // N/m, N s/m
  double loss = 0.0;
  Eigen::VectorXd shape; // deflection there per coordinate
};

// A bearer in coordinates whose mass is 1 and whose stiffness, on all of its ballast, is diagonal.
struct BearerShape {
  int n = 0;
  Eigen::VectorXd stiffness; // 1/s2, [n]
  Eigen::MatrixXd damping;   // [n x n]
  Eigen::MatrixXd loss;      // stiffness times loss factor, [n x n]
  Eigen::MatrixXd seat;      // deflection at the seats, laterally at the height of the rail's line, [n x lines]
  std::vector<Pad> pad;      // [lines]
  Eigen::VectorXd weight;    // times g, [n]
  std::vector<BallastPoint> ballast;
  std::vector<Link> links;      // what is not linear: deviations of pads and ballast points from their springs
  std::vector<double> node;     // m, y of the nodes of a beam; empty when lumped
  Eigen::MatrixXd shapes;       // [2 nodes x n], w and dw/dy
  double EI = 0.0, depth = 0.0; // N m2, m
  double width = 0.0;           // m
  // Lateral, empty without: shift per coordinate; lateral force of the ballast per coordinate and per its rate. [n]
  Eigen::VectorXd shift, ballast_force, ballast_damping;
};

struct Chain {
  Model model;
  int rails = 1, lines = 1;
  std::vector<double> seat; // m, stations, as bearers
  std::vector<RailBay> bay_kind;
  std::vector<int> bay; // kind of [bay * lines + line]
  std::vector<BearerShape> bearer_kind;
  std::vector<int> bearer;                         // kind of each
  std::vector<int> coordinate;                     // first coordinate of each bearer, one more at the end
  std::vector<int> link;                           // first link of each bearer, one more at the end
  std::vector<double> dead_shortening, dead_force; // m, N: of every link under the track's own weight
  [[nodiscard]] int seats() const { return static_cast<int>(seat.size()); }
  [[nodiscard]] int bays() const { return seats() - 1; }
  [[nodiscard]] int links() const { return link.back(); }
  [[nodiscard]] double begin() const { return seat.front(); }
  [[nodiscard]] double end() const { return seat.back(); }
  [[nodiscard]] const RailBay& bay_of(int b, int line) const { return bay_kind[bay[b * lines + line]]; }
  [[nodiscard]] const BearerShape& bearer_of(int i) const { return bearer_kind[bearer[i]]; }
};
// Throws InputError as check() does; ComputeError when the track's own weight finds no support.
[[nodiscard]] std::shared_ptr<const Chain> make_chain(const Model& model);

// A point of a rail: shapes of its bay there.
struct RailPoint {
  int rail = 0, bay = 0;
  double x = 0.0, inside = 0.0; // m, station, and distance from the bay's first seat
  Eigen::Vector4d boundary;
  Modes modal = Modes::Zero();
  double residual = 0.0; // m/N
  int line = 0;
};
// Throws InputError beyond the track, for a rail that is not there or a plane that is not described. No allocation.
[[nodiscard]] RailPoint rail_point(const Chain& chain, int rail, double x, Plane plane = Plane::vertical);

} // namespace wingnose::track::chain
