// Nose (vee) of a generated crossing: metal between the two gauge lines, rising along a ramp to full height.
//
// The section is a crown between two rounded shoulders. While the nose is thin the shoulders shrink with it, so that
// they never overlap and the highest point stays on the ramp line z_top(x). Behind, where the nose is wider than a rail
// head, the crown stays over the head that carries the through route. Frame and units: wingnose/words/frame.hpp.
#pragma once

#include "wingnose/layout/rounding.hpp"
#include "wingnose/layout/surface_point.hpp"

#include <algorithm>
#include <vector>

namespace wingnose::layout {

class GeneratedNose {
public:
  explicit GeneratedNose(const CrossingShape& shape); // shape as validated by generate()

  [[nodiscard]] double x_begin() const { return begin_; }
  [[nodiscard]] double x_end() const { return end_; }
  [[nodiscard]] double edge(double) const { return edge_; }
  [[nodiscard]] double width(double x) const { return slice(x).width; }
  [[nodiscard]] double side() const { return 1.0; }
  [[nodiscard]] double height(double x, double eta) const { return slice(x).height(eta); }
  [[nodiscard]] SurfacePoint at(double x, double eta) const { return slice(x).at(eta); }
  [[nodiscard]] std::vector<double> kinks() const;
  // Highest point of the section before modifiers (m): the ramp line.
  [[nodiscard]] double top(double x) const;

  class Slice {
  public:
    Slice(const GeneratedNose& nose, double x);
    [[nodiscard]] double height(double eta) const {
      const double e = std::clamp(eta, 0.0, width), c = e - crown_;
      const double z =
          top_ - 0.5 * crown_curvature_ * c * c - edge_drop(e, shoulder_) - edge_drop(metal_ - e, shoulder_);
      return modifiers_.empty() ? z : z + modifiers_.add(e).value;
    }
    [[nodiscard]] SurfacePoint at(double eta) const;
    double edge, width; // m

  private:
    double metal_;    // m, distance between the two faces
    double shoulder_; // m, shoulder radius used here
    double crown_;    // m, eta of the crown
    double crown_curvature_, top_;
    ModifierSlice modifiers_;
  };
  [[nodiscard]] Slice slice(double x) const { return {*this, std::clamp(x, begin_, end_)}; }

private:
  double begin_, end_, edge_, rate_, setback_, head_width_;
  double shoulder_radius_, crown_radius_, crown_place_;
  double depth_, end_depth_, ramp_begin_, ramp_end_, full_, rounding_;
  std::vector<Modifier> modifiers_;
};

} // namespace wingnose::layout
