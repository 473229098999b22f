// Search and strips against finer columns: the error falls as the columns do.
#include "catch.hpp"

#include "wingnose/contact/normal_law.hpp"
#include "wingnose/contact/patch_search.hpp"
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
  gap_line(WheelTable(profile::cone(1e-9), 0.46, spacing), BodyTable(rail, spacing),
           {.lateral = 0.5 * standard_gauge + 0.036 + share * spacing}, line);
  return line;
}

} // namespace

TEST_CASE("The touching height between columns converges to the surface at least with the second order") {
  // The arc's top is z = 0.
  std::vector<double> error;
  for (const double spacing : {1e-3, 0.5e-3, 0.25e-3}) {
    double worst = 0.0;
    for (const double share : {0.0, 0.15, 0.3, 0.45, 0.6, 0.75, 0.9}) {
      worst = std::max(worst, std::abs(round_rail(spacing, share).level));
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
