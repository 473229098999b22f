#include "wingnose/study/turnout_ride.hpp"

#include "findings.hpp"

#include "wingnose/layout/turnout/geometry.hpp"
#include "wingnose/vehicle/space/presets.hpp"
#include "wingnose/words/unit.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace wingnose::study {
namespace {

namespace space = passage::space;
namespace plan = layout::turnout;

constexpr double mean_length = 2.0;   // m, of sliding means (EN 14363)
constexpr double run_out = 5.0;       // m, beyond what is met last
constexpr double ahead_of_wing = 8.0; // m, where a straight way is begun

// Prud'homme 1967, sum of Y that a track bears: 10 kN and a third of the axle load (from memory, high).
double prudhomme(double axle_load) { return 10e3 + axle_load / 3.0; }

GuidedWheelset guided(const space::SpaceHistory& h, const space::Rolling& rolling, Eigen::Index i,
                      const Eigen::MatrixXd& Y, const Eigen::MatrixXd& Q, const Eigen::MatrixXd& sum) {
  const auto k = static_cast<std::size_t>(i);
  const std::array<double, 2>& load = rolling.model.wheel_load[k];
  GuidedWheelset out{};
  out.name = rolling.model.vehicle.wheelsets[k].name;
  out.static_load = 0.5 * (load[0] + load[1]);
  out.prudhomme = prudhomme(load[0] + load[1]);
  out.sum_of_Y = sum.col(i).cwiseAbs().maxCoeff();
  for (const int wheel : {0, 1}) {
    const Eigen::ArrayXd outward = (wheel == 0 ? 1.0 : -1.0) * Y.col(2 * i + wheel).array();
    const Eigen::ArrayXd down = Q.col(2 * i + wheel).array().max(1.0);
    out.outward_over_Q = std::max(out.outward_over_Q, (outward / down).maxCoeff());
  }
  out.most_Q = Q.middleCols(2 * i, 2).maxCoeff();
  out.least_Q = Q.middleCols(2 * i, 2).minCoeff();
  out.most_shift = h.shift_at_rail.col(i).cwiseAbs().maxCoeff();
  out.most_attack = h.yaw.col(i).cwiseAbs().maxCoeff();
  out.check = space::check_rail_blow(h, rolling, i);
  return out;
}

Findings findings_of(const TurnoutRide& r, const space::Ground& ground) {
  Findings out;
  if (const auto& hit = r.history.run_into) {
    out.push_back({FindingKind::nose_point_hit,
                   "wheel " + std::to_string(hit->wheel + 1) + " of wheelset " + std::to_string(hit->wheelset + 1) +
                       " runs into the " + ground.bodies[static_cast<std::size_t>(hit->body)].name +
                       " with its profile " + in_mm(hit->wheel_y) +
                       " from the taping line; the ride ends there with what is known",
                   "station " + in_mm(hit->station)});
  }
  out.push_back({FindingKind::switch_without_blades, "the switch is a step of curvature, or the beginning of a "
                                                     "transition; it has no blades"});
  out.push_back({FindingKind::assumption, "rails are masses on springs that run along under the wheels: guiding forces "
                                          "are told, first and second peaks and what the track feels are not"});
  out.push_back({FindingKind::assumption, "the check rail is a rigid face on a spring of " +
                                              number(r.options.check_stiffness * 1e-6) +
                                              " MN/m: forces on it go about with the root of that"});
  out.push_back({FindingKind::assumption,
                 "of the case the ride takes turnout, crossing, plain rail, profile and radius "
                 "of the wheels, speed and friction; its [vehicle], its [track], how its wheel "
                 "is held and its law of contact are not in these numbers"});
  out.push_back({FindingKind::assumption, "wheelsets do not bend; their backs are 1360 mm apart"});
  return out;
}

} // namespace

TurnoutRide ride_through(const cases::Case& c, const TurnoutRideOptions& options) {
  demand_ranges(options, "ride");
  const auto turnout = cases::turnout_of(c);
  if (!turnout) {
    throw InputError("this case has no turnout; give one under [turnout], such as geometry = \"preset\" with preset = "
                     "\"R300-1:9\"");
  }
  const auto* shape = std::get_if<layout::CrossingShape>(&c.excitation);
  if (shape == nullptr) {
    throw InputError("crossing.kind", "one that is not generated", "\"generated\"",
                     "A ride through a turnout lays a generated crossing at the rate at which its rails cross.");
  }
  if (c.passage.direction != Direction::facing) {
    throw InputError("passage.direction", "\"trailing\"", "\"facing\"", "A ride through a turnout is a facing move.");
  }
  vehicle::space::SpatialVehicle vehicle = vehicle::space::preset(options.vehicle);
  for (vehicle::space::Wheelset& set : vehicle.wheelsets) {
    set.wheel[0].radius = set.wheel[1].radius = c.wheel.radius.value_or(set.wheel[0].radius);
  }
  const profile::RailHead rail = profile::rail_head(c.plain_rail.head, c.plain_rail.inclination);
  const double length = -vehicle.wheelsets.back().x; // m, over its axles
  space::Ground ground = space::over_turnout(*turnout, c.turnout.way, *shape, rail, length + 3.0 * run_out);
  ground.check->stiffness = options.check_stiffness;
  space::Rolling rolling = space::rolling(vehicle, cases::profile_of(c.wheel));
  const contact::Friction friction{c.damage.friction, c.damage.friction_ratio, c.damage.friction_decay};
  rolling.law = contact::Cubic{friction};

  const double begin = c.turnout.way == plan::Way::through ? std::min(-ahead_of_wing, ground.check->face.begin() - 2.0)
                                                           : ground.route.begin() - 1.0;
  const double end = std::max(ground.check->face.end(), 0.0) + length + run_out;
  TurnoutRide out{options,
                  turnout->name,
                  c.turnout.way,
                  c.passage.speed,
                  friction.mu0,
                  space::simulate(rolling, ground,
                                  {.speed = c.passage.speed,
                                   .begin = begin,
                                   .length = end - begin,
                                   .step = options.step,
                                   .stride = 1,
                                   .shift = c.wheel.lateral_offset}),
                  {},
                  {}};
  const space::SpaceHistory& h = out.history;
  const Eigen::MatrixXd Y = space::sliding_mean(h, h.Y, mean_length), Q = space::sliding_mean(h, h.Q, mean_length),
                        sum = space::sliding_mean(h, h.sum_of_Y(), mean_length);
  for (Eigen::Index i = 0; i < h.wheelsets(); ++i) {
    out.wheelsets.push_back(guided(h, rolling, i, Y, Q, sum));
  }
  out.findings = findings_of(out, ground);
  return out;
}

} // namespace wingnose::study
