#include "wingnose/layout/lofted_body.hpp"

#include "monotone.hpp"

#include <cmath>
#include <utility>

namespace wingnose::layout {
namespace {

using Field = std::array<double, LoftedBody::points> LoftedBody::Curve::*;
constexpr std::array<Field, 4> fields{&LoftedBody::Curve::eta, &LoftedBody::Curve::z, &LoftedBody::Curve::eta_t,
                                      &LoftedBody::Curve::z_t};
constexpr double step_t = 1.0 / static_cast<double>(LoftedBody::points - 1);

// Cubic Hermite on [0, 1]: values a, b, end derivatives p, q (per unit u); value and two derivatives.
struct Cubic {
  double value, first, second;
};
Cubic cubic(double a, double p, double b, double q, double u) {
  const double c2 = 3.0 * (b - a) - 2.0 * p - q, c3 = 2.0 * (a - b) + p + q;
  return {a + u * (p + u * (c2 + u * c3)), p + u * (2.0 * c2 + 3.0 * u * c3), 2.0 * c2 + 6.0 * u * c3};
}

} // namespace

LoftedBody::LoftedBody(std::vector<double> stations, std::vector<double> edges, std::vector<Curve> curves) {
  Loft loft{std::move(stations), std::move(edges), {}, std::move(curves), {}};
  loft.edge_slope.resize(loft.edge.size());
  loft.curve_slope.resize(loft.curve.size());
  monotone_slopes(
      loft.station, [&](std::size_t i) { return loft.edge[i]; },
      [&](std::size_t i, double slope) { loft.edge_slope[i] = slope; });
  for (const Field field : fields) {
    for (std::size_t j = 0; j < points; ++j) {
      monotone_slopes(
          loft.station, [&](std::size_t i) { return (loft.curve[i].*field)[j]; },
          [&](std::size_t i, double slope) { (loft.curve_slope[i].*field)[j] = slope; });
    }
  }
  loft_ = std::make_shared<const Loft>(std::move(loft));
}

LoftedBody::Blend LoftedBody::blend(double x) const {
  const std::vector<double>& station = loft_->station;
  const auto next = std::upper_bound(station.begin() + 1, station.end() - 1, x);
  const std::size_t i = static_cast<std::size_t>(next - station.begin()) - 1;
  const double h = station[i + 1] - station[i], u = std::clamp((x - station[i]) / h, 0.0, 1.0), v = 1.0 - u;
  return {i, (1.0 + 2.0 * u) * v * v, u * v * v * h, u * u * (3.0 - 2.0 * u), -u * u * v * h};
}

double LoftedBody::edge(double x) const {
  const Blend b = blend(x);
  const std::vector<double>&edge = loft_->edge, &slope = loft_->edge_slope;
  return b.h00 * edge[b.i] + b.h10 * slope[b.i] + b.h01 * edge[b.i + 1] + b.h11 * slope[b.i + 1];
}

double LoftedBody::width(double x) const {
  const Blend b = blend(x);
  const std::vector<Curve>&curve = loft_->curve, &slope = loft_->curve_slope;
  return b.h00 * curve[b.i].eta.back() + b.h10 * slope[b.i].eta.back() + b.h01 * curve[b.i + 1].eta.back() +
         b.h11 * slope[b.i + 1].eta.back();
}

LoftedBody::Slice::Slice(const LoftedBody& body, double x) : edge(body.edge(x)), width(body.width(x)) {
  const Blend b = body.blend(x);
  const Curve &c0 = body.loft_->curve[b.i], &c1 = body.loft_->curve[b.i + 1];
  const Curve &s0 = body.loft_->curve_slope[b.i], &s1 = body.loft_->curve_slope[b.i + 1];
  for (const Field field : fields) {
    for (std::size_t j = 0; j < points; ++j) {
      (curve_.*field)[j] =
          b.h00 * (c0.*field)[j] + b.h10 * (s0.*field)[j] + b.h01 * (c1.*field)[j] + b.h11 * (s1.*field)[j];
    }
  }
}

LoftedBody::Slice::Place LoftedBody::Slice::locate(double eta) const {
  const double e = std::clamp(eta, 0.0, width);
  // Points are nearly evenly spread across a running surface: start there and walk.
  std::size_t j = std::min(points - 2, static_cast<std::size_t>(e / width * static_cast<double>(points - 1)));
  while (j > 0 && curve_.eta[j] > e) {
    --j;
  }
  while (j < points - 2 && curve_.eta[j + 1] <= e) {
    ++j;
  }
  const double a = curve_.eta[j], b = curve_.eta[j + 1];
  const double p = curve_.eta_t[j] * step_t, q = curve_.eta_t[j + 1] * step_t;
  double low = 0.0, high = 1.0, u = b > a ? std::clamp((e - a) / (b - a), 0.0, 1.0) : 0.0;
  for (int k = 0; k < 40; ++k) {
    const Cubic c = cubic(a, p, b, q, u);
    const double miss = c.value - e;
    if (std::abs(miss) < 1e-14) {
      break;
    }
    (miss > 0.0 ? high : low) = u;
    const double newton = c.first > 0.0 ? u - miss / c.first : -1.0;
    u = newton > low && newton < high ? newton : 0.5 * (low + high);
  }
  return {j, u};
}

double LoftedBody::Slice::height(double eta) const {
  const Place p = locate(eta);
  return cubic(curve_.z[p.j], curve_.z_t[p.j] * step_t, curve_.z[p.j + 1], curve_.z_t[p.j + 1] * step_t, p.u).value;
}

SurfacePoint LoftedBody::Slice::at(double eta) const {
  const Place p = locate(eta);
  const Cubic y =
      cubic(curve_.eta[p.j], curve_.eta_t[p.j] * step_t, curve_.eta[p.j + 1], curve_.eta_t[p.j + 1] * step_t, p.u);
  const Cubic z = cubic(curve_.z[p.j], curve_.z_t[p.j] * step_t, curve_.z[p.j + 1], curve_.z_t[p.j + 1] * step_t, p.u);
  const double run = std::max(y.first, 1e-6 * std::hypot(y.first, z.first) + 1e-15); // the face may stand vertical
  const double slope = z.first / run;
  const double second = (z.second * run - z.first * y.second) / (run * run * run);
  return {z.value, slope, signed_curvature(slope, second)};
}

} // namespace wingnose::layout
