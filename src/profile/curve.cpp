#include "wingnose/profile/curve.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <string>

namespace wingnose::profile {
namespace {

constexpr double joint_gap = 1e-12; // m, rounding of break points that are meant to be equal

bool finite(const Piece& p) {
  return std::isfinite(p.from) && std::isfinite(p.to) && std::isfinite(p.origin) &&
         std::all_of(p.c.begin(), p.c.end(), [](double c) { return std::isfinite(c); });
}

std::string name_of(std::size_t k) { return "piece " + std::to_string(k + 1) + " of a curve"; }

void check(const Piece& p, std::size_t k) {
  if (!finite(p)) {
    throw InputError(name_of(k) + " has a bound or coefficient that is not finite; give finite numbers.");
  }
  if (!(p.from < p.to)) {
    throw InputError(name_of(k), "from " + number(p.from) + " m to " + number(p.to) + " m", "from < to",
                     "Give the pieces in the order of y.");
  }
  if (p.kind == Piece::Kind::polynomial) {
    return;
  }
  const double yc = p.c[0], r = p.c[2];
  const double reach = std::max(std::abs(p.from - yc), std::abs(p.to - yc));
  if (!(r > 0.0) || reach > r * (1.0 + 1e-9)) {
    throw InputError(name_of(k), "radius " + number(r) + " m",
                     "at least the distance from the arc's centre to its ends, " + number(reach) + " m",
                     "Check the centre and the ends of the arc.");
  }
}

void check(const Bump& b) {
  if (!std::isfinite(b.depth) || !std::isfinite(b.width) || !std::isfinite(b.centre) || !(b.width > 0.0)) {
    throw InputError("an addition to a curve",
                     "depth " + number(b.depth) + " m, width " + number(b.width) + " m, centre " + number(b.centre) +
                         " m",
                     "finite numbers, width > 0", "Give the full width over which the addition fades out.");
  }
}

struct Jet {
  double value, slope, second; // second derivative
};

Jet polynomial(const Piece& p, double y) { // Horner's scheme for value, slope and half the second derivative
  const double t = y - p.origin;
  double v = p.c[static_cast<std::size_t>(p.degree)], d1 = 0.0, d2 = 0.0;
  for (int k = p.degree - 1; k >= 0; --k) {
    d2 = d2 * t + d1;
    d1 = d1 * t + v;
    v = v * t + p.c[static_cast<std::size_t>(k)];
  }
  return {v, d1, 2.0 * d2};
}

Jet arc(const Piece& p, double y) {
  const double sign = p.kind == Piece::Kind::arc_upper ? 1.0 : -1.0;
  const double r = p.c[2], d = y - p.c[0], h2 = (r - d) * (r + d);
  const double h = std::sqrt(h2 < 0.0 ? 0.0 : h2);
  const double limit = steepest_slope * h;
  const double slope = std::abs(d) <= limit ? -sign * d / h : std::copysign(steepest_slope, -sign * d);
  // curvature of a circle is -+1/r everywhere; written as second derivative so that additions can be laid over it
  const double s2 = 1.0 + slope * slope;
  return {p.c[1] + sign * h, std::isnan(y) ? y : slope, -sign / r * s2 * std::sqrt(s2)};
}

void add(Jet& jet, const Bump& b, double y) {
  const double u = 2.0 * (y - b.centre) / b.width, q = 1.0 - u * u;
  if (!(q > 0.0)) {
    return;
  }
  jet.value -= b.depth * q * q * q;
  jet.slope += 12.0 * b.depth / b.width * u * q * q;
  jet.second += 24.0 * b.depth / (b.width * b.width) * q * (1.0 - 5.0 * u * u);
}

} // namespace

Curve::Curve(std::vector<Piece> pieces, std::vector<Bump> bumps)
    : pieces_(std::move(pieces)), bumps_(std::move(bumps)) {
  if (pieces_.empty()) {
    throw InputError("a curve has no pieces; give at least one.");
  }
  for (std::size_t k = 0; k < pieces_.size(); ++k) {
    Piece& p = pieces_[k];
    check(p, k);
    if (k > 0) {
      if (std::abs(p.from - pieces_[k - 1].to) > joint_gap) {
        throw InputError(name_of(k), "start at " + number(p.from) + " m",
                         "the end of the piece before, " + number(pieces_[k - 1].to) + " m",
                         "Give the pieces in the order of y without gaps.");
      }
      p.from = pieces_[k - 1].to;
    }
    p.degree = 0;
    if (p.kind == Piece::Kind::polynomial) {
      for (int n = 0; n < static_cast<int>(p.c.size()); ++n) {
        if (p.c[static_cast<std::size_t>(n)] != 0.0) {
          p.degree = n;
        }
      }
    }
  }
  for (const Bump& b : bumps_) {
    check(b);
  }

  front_ = pieces_.front().from;
  back_ = pieces_.back().to;
  const std::size_t cells = std::clamp<std::size_t>(4 * pieces_.size(), 64, 8192);
  cells_per_m_ = static_cast<double>(cells) / (back_ - front_);
  first_piece_.assign(cells + 2, static_cast<std::uint32_t>(pieces_.size() - 1));
  std::size_t k = 0;
  for (std::size_t cell = 0; cell < first_piece_.size(); ++cell) {
    // a hair before the cell's edge: rounding in locate() must never start behind the piece that holds y
    const double edge = front_ + (static_cast<double>(cell) - 1e-6) / cells_per_m_;
    while (k + 1 < pieces_.size() && edge >= pieces_[k + 1].from) {
      ++k;
    }
    first_piece_[cell] = static_cast<std::uint32_t>(k);
  }
}

CurvePoint Curve::at(double y) const {
  if (pieces_.empty()) {
    return {front_, front_, front_};
  }
  y = y < front_ ? front_ : (y > back_ ? back_ : y);
  const Piece& p = pieces_[locate(y)];
  Jet jet = p.kind == Piece::Kind::polynomial ? polynomial(p, y) : arc(p, y);
  for (const Bump& b : bumps_) {
    add(jet, b, y);
  }
  const double s2 = 1.0 + jet.slope * jet.slope;
  const double curvature = jet.second / (s2 * std::sqrt(s2));
  const double slope = jet.slope < -steepest_slope  ? -steepest_slope
                       : jet.slope > steepest_slope ? steepest_slope
                                                    : jet.slope;
  return {jet.value, slope, curvature};
}

Curve Curve::with(Bump bump) const {
  std::vector<Bump> bumps = bumps_;
  bumps.push_back(bump);
  return Curve(pieces_, std::move(bumps));
}

} // namespace wingnose::profile
