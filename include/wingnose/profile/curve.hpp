// A plane curve z(y), the common form of wheel and rail cross-sections: value, slope and curvature at any y in range.
//
// SI (m); y increasing. Built from exact pieces (polynomials, circular arcs) or from a fitted spline; smooth additions
// (wear, repair) may be laid over either. Immutable after construction.
#pragma once

#include <vector>

namespace wingnose::profile {

struct CurvePoint {
  double value;     // m
  double slope;     // -
  double curvature; // 1/m, second derivative / (1 + slope^2)^1.5, signed: positive = curve bends upward (towards +z)
};

// One exact piece on [from, to]: a polynomial in y (c0 + c1 y + ...), or a circular arc z = zc +- sqrt(r^2 - (y -
// yc)^2).
struct Piece {
  enum class Kind { polynomial, arc_upper, arc_lower };
  double from, to;
  Kind kind;
  std::vector<double> c; // polynomial coefficients (y in m), or {yc, zc, radius}
};

// C2 bump: -depth * (1 - u^2)^3 for |u| < 1, u = 2 (y - centre) / width; zero outside. depth > 0 removes material
// downward in value.
struct Bump {
  double depth, width, centre;
};

class Curve {
public:
  Curve() = default;
  explicit Curve(std::vector<Piece> pieces, std::vector<Bump> bumps = {});

  [[nodiscard]] double value(double y) const; // y is clamped to [front, back]
  [[nodiscard]] CurvePoint at(double y) const;
  [[nodiscard]] double front() const;
  [[nodiscard]] double back() const;
  [[nodiscard]] const std::vector<Piece>& pieces() const { return pieces_; }
  [[nodiscard]] Curve with(Bump bump) const; // the same curve with one more addition

private:
  std::vector<Piece> pieces_; // ordered by `from`, contiguous
  std::vector<Bump> bumps_;
};

} // namespace wingnose::profile
