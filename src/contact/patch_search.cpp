#include "wingnose/contact/patch_search.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::contact {
namespace {

constexpr double reach = 0.060;            // m
constexpr double considered = 0.0006;      // m: columns that stay farther than this from touching first are left out
constexpr double flattest_share = 0.2;     // of the wheel's own curvature, where a hollow body nearly wraps it
constexpr double largest_angle = 0.1;      // rad, roll and yaw
constexpr double most_from_envelope = 0.5; // of `considered`: what the rolling envelope may add between columns

void check(const WheelTable& wheel, const BodyTable& body, const WheelPlace& place) {
  if (wheel.spacing() != body.spacing()) {
    throw InputError("column spacing of body \"" + body.name() + "\" (m)", number(body.spacing()),
                     number(wheel.spacing()) + " m as the wheel's", "Make both tables with one spacing.");
  }
  for (const auto& [name, angle] : {std::pair{"roll", place.roll}, std::pair{"yaw", place.yaw}}) {
    if (!(std::abs(angle) <= largest_angle)) {
      throw InputError(std::string(name) + " of the wheel (rad)", number(angle), "-0.1 to 0.1 rad",
                       "The search is for small angles.");
    }
  }
  for (const auto& [name, at] : {std::pair{"station", place.station}, std::pair{"lateral place", place.lateral}}) {
    if (!std::isfinite(at)) {
      throw InputError(std::string(name) + " of the wheel (m)", number(at), "finite values",
                       "Give the frame of wingnose/words/frame.hpp.");
    }
  }
}

// Columns over the metal at a station.
struct Range {
  int from, to;
};
Range over_metal(const BodyTable::Place& p, double spacing, int columns) {
  return {std::max(0, static_cast<int>(std::ceil(-p.offset - 1e-9))),
          std::min(columns, static_cast<int>(std::floor(p.width / spacing - p.offset + 1e-9)) + 1)};
}

} // namespace

void gap_line(const WheelTable& wheel, const BodyTable& body, const WheelPlace& at, GapLine& line) {
  check(wheel, body, at);
  line.count = 0;
  line.level = -std::numeric_limits<double>::infinity();
  line.spacing = wheel.spacing();
  const double y0 = at.lateral + wheel.front();
  // Three stations on the body, h apart, around the axle or next to it where the body ends.
  constexpr double h = row_spacing;
  const double centre =
      body.uniform() ? at.station
                     : std::clamp(at.station, body.x_begin() + h, std::max(body.x_begin() + h, body.x_end() - h));
  const double ahead = centre - at.station; // of the axle
  if (std::abs(ahead) > reach) {
    return;
  }
  const int columns = static_cast<int>(std::min(wheel.height().size(), GapLine::capacity));
  const BodyTable::Place here = body.place(centre, y0);
  Range range = over_metal(here, line.spacing, columns);
  std::array<BodyTable::Place, 2> beside{here, here};
  if (!body.uniform()) {
    beside = {body.place(centre - h, y0), body.place(centre + h, y0)};
    for (const BodyTable::Place& p : beside) {
      const Range r = over_metal(p, line.spacing, columns);
      range = {std::max(range.from, r.from), std::min(range.to, r.to)};
    }
  }
  if (range.to - range.from < 3) {
    return;
  }

  // Heights at the middle station and the gap without the envelope.
  std::array<double, GapLine::capacity> z, before, after;
  const double* height = wheel.height().data();
  const double* slope = wheel.slope().data();
  const double front = wheel.front(), spacing = line.spacing, roll = at.roll, yaw = at.yaw;
  body.heights(here, range.from, range.to, z.data());
  double least = std::numeric_limits<double>::infinity();
  double* gap = line.gap.data();
  for (int i = range.from; i < range.to; ++i) {
    const double s = front + spacing * i;
    // The wheel's section turned by the roll about its taping point, to first order: z = roll s - h(s - roll h).
    gap[i] = roll * (s + height[i] * slope[i]) - height[i] - z[i];
    least = gap[i] < least ? gap[i] : least;
  }
  // The envelope lowers the gap by R slope_x^2 / 2: only columns that may come within reach of it are looked at.
  const double limit = least + considered * (1.0 + most_from_envelope);
  while (range.to - range.from > 3 && gap[range.from] > limit) {
    ++range.from;
  }
  while (range.to - range.from > 3 && gap[range.to - 1] > limit) {
    --range.to;
  }
  if (body.uniform()) {
    std::copy(z.data() + range.from, z.data() + range.to, before.data() + range.from);
    std::copy(z.data() + range.from, z.data() + range.to, after.data() + range.from);
  } else {
    body.heights(beside[0], range.from, range.to, before.data());
    body.heights(beside[1], range.from, range.to, after.data());
  }

  const double low = body.uniform() ? -reach : body.x_begin() - centre;
  const double high = body.uniform() ? reach : body.x_end() - centre;
  const double* bend = wheel.curvature().data();
  const double* across = wheel.second().data();
  const double* curving = wheel.circle_curvature().data();
  const double* cosine = wheel.cosine().data();
  double top = std::numeric_limits<double>::infinity();
  for (int i = range.from, k = 0; i < range.to; ++i, ++k) {
    const double s = front + spacing * i, c = curving[i], second = across[i];
    const double z_x = (after[i] - before[i]) * (0.5 / h), z_xx = (after[i] - 2.0 * z[i] + before[i]) * (1.0 / (h * h));
    // Gap over xi from the middle station: circle (xi + ahead + yaw s)^2 / 2R, wheel's section met at
    // s - yaw (xi + ahead), body's parabola.
    const double arm = ahead + yaw * s;
    const double first = arm * c + yaw * slope[i] - yaw * yaw * second * ahead - z_x;
    const double curvature = std::max(flattest_share * c, c - yaw * yaw * second - z_xx);
    const double xi = std::clamp(-first / curvature, low, high);
    const double rest = 0.5 * arm * arm * c + yaw * ahead * (slope[i] - 0.5 * yaw * second * ahead);
    line.gap[k] = gap[i] + rest + xi * (first + 0.5 * curvature * xi);
    line.dx[k] = ahead + xi;
    line.slope[k] = roll - slope[i] + yaw * (ahead + xi) * second;
    line.curvature_x[k] = curvature * cosine[i];
    if (line.gap[k] < top) {
      top = line.gap[k];
      line.top = k;
    }
  }
  line.count = range.to - range.from;
  line.first_y = y0 + spacing * range.from;
  line.wheel_first = front + spacing * range.from;
  const int t = line.top;
  double deepest = top; // between columns, by the parabola through three
  if (t > 0 && t + 1 < line.count) {
    const double bend_of_gap = line.gap[t - 1] - 2.0 * top + line.gap[t + 1];
    const double rise = line.gap[t + 1] - line.gap[t - 1];
    deepest -= bend_of_gap > 0.0 ? 0.125 * rise * rise / bend_of_gap : 0.0;
  }
  line.level = -deepest;
  for (int k = 0; k < line.count; ++k) {
    line.curvature_y[k] = -body.curvature(here, range.from + k) - bend[range.from + k];
  }
}

} // namespace wingnose::contact
