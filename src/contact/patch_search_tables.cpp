#include "wingnose/contact/patch_search.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::contact {
namespace {

constexpr std::size_t margin = 2;     // columns beyond the metal, so that four neighbours always exist
constexpr double reach = 0.060;       // m, how far ahead of the axle a wheel may touch
constexpr double gauge_depth = 0.014; // m below the top of rail where gauge is measured

// A plain rail head in the manner of a body's slice.
struct HeadSlice {
  const profile::Curve* curve;
  double edge, width; // m
  [[nodiscard]] double height(double eta) const { return curve->value(curve->front() + eta); }
  [[nodiscard]] layout::SurfacePoint at(double eta) const {
    const profile::CurvePoint p = curve->at(curve->front() + eta);
    return {p.value, p.slope, p.curvature};
  }
};

// Lateral place of the gauge point on the head (m, rail frame).
double gauge_point(const profile::Curve& head) {
  double low = head.front(), high = 0.0;
  if (head.value(low) > -gauge_depth) {
    return low;
  }
  for (int k = 0; k < 60; ++k) {
    const double mid = 0.5 * (low + high);
    (head.value(mid) < -gauge_depth ? low : high) = mid;
  }
  return high;
}

void check_spacing(double spacing) {
  if (!(spacing >= 2e-5 && spacing <= 1e-3)) {
    throw InputError("column spacing (m)", number(spacing), "0.00002 to 0.001 m",
                     "A quarter of a millimetre resolves the patch on a 5 mm edge.");
  }
}

} // namespace

WheelTable::WheelTable(const profile::WheelProfile& wheel, double radius, double spacing)
    : radius_(radius), front_(wheel.y_min()), spacing_(spacing) {
  check_spacing(spacing);
  if (!(radius >= 0.15 && radius <= 1.0)) {
    throw InputError("wheel radius (m)", number(radius), "0.15 to 1.0 m",
                     "Give the radius at the taping line, not the diameter.");
  }
  const auto n = static_cast<std::size_t>(std::floor((wheel.y_max() - wheel.y_min()) / spacing + 1e-9)) + 1;
  if (n > GapLine::capacity) {
    throw InputError("column spacing (m)", number(spacing),
                     "at least " + number((wheel.y_max() - wheel.y_min()) / (GapLine::capacity - 1)) +
                         " m for wheel \"" + wheel.name + "\"",
                     "A search looks at up to " + std::to_string(GapLine::capacity) + " columns.");
  }
  for (std::vector<double>* column : {&height_, &slope_, &curvature_, &second_, &cosine_, &circle_}) {
    column->reserve(n);
  }
  for (std::size_t i = 0; i < n; ++i) {
    const profile::CurvePoint p = wheel.at(front_ + spacing * static_cast<double>(i));
    height_.push_back(p.value);
    slope_.push_back(p.slope);
    curvature_.push_back(p.curvature);
    cosine_.push_back(1.0 / std::sqrt(1.0 + p.slope * p.slope));
    second_.push_back(p.curvature / (cosine_.back() * cosine_.back() * cosine_.back()));
    circle_.push_back(1.0 / (radius + p.value));
  }
}

void BodyTable::fill(std::size_t row, const auto& slice) {
  edge_[row] = slice.edge;
  width_[row] = slice.width;
  for (std::size_t j = 0; j < columns_; ++j) {
    const double eta = spacing_ * (static_cast<double>(j) - static_cast<double>(margin));
    const layout::SurfacePoint p = slice.at(std::clamp(eta, 0.0, slice.width));
    z_[row * columns_ + j] = p.z;
    curvature_[row * columns_ + j] = p.curvature_y;
  }
}

BodyTable::BodyTable(const layout::Body& body, double from, double to, double spacing, double row)
    : name_(body.name), spacing_(spacing) {
  check_spacing(spacing);
  if (!(row >= 2e-4 && row <= 0.02)) {
    throw InputError("row spacing (m)", number(row), "0.0002 to 0.02 m", "5 mm follow the bends of a crossing.");
  }
  if (!(from < to)) {
    throw InputError("stretch of a body table (m)", number(from) + " to " + number(to), "from below to",
                     "Give stations in x.");
  }
  std::visit(
      [&](const auto& surface) {
        const double low = std::max(from - reach, surface.x_begin()), high = std::min(to + reach, surface.x_end());
        if (!(high - low > 3.0 * row)) {
          throw InputError("stretch of body \"" + name_ + "\" (m)", number(from) + " to " + number(to),
                           number(surface.x_begin()) + " to " + number(surface.x_end()) + " m",
                           "Choose stations on the body.");
        }
        rows_ = static_cast<std::size_t>(std::ceil((high - low) / row)) + 1;
        row_ = (high - low) / static_cast<double>(rows_ - 1);
        begin_ = low;
        double widest = 0.0;
        for (std::size_t k = 0; k < rows_; ++k) {
          widest = std::max(widest, surface.width(begin_ + row_ * static_cast<double>(k)));
        }
        columns_ = static_cast<std::size_t>(std::ceil(widest / spacing_)) + 1 + 2 * margin;
        edge_.resize(rows_);
        width_.resize(rows_);
        z_.resize(rows_ * columns_);
        curvature_.resize(rows_ * columns_);
        for (std::size_t k = 0; k < rows_; ++k) {
          fill(k, surface.slice(begin_ + row_ * static_cast<double>(k)));
        }
      },
      body.surface);
}

BodyTable::BodyTable(const profile::RailHead& rail, double spacing) : name_(rail.name), spacing_(spacing) {
  check_spacing(spacing);
  const double shift = 0.5 * standard_gauge - gauge_point(rail.curve); // rail axis from the track centre line
  const HeadSlice slice{&rail.curve, rail.curve.front() + shift, rail.curve.back() - rail.curve.front()};
  columns_ = static_cast<std::size_t>(std::ceil(slice.width / spacing_)) + 1 + 2 * margin;
  edge_.resize(1);
  width_.resize(1);
  z_.resize(columns_);
  curvature_.resize(columns_);
  fill(0, slice);
}

BodyTable::Place BodyTable::place(double x, double y0) const {
  if (uniform()) {
    return {(y0 - edge_[0]) / spacing_, width_[0], 0, {1.0, 0.0, 0.0, 0.0}};
  }
  const double p = std::clamp((x - begin_) / row_, 0.0, static_cast<double>(rows_ - 1));
  const auto cell = static_cast<std::size_t>(p);
  const std::size_t row = std::min(cell > 0 ? cell - 1 : 0, rows_ - 4);
  const double t = p - static_cast<double>(row); // 0 .. 3
  // Cubic through four equidistant rows (Lagrange).
  const double a = t - 1.0, b = t - 2.0, c = t - 3.0;
  Place place{0.0, 0.0, row, {-a * b * c / 6.0, t * b * c / 2.0, -t * a * c / 2.0, t * a * b / 6.0}};
  double edge = 0.0;
  for (std::size_t k = 0; k < 4; ++k) {
    edge += place.weight[k] * edge_[row + k];
    place.width += place.weight[k] * width_[row + k];
  }
  place.offset = (y0 - edge) / spacing_;
  return place;
}

double BodyTable::curvature(const Place& place, int column) const {
  const double p =
      std::clamp(place.offset + column + static_cast<double>(margin), 0.0, static_cast<double>(columns_) - 1.000001);
  const auto j = static_cast<std::size_t>(p);
  const double f = p - static_cast<double>(j);
  const std::size_t rows = uniform() ? 1 : 4;
  double sum = 0.0;
  for (std::size_t k = 0; k < rows; ++k) {
    const double* c = curvature_.data() + (place.row + k) * columns_ + j;
    sum += place.weight[k] * ((1.0 - f) * c[0] + f * c[1]);
  }
  return sum;
}

void BodyTable::heights(const Place& place, int from, int to, double* z) const {
  // Column i of the wheel lies at offset + i columns from the running edge: the same fraction between two columns for
  // all of them.
  const double start = place.offset + static_cast<double>(margin);
  const double whole = std::floor(start);
  const double f = start - whole;
  const double c0 = -f * (f - 1.0) * (f - 2.0) / 6.0, c1 = (f + 1.0) * (f - 1.0) * (f - 2.0) / 2.0,
               c2 = -(f + 1.0) * f * (f - 2.0) / 2.0, c3 = (f + 1.0) * f * (f - 1.0) / 6.0;
  const std::ptrdiff_t shift = static_cast<std::ptrdiff_t>(whole) - 1;
  const double* r0 = z_.data() + place.row * columns_ + shift;
  if (uniform()) {
    for (int i = from; i < to; ++i) {
      z[i] = c0 * r0[i] + c1 * r0[i + 1] + c2 * r0[i + 2] + c3 * r0[i + 3];
    }
    return;
  }
  const double* r1 = r0 + columns_;
  const double* r2 = r1 + columns_;
  const double* r3 = r2 + columns_;
  const auto [w0, w1, w2, w3] = place.weight;
  std::array<double, GapLine::capacity + 3> blend;
  for (int i = from; i < to + 3; ++i) {
    blend[i - from] = w0 * r0[i] + w1 * r1[i] + w2 * r2[i] + w3 * r3[i];
  }
  const double* b = blend.data();
  for (int i = 0; i < to - from; ++i) {
    z[from + i] = c0 * b[i] + c1 * b[i + 1] + c2 * b[i + 2] + c3 * b[i + 3];
  }
}

std::vector<std::optional<BodyTable>> tables_along(const layout::Crossing& crossing, double from, double to) {
  constexpr double shortest = 4.0 * row_spacing; // m, of a body that is worth a table
  std::vector<std::optional<BodyTable>> tables(crossing.bodies.size());
  for (std::size_t b = 0; b < tables.size(); ++b) {
    const auto [begin, end] = std::visit(
        [](const auto& surface) {
          return std::pair{surface.x_begin(), surface.x_end()};
        },
        crossing.bodies[b].surface);
    if (std::min(to + reach, end) - std::max(from - reach, begin) > shortest) {
      tables[b].emplace(crossing.bodies[b], from, to);
    }
  }
  return tables;
}

} // namespace wingnose::contact
