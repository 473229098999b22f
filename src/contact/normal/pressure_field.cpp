#include "wingnose/contact/normal/pressure_field.hpp"

#include "own_planes.hpp"
#include "strips_shape.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace wingnose::contact {
namespace {

constexpr int most_rounds = 6;
constexpr int most_rounds_of_planes = 12; // each brings the depth some thirty times nearer

void check(const FieldSize& size) {
  for (const auto& [name, n] : {std::pair{"along", size.along}, std::pair{"across", size.across}}) {
    if (!(n >= 16 && n <= 512)) {
      throw InputError("cells " + std::string(name) + " of a pressure field", std::to_string(n), "16 to 512",
                       "64 give the peak pressure within a few per mille on a smooth patch.");
    }
  }
}

// A column of the overlap read at a place between its nodes.
double read(const Overlap& o, const std::array<double, Overlap::capacity>& column, double t) {
  const auto end = o.t.begin() + o.count;
  const auto next = std::clamp(std::upper_bound(o.t.begin(), end, t), o.t.begin() + 1, end - 1);
  const auto i = static_cast<std::size_t>(next - o.t.begin());
  const double u = (t - o.t[i - 1]) / (o.t[i] - o.t[i - 1]);
  return column[i - 1] + std::clamp(u, 0.0, 1.0) * (column[i] - column[i - 1]);
}

// The gap between the nodes of the overlap: cubics that share value and slope with the parabola through three nodes.
// Straight lines would leave a kink at every node, and cells finer than the nodes would carry a ridge of pressure
// there.
class SmoothGap {
public:
  explicit SmoothGap(const Overlap& o) : o_(o) {
    const int last = o.count - 1;
    const auto secant = [&](int i) { return (o.separation[i + 1] - o.separation[i]) / (o.t[i + 1] - o.t[i]); };
    for (int i = 0; i <= last; ++i) {
      if (i == 0 || i == last) {
        slope_[i] = secant(i == 0 ? 0 : last - 1);
        continue;
      }
      const double before = o.t[i] - o.t[i - 1], after = o.t[i + 1] - o.t[i];
      slope_[i] = (secant(i - 1) * after + secant(i) * before) / (before + after);
    }
  }
  [[nodiscard]] double operator()(double t) const {
    const auto end = o_.t.begin() + o_.count;
    const auto next = std::clamp(std::upper_bound(o_.t.begin(), end, t), o_.t.begin() + 1, end - 1);
    const auto i = static_cast<std::size_t>(next - o_.t.begin());
    const double w = o_.t[i] - o_.t[i - 1], u = std::clamp((t - o_.t[i - 1]) / w, 0.0, 1.0), v = 1.0 - u;
    return v * v * ((1.0 + 2.0 * u) * o_.separation[i - 1] + u * w * slope_[i - 1]) +
           u * u * ((1.0 + 2.0 * v) * o_.separation[i] - v * w * slope_[i]);
  }

private:
  const Overlap& o_;
  std::array<double, Overlap::capacity> slope_{};
};

// What is told of the solution beside the pressures themselves; places and angles of the rows are known.
void describe(const HalfSpaceGrid& grid, const HalfSpaceContact& solution, PressureField& field) {
  const std::size_t nx = grid.nx(), ny = grid.ny();
  const double cell = grid.dx() * grid.dy();
  field.pressure = solution.pressure;
  field.force = solution.force;
  field.approach = solution.approach;
  field.peak_pressure = solution.peak_pressure;
  field.area = solution.smooth_area;
  field.turn = normal_turn(grid, field.pressure, field.angle);
  std::size_t longest = 0, rows = 0;
  for (std::size_t j = 0; j < ny; ++j) {
    std::size_t loaded = 0;
    for (std::size_t i = 0; i < nx; ++i) {
      const double p = field.pressure[j * nx + i];
      loaded += p > 0.0 ? 1 : 0;
      field.mean_y += p * field.y[j] * cell;
    }
    longest = std::max(longest, loaded);
    rows += loaded > 0 ? 1 : 0;
  }
  field.mean_y /= field.force;
  field.half_length = 0.5 * static_cast<double>(longest) * grid.dx();
  field.half_width = 0.5 * static_cast<double>(rows) * grid.dy();
}

// Rows of the grid, laid along the surface.
struct Rows {
  std::vector<double> t;      // m along the surface
  std::vector<double> cosine; // of the contact angle
  std::vector<double> gap;    // m, normal, per cell
};
Rows rows_of(const GapLine& line, const Overlap& o, const HalfSpaceGrid& grid, double ahead, PressureField& field) {
  for (std::size_t i = 0; i < grid.nx(); ++i) {
    field.x.push_back(ahead + grid.x(i));
  }
  const double middle = o.t[0] + 0.5 * (o.t[o.count - 1] - o.t[0]);
  const SmoothGap gap_at(o);
  Rows rows;
  rows.gap.reserve(grid.cells());
  for (std::size_t j = 0; j < grid.ny(); ++j) {
    const double t = middle + grid.y(j);
    const double separation = gap_at(t), dx = read(o, o.dx, t), bend = read(o, o.curvature_x, t);
    rows.t.push_back(t);
    rows.cosine.push_back(read(o, o.cosine, t));
    field.y.push_back(read(o, o.y, t));
    const double column = (field.y.back() - line.first_y) / line.spacing;
    const auto k = static_cast<std::size_t>(std::clamp(column, 0.0, line.count - 1.0));
    field.angle.push_back(std::atan(line.slope[k]));
    for (std::size_t i = 0; i < grid.nx(); ++i) {
      const double x = field.x[i] - dx;
      rows.gap.push_back(separation + 0.5 * bend * x * x);
    }
  }
  return rows;
}

// Solves for the normal force of which `vertical` is the vertical part: it follows from where the pressure lies.
class Solver {
public:
  Solver(const HalfSpaceGrid& grid, const Rows& rows, const Elastic& material)
      : grid_(grid), rows_(rows), material_(material), workspace_(grid) {}

  HalfSpaceContact solve(std::span<const double> gap, double normal, std::span<const double> start = {}) {
    return solve_for_force(grid_, workspace_, gap, normal, material_, settings_, start);
  }
  [[nodiscard]] double vertical(const HalfSpaceContact& solution) const {
    double sum = 0.0;
    const std::size_t nx = grid_.nx();
    for (std::size_t j = 0; j < grid_.ny(); ++j) {
      const auto row = solution.pressure.begin() + static_cast<std::ptrdiff_t>(j * nx);
      sum += rows_.cosine[j] * std::accumulate(row, row + static_cast<std::ptrdiff_t>(nx), 0.0);
    }
    return sum * (grid_.dx() * grid_.dy());
  }
  [[nodiscard]] bool near(double value, double asked) const {
    return std::abs(value / asked - 1.0) <= settings_.tolerance;
  }

private:
  const HalfSpaceGrid& grid_;
  const Rows& rows_;
  const Elastic& material_;
  const HalfSpaceSettings settings_;
  HalfSpaceWorkspace workspace_;
};

// The wheel for which the gap was laid: how deep below its first touch, and the normal approach there (m).
struct Laid {
  double depth, approach;
};

// Every patch closed along its own normal, from the solution with one normal for all; the approach told is that of
// `first`. The gap of every other plane depends on how deep the wheel is, which is found with it.
void close_along_own_normals(Solver& solver, const HalfSpaceGrid& grid, const Rows& rows, const Laid& laid,
                             const std::vector<OwnPlane>& planes, const OwnPlane& first, double vertical,
                             HalfSpaceContact& solution) {
  const auto depth_of = [&] { return laid.depth - (laid.approach - solution.approach) / first.cosine; };
  double depth = depth_of(), force = solver.vertical(solution);
  for (int round = 0; round < most_rounds_of_planes; ++round) {
    std::vector<double> gap = rows.gap;
    std::size_t j = 0;
    for (const OwnPlane& plane : planes) {
      const double more = (laid.depth - depth) * (plane.cosine - first.cosine);
      for (; j < plane.end; ++j) {
        const auto row = gap.begin() + static_cast<std::ptrdiff_t>(j * grid.nx());
        std::for_each(row, row + static_cast<std::ptrdiff_t>(grid.nx()), [more](double& g) { g += more; });
      }
    }
    solution = solver.solve(gap, solution.force * vertical / force, solution.pressure);
    force = solver.vertical(solution);
    const bool settled = solver.near(depth_of(), depth) && solver.near(force, vertical);
    depth = depth_of();
    if (settled) {
      break;
    }
  }
  solution.approach = depth * first.cosine;
}

// The plane in which the wheel touches first.
const OwnPlane& first_of(const std::vector<OwnPlane>& planes, double y) {
  return *std::min_element(planes.begin(), planes.end(), [y](const OwnPlane& a, const OwnPlane& b) {
    const auto away = [y](const OwnPlane& p) { return std::max({0.0, p.y_first - y, y - p.y_last}); };
    return away(a) < away(b);
  });
}

} // namespace

PressureField half_space_field(const GapLine& line, double vertical, const Elastic& material, const FieldSize& size) {
  check(size);
  if (!(std::isfinite(vertical) && vertical > 0.0)) {
    throw InputError("contact force", number(vertical) + " N", "greater than 0", "A pressure field needs a load.");
  }
  const double depth = depth_for_force(Strips{}, line, vertical, material);
  const NormalContact guess = strips(line, depth, material);
  // Contact lies inside the overlap of the undeformed shapes; the strips' approach is within a tenth of the true one.
  const double laid_depth = 1.25 * depth;
  Overlap o;
  (void)lay(line, laid_depth, false, o);
  const double widest = 0.5 * (o.t[o.count - 1] - o.t[0]);
  const auto deepest = std::min_element(o.separation.begin(), o.separation.begin() + o.count) - o.separation.begin();
  const double skew = std::abs(o.dx[o.count - 1] - o.dx[0]);
  const double length = std::sqrt(2.0 * 1.2 * guess.approach / o.curvature_x[deepest]) + 0.5 * skew;
  const HalfSpaceGrid grid(size.along, size.across, 2.0 * length / static_cast<double>(size.along),
                           2.0 * widest / static_cast<double>(size.across));
  PressureField field;
  const Rows rows = rows_of(line, o, grid, o.dx[deepest], field);
  Solver solver(grid, rows, material);
  // First as the strips have it, and in the flange root, where that is a percent off, once or twice more from the
  // pressure found.
  double normal = vertical * guess.force / guess.vertical;
  HalfSpaceContact solution = solver.solve(rows.gap, normal);
  field.vertical = solver.vertical(solution);
  for (int round = 0; round < most_rounds && !solver.near(field.vertical, vertical); ++round) {
    normal *= vertical / field.vertical;
    solution = solver.solve(rows.gap, normal, solution.pressure);
    field.vertical = solver.vertical(solution);
  }
  const auto planes_of = [&] { return own_planes(solution.pressure, grid.nx(), rows.cosine, field.angle, field.y); };
  if (const auto planes = planes_of(); planes.size() > 1) {
    const OwnPlane& first = first_of(planes, line.y(line.top));
    close_along_own_normals(solver, grid, rows, {laid_depth, o.approach}, planes, first, vertical, solution);
    field.vertical = solver.vertical(solution);
  }
  describe(grid, solution, field);
  const auto planes = planes_of();
  const auto [least, most] = std::minmax_element(
      planes.begin(), planes.end(), [](const OwnPlane& a, const OwnPlane& b) { return a.angle < b.angle; });
  field.between = most->angle - least->angle;
  for (const OwnPlane& plane : planes) {
    field.within = std::max(field.within, plane.most - plane.least);
  }
  return field;
}

std::vector<LawDeviation> law_deviations(const WheelSurface& wheel, const layout::Body& body, double station,
                                         std::span<const double> lateral, double vertical, const Elastic& material,
                                         const FieldSize& size) {
  std::vector<LawDeviation> rows;
  GapLine line;
  for (const double y : lateral) {
    look(wheel, body, {.station = station, .lateral = y}, line);
    LawDeviation row;
    row.lateral = y;
    row.ellipse = normal_contact(Ellipse{}, line, depth_for_force(Ellipse{}, line, vertical, material), material);
    row.strips = normal_contact(Strips{}, line, depth_for_force(Strips{}, line, vertical, material), material);
    row.half_space = half_space_field(line, vertical, material, size);
    rows.push_back(row);
  }
  return rows;
}

} // namespace wingnose::contact
