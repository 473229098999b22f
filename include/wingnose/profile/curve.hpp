// A plane curve z(y), the common form of wheel and rail cross-sections: value, slope and curvature at any y in range.
//
// SI (m); y increasing. Built from exact pieces (polynomials, circular arcs) or from a fitted spline; smooth additions
// (wear, repair) may be laid over either. Immutable after construction, so one curve may be read by many threads.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>

namespace wingnose::profile {

// Slopes are limited to this magnitude (89.94 degrees): an arc that runs out into a vertical tangent, as the back of a
// flange does, keeps a finite slope. Only points within r * 5e-7 of the end of such an arc are affected.
inline constexpr double steepest_slope = 1000.0;

struct CurvePoint {
  double value;     // m
  double slope;     // -, |slope| <= steepest_slope
  double curvature; // 1/m, second derivative / (1 + slope^2)^1.5, signed: positive = curve bends upward (towards +z)
};

// One exact piece on [from, to]: a polynomial c0 + c1 t + ... + c8 t^8 with t = y - origin, or a circular arc
// z = zc +- sqrt(r^2 - (y - yc)^2). A local origin keeps the cubics of a fitted spline free of cancellation.
struct Piece {
  enum class Kind { polynomial, arc_upper, arc_lower };
  double from, to; // m
  Kind kind;
  std::array<double, 9> c{}; // polynomial coefficients (m, m/m, m/m^2, ...), or {yc, zc, radius} (m)
  double origin = 0.0;       // m, polynomials only
  int degree = -1;           // highest power used; found by Curve
  [[nodiscard]] friend bool operator==(const Piece&, const Piece&) = default;
};

// C2 bump: -depth * (1 - u^2)^3 for |u| < 1, u = 2 (y - centre) / width; zero outside. depth > 0 removes material
// downward in value.
struct Bump {
  double depth, width, centre; // m
  [[nodiscard]] friend bool operator==(const Bump&, const Bump&) = default;
};

class Curve {
public:
  Curve() = default; // holds nothing: value() is NaN everywhere
  // Pieces in order of y, each from < to, each starting where the one before ends (within 1e-12 m). At a joint the
  // piece that starts there counts. Throws InputError when pieces are missing, unordered, leave a gap, are not finite,
  // or when an arc does not reach its ends; and when a bump is not finite or its width is not positive.
  explicit Curve(std::vector<Piece> pieces, std::vector<Bump> bumps = {});

  // y is clamped to [front, back]: beyond an end, value, slope and curvature are those of the end. NaN gives NaN.
  [[nodiscard]] double value(double y) const;
  [[nodiscard]] CurvePoint at(double y) const;
  [[nodiscard]] double front() const { return front_; } // m
  [[nodiscard]] double back() const { return back_; }   // m
  [[nodiscard]] const std::vector<Piece>& pieces() const { return pieces_; }
  [[nodiscard]] const std::vector<Bump>& bumps() const { return bumps_; }
  [[nodiscard]] Curve with(Bump bump) const; // the same curve with one more addition
  [[nodiscard]] friend bool operator==(const Curve& a, const Curve& b) {
    return a.pieces_ == b.pieces_ && a.bumps_ == b.bumps_; // the rest follows from these
  }

private:
  [[nodiscard]] std::size_t locate(double y) const;

  std::vector<Piece> pieces_; // ordered by `from`, contiguous
  std::vector<Bump> bumps_;
  double front_ = std::numeric_limits<double>::quiet_NaN();
  double back_ = std::numeric_limits<double>::quiet_NaN();
  // Equal cells over [front, back], each naming the first piece it may meet: finding a piece costs the same for eight
  // zones and for a fit through a thousand points.
  double cells_per_m_ = 0.0;
  std::vector<std::uint32_t> first_piece_;
};

// In the header because a contact search calls value() some hundred times per station.
inline std::size_t Curve::locate(double y) const {
  const double cell = (y - front_) * cells_per_m_;
  std::size_t k = first_piece_[cell > 0.0 ? static_cast<std::size_t>(cell) : 0];
  while (k + 1 < pieces_.size() && y >= pieces_[k + 1].from) {
    ++k;
  }
  return k;
}

inline double Curve::value(double y) const {
  if (pieces_.empty()) {
    return front_;
  }
  y = y < front_ ? front_ : (y > back_ ? back_ : y);
  const Piece& p = pieces_[locate(y)];
  const auto& c = p.c;
  double z = 0.0;
  if (p.kind == Piece::Kind::polynomial) {
    const double t = y - p.origin, t2 = t * t;
    z = (c[0] + c[1] * t) + (c[2] + c[3] * t) * t2;
    if (p.degree > 3) { // Estrin's grouping: short dependency chains
      const double t4 = t2 * t2;
      z += ((c[4] + c[5] * t) + (c[6] + c[7] * t) * t2 + c[8] * t4) * t4;
    }
  } else {
    const double d = y - c[0], h2 = (c[2] - d) * (c[2] + d); // no cancellation near a vertical tangent
    const double h = std::sqrt(h2 < 0.0 ? 0.0 : h2);
    z = p.kind == Piece::Kind::arc_upper ? c[1] + h : c[1] - h;
  }
  for (const Bump& b : bumps_) {
    const double u = 2.0 * (y - b.centre) / b.width, q = 1.0 - u * u;
    if (q > 0.0) {
      z -= b.depth * q * q * q;
    }
  }
  return z;
}

} // namespace wingnose::profile
