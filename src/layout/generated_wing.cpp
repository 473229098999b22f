#include "wingnose/layout/generated_wing.hpp"

#include "wingnose/profile/rail.hpp"

namespace wingnose::layout {
namespace {

std::vector<Modifier> modifiers_of(const CrossingShape& shape, const char* body) {
  std::vector<Modifier> mine;
  std::copy_if(shape.modifiers.begin(), shape.modifiers.end(), std::back_inserter(mine),
               [body](const Modifier& m) { return m.body == body; });
  return mine;
}

double highest(const profile::Curve& curve) {
  double top = curve.value(curve.front());
  constexpr int samples = 2000; // a head is flat on top: 0.04 mm spacing finds it to better than 1e-9 m
  for (int i = 1; i <= samples; ++i) {
    top = std::max(top, curve.value(curve.front() + (curve.back() - curve.front()) * i / samples));
  }
  return top;
}

// Default: the wing ends where even the rim of a wheel has left it.
double wing_run(const CrossingShape& s) { return s.wing_run > 0.0 ? s.wing_run : (s.flangeway + 0.076) * s.rate; }

} // namespace

GeneratedWing::GeneratedWing(const CrossingShape& shape)
    : begin_(shape.wing_begin), end_(-shape.flangeway * shape.rate + wing_run(shape)), gauge_(shape.gauge),
      rate_(shape.rate), knuckle_(-shape.flangeway * shape.rate),
      tangent_(shape.wing_knuckle_radius / (2.0 * shape.rate)), width_(shape.head_width),
      edge_radius_(shape.wing_edge_radius), run_in_edge_radius_(shape.wing_run_in_edge_radius),
      cross_slope_(shape.wing_cross_slope),
      crown_curvature_(shape.wing_crown_radius > 0.0 ? 1.0 / shape.wing_crown_radius : 0.0),
      crown_place_(shape.crown_place), flat_offset_(shape.wing_flat_offset), lift_(shape.wing_lift),
      lift_begin_(shape.wing_lift_begin), lift_run_(shape.wing_lift_run), modifiers_(modifiers_of(shape, "wing")) {
  if (shape.wing_head != "flat") {
    const profile::RailHead head = profile::rail_head(shape.wing_head, shape.wing_inclination);
    gauge_point_ = profile::gauge_point(head) - head.curve.front();
    head_ = head.curve;
    head_top_ = highest(*head_);
    width_ = std::min(width_, head_->back() - head_->front());
  }
}

double GeneratedWing::line(double x) const {
  const double s = std::clamp(x, begin_, end_) - knuckle_;
  const double plain = 0.5 * gauge_;
  if (s <= -tangent_) {
    return plain;
  }
  if (s >= tangent_) {
    return plain + s / rate_;
  }
  return plain + (s + tangent_) * (s + tangent_) / (4.0 * tangent_ * rate_);
}

double GeneratedWing::lift(double x) const {
  // Rounded over a fifth of the run at each end, so that the lift itself is a straight ramp in between.
  return lift_ == 0.0 ? 0.0 : rounded_ramp(x, lift_begin_, lift_begin_ + lift_run_, lift_, 0.2 * lift_run_);
}

double GeneratedWing::crowned(double line) const {
  const double u = std::clamp((line - 0.5 * gauge_) / flat_offset_, 0.0, 1.0);
  return 1.0 - u * u * u * (10.0 + u * (6.0 * u - 15.0)); // C2 at both ends
}

std::vector<double> GeneratedWing::kinks() const {
  std::vector<double> k{begin_, knuckle_ - tangent_, knuckle_ + tangent_, end_};
  if (lift_ != 0.0) {
    k.insert(k.end(), {lift_begin_, lift_begin_ + lift_run_});
  }
  for (const Modifier& m : modifiers_) {
    k.insert(k.end(), {m.station - 0.5 * m.length, m.station, m.station + 0.5 * m.length});
  }
  return k;
}

SurfacePoint GeneratedWing::Slice::at(double eta) const {
  const double e = std::clamp(eta, 0.0, width);
  double z = lift_, slope = 0.0, second = 0.0;
  if (wing_->head_) {
    const profile::CurvePoint p = wing_->head_->at(wing_->head_->front() + e);
    const double g = 1.0 + p.slope * p.slope;
    z += p.value - wing_->head_top_;
    slope = p.slope;
    second = p.curvature * g * std::sqrt(g);
  } else {
    const EdgeDrop d = edge_drop_at(e, edge_radius_);
    const double c = e - wing_->crown_place_;
    z += cross_slope_ * e - 0.5 * bend_ * c * c - d.drop;
    slope = cross_slope_ - bend_ * c - d.slope;
    second = -bend_ - d.second;
  }
  const Bell m = modifiers_.add(e);
  slope += m.first;
  return {z + m.value, slope, signed_curvature(slope, second + m.second)};
}

} // namespace wingnose::layout
