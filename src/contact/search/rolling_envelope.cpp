#include "rolling_envelope.hpp"

#include "effective_curvature.hpp"

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

// Whether two sections are the same where the wheel meets them, and around it: on plain rail nothing changes from
// station to station. The same touching point alone is not enough, the section around it may be running out.
template <class Slice> bool alike(const Slice& a, double y_a, const Slice& b, double y_b) {
  bool same = a.edge == b.edge && std::abs(y_a - y_b) < 1e-9;
  for (double y = -0.009; same && y < 0.01; y += 0.003) {
    const double eta = std::max(0.0, y_a + y - a.edge);
    same = std::abs(a.height(eta) - b.height(eta)) < 1e-11;
  }
  return same;
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
      },
      surface);
}

template <class Body> void RollingEnvelope::tabulate(const Body& body) {
  for (std::size_t k = 0; k < level_.size(); ++k) {
    if (same_everywhere<Body> && k > 0) {
      for (std::vector<double>* column : {&level_, &y_, &local_radius_, &tilt_}) {
        (*column)[k] = column->front();
      }
      continue;
    }
    const LateralContact c = search_lateral(body.slice(begin_ + step_ * static_cast<double>(k)), *wheel_);
    const double radius = wheel_->radius();
    level_[k] = c.level;
    y_[k] = c.y;
    local_radius_[k] = c.found() ? radius + wheel_->profile_height(c.y) : radius;
    tilt_[k] = c.found() ? yaw_ * (wheel_->at(c.y).slope + (c.y - wheel_->tape()) / radius) : 0.0;
  }
}

template <class Body> void RollingEnvelope::tabulate_curvature(const Body& body) {
  const std::size_t n = level_.size() - 1;
  for (std::size_t k = 0; k < n + curvature_stride; k += curvature_stride) {
    const std::size_t at = std::min(k, n), last = at >= curvature_stride ? at - curvature_stride : 0;
    const auto slice = body.slice(begin_ + step_ * static_cast<double>(at));
    const bool same =
        at == k && k > 0 && alike(slice, y_[at], body.slice(begin_ + step_ * static_cast<double>(last)), y_[last]);
    if (same) {
      curvature_.push_back(curvature_.back());
    } else if (std::isfinite(level_[at])) {
      curvature_.push_back(effective_lateral_curvature(slice, *wheel_, {level_[at], y_[at]}));
    } else {
      curvature_.push_back(std::numeric_limits<double>::quiet_NaN());
    }
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
  const double last = static_cast<double>(level_.size() - 1);
  const double k_low = std::ceil((x - wheel_reach - begin_) / step_),
               k_high = std::floor((x + wheel_reach - begin_) / step_);
  if (k_high < 0.0 || k_low > last) {
    return t;
  }
  const auto from = static_cast<std::size_t>(std::max(0.0, k_low));
  const auto to = static_cast<std::size_t>(std::min(last, k_high));
  // Best table station, and any other local best that refinement (step^2 / 8 R) could lift above it.
  std::array<double, 2 * most_steps + 2> f;
  double top = -std::numeric_limits<double>::infinity();
  const std::size_t n = std::min(f.size(), to - from + 1);
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t k = from + i;
    const double xi = begin_ + step_ * static_cast<double>(k) - x, r = local_radius_[k], q = xi * xi / (r * r);
    f[i] = level_[k] - 0.5 * r * q * (1.0 + 0.25 * q * (1.0 + 0.5 * q)) - tilt_[k] * xi; // tabled() to 1e-10 m
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
