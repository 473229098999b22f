// A crossing body lofted through sections: across, every section is resampled at as many points that belong together
// from station to station (see sections.hpp); along, edge position and each of those points follow a shape-preserving
// (monotone) C1 cubic.
//
// Interpolating along the body instead of at fixed y keeps slopes true on bodies that run out at 1:N, and makes the
// result independent of how many points a section was measured with. Frame and units: wingnose/words/frame.hpp.
#pragma once

#include "wingnose/layout/sections.hpp"
#include "wingnose/layout/surface_point.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <memory>
#include <vector>

namespace wingnose::layout {

class LoftedBody {
public:
  static constexpr std::size_t points = 257; // resampled points per section
  // One resampled section: at t = j / (points - 1) the point (eta, z) and its derivatives with respect to t.
  struct Curve {
    std::array<double, points> eta, z, eta_t, z_t;
  };

  // Strictly increasing stations (m, at least 2), y of the running edge and the resampled section at each of them;
  // eta starts at 0 and does not decrease; a point may be there twice in a row, with the derivative of either side.
  // Built by from_sections().
  LoftedBody(std::vector<double> stations, std::vector<double> edges, std::vector<Curve> curves);

  [[nodiscard]] double x_begin() const { return loft_->station.front(); }
  [[nodiscard]] double x_end() const { return loft_->station.back(); }
  [[nodiscard]] double edge(double x) const;
  [[nodiscard]] double width(double x) const;
  [[nodiscard]] double side() const { return 1.0; }
  [[nodiscard]] double height(double x, double eta) const { return slice(x).height(eta); }
  [[nodiscard]] SurfacePoint at(double x, double eta) const { return slice(x).at(eta); }
  [[nodiscard]] std::vector<double> kinks() const { return {loft_->station.front(), loft_->station.back()}; }

  class Slice {
  public:
    Slice(const LoftedBody& body, double x);
    [[nodiscard]] double height(double eta) const;
    [[nodiscard]] SurfacePoint at(double eta) const;
    double edge, width; // m

  private:
    struct Place {
      std::size_t j;
      double u; // 0 .. 1 between points j and j + 1
    };
    [[nodiscard]] Place locate(double eta) const;
    Curve curve_;
  };
  [[nodiscard]] Slice slice(double x) const { return {*this, std::clamp(x, x_begin(), x_end())}; }

private:
  // Cubic Hermite weights at x: interval and factors of value, slope, next value, next slope.
  struct Blend {
    std::size_t i;
    double h00, h10, h01, h11;
  };
  [[nodiscard]] Blend blend(double x) const;

  // Per station: values, and their slopes in x. Shared by copies, so that a body is cheap to copy.
  struct Loft {
    std::vector<double> station, edge, edge_slope;
    std::vector<Curve> curve, curve_slope;
  };
  std::shared_ptr<const Loft> loft_;
};

} // namespace wingnose::layout
