#include "strips_shape.hpp"

#include "wingnose/contact/normal/hertz.hpp"

#include <cmath>
#include <numbers>
#include <vector>

namespace wingnose::contact {
namespace {

// Hertz's coefficients over ln(B / A) of both signs: every quantity smooth, so four neighbours give 1e-8.
class ShapeTable {
public:
  struct Shape {
    double share;  // penetration over approach
    double length; // (semi-axis along x)^2 (A + B) / approach
    double r;      // coefficient of the approach
  };
  ShapeTable() {
    for (int i = -1; i < cells + 2; ++i) {
      const double ratio = std::exp(-largest + i * spacing);
      const HertzShape s = hertz_shape(1.0, ratio);
      const double along = ratio >= 1.0 ? s.m : s.n, across = ratio >= 1.0 ? s.n : s.m;
      share_.push_back(ratio * across * across / (s.r * (1.0 + ratio)));
      length_.push_back(along * along / s.r);
      r_.push_back(s.r);
    }
  }
  [[nodiscard]] Shape at(double ratio) const {
    const double u = std::clamp((std::log(ratio) + largest) / spacing, 0.0, cells - 1e-9);
    const auto i = static_cast<std::size_t>(u);
    const double t = u - static_cast<double>(i);
    const double a = -t * (t - 1.0) * (t - 2.0) / 6.0, b = (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0,
                 c = -(t + 1.0) * t * (t - 2.0) / 2.0, d = (t + 1.0) * t * (t - 1.0) / 6.0;
    const auto read = [&](const std::vector<double>& v) {
      return a * v[i] + b * v[i + 1] + c * v[i + 2] + d * v[i + 3];
    };
    return {read(share_), read(length_), read(r_)};
  }

private:
  static constexpr double spacing = 1.0 / 32.0, largest = 12.0;
  static constexpr int cells = 768; // 2 * largest / spacing
  std::vector<double> share_, length_, r_;
};

const ShapeTable& shapes() {
  static const ShapeTable table; // values of a formula, the same for every contact
  return table;
}

// Averages over what a depth closes: curvature along the track, and the slope of the middle line dx(t).
struct Averages {
  double curvature_x, skew;
};
Averages averages(const Overlap& o, double share) {
  double w = 0.0, k = 0.0, t = 0.0, x = 0.0, tt = 0.0, tx = 0.0;
  for (int i = 0; i < o.count; ++i) {
    const double p = std::max(0.0, o.laid(i, share)), u = o.t[i] - o.t[0];
    w += p;
    k += p * o.curvature_x[i];
    t += p * u;
    x += p * o.dx[i];
    tt += p * u * u;
    tx += p * u * o.dx[i];
  }
  const double spread = tt - t * t / w;
  return {k / w, spread > 0.0 ? (tx - t * x / w) / spread : 0.0};
}

// C / E* of F = C approach^1.5 (Johnson 1985 ch. 4 in handbook coefficients, as in hertz.cpp).
double stiffness(double A, double B) { return 4.0 / 3.0 / (std::pow(shapes().at(B / A).r, 1.5) * std::sqrt(A + B)); }

// The parabola B t^2 that encloses the same area as the overlap at this depth h = share approach: S = (4/3) h sqrt(h /
// B).
double equal_area(const Overlap& o, double share) {
  const double S = o.closed_area(share), depth = share * o.approach;
  return 16.0 * depth * depth * depth / (9.0 * S * S);
}

// On an edge that runs askew to the track the gap is A x'^2 + B t^2 with x' = x - s t. Its principal curvatures have
// the same product, A B, and a larger sum: A (1 + s^2) + B.
double skew_factor(double A, double B, double s) {
  const double sum = A * (1.0 + s * s) + B;
  const double difference = std::sqrt(std::max(0.0, sum * sum - 4.0 * A * B));
  return s * s < 1e-8 ? 1.0 : stiffness(0.5 * (sum - difference), 0.5 * (sum + difference)) / stiffness(A, B);
}

EquivalentEllipse ellipse(double A, double B, double slope) {
  const ShapeTable::Shape s = shapes().at(B / A);
  EquivalentEllipse e{};
  e.A = A;
  e.B = B;
  e.share = s.share;
  e.A_strip = s.share * (A + B) / s.length;
  e.stiffness = stiffness(A, B);
  // F = (pi / 2) slope (overlap of the parabola) / A_strip.
  e.slope = e.stiffness * e.A_strip * std::sqrt(B) * 1.5 / (std::numbers::pi * s.share * std::sqrt(s.share));
  e.skew = skew_factor(A, B, slope);
  return e;
}

// Deepest overlap nearby: the largest within `reach`, and beyond it less `fall` for every metre.
void look_nearby(Overlap& o) {
  constexpr double reach = 0.0125;          // m, a patch of a wheel is up to about this wide
  constexpr double fall = 0.010;            // m/m: patches 2 cm apart stand alone under the approach of a usual load
  std::array<int, Overlap::capacity> queue; // nodes of falling overlap within reach
  for (const bool forward : {true, false}) {
    const auto at = [&](int i) { return static_cast<std::size_t>(forward ? i : o.count - 1 - i); };
    int first = 0, last = 0; // queue is [first, last)
    for (int i = 0; i < o.count; ++i) {
      while (last > first && o.separation[at(queue[last - 1])] <= o.separation[at(i)]) {
        --last;
      }
      queue[last++] = i;
      while (std::abs(o.t[at(queue[first])] - o.t[at(i)]) > reach) {
        ++first;
      }
      const double most = o.separation[at(queue[first])];
      o.nearby[at(i)] = forward ? most : std::max(o.nearby[at(i)], most);
    }
  }
  for (int i = 1; i < o.count; ++i) {
    o.nearby[i] = std::max(o.nearby[i], o.nearby[i - 1] - fall * (o.t[i] - o.t[i - 1]));
  }
  for (int i = o.count - 2; i >= 0; --i) {
    o.nearby[i] = std::max(o.nearby[i], o.nearby[i + 1] - fall * (o.t[i + 1] - o.t[i]));
  }
  // Near the deepest point of all, the touching point between two columns counts.
  const auto deepest = std::max_element(o.separation.begin(), o.separation.begin() + o.count);
  const double between = o.approach - *deepest;
  for (int i = 0; i < o.count; ++i) {
    o.nearby[i] += between * std::clamp(o.nearby[i] / o.approach, 0.0, 1.0);
  }
}

} // namespace

bool lay(const GapLine& line, double depth, bool apart, Overlap& o) {
  o.count = 0;
  if (line.count < 3) {
    return false;
  }
  const double height = line.level - depth; // of the wheel
  double along = 0.0, deepest = 0.0;
  const auto node = [&](double y, double overlap, double slope, double dx, double curvature) {
    const double cosine = 1.0 / std::sqrt(1.0 + slope * slope);
    const auto n = static_cast<std::size_t>(o.count++);
    along += n > 0 ? (y - o.y[n - 1]) / cosine : 0.0;
    o.t[n] = along;
    o.y[n] = y;
    o.separation[n] = overlap * cosine; // turned into a separation below
    o.dx[n] = dx;
    o.curvature_x[n] = curvature;
    o.cosine[n] = cosine;
    deepest = std::max(deepest, o.separation[n]);
  };
  // Columns that overlap and one beyond; halfway between two columns a cubic through four.
  for (int i = 0; i < line.count; ++i) {
    const bool here = height + line.gap[i] < 0.0;
    const bool near =
        here || (i > 0 && height + line.gap[i - 1] < 0.0) || (i + 1 < line.count && height + line.gap[i + 1] < 0.0);
    if (!near || o.count + 2 > static_cast<int>(Overlap::capacity)) {
      continue;
    }
    node(line.y(i), -(height + line.gap[i]), line.slope[i], line.dx[i], line.curvature_x[i]);
    if (i + 1 < line.count) {
      const double a = line.gap[i > 0 ? i - 1 : 0], b = line.gap[i], c = line.gap[i + 1],
                   d = line.gap[i + 2 < line.count ? i + 2 : i + 1];
      node(line.y(i + 0.5), -(height + 0.0625 * (9.0 * (b + c) - a - d)), 0.5 * (line.slope[i] + line.slope[i + 1]),
           0.5 * (line.dx[i] + line.dx[i + 1]), 0.5 * (line.curvature_x[i] + line.curvature_x[i + 1]));
    }
  }
  o.approach = std::max(deepest, depth / std::sqrt(1.0 + line.slope[line.top] * line.slope[line.top]));
  std::fill_n(o.nearby.begin(), o.count, o.approach);
  if (apart) {
    look_nearby(o);
  }
  for (int i = 0; i < o.count; ++i) {
    o.separation[i] = o.nearby[i] - o.separation[i];
  }
  return o.count > 1;
}

EquivalentEllipse equivalent_ellipse_at(const Overlap& o, double depth) {
  const double share = std::min(1.0, depth / o.approach);
  const Averages mean = averages(o, share);
  return ellipse(0.5 * mean.curvature_x, equal_area(o, share), mean.skew);
}

EquivalentEllipse equivalent_ellipse(const Overlap& o) {
  // The share of the approach that is laid in depends on the shape it finds: both are settled together by the secant
  // method on share = Hertz's share(B(share) / A). B grows at most as the share does and Hertz's share much more slowly
  // than B, so there is one solution.
  const Averages mean = averages(o, 0.55);
  const double A = 0.5 * mean.curvature_x;
  const auto next = [&](double share) { return shapes().at(equal_area(o, share) / A).share; };
  double s0 = 0.5, f0 = next(s0) - s0, s1 = s0 + f0;
  for (int k = 0; k < 30; ++k) {
    const double f1 = next(s1) - s1;
    if (std::abs(f1) < 1e-10) {
      break;
    }
    const double slope = (f1 - f0) / (s1 - s0);
    const double step = slope < -0.1 ? -f1 / slope : f1;
    s0 = s1;
    f0 = f1;
    s1 = std::clamp(s1 + step, 0.05, 0.98);
  }
  return ellipse(A, equal_area(o, s1), mean.skew);
}

} // namespace wingnose::contact
