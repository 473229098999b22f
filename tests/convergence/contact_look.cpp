// Search and strips against finer columns: the error falls as the columns do.
#include "catch.hpp"

#include "wingnose/contact/normal/normal_law.hpp"
#include "wingnose/contact/search/look.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

// A cylinder and a rail that is one arc of 80 mm, seen on columns of `spacing`, shifted by a share of a column.
GapLine round_rail(double spacing, double share) {
  constexpr double radius = 0.080;
  profile::RailHead rail;
  rail.name = "arc";
  rail.curve = profile::Curve({{-0.036, 0.036, profile::Piece::Kind::arc_upper, {0.0, -radius, radius}}});
  GapLine line;
  look(WheelSurface(profile::cone(1e-9), 0.46, spacing), layout::plain_rail(rail),
       {.lateral = 0.5 * standard_gauge + 0.036 + share * spacing}, line);
  return line;
}

} // namespace

TEST_CASE("The least gap between columns converges to the height of first touch at least with the second order") {
  // The arc's top is z = 0: the height of first touch itself is exact.
  const auto least_gap = [](const GapLine& line) {
    const auto k = static_cast<std::size_t>(line.top);
    const double rise = line.gap[k + 1] - line.gap[k - 1];
    return line.gap[k] - 0.125 * rise * rise / (line.gap[k - 1] - 2.0 * line.gap[k] + line.gap[k + 1]);
  };
  std::vector<double> error;
  for (const double spacing : {1e-3, 0.5e-3, 0.25e-3}) {
    double worst = 0.0;
    for (const double share : {0.0, 0.15, 0.3, 0.45, 0.6, 0.75, 0.9}) {
      const GapLine line = round_rail(spacing, share);
      CHECK(std::abs(line.level) < 1e-12);
      worst = std::max(worst, std::abs(least_gap(line)));
    }
    error.push_back(worst);
  }
  CAPTURE(error[0], error[1], error[2]);
  CHECK(error[1] < error[0] / 4.0);
  CHECK(error[2] < error[1] / 4.0);
  CHECK(error[2] < 1e-9);
}

TEST_CASE("The strips' approach converges to Hertz's with finer columns") {
  const double hertz = hertz_patch(100e3, 1.0 / 0.46, 1.0 / 0.080).approach;
  std::vector<double> error;
  for (const double spacing : {1e-3, 0.5e-3, 0.25e-3}) {
    double worst = 0.0;
    for (const double share : {0.0, 0.2, 0.4, 0.6, 0.8}) {
      const GapLine line = round_rail(spacing, share);
      worst = std::max(worst, std::abs(depth_for_force(Strips{}, line, 100e3) / hertz - 1.0));
    }
    error.push_back(worst);
  }
  CAPTURE(error[0], error[1], error[2]);
  CHECK(error[1] < 0.75 * error[0]);
  CHECK(error[2] < 0.75 * error[1]);
  CHECK(error[2] < 0.005);
}
