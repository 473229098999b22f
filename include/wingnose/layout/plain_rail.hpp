// Plain rail as a body: one head, the same at every station, its gauge point at half the standard gauge.
// Frame and units: wingnose/words/frame.hpp.
#pragma once

#include "wingnose/layout/surface_point.hpp"
#include "wingnose/profile/rail.hpp"

#include <limits>
#include <vector>

namespace wingnose::layout {

class PlainRail {
public:
  explicit PlainRail(const profile::RailHead& rail);

  [[nodiscard]] double x_begin() const { return -std::numeric_limits<double>::infinity(); }
  [[nodiscard]] double x_end() const { return std::numeric_limits<double>::infinity(); }
  [[nodiscard]] double edge(double) const { return edge_; }
  [[nodiscard]] double width(double) const { return width_; }
  [[nodiscard]] double side() const { return 1.0; }
  [[nodiscard]] double height(double x, double eta) const { return slice(x).height(eta); }
  [[nodiscard]] SurfacePoint at(double x, double eta) const { return slice(x).at(eta); }
  [[nodiscard]] std::vector<double> kinks() const { return {}; }

  class Slice {
  public:
    explicit Slice(const PlainRail& rail) : edge(rail.edge_), width(rail.width_), curve_(&rail.curve_) {}
    [[nodiscard]] double height(double eta) const { return curve_->value(curve_->front() + eta); }
    [[nodiscard]] SurfacePoint at(double eta) const {
      const profile::CurvePoint p = curve_->at(curve_->front() + eta);
      return {p.value, p.slope, p.curvature};
    }
    double edge, width; // m

  private:
    const profile::Curve* curve_;
  };
  [[nodiscard]] Slice slice(double) const { return Slice(*this); }

private:
  profile::Curve curve_;
  double edge_, width_; // m
};

} // namespace wingnose::layout
