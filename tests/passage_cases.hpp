// Passages that several checks share: the track of the method notes, one wheel under its primary suspension, prescribed
// paths. The modal track is made once per process.
#pragma once

#include "wingnose/contact/path/kinematics.hpp"
#include "wingnose/passage/equilibrium.hpp"
#include "wingnose/passage/exponential_stepper.hpp"
#include "wingnose/passage/plan.hpp"
#include "wingnose/passage/simulate.hpp"
#include "wingnose/track/modal.hpp"
#include "wingnose/vehicle/vehicle.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace cases {

using namespace wingnose;

using TrackPtr = std::shared_ptr<const track::ModalTrack>;
using PathPtr = std::shared_ptr<const contact::WheelPath>;

// 60E1 on 40 bays of 0.6 m, seats at multiples of 0.6 m: the defaults of Track.
inline TrackPtr usual_track() {
  static const TrackPtr shared = track::modal_track(track::Track{});
  return shared;
}
// Half as long and quicker to make: for checks that compare two answers of one model.
inline track::Track short_track() {
  track::Track t;
  t.bays = 20;
  return t;
}

// 900 kg unsprung, 90 kN static.
inline const vehicle::VehicleModel& usual_wheel() {
  static const vehicle::VehicleModel shared = vehicle::assemble(vehicle::preset("wheel"));
  return shared;
}

// Wheel of 0.46 m with a flat tread on a rail head of 0.3 m.
inline contact::PlainContact plain_contact() { return {1.0 / 0.46, 1.0 / 0.30, 0.0}; }
inline double plain_stiffness() { return contact::hertz_stiffness(1.0 / 0.46, 1.0 / 0.30); } // N/m^1.5

inline passage::Settings settings(double speed, double from, double to, Direction direction = Direction::facing) {
  passage::Settings s;
  s.direction = direction;
  s.speed = speed;
  s.from = from;
  s.to = to;
  s.probes = false;
  return s;
}

inline contact::PathOptions stretch(double from, double to) { return {.from = from, .to = to}; }

inline PathPtr level_path(double from = -12.0, double to = 12.0) {
  return std::make_shared<const contact::WheelPath>(
      contact::given_path({{from, to}, {0.0, 0.0}}, plain_contact(), stretch(from, to)));
}
// A kink whose ramps reach beyond the window unless half_length says otherwise.
inline PathPtr kink_path(double dip_angle, double at, double half_length = 50.0, double from = -6.0, double to = 6.0) {
  return std::make_shared<const contact::WheelPath>(contact::dipped_joint(
      {.dip_angle = dip_angle, .half_length = half_length, .at = at}, plain_contact(), stretch(from, to)));
}
inline PathPtr given_path(std::vector<double> station, std::vector<double> height) {
  const auto options = stretch(station.front(), station.back());
  return std::make_shared<const contact::WheelPath>(
      contact::given_path({std::move(station), std::move(height)}, plain_contact(), options));
}
// Two bodies whose heights are straight between the given stations; -infinity where there is no body.
inline PathPtr two_body_path(const std::vector<double>& station, const std::vector<double>& wing,
                             const std::vector<double>& nose) {
  contact::WheelPath path;
  path.station = station;
  path.excitation = "crossing";
  path.wheel_radius = 0.46;
  const contact::PlainContact c = plain_contact();
  const std::size_t n = station.size();
  for (const auto& [name, height] : {std::pair{"wing", &wing}, std::pair{"nose", &nose}}) {
    const std::vector<double> zero(n, 0.0);
    path.bodies.push_back({name, *height, zero, zero, zero, std::vector<double>(n, c.angle),
                           std::vector<double>(n, c.curvature_x), std::vector<double>(n, c.curvature_y),
                           named<layout::Role>(name, "body")});
  }
  return std::make_shared<const contact::WheelPath>(std::move(path));
}

// Parts of a plan whose wheels all take one path.
inline passage::PlanParts parts(PathPtr path, TrackPtr track, const passage::Settings& s,
                                const vehicle::VehicleModel& vehicle = usual_wheel(),
                                std::shared_ptr<const passage::StepTable> steps = nullptr) {
  return {.courses = {{std::move(path)}},
          .track = std::move(track),
          .vehicle = vehicle,
          .from = s.from,
          .to = s.to,
          .step = s.step,
          .steps = std::move(steps)};
}
inline passage::Passage over(PathPtr path, TrackPtr track, const passage::Settings& s,
                             std::optional<double> landing = std::nullopt,
                             const vehicle::VehicleModel& vehicle = usual_wheel(),
                             std::shared_ptr<const passage::StepTable> steps = nullptr) {
  return passage::make_passage(
      passage::make_plan(parts(std::move(path), std::move(track), s, vehicle, std::move(steps))),
      passage::run_of(s, landing));
}
// The same passage with another law of contact along its path, made from the laws it has.
template <class Change> passage::Passage with_laws(passage::Passage one, Change change) {
  passage::Plan plan = *one.plan;
  contact::PathLaw law = *plan.courses.front().law;
  change(law);
  plan.courses.front().law = std::make_shared<const contact::PathLaw>(std::move(law));
  one.plan = std::make_shared<const passage::Plan>(std::move(plan));
  return one;
}

inline double largest_difference(const std::vector<double>& a, const std::vector<double>& b) {
  double worst = a.size() == b.size() ? 0.0 : std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i) {
    worst = std::max(worst, std::abs(a[i] - b[i]));
  }
  return worst;
}
inline double largest(const std::vector<double>& a) {
  double top = 0.0;
  for (const double x : a) {
    top = std::max(top, std::abs(x));
  }
  return top;
}

} // namespace cases
