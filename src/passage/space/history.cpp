#include "wingnose/passage/space/history.hpp"

#include <algorithm>

namespace wingnose::passage::space {

Eigen::MatrixXd SpaceHistory::sum_of_Y() const {
  Eigen::MatrixXd sum(Y.rows(), wheelsets());
  for (Eigen::Index i = 0; i < wheelsets(); ++i) {
    sum.col(i) = Y.col(2 * i) + Y.col(2 * i + 1);
  }
  return sum;
}

void SpaceHistory::shorten() {
  const auto rows = static_cast<Eigen::Index>(time.size());
  for (Eigen::MatrixXd* m :
       {&shift, &shift_at_rail, &yaw, &roll, &height, &shift_rate, &rise_rate, &roll_rate, &part_roll, &Y, &Q, &on_nose,
        &creep_power, &check_force, &check_station, &contact_y, &contact_angle, &contacts}) {
    m->conservativeResize(rows, Eigen::NoChange);
  }
}

Eigen::MatrixXd sliding_mean(const SpaceHistory& history, const Eigen::MatrixXd& values, double length) {
  Eigen::MatrixXd out(values.rows(), values.cols());
  Eigen::RowVectorXd integral = Eigen::RowVectorXd::Zero(values.cols()); // over the window, trapezoidal
  Eigen::Index first = 0;
  const auto piece = [&](Eigen::Index i) { // from instant i to the next
    const auto k = static_cast<std::size_t>(i);
    return (0.5 * (history.station[k + 1] - history.station[k]) * (values.row(i) + values.row(i + 1))).eval();
  };
  for (Eigen::Index i = 0; i < values.rows(); ++i) {
    if (i > 0) {
      integral += piece(i - 1);
    }
    const double here = history.station[static_cast<std::size_t>(i)];
    while (first + 1 < i && here - history.station[static_cast<std::size_t>(first + 1)] >= length * (1.0 - 1e-9)) {
      integral -= piece(first);
      ++first;
    }
    const double covered = here - history.station[static_cast<std::size_t>(first)];
    out.row(i) = covered > 0.0 ? Eigen::RowVectorXd(integral / covered) : Eigen::RowVectorXd(values.row(i));
  }
  return out;
}

std::optional<CheckRailBlow> check_rail_blow(const SpaceHistory& history, const Rolling& rolling,
                                             Eigen::Index wheelset) {
  const double behind = rolling.model.vehicle.wheelsets[static_cast<std::size_t>(wheelset)].x;
  std::optional<CheckRailBlow> blow;
  for (Eigen::Index i = 0; i < history.check_force.rows(); ++i) {
    const double force = history.check_force(i, wheelset);
    const auto k = static_cast<std::size_t>(i);
    const double step = k > 0 ? history.time[k] - history.time[k - 1] : 0.0;
    if (blow) {
      blow->impulse += 0.5 * step * (force + (i > 0 ? history.check_force(i - 1, wheelset) : 0.0));
    }
    if (!(force > 0.0)) {
      continue;
    }
    const double axle = history.station[k] + behind;
    if (!blow) {
      blow = CheckRailBlow{axle, axle, 0.0, 0.0, 0.5 * step * force, history.yaw(i, wheelset)};
    }
    blow->last = axle;
    if (force > blow->peak) {
      blow->peak = force;
      blow->at = history.check_station(i, wheelset);
    }
  }
  return blow;
}

} // namespace wingnose::passage::space
