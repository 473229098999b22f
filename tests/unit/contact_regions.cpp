// Regions of overlap and their means over the penetration: what a wheel that moves sideways needs to meet the rail
// without jumps.
#include "catch.hpp"

#include "wingnose/contact/search/look.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <utility>
#include <vector>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

// A gap given as a function of y over 100 mm of columns, on a wheel of 0.46 m whose slope is given too.
GapLine gap_of(const std::function<double(double)>& gap, const std::function<double(double)>& slope) {
  GapLine line;
  line.count = 401;
  line.spacing = column_spacing;
  line.first_y = -200.3 * column_spacing;
  line.wheel_first = line.first_y + 0.010;
  for (int i = 0; i < line.count; ++i) {
    const auto k = static_cast<std::size_t>(i);
    line.gap[k] = gap(line.y(i));
    line.dx[k] = 0.001 + 0.1 * line.y(i);
    line.slope[k] = slope(line.y(i));
    line.curvature_x[k] = 1.0 / 0.46;
    line.radius[k] = 0.46 + 0.05 * line.y(i);
  }
  line.level = 0.0;
  return line;
}

layout::Body rail_60e1() { return layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0))); }

// Penetration-weighted mean over a region of the slope of the gap, which is that of the body less that of the wheel.
double mean_gap_slope(const GapLine& line, double height, const Region& r) {
  double sum = 0.0, weight = 0.0;
  for (int i = 1; i + 1 < line.count; ++i) {
    const auto k = static_cast<std::size_t>(i);
    const double p = -(height + line.gap[k]);
    if (p > 0.0 && line.y(i) > r.from && line.y(i) < r.to) {
      sum += p * (line.gap[k + 1] - line.gap[k - 1]) / (2.0 * line.spacing);
      weight += p;
    }
  }
  return sum / weight;
}

} // namespace

TEST_CASE(
    "In a parabolic gap the half width of a region is that of the overlap, and the means are those of the middle") {
  const double curvature = 4.0, depth = 80e-6, middle = 0.0021;
  const auto line = gap_of([&](double y) { return 0.5 * curvature * (y - middle) * (y - middle); },
                           [](double y) { return 0.02 + 3.0 * y; });
  const Regions found = find_regions(line, -depth);
  REQUIRE(found.count == 1);
  const Region& r = found.region[0];
  const double half = std::sqrt(2.0 * depth / curvature);
  CHECK(r.half_width == Approx(half).epsilon(1e-3)); // columns a quarter of a millimetre apart, 25 of them in contact
  CHECK(r.to - r.from == Approx(2.0 * half).epsilon(2e-3));
  CHECK(r.penetration == Approx(depth).epsilon(1e-9));
  CHECK(r.area == Approx(4.0 / 3.0 * depth * half).epsilon(1e-3));
  CHECK(r.y == Approx(middle).margin(1e-6));
  CHECK(r.wheel_y == Approx(middle + 0.010).margin(1e-6));
  CHECK(r.dx == Approx(0.001 + 0.1 * middle).margin(1e-7));
  CHECK(r.slope == Approx(0.02 + 3.0 * middle).margin(1e-5));
  CHECK(r.radius == Approx(0.46 + 0.05 * middle).margin(1e-7));
  CHECK(r.A == Approx(0.5 * std::cos(std::atan(r.slope)) / r.radius).epsilon(1e-9));
}

TEST_CASE("A saddle parts two regions where it is shallow, or where the contact angles on both sides differ") {
  // Two dips of 100 and 80 um, 12 mm apart; the saddle between them at a share of the smaller.
  const auto dips = [](double share) {
    return [share](double y) {
      const double u = y / 0.006; // dips at u = -1, 1
      const double well = (1.0 - u * u) * (1.0 - u * u) * 80e-6 * (1.0 - share);
      return std::abs(u) < 2.0 ? -100e-6 + 10e-6 * (u + 1.0) + well : 1e-3;
    };
  };
  const auto level = [](double) { return 0.05; };
  const auto turning = [](double y) { return 0.05 + 20.0 * y; }; // 0.24 rad over 12 mm
  CHECK(find_regions(gap_of(dips(0.8), level), 0.0).count == 1);
  CHECK(find_regions(gap_of(dips(0.3), level), 0.0).count == 2);
  CHECK(find_regions(gap_of(dips(0.8), turning), 0.0).count == 2);
  // Nothing of the overlap is lost or counted twice.
  const auto line = gap_of(dips(0.3), level);
  const Regions parted = find_regions(line, 0.0);
  CHECK(parted.region[0].to == parted.region[1].from);
  double sum = 0.0;
  for (int i = 0; i < line.count; ++i) {
    sum += std::max(0.0, -line.gap[static_cast<std::size_t>(i)]) * line.spacing;
  }
  CHECK(parted.region[0].area + parted.region[1].area == Approx(sum).epsilon(2e-3));
  CHECK(parted.region[0].y < 0.0);
  CHECK(parted.region[1].y > 0.0);
}

TEST_CASE("The weighted slopes of wheel and rail are one number, so that the mean normal passes through the axle") {
  const WheelSurface wheel(profile::s1002(), 0.46);
  const layout::Body rail = rail_60e1();
  GapLine line;
  int closed = 0;
  for (const double shift : {-0.004, -0.0005, 0.0, 0.001, 0.003, 0.0055}) {
    look(wheel, rail, {.lateral = taping_line_y + shift}, line);
    const double height = line.level - 100e-6;
    const Regions found = find_regions(line, height);
    REQUIRE(found.count >= 1);
    for (int k = 0; k < found.count; ++k) {
      const Region& r = found.region[static_cast<std::size_t>(k)];
      // Parted from a neighbour at a saddle, a region is not closed there.
      const bool parted = (k > 0 && found.region[static_cast<std::size_t>(k) - 1].to == r.from) ||
                          (k + 1 < found.count && found.region[static_cast<std::size_t>(k) + 1].from == r.to);
      CAPTURE(shift, r.y, r.slope, r.half_width);
      CHECK(std::abs(mean_gap_slope(line, height, r)) < (parted ? 2e-3 : 3e-4)); // columns 0.25 mm apart
      closed += parted ? 0 : 1;
    }
  }
  CHECK(closed >= 5);
}

TEST_CASE("Means move smoothly while a wheel is shifted over a rail, where the deepest point jumps by millimetres") {
  const WheelSurface wheel(profile::s1002(), 0.46);
  const layout::Body rail = rail_60e1();
  const auto mean_place = [](const Regions& found) { // over all regions, by their overlap
    double sum = 0.0, weight = 0.0;
    for (const Region& r : found.list()) {
      sum += r.area * r.y;
      weight += r.area;
    }
    return sum / weight;
  };
  GapLine line;
  double deepest_before = 0.0, mean_before = 0.0, largest_jump = 0.0, largest_move = 0.0;
  for (int i = 0; i <= 600; ++i) {
    const double shift = -0.003 + 1e-5 * i;
    look_near(wheel, rail, {.lateral = taping_line_y + shift}, 0.0, line);
    const double deepest = line.y(line.top), mean = mean_place(find_regions(line, line.level - 70e-6));
    if (i > 0) {
      largest_jump = std::max(largest_jump, std::abs(deepest - deepest_before));
      largest_move = std::max(largest_move, std::abs(mean - mean_before));
    }
    deepest_before = deepest;
    mean_before = mean;
  }
  CAPTURE(largest_jump, largest_move);
  CHECK(largest_jump > 3e-3);
  CHECK(largest_move < 0.3e-3);
}

TEST_CASE("A look from above the rail sees the gap and no region, from below the touch the regions it closes") {
  const WheelSurface wheel(profile::s1002(), 0.46);
  Look found;
  look(wheel, rail_60e1(), {.lateral = taping_line_y}, found);
  CHECK(found.gap.count > 0);
  CHECK(found.patches.count == 0);
  CHECK(found.regions.count == 0);
  look(wheel, rail_60e1(), {.lateral = taping_line_y, .height = found.gap.level - 80e-6}, found);
  REQUIRE(found.regions.count == 1);
  REQUIRE(found.patches.count == 1);
  CHECK(found.regions.region[0].penetration == Approx(80e-6).epsilon(1e-3));
  CHECK(found.regions.region[0].from == Approx(found.patches.patch[0].from).margin(1e-9));
}
