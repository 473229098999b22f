// Walks along a tabulated path with a wheel: O(1) per step because a wheel only ever moves to the neighbouring
// intervals.
#pragma once

#include "wingnose/contact/normal/force_law.hpp"
#include "wingnose/contact/path/kinematics.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <limits>

namespace wingnose::passage {

// Height of the wheel on one body alone (m, -infinity where it cannot touch) and the law of that contact.
struct BodyState {
  double height;
  contact::ForceLaw law;
};

// Where a cursor that is not yet near x had best begin.
[[nodiscard]] inline int interval_at(const contact::WheelPath& path, double x) {
  const auto after = std::upper_bound(path.station.begin(), path.station.end(), x) - path.station.begin();
  return static_cast<int>(std::clamp<std::ptrdiff_t>(after - 1, 0, std::ssize(path.station) - 2));
}

class PathCursor {
public:
  // station: [count], strictly increasing. Beyond either end the path continues level with its end values.
  explicit PathCursor(const contact::WheelPath& path, int interval = 0)
      : station_(path.station.data()), last_(static_cast<int>(path.station.size()) - 1), i_(interval) {}
  [[nodiscard]] int interval() const { return i_; }

  void move_to(double x) {
    while (i_ > 0 && x < station_[i_]) {
      --i_;
    }
    while (i_ < last_ - 1 && x >= station_[i_ + 1]) {
      ++i_;
    }
    const double t = (x - station_[i_]) / (station_[i_ + 1] - station_[i_]);
    t_ = t < 0.0 ? 0.0 : (t > 1.0 ? 1.0 : t);
  }
  // further_terms: false reads the first term of the laws only.
  template <bool further_terms = true>
  [[nodiscard]] BodyState body(const std::vector<double>& height, const std::vector<contact::ForceLaw>& law) const {
    const double z0 = height[i_], z1 = height[i_ + 1];
    if (!(std::isfinite(z0) && std::isfinite(z1))) {
      return {-std::numeric_limits<double>::infinity(), {}};
    }
    const double z = z0 + t_ * (z1 - z0);
    if constexpr (further_terms) {
      return {z, contact::blend(law[i_], law[i_ + 1], t_)};
    } else {
      return {z, {law[i_].c0 + t_ * (law[i_ + 1].c0 - law[i_].c0)}};
    }
  }

private:
  const double* station_;
  int last_;
  int i_;
  double t_ = 0.0;
};

} // namespace wingnose::passage
