#include "wingnose/contact/normal/pressure_field.hpp"

#include "strips_shape.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace wingnose::contact {
namespace {

constexpr int most_rounds = 6;

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

} // namespace

PressureField half_space_field(const GapLine& line, double vertical, const Elastic& material, const FieldSize& size) {
  check(size);
  if (!(std::isfinite(vertical) && vertical > 0.0)) {
    throw InputError("contact force", number(vertical) + " N", "greater than 0", "A pressure field needs a load.");
  }
  const double depth = depth_for_force(Strips{}, line, vertical, material);
  const NormalContact guess = strips(line, depth, material);
  // Contact lies inside the overlap of the undeformed shapes; the strips' approach is within a tenth of the true one.
  Overlap o;
  (void)lay(line, 1.25 * depth, false, o);
  const double widest = 0.5 * (o.t[o.count - 1] - o.t[0]), middle = o.t[0] + widest;
  const auto deepest = std::min_element(o.separation.begin(), o.separation.begin() + o.count) - o.separation.begin();
  const double skew = std::abs(o.dx[o.count - 1] - o.dx[0]);
  const double length = std::sqrt(2.0 * 1.2 * guess.approach / o.curvature_x[deepest]) + 0.5 * skew;
  const auto nx = size.along, ny = size.across;
  const HalfSpaceGrid grid(nx, ny, 2.0 * length / static_cast<double>(nx), 2.0 * widest / static_cast<double>(ny));

  PressureField field;
  const double ahead = o.dx[deepest];
  for (std::size_t i = 0; i < nx; ++i) {
    field.x.push_back(ahead + grid.x(i));
  }
  const SmoothGap gap_at(o);
  std::vector<double> gap, cosine;
  gap.reserve(grid.cells());
  for (std::size_t j = 0; j < ny; ++j) {
    const double t = middle + grid.y(j);
    const double separation = gap_at(t), dx = read(o, o.dx, t), bend = read(o, o.curvature_x, t);
    field.y.push_back(read(o, o.y, t));
    cosine.push_back(read(o, o.cosine, t));
    const double column = (field.y.back() - line.first_y) / line.spacing;
    const auto k = static_cast<std::size_t>(std::clamp(column, 0.0, line.count - 1.0));
    field.angle.push_back(std::atan(line.slope[k]));
    for (std::size_t i = 0; i < nx; ++i) {
      const double x = field.x[i] - dx;
      gap.push_back(separation + 0.5 * bend * x * x);
    }
  }
  HalfSpaceWorkspace workspace(grid);
  const double cell = grid.dx() * grid.dy();
  const auto vertical_of = [&](const std::vector<double>& pressure) {
    double sum = 0.0;
    for (std::size_t j = 0; j < ny; ++j) {
      const auto row = pressure.begin() + static_cast<std::ptrdiff_t>(j * nx);
      sum += cosine[j] * std::accumulate(row, row + static_cast<std::ptrdiff_t>(nx), 0.0);
    }
    return sum * cell;
  };
  // The normal force follows from the vertical one by where the pressure lies: first as the strips have it, and in the
  // flange root, where that is a percent off, once or twice more from the pressure found.
  const HalfSpaceSettings settings;
  double normal = vertical * guess.force / guess.vertical;
  HalfSpaceContact solution = solve_for_force(grid, workspace, gap, normal, material, settings);
  field.vertical = vertical_of(solution.pressure);
  for (int round = 0; round < most_rounds && std::abs(field.vertical / vertical - 1.0) > settings.tolerance; ++round) {
    normal *= vertical / field.vertical;
    solution = solve_for_force(grid, workspace, gap, normal, material, settings, solution.pressure);
    field.vertical = vertical_of(solution.pressure);
  }
  describe(grid, solution, field);
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
