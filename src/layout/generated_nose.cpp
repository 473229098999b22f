#include "wingnose/layout/generated_nose.hpp"

namespace wingnose::layout {
namespace {

constexpr double shoulder_share = 0.95;  // of the half width a shoulder may take: a crown is left between the two
constexpr double shoulder_blend = 0.002; // m, softness of that limit
constexpr double head_blend = 0.004;     // m, softness of the limit of the crown to its place on the full head

} // namespace

GeneratedNose::GeneratedNose(const CrossingShape& shape)
    : begin_(shape.nose_point_thickness * shape.rate), end_(shape.nose_length),
      edge_(0.5 * shape.gauge + shape.nose_setback), rate_(shape.rate), setback_(shape.nose_setback),
      head_width_(shape.head_width), shoulder_radius_(shape.nose_shoulder_radius),
      crown_radius_(shape.nose_crown_radius), crown_place_(shape.crown_place - shape.nose_setback),
      depth_(shape.nose_start_depth), end_depth_(shape.nose_ramp_end_depth),
      ramp_begin_(shape.nose_ramp_start_thickness * shape.rate), ramp_end_(shape.nose_ramp_end_thickness * shape.rate),
      full_(shape.nose_full_thickness * shape.rate),
      rounding_(std::min({shape.nose_ramp_rounding, ramp_end_ - ramp_begin_, full_ - ramp_end_})) {
  std::copy_if(shape.modifiers.begin(), shape.modifiers.end(), std::back_inserter(modifiers_),
               [](const Modifier& m) { return m.body == "nose"; });
}

double GeneratedNose::top(double x) const {
  return -depth_ + rounded_ramp(x, ramp_begin_, ramp_end_, depth_ - end_depth_, rounding_) +
         rounded_ramp(x, ramp_end_, full_, end_depth_, rounding_);
}

std::vector<double> GeneratedNose::kinks() const {
  std::vector<double> k{begin_, end_};
  for (const double centre : {ramp_begin_, ramp_end_, full_}) {
    k.insert(k.end(), {centre - 0.5 * rounding_, centre, centre + 0.5 * rounding_});
  }
  for (const Modifier& m : modifiers_) {
    k.insert(k.end(), {m.station - 0.5 * m.length, m.station, m.station + 0.5 * m.length});
  }
  return k;
}

GeneratedNose::Slice::Slice(const GeneratedNose& nose, double x)
    : edge(nose.edge_), metal_(x / nose.rate_ - 2.0 * nose.setback_),
      shoulder_(smooth_min(nose.shoulder_radius_, 0.5 * shoulder_share * metal_, shoulder_blend)),
      crown_(smooth_min(0.5 * metal_, nose.crown_place_, head_blend)), crown_curvature_(1.0 / nose.crown_radius_),
      top_(nose.top(x)), modifiers_(nose.modifiers_, x) {
  width = std::min(metal_, nose.head_width_);
}

SurfacePoint GeneratedNose::Slice::at(double eta) const {
  const double e = std::clamp(eta, 0.0, width), c = e - crown_;
  const EdgeDrop near = edge_drop_at(e, shoulder_), far = edge_drop_at(metal_ - e, shoulder_);
  const Bell m = modifiers_.add(e);
  const double slope = -crown_curvature_ * c - near.slope + far.slope + m.first;
  const double second = -crown_curvature_ - near.second - far.second + m.second;
  return {top_ - 0.5 * crown_curvature_ * c * c - near.drop - far.drop + m.value, slope,
          signed_curvature(slope, second)};
}

} // namespace wingnose::layout
