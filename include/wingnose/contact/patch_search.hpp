// Search for contact between a wheel and one body in three dimensions, fast enough to be made at every instant.
//
// Wheel and body are tabulated once on columns of equal spacing across; a body's rows follow its running edge, so that
// run-outs at 1:N keep their slopes. A search blends four rows (cubic in x), shifts them under the wheel (cubic in y)
// and lays the wheel's circle over the parabola through three stations around the axle: the rolling envelope. Yaw
// turns the circle: the touching point of an inclined contact moves ahead by R yaw tan(angle).
// Curvatures are tabulated from the fitted surfaces, never from differences of heights across.
// Frame: wingnose/words/frame.hpp; SI.
#pragma once

#include "wingnose/contact/patches.hpp"
#include "wingnose/layout/surface.hpp"
#include "wingnose/profile/rail.hpp"
#include "wingnose/profile/wheel.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::contact {

inline constexpr double column_spacing = 0.00025; // m, a patch on a 5 mm edge is six columns wide
inline constexpr double row_spacing = 0.005;      // m, along the track

class WheelTable {
public:
  // Throws InputError when the radius (m) is not within 0.15 to 1.0 m.
  WheelTable(const profile::WheelProfile& wheel, double radius, double spacing = column_spacing);

  [[nodiscard]] double radius() const { return radius_; }   // m, at the taping line
  [[nodiscard]] double front() const { return front_; }     // m, first column from the taping line
  [[nodiscard]] double spacing() const { return spacing_; } // m
  [[nodiscard]] const std::vector<double>& height() const { return height_; }
  [[nodiscard]] const std::vector<double>& slope() const { return slope_; }         // -, d height / dy
  [[nodiscard]] const std::vector<double>& curvature() const { return curvature_; } // 1/m, + = bends upward
  [[nodiscard]] const std::vector<double>& second() const { return second_; }       // 1/m, second derivative of height
  [[nodiscard]] const std::vector<double>& cosine() const { return cosine_; }       // -, of the slope
  [[nodiscard]] const std::vector<double>& circle_curvature() const { return circle_; } // 1/m, of the circle there

private:
  double radius_, front_, spacing_;
  std::vector<double> height_, slope_, curvature_, second_, cosine_, circle_;
};

class BodyTable {
public:
  // Stations [from, to] (m) and as far beyond as a wheel reaches. A body that ends there is met at its end. Throws
  // InputError when the stretch is empty or the body does not reach into it.
  BodyTable(const layout::Body& body, double from, double to, double spacing = column_spacing,
            double row = row_spacing);
  // Plain rail, the same at every station: its gauge point (14 mm below the top) at y = gauge / 2.
  explicit BodyTable(const profile::RailHead& rail, double spacing = column_spacing);

  [[nodiscard]] const std::string& name() const { return name_; }
  [[nodiscard]] double spacing() const { return spacing_; }
  [[nodiscard]] bool uniform() const { return rows_ == 1; }
  [[nodiscard]] double x_begin() const { return begin_; } // m
  [[nodiscard]] double x_end() const { return begin_ + row_ * static_cast<double>(rows_ - 1); }

  // Heights at station x under the columns y0, y0 + spacing, ... (m) written to z; outside the metal -infinity. For
  // columns [from, to) only.
  struct Place {
    double offset; // columns from the running edge to y0
    double width;  // m, metal at this station
    std::size_t row;
    std::array<double, 4> weight; // of rows row .. row + 3
  };
  [[nodiscard]] Place place(double x, double y0) const;
  void heights(const Place& place, int from, int to, double* z) const;
  // Lateral curvature of the body (1/m, signed as in SurfacePoint) at one column.
  [[nodiscard]] double curvature(const Place& place, int column) const;

private:
  void fill(std::size_t row, const auto& slice);
  std::string name_;
  double begin_ = 0.0, row_ = 1.0, spacing_;
  std::size_t rows_ = 1, columns_ = 0; // columns_: per row, with a margin of two on both sides
  std::vector<double> edge_, width_;   // m, per row
  std::vector<double> z_, curvature_;  // [row][column]
};

// The bodies of a crossing under axle stations from .. to (m), in its order; nullopt where a body does not reach there.
[[nodiscard]] std::vector<std::optional<BodyTable>> tables_along(const layout::Crossing& crossing, double from,
                                                                 double to);

// Fills `line`. The table of the body has to have the wheel's spacing. Throws InputError on a place that is not finite
// or an angle beyond 0.1 rad. A station beyond the body's table gives no columns.
void gap_line(const WheelTable& wheel, const BodyTable& body, const WheelPlace& place, GapLine& line);

} // namespace wingnose::contact
