#include "wingnose/contact/search/patches.hpp"

#include "wingnose/words/constants.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace wingnose::contact {
namespace {

// Vertex of the parabola through three neighbours: where (in columns from the middle one) and how low.
struct Vertex {
  double at, value;
};
Vertex vertex(double a, double b, double c) {
  const double bend = a - 2.0 * b + c;
  if (!(bend > 0.0)) {
    return {0.0, b};
  }
  const double at = std::clamp(0.5 * (a - c) / bend, -1.0, 1.0);
  return {at, b + 0.5 * at * ((c - a) + at * bend)};
}

double between(const auto& column, int k, int count, double at) {
  const int n = std::clamp(at < 0.0 ? k - 1 : k + 1, 0, count - 1);
  return column[k] + std::abs(at) * (column[n] - column[k]);
}

ContactPatch describe(const GapLine& line, double height, int first, int last) {
  ContactPatch p;
  p.first_column = first;
  p.last = last;
  const auto deepest = std::min_element(line.gap.begin() + first, line.gap.begin() + last + 1);
  const int k = static_cast<int>(deepest - line.gap.begin());
  const bool inside = k > 0 && k + 1 < line.count;
  const Vertex v = inside ? vertex(line.gap[k - 1], line.gap[k], line.gap[k + 1]) : Vertex{0.0, line.gap[k]};
  p.y = line.y(k + v.at);
  p.wheel_y = line.wheel_first + line.spacing * (k + v.at);
  p.dx = between(line.dx, k, line.count, v.at);
  p.angle = std::atan(between(line.slope, k, line.count, v.at));
  p.approach = -(height + v.value) * std::cos(p.angle);
  p.curvature_x = between(line.curvature_x, k, line.count, v.at);
  // Ends of the overlap, by straight lines between columns.
  const auto end = [&](int inner, int outer) {
    if (outer < 0 || outer >= line.count) {
      return line.y(inner);
    }
    const double a = height + line.gap[inner], b = height + line.gap[outer];
    return line.y(inner + (outer - inner) * (b > a ? std::clamp(-a / (b - a), 0.0, 1.0) : 0.0));
  };
  p.from = end(first, first - 1);
  p.to = end(last, last + 1);
  double least = std::atan(line.slope[first]), most = least;
  for (int i = first + 1; i <= last; ++i) {
    const double angle = std::atan(line.slope[i]);
    least = std::min(least, angle);
    most = std::max(most, angle);
  }
  // On a sharp edge it is the rail whose slope changes: the gap's slope is the difference of the two.
  if (last > first) {
    for (int i = first; i < last; ++i) {
      const double angle = std::atan(line.slope[i] - (line.gap[i + 1] - line.gap[i]) / line.spacing);
      least = std::min(least, angle);
      most = std::max(most, angle);
    }
  }
  p.change_of_angle = most - least;
  return p;
}

// Columns [first, last] that overlap, one beyond on either side, by their penetration.
struct Overlapping {
  const GapLine& line;
  double height;
  int first, last;
  [[nodiscard]] double depth(int k) const { return -(height + line.gap[k]); }
};

// Ends of the pieces an interval falls into: columns of the saddles at which it is cut, and its last column.
struct Cuts {
  int count = 0;
  std::array<int, Regions::capacity> last;
};
Cuts cut(const Overlapping& o) {
  Cuts cuts;
  int peak = o.first, saddle = o.first; // of the piece so far: its peak, and the lowest column behind that
  for (int k = o.first + 1; k <= o.last; ++k) {
    if (o.depth(k) <= o.depth(saddle)) {
      saddle = k;
    }
    // A summit behind the saddle: does it stand by itself?
    const bool summit = o.depth(k) >= o.depth(k - 1) && (k == o.last || o.depth(k) > o.depth(k + 1));
    if (summit && saddle > peak && saddle < k) {
      const double smaller = std::min(o.depth(peak), o.depth(k));
      const double turn = std::abs(std::atan(o.line.slope[k]) - std::atan(o.line.slope[peak]));
      const bool apart = o.depth(saddle) < 0.5 * smaller || turn > stretched_angle;
      if (apart && cuts.count + 1 < static_cast<int>(Regions::capacity)) {
        cuts.last[static_cast<std::size_t>(cuts.count++)] = saddle;
        peak = saddle = k;
      }
    }
    if (o.depth(k) > o.depth(peak)) {
      peak = saddle = k;
    }
  }
  cuts.last[static_cast<std::size_t>(cuts.count++)] = o.last;
  return cuts;
}

// Integrals over y of the penetration, and of it times what is averaged. Straight between columns; beyond the outermost
// ones down to where the overlap ends, or to the column at which a piece is cut.
class Sums {
public:
  explicit Sums(const GapLine& line) : line_(line) {}
  // From column `k` (with penetration p) over `share` of the way to column `next` (with q): trapezium in p times value.
  void add(int k, int next, double share, double p, double q) {
    // The integral of the product of two straight lines.
    const double width = share * line_.spacing / 6.0, at_k = width * (2.0 * p + q), at_end = width * (p + 2.0 * q);
    area += at_k + at_end;
    y += at_k * line_.y(k) + at_end * (line_.y(k) + (next - k) * share * line_.spacing);
    const auto integral = [&](const auto& column) {
      return at_k * column[k] + at_end * (column[k] + share * (column[next] - column[k]));
    };
    dx += integral(line_.dx);
    slope += integral(line_.slope);
    radius += integral(line_.radius);
  }
  double area = 0.0, y = 0.0, dx = 0.0, slope = 0.0, radius = 0.0;

private:
  const GapLine& line_;
};

Region region_of(const Overlapping& o, int first, int last) {
  const GapLine& line = o.line;
  Region r;
  Sums sums(line);
  int deepest = first;
  for (int k = first; k <= last; ++k) {
    deepest = o.depth(k) > o.depth(deepest) ? k : deepest;
    if (k < last) {
      sums.add(k, k + 1, 1.0, o.depth(k), o.depth(k + 1));
    }
  }
  r.from = line.y(first);
  r.to = line.y(last);
  // The wedges outside the outermost columns of the whole interval.
  const auto wedge = [&](int k, int outside) {
    if (outside < 0 || outside >= line.count) {
      return line.y(k);
    }
    const double p = o.depth(k), share = p / (p - o.depth(outside));
    sums.add(k, outside, share, p, 0.0);
    return line.y(k) + (outside - k) * share * line.spacing;
  };
  if (first == o.first) {
    r.from = wedge(first, first - 1);
  }
  if (last == o.last) {
    r.to = wedge(last, last + 1);
  }
  const bool inside = deepest > 0 && deepest + 1 < line.count;
  r.penetration = inside ? -(o.height + vertex(line.gap[deepest - 1], line.gap[deepest], line.gap[deepest + 1]).value)
                         : o.depth(deepest);
  r.area = sums.area;
  r.y = sums.y / r.area;
  r.wheel_y = line.wheel_first + r.y - line.first_y;
  r.dx = sums.dx / r.area;
  r.slope = sums.slope / r.area;
  r.radius = sums.radius / r.area;
  r.half_width = 0.75 * r.area / r.penetration;
  r.A = 0.5 / (r.radius * std::sqrt(1.0 + r.slope * r.slope));
  return r;
}

// Keeps a region, or in its place none, where more are found than fit: those of the largest area stay.
void keep(Regions& found, const Region& r) {
  if (found.count < static_cast<int>(Regions::capacity)) {
    found.region[static_cast<std::size_t>(found.count++)] = r;
    return;
  }
  found.complete = false;
  const auto least = std::min_element(found.region.begin(), found.region.end(),
                                      [](const Region& a, const Region& b) { return a.area < b.area; });
  if (least->area < r.area) {
    *least = r;
    std::sort(found.region.begin(), found.region.end(), [](const Region& a, const Region& b) { return a.y < b.y; });
  }
}

struct Ends {
  int first, last;
};
// The next neighbouring cells from `begin` on that lie under the wheel at this height; first is line.count when there
// are none.
Ends next_overlap(const GapLine& line, double height, int begin) {
  Ends ends{begin, begin};
  while (ends.first < line.count && !(height + line.gap[ends.first] < 0.0)) {
    ++ends.first;
  }
  ends.last = ends.first;
  while (ends.last + 1 < line.count && height + line.gap[ends.last + 1] < 0.0) {
    ++ends.last;
  }
  return ends;
}

} // namespace

Patches find_patches(const GapLine& line, double height) {
  Patches found;
  for (Ends o = next_overlap(line, height, 0); o.first < line.count; o = next_overlap(line, height, o.last + 1)) {
    const ContactPatch patch = describe(line, height, o.first, o.last);
    if (found.count < static_cast<int>(Patches::capacity)) {
      found.patch[static_cast<std::size_t>(found.count++)] = patch;
      continue;
    }
    found.complete = false;
    const auto shallowest =
        std::min_element(found.patch.begin(), found.patch.end(),
                         [](const ContactPatch& a, const ContactPatch& b) { return a.approach < b.approach; });
    if (shallowest->approach < patch.approach) {
      *shallowest = patch;
      std::sort(found.patch.begin(), found.patch.end(),
                [](const ContactPatch& a, const ContactPatch& b) { return a.y < b.y; });
    }
  }
  return found;
}

Regions find_regions(const GapLine& line, double height) {
  Regions found;
  for (Ends ends = next_overlap(line, height, 0); ends.first < line.count;
       ends = next_overlap(line, height, ends.last + 1)) {
    const Overlapping o{line, height, ends.first, ends.last};
    const Cuts cuts = cut(o);
    int first = ends.first;
    for (int c = 0; c < cuts.count; ++c) {
      const int end = cuts.last[static_cast<std::size_t>(c)];
      keep(found, region_of(o, first, end));
      first = end;
    }
  }
  return found;
}

} // namespace wingnose::contact
