#include "wingnose/contact/normal/strips.hpp"

#include "strips_shape.hpp"

#include <Eigen/LU>

#include <boost/math/special_functions/ellint_rd.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wingnose::contact {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double least_laid = 10e-6; // m
// Limit of the slope p / a of a strip, in terms of that of Hertz's ellipse. Where the radius of a rail head steps from
// 300 to 80 or 80 to 13 mm inside the patch, half-space solutions show up to 1.8.
constexpr double steepest_share = 2.5;

// Integral of sqrt((a^2 - x^2) / (x^2 + d^2)) over -a .. a: the displacement (times pi E*, per width and slope p0 / a)
// that a line of half-elliptic pressure makes abreast of its middle at a distance d. Substituting x = a cos(t) gives
// 2 sqrt(a^2 + d^2) (K(k) - E(k)), k^2 = a^2 / (a^2 + d^2); K - E = k^2 R_D(0, 1 - k^2, 1) / 3 (Carlson 1979).
double abreast_exact(double a, double d) {
  const double q = a * a + d * d;
  return 2.0 / 3.0 * a * a / std::sqrt(q) * boost::math::ellint_rd(0.0, d * d / q, 1.0);
}

// The same from a table over s = d / (a + d), divided by a^2 / (a + d): between 2 ln(4 / s) - 2 at s = 0, where it is
// used directly, and pi / 2 at s = 1. Straight lines between the entries err by less than 2e-3.
class AbreastTable {
public:
  AbreastTable() {
    for (std::size_t i = 1; i < cells; ++i) {
      const double s = static_cast<double>(i) / cells, a = 1.0 - s;
      value_[i] = abreast_exact(a, s) / (a * a);
    }
    value_[cells] = 0.5 * pi;
  }
  [[nodiscard]] double operator()(double a, double d) const {
    const double sum = a + d, u = d / sum * cells;
    if (u < 4.0) {
      return 2.0 * a * (std::log(4.0 * a / d) - 1.0);
    }
    const std::size_t i = std::min(static_cast<std::size_t>(u), cells - 1);
    return a * a / sum * (value_[i] + (u - static_cast<double>(i)) * (value_[i + 1] - value_[i]));
  }

private:
  static constexpr std::size_t cells = 2048;
  std::array<double, cells + 1> value_{};
};

const AbreastTable& abreast() {
  static const AbreastTable table; // values of a formula, the same for every contact
  return table;
}

// Strips across the overlap, at most `most` of them: several columns wide where a patch is very wide.
constexpr int most = 56;
using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::ColMajor, most, most>; // on the stack
using Vector = Eigen::Matrix<double, Eigen::Dynamic, 1, Eigen::ColMajor, most, 1>;

struct Row {
  int count = 0;
  struct Cell {
    double y, y_width, dx, cosine; // m; place and width across the track
    double middle, width;          // m, along the surface
    double closing;                // m, approach less the gap in the middle
    double laid;                   // m, virtual overlap, mean over the cell
    double loaded;                 // m, part of the width that it covers
  };
  std::array<Cell, most> cell;
};

Row cut(const Overlap& o, double share) {
  Row row;
  const int parts = o.count - 1;
  const int columns = std::max(1, (parts + 2 * most - 1) / (2 * most)); // per strip, each in two parts
  for (int i = 0; i < parts && row.count < most;) {
    // A column's two parts always stay in one strip; between two overlaps a strip ends.
    const int last = std::min(i + 2 * columns, parts);
    const int middle = std::min(i + columns, last);
    Row::Cell& c = row.cell[row.count];
    double area = 0.0;
    c.loaded = 0.0;
    for (int k = i; k < last; ++k) {
      const Overlap::Part part = o.closed(k, share);
      area += part.area;
      c.loaded += part.width;
    }
    c.width = o.t[last] - o.t[i];
    c.y_width = o.y[last] - o.y[i];
    c.middle = o.t[middle];
    c.y = o.y[middle];
    c.dx = o.dx[middle];
    c.cosine = o.cosine[middle];
    c.closing = o.nearby[middle] - o.separation[middle];
    c.laid = area / c.width;
    i = last;
    row.count += c.closing > 0.0 || area > 0.0 ? 1 : 0;
  }
  return row;
}

// Slopes c of p = c sqrt(a^2 - x^2), from 0 to a limit, that close the gap in the middle of the strips. Strips that
// would pull are left out, those that would overlap are taken in again (active sets). The limit keeps a strip that is
// still short from carrying a load: it grows with a^2 at most, so that nothing jumps when a strip appears.
class Pressures {
public:
  Pressures(const Row& row, double E_star, double limit) : row_(row), n_(row.count), E_star_(E_star), steepest_(limit) {
    slope_.setZero(n_);
    length_.setZero(n_);
  }
  void lengthen(int i, double half_length) { length_[i] = half_length; }
  [[nodiscard]] double length(int i) const { return length_[i]; }
  [[nodiscard]] double slope(int i) const { return slope_[i]; }
  void solve() {
    fill_influence();
    std::array<State, most> state{};
    for (int i = 0; i < n_; ++i) {
      state[i] = length_[i] > 0.0 ? State::carries : State::none;
    }
    for (int pass = 0; pass < 20; ++pass) {
      solve_carrying(state);
      bool settled = true;
      for (int i = 0; i < n_; ++i) {
        State next = state[i];
        if (state[i] == State::carries) {
          next = slope_[i] < 0.0 ? State::open : slope_[i] > steepest_ ? State::steepest : State::carries;
        } else if ((state[i] == State::open && left(i) < -tiny) || (state[i] == State::steepest && left(i) > tiny)) {
          next = State::carries;
        }
        settled = settled && next == state[i];
        state[i] = next;
      }
      if (settled) {
        return;
      }
    }
    slope_ = slope_.cwiseMax(0.0).cwiseMin(steepest_);
  }
  // Gap left in the middle of strip i (m), negative where the bodies would still overlap.
  [[nodiscard]] double left(int i) const { return influence_.row(i).dot(slope_) - row_.cell[i].closing; }

private:
  enum class State { none, carries, open, steepest };
  static constexpr double tiny = 1e-10; // m

  void fill_influence() {
    const AbreastTable& kernel = abreast();
    influence_.resize(n_, n_);
    for (int j = 0; j < n_; ++j) {
      const double w = row_.cell[j].width / (pi * E_star_);
      for (int i = 0; i < n_; ++i) {
        // Within the strip itself: the mean logarithmic distance of two of its points.
        const double d =
            i == j ? row_.cell[j].width / (2.0 * std::numbers::e) : std::abs(row_.cell[i].middle - row_.cell[j].middle);
        influence_(i, j) = length_[j] > 0.0 ? w * kernel(length_[j], d) : 0.0;
      }
    }
  }

  // Slopes of the carrying strips beside those that are at the limit.
  void solve_carrying(const std::array<State, most>& state) {
    std::array<int, most> index{};
    int m = 0;
    for (int i = 0; i < n_; ++i) {
      slope_[i] = state[i] == State::steepest ? steepest_ : 0.0;
      if (state[i] == State::carries) {
        index[m++] = i;
      }
    }
    Matrix A(m, m);
    Vector b(m);
    for (int j = 0; j < m; ++j) {
      for (int i = 0; i < m; ++i) {
        A(i, j) = influence_(index[i], index[j]);
      }
      b[j] = -left(index[j]);
    }
    const Vector c = A.partialPivLu().solve(b);
    for (int j = 0; j < m; ++j) {
      slope_[index[j]] = c[j];
    }
  }

  const Row& row_;
  int n_;
  double E_star_, steepest_;
  Vector slope_, length_;
  Matrix influence_;
};

// Too shallow for the columns to show its width: any smooth pair starts as Hertz's does.
NormalContact shallow(const GapLine& line, double depth, const Elastic& material, StripOutline* outline) {
  NormalContact result = strips(line, least_laid, material, outline);
  const double s = depth / least_laid, root = std::sqrt(s);
  for (double* value : {&result.force, &result.vertical}) {
    *value *= s * root;
  }
  for (double* value : {&result.approach, &result.penetration, &result.area}) {
    *value *= s;
  }
  for (double* value : {&result.peak_pressure, &result.half_length, &result.half_width}) {
    *value *= root;
  }
  if (outline != nullptr) {
    for (Strip& one : std::span(outline->strip.data(), static_cast<std::size_t>(outline->count))) {
      one = {result.y + (one.y - result.y) * root,
             one.width * root,
             one.dx,
             one.half_length * root,
             one.pressure * root,
             one.force * s * root};
    }
  }
  return result;
}

} // namespace

NormalContact strips(const GapLine& line, double depth, const Elastic& material, StripOutline* outline) {
  if (depth > 0.0 && depth < least_laid) {
    return shallow(line, depth, material, outline);
  }
  NormalContact result;
  if (outline != nullptr) {
    outline->count = 0;
  }
  Overlap overlap;
  if (!(depth > 0.0) || !lay(line, depth, true, overlap)) {
    return result;
  }
  const EquivalentEllipse e = equivalent_ellipse(overlap);
  Row row = cut(overlap, e.share);
  const double hertz = e.slope * material.combined();
  Pressures pressures(row, material.combined(), steepest_share * hertz);
  for (int i = 0; i < row.count; ++i) {
    pressures.lengthen(i, std::sqrt(row.cell[i].laid / e.A_strip));
  }
  pressures.solve();
  // Where the bodies would still overlap beside the strips, contact is wider than the virtual penetration says: strips
  // are added there, as long as what is left to close makes them.
  bool longer = false;
  for (int i = 0; i < row.count; ++i) {
    const double rest = -pressures.left(i);
    if (rest > row.cell[i].laid) {
      pressures.lengthen(i, std::sqrt(rest / e.A_strip));
      row.cell[i].loaded = row.cell[i].width;
      longer = true;
    }
  }
  if (longer) {
    pressures.solve();
  }
  double moment = 0.0;
  for (int i = 0; i < row.count; ++i) {
    const Row::Cell& c = row.cell[i];
    const double a = pressures.length(i), slope = e.skew * pressures.slope(i);
    if (!(slope > 0.0)) {
      continue;
    }
    const double force = 0.5 * pi * slope * a * a * c.width;
    result.force += force;
    result.vertical += force * c.cosine;
    result.area += 2.0 * a * c.width; // a is the mean over the whole width
    result.half_width += 0.5 * c.loaded;
    result.half_length = std::max(result.half_length, a);
    result.peak_pressure = std::max(result.peak_pressure, slope * a);
    moment += force * c.y;
    if (outline != nullptr) {
      outline->strip[static_cast<std::size_t>(outline->count++)] = {c.y, c.y_width, c.dx, a, slope * a, force};
    }
  }
  result.approach = overlap.approach;
  result.penetration = e.share * overlap.approach;
  result.y = result.force > 0.0 ? moment / result.force : line.y(line.top);
  return result;
}

} // namespace wingnose::contact
