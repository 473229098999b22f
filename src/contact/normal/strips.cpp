#include "wingnose/contact/normal/strips.hpp"

#include "strip_pressures.hpp"
#include "strips_shape.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wingnose::contact {
namespace {

using std::numbers::pi;
constexpr double least_laid = 10e-6; // m
// Limit of the slope p / a of a strip, in terms of that of Hertz's ellipse. Where the radius of a rail head steps from
// 300 to 80 or 80 to 13 mm inside the patch, half-space solutions show up to 1.8.
constexpr double steepest_share = 2.5;

constexpr int most = most_strips; // several columns wide where a patch is very wide

struct Row {
  int count = 0;
  struct Cell {
    double y, y_width, dx, cosine; // m; place and width across the track
    double middle, width;          // m, along the surface
    double closing;                // m, approach less the gap in the middle
    double laid;                   // m, virtual overlap, mean over the cell
    double loaded;                 // m, part of the width that it covers
  };
  std::array<Cell, most> cell;
};

Row cut(const Overlap& o, double share) {
  Row row;
  const int parts = o.count - 1;
  const int columns = std::max(1, (parts + 2 * most - 1) / (2 * most)); // per strip, each in two parts
  for (int i = 0; i < parts && row.count < most;) {
    // A column's two parts always stay in one strip; between two overlaps a strip ends.
    const int last = std::min(i + 2 * columns, parts);
    const int middle = std::min(i + columns, last);
    Row::Cell& c = row.cell[row.count];
    double area = 0.0;
    c.loaded = 0.0;
    for (int k = i; k < last; ++k) {
      const Overlap::Part part = o.closed(k, share);
      area += part.area;
      c.loaded += part.width;
    }
    c.width = o.t[last] - o.t[i];
    c.y_width = o.y[last] - o.y[i];
    c.middle = o.t[middle];
    c.y = o.y[middle];
    c.dx = o.dx[middle];
    c.cosine = o.cosine[middle];
    c.closing = o.nearby[middle] - o.separation[middle];
    c.laid = area / c.width;
    i = last;
    row.count += c.closing > 0.0 || area > 0.0 ? 1 : 0;
  }
  return row;
}

// Too shallow for the columns to show its width: any smooth pair starts as Hertz's does.
NormalContact shallow(const GapLine& line, double depth, const Elastic& material, StripOutline* outline) {
  NormalContact result = strips(line, least_laid, material, outline);
  const double s = depth / least_laid, root = std::sqrt(s);
  for (double* value : {&result.force, &result.vertical}) {
    *value *= s * root;
  }
  for (double* value : {&result.approach, &result.penetration, &result.area}) {
    *value *= s;
  }
  for (double* value : {&result.peak_pressure, &result.half_length, &result.half_width}) {
    *value *= root;
  }
  if (outline != nullptr) {
    for (Strip& one : std::span(outline->strip.data(), static_cast<std::size_t>(outline->count))) {
      one = {result.y + (one.y - result.y) * root,
             one.width * root,
             one.dx,
             one.half_length * root,
             one.pressure * root,
             one.force * s * root};
    }
  }
  return result;
}

} // namespace

NormalContact strips(const GapLine& line, double depth, const Elastic& material, StripOutline* outline) {
  if (depth > 0.0 && depth < least_laid) {
    return shallow(line, depth, material, outline);
  }
  NormalContact result;
  if (outline != nullptr) {
    outline->count = 0;
  }
  Overlap overlap;
  if (!(depth > 0.0) || !lay(line, depth, true, overlap)) {
    return result;
  }
  const EquivalentEllipse e = equivalent_ellipse(overlap);
  Row row = cut(overlap, e.share);
  const double hertz = e.slope * material.combined();
  StripPressures pressures(material.combined(), steepest_share * hertz);
  for (const Row::Cell& c : std::span(row.cell.data(), static_cast<std::size_t>(row.count))) {
    pressures.add(c.middle, c.width, c.closing, std::sqrt(c.laid / e.A_strip));
  }
  pressures.solve();
  // Where the bodies would still overlap beside the strips, contact is wider than the virtual penetration says: strips
  // are added there, as long as what is left to close makes them.
  bool longer = false;
  for (int i = 0; i < row.count; ++i) {
    const double rest = -pressures.left(i);
    if (rest > row.cell[i].laid) {
      pressures.lengthen(i, std::sqrt(rest / e.A_strip));
      row.cell[i].loaded = row.cell[i].width;
      longer = true;
    }
  }
  if (longer) {
    pressures.solve();
  }
  double moment = 0.0;
  for (int i = 0; i < row.count; ++i) {
    const Row::Cell& c = row.cell[i];
    const double a = pressures.half_length(i), slope = e.skew * pressures.slope(i);
    if (!(slope > 0.0)) {
      continue;
    }
    const double force = 0.5 * pi * slope * a * a * c.width;
    result.force += force;
    result.vertical += force * c.cosine;
    result.area += 2.0 * a * c.width; // a is the mean over the whole width
    result.half_width += 0.5 * c.loaded;
    result.half_length = std::max(result.half_length, a);
    result.peak_pressure = std::max(result.peak_pressure, slope * a);
    moment += force * c.y;
    if (outline != nullptr) {
      outline->strip[static_cast<std::size_t>(outline->count++)] = {c.y, c.y_width, c.dx, a, slope * a, force};
    }
  }
  result.approach = overlap.approach;
  result.penetration = e.share * overlap.approach;
  result.y = result.force > 0.0 ? moment / result.force : line.y(line.top);
  return result;
}

} // namespace wingnose::contact
