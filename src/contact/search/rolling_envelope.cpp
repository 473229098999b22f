#include "rolling_envelope.hpp"

#include "effective_curvature.hpp"
#include "sparse_rows.hpp"

#include "wingnose/numeric/clones.hpp"
#include "wingnose/words/constants.hpp"

#include <boost/math/tools/minima.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <type_traits>
#include <variant>

namespace wingnose::contact {
namespace {

constexpr std::size_t most_steps = 400;     // table steps within reach
constexpr double coarsest_step = 0.001;     // m
constexpr std::size_t curvature_stride = 4; // the effective curvature changes over centimetres
// Of the corrected table, 1/2 (yaw xi)^2 times the curvature of a 13 mm flange root, for the centimetre or two that yaw
// and ramps move a contact ahead (m per yaw squared).
constexpr double table_error = 0.015;
constexpr double jump = 0.0015; // m in y between neighbouring table stations: contact has moved to another place

template <class Body> constexpr bool same_everywhere = std::is_same_v<Body, layout::PlainRail>;

// Of a table, [n].
struct TableRows {
  const double *level, *local_radius, *tilt;
};
// tabled() to 1e-10 m for rows that lie xi, xi + step, ... ahead of the axle.
WINGNOSE_CLONES
void levels_seen(std::size_t n, const TableRows& rows, double xi, double step, double* __restrict seen) {
#pragma omp simd
  for (std::size_t i = 0; i < n; ++i) {
    const double ahead = xi + step * static_cast<double>(static_cast<int>(i)), r = rows.local_radius[i];
    const double q = ahead * ahead / (r * r);
    seen[i] = rows.level[i] - 0.5 * r * q * (1.0 + 0.25 * q * (1.0 + 0.5 * q)) - rows.tilt[i] * ahead;
  }
}

} // namespace

RollingEnvelope::RollingEnvelope(const layout::Surface& surface, const SampledWheel& wheel, double yaw,
                                 const Stretch& stretch)
    : surface_(&surface), wheel_(&wheel), yaw_(yaw) {
  std::visit(
      [&](const auto& body) {
        const double low = std::max(stretch.from - wheel_reach, body.x_begin());
        const double high = std::min(stretch.to + wheel_reach, body.x_end());
        if (!(low < high)) {
          return;
        }
        const double step = std::clamp(stretch.pitch, wheel_reach / static_cast<double>(most_steps - 1), coarsest_step);
        const auto n = static_cast<std::size_t>(std::max(4.0, std::ceil((high - low) / step)));
        begin_ = low;
        step_ = (high - low) / static_cast<double>(n);
        for (std::vector<double>* column : {&level_, &y_, &local_radius_, &tilt_}) {
          column->resize(n + 1);
        }
        tabulate(body);
        tabulate_curvature(body);
        const auto found = [](double level) { return std::isfinite(level); };
        const auto first = std::find_if(level_.begin(), level_.end(), found);
        if (first == level_.end()) {
          level_.clear();
          return;
        }
        first_ = static_cast<std::size_t>(first - level_.begin());
        last_ = static_cast<std::size_t>(level_.rend() - std::find_if(level_.rbegin(), level_.rend(), found)) - 1;
      },
      surface);
}

template <class Body> void RollingEnvelope::tabulate(const Body& body) {
  struct Row {
    double level, y, local_radius, tilt;
  };
  const auto search = [&](std::size_t k) {
    const double at = begin_ + step_ * static_cast<double>(same_everywhere<Body> ? 0 : k), radius = wheel_->radius();
    const LateralContact c = search_lateral(body.slice(at), *wheel_);
    return c.found() ? Row{c.level, c.y, radius + wheel_->profile_height(c.y),
                           yaw_ * (wheel_->at(c.y).slope + (c.y - wheel_->tape()) / radius)}
                     : Row{c.level, c.y, radius, 0.0};
  };
  // The table only says where to look; its second differences give the body's bend.
  constexpr std::array<Foreseen<Row>, 4> foreseen{
      {{&Row::level, 5e-9}, {&Row::y, 2e-6}, {&Row::local_radius, 2e-6}, {&Row::tilt, 2e-6}}};
  const std::vector<Row> rows =
      sparse_rows<Row>(level_.size(), foreseen, search, [](std::size_t, std::size_t) { return true; });
  for (std::size_t k = 0; k < level_.size(); ++k) {
    level_[k] = rows[k].level;
    y_[k] = rows[k].y;
    local_radius_[k] = rows[k].local_radius;
    tilt_[k] = rows[k].tilt;
  }
}

template <class Body> void RollingEnvelope::tabulate_curvature(const Body& body) {
  struct Curvature {
    double value = std::numeric_limits<double>::quiet_NaN();
  };
  const std::size_t n = level_.size() - 1, count = (n + curvature_stride - 1) / curvature_stride + 1;
  const auto search = [&](std::size_t i) {
    const std::size_t at = same_everywhere<Body> ? 0 : std::min(i * curvature_stride, n);
    const auto slice = body.slice(begin_ + step_ * static_cast<double>(at));
    return std::isfinite(level_[at]) ? Curvature{effective_lateral_curvature(slice, *wheel_, {level_[at], y_[at]})}
                                     : Curvature{};
  };
  constexpr std::array<Foreseen<Curvature>, 1> foreseen{{{&Curvature::value, 1e-3}}}; // 1/m
  for (const Curvature& c : sparse_rows<Curvature>(
           count, foreseen, search, [&](std::size_t, std::size_t last) { return last * curvature_stride <= n; })) {
    curvature_.push_back(c.value);
  }
}

double RollingEnvelope::tabled(std::size_t k, double xi) const {
  return seen_from_axle(level_[k], local_radius_[k], xi) - tilt_[k] * xi;
}

bool RollingEnvelope::continuous(std::size_t k) const {
  return k > 0 && k + 1 < level_.size() && std::isfinite(level_[k - 1]) && std::isfinite(level_[k + 1]) &&
         std::abs(y_[k] - y_[k - 1]) < jump && std::abs(y_[k + 1] - y_[k]) < jump;
}

double RollingEnvelope::level_exact(double at, double xi) const {
  return std::visit(
      [&](const auto& body) {
        if (at < body.x_begin() || at > body.x_end()) {
          return -1.0;
        }
        const YawedSection section(*wheel_, yaw_, xi);
        const LateralContact c = search_lateral(body.slice(at), section);
        return c.found() ? seen_from_axle(c.level, wheel_->radius() + section.profile_height(c.y), xi) : -1.0;
      },
      *surface_);
}

double RollingEnvelope::lateral_curvature(double at) const {
  const double place = std::max(0.0, (at - begin_) / (step_ * curvature_stride));
  const std::size_t i = std::min(static_cast<std::size_t>(place), curvature_.size() - 2);
  // The last interval may be shorter than the others; it is level to that accuracy.
  const double a = curvature_[i], b = curvature_[i + 1], r = std::min(1.0, place - static_cast<double>(i));
  if (!std::isfinite(a) || !std::isfinite(b)) {
    return std::isfinite(a) ? a : b;
  }
  return a + r * (b - a);
}

// Where the contact changes place within a table step no parabola holds: maximise over true sections.
double RollingEnvelope::search_offset(double low, double high, double x) const {
  const auto lost = [&](double xi) { return -level_exact(x + xi, xi); };
  return boost::math::tools::brent_find_minima(lost, low, high, 24).first;
}

double RollingEnvelope::refine_offset(std::size_t k, double x) const {
  const double xi = begin_ + step_ * static_cast<double>(k) - x;
  if (!continuous(k)) {
    const double low = std::max(xi - step_, begin_ - x);
    const double high = std::min(xi + step_, begin_ + step_ * static_cast<double>(level_.size() - 1) - x);
    const double inside = search_offset(low, high, x);
    return level_exact(x + inside, inside) > tabled(k, xi) ? inside : xi;
  }
  const double a = tabled(k - 1, xi - step_), b = tabled(k, xi), c = tabled(k + 1, xi + step_);
  const double bend = a - 2.0 * b + c;
  return bend < 0.0 ? xi + std::clamp(0.5 * (a - c) / bend, -1.0, 1.0) * step_ : xi;
}

void RollingEnvelope::consider(std::size_t k, double x, Touch& t) const {
  const double xi = refine_offset(k, x);
  std::visit(
      [&](const auto& body) {
        const auto slice = body.slice(x + xi);
        const YawedSection section(*wheel_, yaw_, xi);
        const bool steady = continuous(k);
        const double low = std::max(slice.edge, section.low());
        const double high = std::min(slice.edge + slice.width, section.high());
        if (!(low < high)) {
          return; // yaw has carried the wheel's end off the metal
        }
        const LateralContact c = steady
                                     ? refine_lateral(slice, section, std::max(low, y_[k] - 2.0 * jump),
                                                      std::clamp(y_[k], low, high), std::min(high, y_[k] + 2.0 * jump))
                                     : search_lateral(slice, section);
        const double local = wheel_->radius() + section.profile_height(c.y);
        const double height = seen_from_axle(c.level, local, xi);
        if (!c.found() || height <= t.height) {
          return;
        }
        const layout::SurfacePoint s = slice.at(c.y - slice.edge);
        // Along the track the body bends as its contact line does: at a fixed place on the wheel the run-out of the
        // edge would show the wheel's and edge's lateral curvature again.
        const double bend = steady ? (level_[k - 1] - 2.0 * level_[k] + level_[k + 1]) / (step_ * step_) : 0.0;
        t.height = height;
        t.contact_y = c.y;
        t.contact_dx = xi;
        t.wheel_y = section.wheel_y(c.y);
        t.angle = std::atan(s.slope_y);
        const double wheel_curvature = std::cos(t.angle) / local;
        t.curvature_x = std::max(least_longitudinal_share * wheel_curvature, wheel_curvature - bend);
        t.curvature_y = std::max(least_lateral_curvature, lateral_curvature(x + xi));
        t.local_curvature_y = -s.curvature_y - section.at(c.y).curvature;
      },
      *surface_);
}

Touch RollingEnvelope::touch(double x) const {
  Touch t;
  if (level_.empty()) {
    return t;
  }
  const auto first = static_cast<double>(first_), last = static_cast<double>(last_);
  const double k_low = std::ceil((x - wheel_reach - begin_) / step_),
               k_high = std::floor((x + wheel_reach - begin_) / step_);
  if (k_high < first || k_low > last) {
    return t;
  }
  const auto from = static_cast<std::size_t>(std::max(first, k_low));
  const auto to = static_cast<std::size_t>(std::min(last, k_high));
  // Best table station, and any other local best that refinement (step^2 / 8 R) could lift above it.
  std::array<double, 2 * most_steps + 2> f;
  double top = -std::numeric_limits<double>::infinity();
  const std::size_t n = std::min(f.size(), to - from + 1);
  levels_seen(n, {level_.data() + from, local_radius_.data() + from, tilt_.data() + from},
              begin_ + step_ * static_cast<double>(from) - x, step_, f.data());
  for (std::size_t i = 0; i < n; ++i) {
    top = std::max(top, f[i]);
  }
  if (!std::isfinite(top)) {
    return t;
  }
  const double gain = step_ * step_ / (4.0 * wheel_->radius()) + table_error * yaw_ * yaw_;
  for (std::size_t i = 0; i < n; ++i) {
    const bool peak = f[i] >= top - gain && (i == 0 || f[i] >= f[i - 1]) && (i + 1 == n || f[i] > f[i + 1]);
    if (peak) {
      consider(from + i, x, t);
    }
  }
  return t;
}

} // namespace wingnose::contact
