#include "wingnose/contact/patches.hpp"

#include <algorithm>
#include <cmath>

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
  p.curvature_y = between(line.curvature_y, k, line.count, v.at);
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

} // namespace

Patches find_patches(const GapLine& line, double height) {
  Patches found;
  for (int i = 0; i < line.count;) {
    if (!(height + line.gap[i] < 0.0)) {
      ++i;
      continue;
    }
    int last = i;
    while (last + 1 < line.count && height + line.gap[last + 1] < 0.0) {
      ++last;
    }
    const ContactPatch patch = describe(line, height, i, last);
    i = last + 1;
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

} // namespace wingnose::contact
