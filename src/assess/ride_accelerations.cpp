#include "wingnose/assess/ride_accelerations.hpp"

#include "wingnose/assess/measures.hpp"
#include "wingnose/layout/turnout/kinematics.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace wingnose::assess {
namespace {

namespace space = passage::space;
using vehicle::space::Motion;

constexpr double counted_from = 2.0; // m, from where the ride begins
// Of the cut-off, at both ends of a ride: there a filter run both ways knows only one side.
constexpr double periods_left_out = 1.5;

// Means between instants, at equal steps: one as long as several steps counts as often.
class Differenced {
public:
  explicit Differenced(const space::SpaceHistory& h) : h_(&h), step_(h.time[1] - h.time[0]) {
    for (std::size_t k = 2; k < h.time.size(); ++k) {
      step_ = std::min(step_, h.time[k] - h.time[k - 1]);
    }
  }
  [[nodiscard]] double step() const { return step_; } // s
  // felt(k): m/s2, between the instants k and k + 1. Nullopt where the ride is too short for the cut-off (Hz).
  template <class Felt> [[nodiscard]] std::optional<double> largest(const Felt& felt, double cut_off) const {
    std::vector<double> signal;
    std::size_t first = 0;
    for (std::size_t k = 0; k + 1 < h_->time.size(); ++k) {
      const auto times = std::lround((h_->time[k + 1] - h_->time[k]) / step_);
      signal.insert(signal.end(), static_cast<std::size_t>(times), felt(k));
      first = h_->station[k] < h_->station.front() + counted_from ? signal.size() : first;
    }
    const std::vector<double> slow = low_pass_zero_phase(signal, step_, cut_off, acceleration_order);
    const auto beside_end = static_cast<std::size_t>(periods_left_out / (cut_off * step_));
    std::optional<double> top;
    for (std::size_t i = std::max(first, beside_end); i + beside_end < slow.size(); ++i) {
      top = std::max(top.value_or(0.0), std::abs(slow[i]));
    }
    return top;
  }

private:
  const space::SpaceHistory* h_;
  double step_;
};

// Of one part (wheelsets first, then bodies), between the instants k and k + 1.
struct FeltPart {
  const space::SpaceHistory* h;
  const layout::turnout::Route* route;
  Eigen::Index part;
  double x; // m, of it from the leading wheelset

  [[nodiscard]] double rise(const Eigen::MatrixXd& of, std::size_t k) const {
    const auto row = static_cast<Eigen::Index>(k);
    return (of(row + 1, part) - of(row, part)) / (h->time[k + 1] - h->time[k]);
  }
  // Of the curve: m/s2 towards its middle, and the angle of its cant.
  [[nodiscard]] std::pair<double, double> curve(std::size_t k) const {
    const double station = 0.5 * (h->station[k] + h->station[k + 1]) + x;
    const double speed = (h->station[k + 1] - h->station[k]) / (h->time[k + 1] - h->time[k]);
    return {speed * speed * route->curvature(station), std::asin(route->cant(station) / layout::turnout::tape_lines)};
  }
  // over: m, beside the middle.
  [[nodiscard]] double vertical(std::size_t k, double over = 0.0) const {
    const auto [towards, cant] = curve(k);
    return rise(h->rise_rate, k) + over * rise(h->roll_rate, k) - gravity * (1.0 - std::cos(cant)) +
           towards * std::sin(cant);
  }
  [[nodiscard]] double lateral(std::size_t k) const {
    const auto [towards, cant] = curve(k);
    const auto row = static_cast<Eigen::Index>(k);
    const double roll = 0.5 * (h->part_roll(row, part) + h->part_roll(row + 1, part));
    return rise(h->shift_rate, k) + towards * std::cos(cant) - gravity * std::sin(cant) + gravity * roll;
  }
};

bool carries_another(const vehicle::space::SpatialVehicle& vehicle, const std::string& body) {
  return std::any_of(vehicle.links.begin(), vehicle.links.end(), [&](const auto& link) { return link.lower == body; });
}

} // namespace

std::vector<PartAcceleration> accelerations(const space::SpaceHistory& h, const space::Rolling& rolling,
                                            const space::Ground& ground) {
  constexpr std::size_t fewest = 4; // instants
  std::vector<PartAcceleration> out;
  if (h.time.size() < fewest) {
    return out;
  }
  const Differenced differenced(h);
  const vehicle::space::SpatialVehicle& table = rolling.model.vehicle;
  const auto moves = [](const vehicle::space::Freedom& free, Motion motion) {
    return free[static_cast<std::size_t>(motion)];
  };
  Eigen::Index part = h.wheelsets();
  for (const vehicle::space::RigidBody& body : table.bodies) {
    const FeltPart felt{&h, &ground.route, part++, body.x};
    PartAcceleration& one = out.emplace_back(PartAcceleration{
        body.name, carries_another(table, body.name) ? VehiclePart::frame : VehiclePart::car_body, {}, {}});
    if (moves(body.free, Motion::z)) {
      one.vertical = differenced.largest([&](std::size_t k) { return felt.vertical(k); }, cut_off(one.part));
    }
    if (moves(body.free, Motion::y)) {
      one.lateral = differenced.largest([&](std::size_t k) { return felt.lateral(k); }, cut_off(one.part));
    }
  }
  for (part = 0; h.rails_bend && part < h.wheelsets(); ++part) {
    const vehicle::space::Wheelset& set = table.wheelsets[static_cast<std::size_t>(part)];
    const FeltPart felt{&h, &ground.route, part, set.x};
    PartAcceleration& one = out.emplace_back(PartAcceleration{set.name, VehiclePart::axle_box, {}, {}});
    for (const double over : {set.half_spacing, -set.half_spacing}) {
      const std::optional<double> found =
          differenced.largest([&](std::size_t k) { return felt.vertical(k, over); }, cut_off(one.part));
      one.vertical = std::max(one.vertical, found);
    }
    one.lateral = differenced.largest([&](std::size_t k) { return felt.lateral(k); }, cut_off(one.part));
  }
  return out;
}

} // namespace wingnose::assess
