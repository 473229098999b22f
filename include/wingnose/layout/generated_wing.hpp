// Wing rail of a generated crossing: plain rail up to the knuckle, then running out at 1:N beside the flangeway.
//
// In plan the running line is y = gauge/2 before the knuckle and gauge/2 + flangeway + x/N behind it, the knuckle a
// circular arc (as a parabola, exact to 1/N^2). The head is a rail head throughout, whose gauge point (14 mm below its
// top) lies on that line, or crowned like a rail on the run-in and machined flat (with a cross slope) where the edge
// has run out; one rounded edge, on the line. Frame and units: wingnose/words/frame.hpp.
#pragma once

#include "wingnose/layout/rounding.hpp"
#include "wingnose/layout/surface_point.hpp"
#include "wingnose/profile/curve.hpp"

#include <algorithm>
#include <optional>
#include <vector>

namespace wingnose::layout {

class GeneratedWing {
public:
  explicit GeneratedWing(const CrossingShape& shape); // shape as validated by generate()

  [[nodiscard]] double x_begin() const { return begin_; }
  [[nodiscard]] double x_end() const { return end_; }
  [[nodiscard]] double edge(double x) const { return line(x) - gauge_point_; }
  [[nodiscard]] double width(double) const { return width_; }
  [[nodiscard]] double side() const { return 1.0; }
  [[nodiscard]] double height(double x, double eta) const { return slice(x).height(eta); }
  [[nodiscard]] SurfacePoint at(double x, double eta) const { return slice(x).at(eta); }
  [[nodiscard]] std::vector<double> kinks() const;

  class Slice {
  public:
    Slice(const GeneratedWing& wing, double x)
        : edge(wing.edge(x)), width(wing.width_), wing_(&wing), lift_(wing.lift(x)), modifiers_(wing.modifiers_, x) {
      const double crowned = wing.crowned(edge + wing.gauge_point_);
      bend_ = crowned * wing.crown_curvature_;
      cross_slope_ = (1.0 - crowned) * wing.cross_slope_;
      edge_radius_ = wing.edge_radius_ + crowned * (wing.run_in_edge_radius_ - wing.edge_radius_);
    }
    [[nodiscard]] double height(double eta) const {
      const double e = std::clamp(eta, 0.0, width), c = e - wing_->crown_place_;
      const double z = lift_ + (wing_->head_ ? wing_->head_->value(wing_->head_->front() + e) - wing_->head_top_
                                             : cross_slope_ * e - 0.5 * bend_ * c * c - edge_drop(e, edge_radius_));
      return modifiers_.empty() ? z : z + modifiers_.add(e).value;
    }
    [[nodiscard]] SurfacePoint at(double eta) const;
    double edge, width; // m

  private:
    const GeneratedWing* wing_;
    double lift_, bend_, cross_slope_, edge_radius_;
    ModifierSlice modifiers_;
  };
  [[nodiscard]] Slice slice(double x) const { return {*this, std::clamp(x, begin_, end_)}; }

private:
  [[nodiscard]] double line(double x) const; // m, across
  [[nodiscard]] double lift(double x) const;
  // Share of the run-in crown left where the running line lies at y: 1 on plain rail, 0 on the flat head.
  [[nodiscard]] double crowned(double line) const;

  double begin_, end_, gauge_, rate_, knuckle_, tangent_; // tangent_: half length of the knuckle arc along x
  double width_, edge_radius_, run_in_edge_radius_, cross_slope_;
  double crown_curvature_, crown_place_, flat_offset_;
  double lift_, lift_begin_, lift_run_;
  std::optional<profile::Curve> head_;
  double head_top_ = 0.0, gauge_point_ = 0.0; // gauge_point_: m, across the head from its edge
  std::vector<Modifier> modifiers_;
};

} // namespace wingnose::layout
