#include "wingnose/passage/space/history.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::passage::space {
namespace {

// Straight between the instants of a ride, at equal steps.
class Resampled {
public:
  Resampled(const std::vector<double>& time, double step) {
    const auto samples = static_cast<std::size_t>(std::floor((time.back() - time.front()) / step + 1e-6)) + 1;
    std::size_t k = 0;
    for (std::size_t i = 0; i < samples; ++i) {
      const double t = time.front() + static_cast<double>(i) * step;
      while (k + 2 < time.size() && time[k + 1] <= t) {
        ++k;
      }
      const double share = (t - time[k]) / (time[k + 1] - time[k]);
      constexpr double same = 1e-9; // on an instant, to rounding
      at_.push_back({k, share < same ? 0.0 : share > 1.0 - same ? 1.0 : share});
    }
  }
  template <class Of> [[nodiscard]] std::vector<double> operator()(const Of& of) const {
    std::vector<double> out;
    out.reserve(at_.size());
    for (const auto& [k, share] : at_) {
      out.push_back(share == 0.0 ? of(k) : share == 1.0 ? of(k + 1) : of(k) + share * (of(k + 1) - of(k)));
    }
    return out;
  }

private:
  struct At {
    std::size_t instant;
    double share;
  };
  std::vector<At> at_;
};

// Share of the step before the sample `loaded` at which a force that goes as the approach to 3/2 begins, by the line
// through the approaches there and at the next sample, `way` = 1, or ends, -1.
double begins(const std::vector<double>& force, std::size_t loaded, int way) {
  const auto approach = [&](std::size_t i) { return std::cbrt(force[i] * force[i]); };
  const std::ptrdiff_t next = static_cast<std::ptrdiff_t>(loaded) + way;
  if (next < 0 || next >= static_cast<std::ptrdiff_t>(force.size())) {
    return 0.5;
  }
  const double here = approach(loaded), growth = approach(static_cast<std::size_t>(next)) - here;
  return growth > here ? here / growth : 1.0; // it has begun within the step
}

void add_events(History& h) {
  const auto add = [&](Event::Kind kind, std::size_t body, double sample) {
    const auto i = static_cast<std::size_t>(std::clamp(sample, 0.0, static_cast<double>(h.time.size() - 2)));
    const double share = sample - static_cast<double>(i);
    h.events.push_back(
        {kind, h.bodies[body], h.time[i] + share * h.step, h.station[i] + share * (h.station[i + 1] - h.station[i])});
  };
  for (std::size_t i = 0; i + 1 < h.time.size(); ++i) {
    for (std::size_t b = 0; b < h.bodies.size(); ++b) {
      const std::vector<double>& f = h.body_force[b];
      if (f[i] <= 0.0 && f[i + 1] > 0.0) {
        add(Event::Kind::touch, b, static_cast<double>(i + 1) - begins(f, i + 1, 1));
      } else if (f[i] > 0.0 && f[i + 1] <= 0.0) {
        add(Event::Kind::lift_off, b, static_cast<double>(i) + begins(f, i, -1));
      }
    }
    if (h.bodies.size() == 2 && h.force[i] > 0.0 && h.force[i + 1] > 0.0) {
      const double before = h.body_force[1][i] - h.body_force[0][i],
                   after = h.body_force[1][i + 1] - h.body_force[0][i + 1];
      if (before * after < 0.0) {
        add(Event::Kind::transfer, after > 0.0 ? 1 : 0, static_cast<double>(i) + before / (before - after));
      }
    }
  }
  std::stable_sort(h.events.begin(), h.events.end(), [](const Event& a, const Event& b) { return a.time < b.time; });
}

} // namespace

History of_wheel(const SpaceHistory& ride, const Rolling& rolling, const Ground& ground, Eigen::Index wheelset,
                 int wheel) {
  if (wheelset < 0 || wheelset >= ride.wheelsets() || wheel < 0 || wheel > 1 || ride.time.size() < 4) {
    throw InputError("wheel of a ride", std::to_string(wheel) + " of wheelset " + std::to_string(wheelset),
                     "one that is there, over four instants or more", "Wheels count from 0.");
  }
  const Eigen::Index column = 2 * wheelset + wheel;
  const auto set = static_cast<std::size_t>(wheelset);
  History h;
  h.step = ride.time[1] - ride.time[0];
  for (std::size_t i = 2; i < ride.time.size(); ++i) {
    h.step = std::min(h.step, ride.time[i] - ride.time[i - 1]);
  }
  const Resampled resampled(ride.time, h.step);
  const auto row = [](std::size_t k) { return static_cast<Eigen::Index>(k); };
  const double x = rolling.model.vehicle.wheelsets[set].x;
  h.time = resampled([&](std::size_t k) { return ride.time[k]; });
  h.station = resampled([&](std::size_t k) { return ride.station[k] + x; });
  h.force = resampled([&](std::size_t k) { return ride.Q(row(k), column); });
  const double out = wheel == 0 ? rolling.model.vehicle.wheelsets[set].half_spacing
                                : -rolling.model.vehicle.wheelsets[set].half_spacing;
  h.wheel_height =
      resampled([&](std::size_t k) { return ride.height(row(k), wheelset) + out * ride.roll(row(k), wheelset); });
  const layout::Side side = wheel == 0 ? layout::Side::crossing : layout::Side::opposite;
  const bool nose = std::any_of(ground.bodies.begin(), ground.bodies.end(),
                                [&](const layout::Body& b) { return b.side == side && b.role == layout::Role::nose; });
  if (nose) {
    h.bodies = {"wing", "nose"};
    h.roles = {layout::Role::wing, layout::Role::nose};
    h.body_force.push_back(
        resampled([&](std::size_t k) { return ride.Q(row(k), column) - ride.on_nose(row(k), column); }));
    h.body_force.push_back(resampled([&](std::size_t k) { return ride.on_nose(row(k), column); }));
  } else {
    h.bodies = {"rail"};
    h.roles = {layout::Role::stock};
    h.body_force = {h.force};
  }
  h.wheel_peaks = {*std::max_element(h.force.begin(), h.force.end())};
  h.static_load = rolling.model.wheel_load[set][static_cast<std::size_t>(wheel)];
  h.method = "in space";
  add_events(h);
  return h;
}

} // namespace wingnose::passage::space
