#include "wingnose/assess/guidance.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::assess {
namespace {

namespace space = passage::space;
using Index = Eigen::Index;
using Contacts = std::vector<space::ContactRecord>;

constexpr double mean_length = 2.0;       // m, of sliding means (EN 14363)
constexpr double set_down = 2.0;          // m, from where it enters
constexpr double steep = 0.5235987756;    // rad, 30 degrees: steeper regions are those of a flange (our convention)
constexpr double flange_measured = 10e-3; // m, below the tread, where the thickness of a flange is taken

// Prud'homme 1967, sum of Y that a track bears: 10 kN and a third of the axle load (from memory, high).
double prudhomme(double axle_load) { return 10e3 + axle_load / 3.0; }

double axle(const RideRead& r, Index wheelset) {
  return r.rolling.model.vehicle.wheelsets[static_cast<std::size_t>(wheelset)].x;
}
double step_before(const space::SpaceHistory& h, Index row) {
  const auto k = static_cast<std::size_t>(row);
  return row > 0 ? h.time[k] - h.time[k - 1] : 0.0;
}

// Power of creep, an instant a row: where the flange is steep, and of backs on the check rail.
struct Worn {
  Eigen::MatrixXd flange, check; // W, a column a wheelset
};
Worn worn(const RideRead& r) {
  const Index rows = r.history.shift.rows(), sets = r.history.wheelsets();
  Worn out{Eigen::MatrixXd::Zero(rows, sets), Eigen::MatrixXd::Zero(rows, sets)};
  for (Index row = 0; row < rows; ++row) {
    for (const space::ContactRecord& c : r.contacts[static_cast<std::size_t>(row)]) {
      if (c.body < 0) {
        out.check(row, c.wheelset) += c.power;
      } else if (std::abs(c.angle) > steep) {
        out.flange(row, c.wheelset) += c.power;
      }
    }
  }
  return out;
}

double over_time(const space::SpaceHistory& h, const Eigen::VectorXd& values) {
  double sum = 0.0;
  for (Index row = 0; row < values.size(); ++row) {
    sum += step_before(h, row) * values(row);
  }
  return sum;
}

// By what the nose carries more than the wing, of the wheel on the crossing's side; nothing where neither carries.
std::optional<double> more_on_nose(const Contacts& contacts, const space::Ground& ground, int wheelset) {
  double more = 0.0;
  bool either = false;
  for (const space::ContactRecord& c : contacts) {
    if (c.wheelset != wheelset || c.wheel != 0 || c.body < 0) {
      continue;
    }
    const layout::Role role = ground.bodies[static_cast<std::size_t>(c.body)].role;
    if (role == layout::Role::nose || role == layout::Role::wing) {
      more += (role == layout::Role::nose ? 1.0 : -1.0) * c.normal * std::cos(c.angle);
      either = true;
    }
  }
  return either ? std::optional(more) : std::nullopt;
}

// Of the axle, where the nose begins to carry more than the wing; linear between instants.
std::optional<double> transfer(const RideRead& r, int wheelset) {
  std::optional<double> before;
  for (std::size_t k = 0; k < r.history.station.size(); ++k) {
    const std::optional<double> more = more_on_nose(r.contacts[k], r.ground, wheelset);
    if (before && more && *before < 0.0 && *more >= 0.0) {
      const double back = *more / (*more - *before) * (r.history.station[k] - r.history.station[k - 1]);
      return r.history.station[k] - back + axle(r, wheelset);
    }
    before = more;
  }
  return std::nullopt;
}

// Front of a flange from the middle of its wheelset, where its thickness is taken (m); nothing without a flange.
std::optional<double> flange_front(const profile::WheelProfile& wheel, double half_spacing) {
  constexpr double pitch = 0.05e-3; // m
  for (double y = 0.0; y > wheel.y_min(); y -= pitch) {
    if (wheel.height(y) >= flange_measured) {
      return half_spacing + y;
    }
  }
  return std::nullopt;
}

// Least distance of a flange's front to the nose's running face while its axle is between the point and where the nose
// is wide: rigid, by the shift at rail level. Wheel 0 runs on the crossing's side.
std::optional<double> nose_margin(const RideRead& r, Index wheelset) {
  const auto front =
      flange_front(r.wheel, r.rolling.model.vehicle.wheelsets[static_cast<std::size_t>(wheelset)].half_spacing);
  std::optional<double> least;
  for (Index row = 0; front && row < r.history.shift_at_rail.rows(); ++row) {
    const double station = r.history.station[static_cast<std::size_t>(row)] + axle(r, wheelset);
    if (station >= 0.0 && station <= r.nose_end) {
      const double left = r.nose_face - *front - r.history.shift_at_rail(row, wheelset);
      least = std::min(least.value_or(left), left);
    }
  }
  return least;
}

// Means that count: what a vehicle does where it is set down is not what it does on its way.
struct Means {
  Eigen::MatrixXd Y, Q, sum, flange, check;
};
Means means(const RideRead& r, const Worn& power) {
  const space::SpaceHistory& h = r.history;
  Index first = 0;
  while (first + 1 < h.shift.rows() &&
         h.station[static_cast<std::size_t>(first)] < h.station.front() + set_down + mean_length) {
    ++first;
  }
  const auto mean = [&](const Eigen::MatrixXd& of) {
    return Eigen::MatrixXd(space::sliding_mean(h, of, mean_length).bottomRows(h.shift.rows() - first));
  };
  return {mean(h.Y), mean(h.Q), mean(h.sum_of_Y()), mean(power.flange), mean(power.check)};
}

GuidedWheelset guided(const RideRead& r, Index i, const Means& mean, const Worn& power) {
  const space::SpaceHistory& h = r.history;
  const auto k = static_cast<std::size_t>(i);
  const std::array<double, 2>& load = r.rolling.model.wheel_load[k];
  GuidedWheelset out;
  out.name = r.rolling.model.vehicle.wheelsets[k].name;
  out.static_load = 0.5 * (load[0] + load[1]);
  out.prudhomme = prudhomme(load[0] + load[1]);
  out.sum_of_Y = mean.sum.col(i).cwiseAbs().maxCoeff();
  for (const int wheel : {0, 1}) {
    const Eigen::ArrayXd outward = (wheel == 0 ? 1.0 : -1.0) * mean.Y.col(2 * i + wheel).array();
    const Eigen::ArrayXd down = mean.Q.col(2 * i + wheel).array().max(1.0);
    out.outward_over_Q = std::max(out.outward_over_Q, (outward / down).maxCoeff());
    const double least = mean.Q.col(2 * i + wheel).minCoeff(), at_rest = load[static_cast<std::size_t>(wheel)];
    out.unloading = std::max(out.unloading, 1.0 - least / at_rest);
  }
  out.most_Q = mean.Q.middleCols(2 * i, 2).maxCoeff();
  out.least_Q = mean.Q.middleCols(2 * i, 2).minCoeff();
  out.most_shift = h.shift_at_rail.col(i).cwiseAbs().maxCoeff();
  out.most_attack = h.yaw.col(i).cwiseAbs().maxCoeff();
  out.flange_power = mean.flange.col(i).maxCoeff();
  out.flange_energy = over_time(h, power.flange.col(i));
  out.check_power = mean.check.col(i).maxCoeff();
  out.check_energy = over_time(h, power.check.col(i));
  out.transfer = transfer(r, static_cast<int>(i));
  out.nose_margin = nose_margin(r, i);
  out.check = space::check_rail_blow(h, r.rolling, i);
  if (out.check) {
    out.check_peak = Band{out.check->peak, out.check->peak};
    out.check_impulse = Band{out.check->impulse, out.check->impulse};
  }
  return out;
}

} // namespace

Guidance guidance(const RideRead& r) {
  const space::SpaceHistory& h = r.history;
  Guidance out;
  out.nadal = nadal(flange_angle(r.wheel), r.friction);
  if (h.time.empty()) {
    return out;
  }
  const Worn power = worn(r);
  const Means counted = means(r, power);
  for (Index i = 0; i < h.wheelsets(); ++i) {
    out.wheelsets.push_back(guided(r, i, counted, power));
  }
  out.accelerations = accelerations(h, r.rolling, r.ground);
  return out;
}

void widen(Guidance& g, const space::SpaceHistory& other, const space::Rolling& rolling) {
  const auto grow = [](std::optional<Band>& band, double value) {
    band = band ? Band{std::min(band->least, value), std::max(band->most, value)} : Band{value, value};
  };
  for (std::size_t i = 0; i < g.wheelsets.size(); ++i) {
    const auto blow = space::check_rail_blow(other, rolling, static_cast<Index>(i));
    if (blow || g.wheelsets[i].check) { // one that does not touch takes nothing
      grow(g.wheelsets[i].check_peak, blow ? blow->peak : 0.0);
      grow(g.wheelsets[i].check_impulse, blow ? blow->impulse : 0.0);
    }
  }
}

double flange_angle(const profile::WheelProfile& wheel) {
  constexpr double pitch = 0.1e-3; // m
  double steepest = 0.0, highest = wheel.height(0.0);
  for (double y = 0.0; y > wheel.y_min(); y -= pitch) { // from the tread up to the tip, not down its back
    const profile::CurvePoint p = wheel.at(y);
    if (p.value < highest - 1e-3) {
      break;
    }
    highest = std::max(highest, p.value);
    steepest = std::max(steepest, -std::atan(p.slope));
  }
  return highest > flange_measured ? steepest : 0.0;
}

double nadal(double angle, double friction) {
  return (std::tan(angle) - friction) / (1.0 + friction * std::tan(angle));
}

} // namespace wingnose::assess
