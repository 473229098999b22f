#include "gap_across.hpp"

#include "wingnose/numeric/clones.hpp"
#include "wingnose/words/constants.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <type_traits>
#include <variant>

namespace wingnose::contact {
namespace {

constexpr double section_spacing = 0.005; // m, along the track: about the half length of a patch
constexpr double considered = 0.00075; // m: columns at the ends that stay farther than this from touching are left out
// m: the same from being closed, where the wheel's height is known, and m/rad of yaw: what the circle may rise from the
// middle section to its touching point, and how far a gauge corner may come nearer between two columns that are looked
// at.
constexpr double nearly_closed = 0.00025, nearly_closed_by_yaw = 0.010;
constexpr int stride = 4; // columns, looked at to find these ends
constexpr int fewest = 3; // columns that make a gap

using Values = std::array<double, GapLine::capacity>;

struct Columns {
  int from, to;
};

// Columns over the metal of a section; y0: place of the first one.
template <class Slice> Columns over_metal(const Slice& slice, double y0, double spacing, int columns) {
  const double offset = (slice.edge - y0) / spacing;
  return {std::max(0, static_cast<int>(std::ceil(offset - 1e-9))),
          std::min(columns, static_cast<int>(std::floor(offset + slice.width / spacing + 1e-9)) + 1)};
}

template <class Slice> void heights(const Slice& slice, double y0, double spacing, const Columns& c, double* z) {
  const double eta0 = y0 - slice.edge;
  for (int i = c.from; i < c.to; ++i) {
    z[i] = slice.height(eta0 + spacing * i);
  }
}

// The wheel's section at column i, rolled to second order in roll times height.
struct Section {
  double height, slope, second; // m, -, 1/m
  double profile;               // m, of the profile itself: adds to the radius
};
struct WheelColumns { // of the wheel's surface
  const double *height, *slope, *second;
  double front, spacing, roll;
};
[[gnu::always_inline]] inline Section section(const WheelColumns& w, int i) {
  const double s = w.front + w.spacing * i, h = w.height[i], p = w.slope[i], q = w.second[i];
  const double moved = w.roll * h, profile = h - moved * (p - 0.5 * moved * q);
  return {profile - w.roll * s, (p - moved * q) * (1.0 - w.roll * p) - w.roll, q, profile};
}
WheelColumns columns_of(const PlacedWheel& wheel) {
  const WheelSurface& w = wheel.surface();
  return {w.height().data(), w.slope().data(), w.second().data(), w.front(), w.spacing(), wheel.roll()};
}

// Columns that may come within reach of touching: the others at either end are left out.
template <class Slice>
Columns worth_reading(const Slice& slice, const PlacedWheel& wheel, double y0, const Columns& c, double height,
                      double yaw) {
  const WheelColumns w = columns_of(wheel);
  std::array<double, GapLine::capacity / stride + 2> gap;
  const auto column = [&](int k) { return std::min(c.from + stride * k, c.to - 1); };
  const int last = (c.to - 1 - c.from + stride - 1) / stride;
  double least = std::numeric_limits<double>::infinity();
  for (int k = 0; k <= last; ++k) {
    const int i = column(k);
    gap[k] = -slice.height(y0 + w.spacing * i - slice.edge) - section(w, i).height;
    least = std::min(least, gap[k]);
  }
  const double most =
      std::min(least + considered, std::max(least, -height) + nearly_closed + nearly_closed_by_yaw * std::abs(yaw));
  int first = 0, end = last;
  while (first < end && gap[first + 1] > most) {
    ++first;
  }
  while (end > first && gap[end - 1] > most) {
    --end;
  }
  return {column(first), column(end) + 1};
}

// Middle of three sections that hold the touching point between them, `dx` ahead of the axle, and as near to the axle
// as that allows: the columns of a skew edge touch anywhere from there to the touching point.
double middle_for(double dx) { return dx - std::clamp(dx, -section_spacing, section_spacing); }

// What the wheel's circle reaches of the sections.
struct Reached {
  double yaw, low, high, ahead; // rad; m, from the axle: ends, and the middle section
};
// The wheel's circle over three sections, at every column.
WINGNOSE_CLONES void lay_circle(const PlacedWheel& wheel, const Reached& reached, const Columns& c,
                                const double* __restrict before, const double* __restrict at,
                                const double* __restrict behind, GapLine& line) {
  constexpr double h = section_spacing;
  const WheelColumns w = columns_of(wheel);
  const double R = wheel.radius(), yaw = reached.yaw, shift = yaw * h, ahead = reached.ahead;
  const double a0 = ahead - h, a1 = ahead, a2 = ahead + h;
  const double b0 = yaw / std::sqrt(R * R - a0 * a0), b1 = yaw / std::sqrt(R * R - a1 * a1),
               b2 = yaw / std::sqrt(R * R - a2 * a2);
  const double u0 = yaw * ahead + w.front, low = reached.low - ahead, high = reached.high - ahead;
  double* __restrict gap = line.gap.data() - c.from;
  double* __restrict dx = line.dx.data() - c.from;
  double* __restrict slopes = line.slope.data() - c.from;
  double* __restrict along = line.curvature_x.data() - c.from;
  double* __restrict radius = line.radius.data() - c.from;
#pragma omp simd
  for (int i = c.from; i < c.to; ++i) {
    const Section s = section(w, i);
    const double u = u0 + w.spacing * i, r = R + s.profile, bent = 1.0 / r, v = 0.5 * yaw * u;
    const double turn = 0.5 * shift * shift * s.second;
    // How far the circle, turned by the yaw, lies below its lowest point over each section: by its series, to 1e-9 m
    // at the end of the wheel's reach (rolling_envelope.cpp knows the same circle by its root).
    const double q0 = a0 * a0 * bent * bent, q1 = a1 * a1 * bent * bent, q2 = a2 * a2 * bent * bent;
    const double fall0 = 0.5 * r * q0 * (1.0 + 0.25 * q0 * (1.0 + 0.5 * q0)) + b0 * u * (a0 + v);
    const double fall1 = 0.5 * r * q1 * (1.0 + 0.25 * q1 * (1.0 + 0.5 * q1)) + b1 * u * (a1 + v);
    const double fall2 = 0.5 * r * q2 * (1.0 + 0.25 * q2 * (1.0 + 0.5 * q2)) + b2 * u * (a2 + v);
    // Height of the taping circle's bottom at which the wheel touches each of the three sections here.
    const double F0 = before[i] + s.height + shift * s.slope + turn - fall0;
    const double F1 = at[i] + s.height - fall1;
    const double F2 = behind[i] + s.height - shift * s.slope + turn - fall2;
    const double first = (F2 - F0) * (0.5 / h), bend = (F0 - 2.0 * F1 + F2) * (1.0 / (h * h));
    const double least = least_longitudinal_share * bent, curvature = -bend > least ? -bend : least;
    const double free = first / curvature, right = free < high ? free : high, xi = right > low ? right : low;
    const double slope = xi * yaw * s.second + (ahead + xi + yaw * u) * b1 - s.slope;
    gap[i] = -(F1 + xi * (first - 0.5 * curvature * xi));
    dx[i] = ahead + xi;
    slopes[i] = slope;
    along[i] = curvature / std::sqrt(1.0 + slope * slope);
    radius[i] = r;
  }
}

// Three sections of a body, the middle one `ahead` of the axle, and the wheel's circle over them.
template <class Body> class Reading {
public:
  Reading(const Body& body, const PlacedWheel& wheel, double yaw, double x, double ahead, double height)
      : wheel_(wheel), yaw_(yaw), height_(height), low_(std::max(-wheel_reach, body.x_begin() - x)),
        high_(std::min(wheel_reach, body.x_end() - x)),
        ahead_(std::clamp(ahead, low_ + section_spacing, std::max(low_ + section_spacing, high_ - section_spacing))),
        before_(body.slice(x + ahead_ - section_spacing)), at_(body.slice(x + ahead_)),
        behind_(body.slice(x + ahead_ + section_spacing)) {}

  void read(GapLine& line) const {
    const WheelSurface& w = wheel_.surface();
    const double y0 = wheel_.tape() + yaw_ * ahead_ + w.front();
    Columns c{0, w.columns()};
    for (const auto* slice : {&before_, &at_, &behind_}) {
      const Columns over = over_metal(*slice, y0, w.spacing(), w.columns());
      c = {std::max(c.from, over.from), std::min(c.to, over.to)};
    }
    if (low_ > high_ || c.to - c.from < fewest) {
      return;
    }
    c = worth_reading(at_, wheel_, y0, c, height_, yaw_);
    if (c.to - c.from < fewest) {
      return;
    }
    Values before, at, behind;
    heights(at_, y0, w.spacing(), c, at.data());
    if constexpr (std::is_same_v<Body, layout::PlainRail>) { // the same section everywhere
      std::copy(at.begin() + c.from, at.begin() + c.to, before.begin() + c.from);
      std::copy(at.begin() + c.from, at.begin() + c.to, behind.begin() + c.from);
    } else {
      heights(before_, y0, w.spacing(), c, before.data());
      heights(behind_, y0, w.spacing(), c, behind.data());
    }
    line.count = c.to - c.from;
    line.first_y = y0 + w.spacing() * c.from;
    line.wheel_first = w.front() + w.spacing() * c.from;
    lay_circle(wheel_, {yaw_, low_, high_, ahead_}, c, before.data(), at.data(), behind.data(), line);
  }

private:
  using Slice = decltype(std::declval<const Body&>().slice(0.0));
  const PlacedWheel& wheel_;
  double yaw_, height_;
  double low_, high_, ahead_; // m, from the axle: ends of what it reaches, and the middle section
  Slice before_, at_, behind_;
};

// First touch of the columns: the least gap, between columns by the parabola through three.
void find_top(GapLine& line) {
  const auto least = std::min_element(line.gap.begin(), line.gap.begin() + line.count);
  line.top = static_cast<int>(least - line.gap.begin());
  const int t = line.top;
  double deepest = *least;
  if (t > 0 && t + 1 < line.count) {
    const double bend = line.gap[t - 1] - 2.0 * deepest + line.gap[t + 1], rise = line.gap[t + 1] - line.gap[t - 1];
    deepest -= bend > 0.0 ? 0.125 * rise * rise / bend : 0.0;
  }
  line.level = -deepest;
}

} // namespace

void read_gap(const layout::Surface& surface, const PlacedWheel& wheel, double yaw, double x, double dx, double height,
              GapLine& line) {
  line.count = 0;
  line.level = -std::numeric_limits<double>::infinity();
  line.spacing = wheel.surface().spacing();
  std::visit([&](const auto& body) { Reading(body, wheel, yaw, x, middle_for(dx), height).read(line); }, surface);
  if (line.count > 0) {
    find_top(line);
  }
}

void read_gap_at(const RollingEnvelope& envelope, double x, GapLine& line) {
  const Touch first = envelope.touch(x);
  if (!std::isfinite(first.height)) {
    line.count = 0;
    line.level = -std::numeric_limits<double>::infinity();
    return;
  }
  read_gap(envelope.surface(), envelope.wheel(), envelope.yaw(), x, first.contact_dx,
           std::numeric_limits<double>::infinity(), line);
  if (line.count > 0) {
    line.level = first.height;
  }
}

} // namespace wingnose::contact
