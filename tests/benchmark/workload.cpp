#include "workload.hpp"

#include "wingnose/profile/rail.hpp"

#include <algorithm>
#include <cmath>

namespace benchmark {

using namespace wingnose;

track::Track reference_track() {
  track::Track t;     // rail, seats and 40 bays are the defaults
  t.first_seat = 0.3; // so that the kink at station 0 lies at mid-span
  return t;
}

cases::Case reference_case(double step, bool probes) {
  cases::Case c;
  c.name = "kink at mid-span";
  c.excitation = layout::DippedJoint{.dip_angle = reference_dip_angle, .half_length = 10.0};
  static_cast<track::Track&>(c.track) = reference_track();
  c.track.choice.reset(); // as given
  c.passage.speed = 30.0;
  c.passage.from = -4.0;
  c.passage.to = 4.0;
  c.passage.step = step;
  c.passage.probes = probes;
  return c;
}

Common common(std::shared_ptr<const track::ModalTrack> track, double step, bool probes) {
  Common shared;
  shared.settings = reference_case(step, probes);
  shared.steps = passage::step_table(track, step);
  shared.track = std::move(track);
  const cases::Case& c = shared.settings;
  const vehicle::Vehicle vehicle = cases::vehicle_of(c);
  shared.contact = contact::plain_contact(cases::profile_of(c.wheel),
                                          profile::rail_head(c.plain_rail.head, c.plain_rail.inclination),
                                          vehicle.wheels.front().radius);
  shared.vehicle = vehicle::assemble(vehicle);
  return shared;
}

passage::Passage kink_passage(const Common& shared, double dip_angle) {
  const cases::Passage& s = shared.settings.passage;
  const contact::PathOptions options{
      .from = s.from - 0.1, .to = s.to + 0.1, .wheel_radius = shared.vehicle.wheel_radius.front()};
  auto path = std::make_shared<const contact::WheelPath>(
      contact::dipped_joint({.dip_angle = dip_angle, .half_length = 10.0}, shared.contact, options));
  auto plan = passage::make_plan({.courses = {{std::move(path)}},
                                  .track = shared.track,
                                  .vehicle = shared.vehicle,
                                  .steel = shared.settings.material,
                                  .from = s.from,
                                  .to = s.to,
                                  .step = s.step,
                                  .steps = shared.steps});
  return passage::make_passage(std::move(plan), {.direction = s.direction,
                                                 .speed = s.speed,
                                                 .method = s.method,
                                                 .tolerance = s.tolerance,
                                                 .probes = s.probes,
                                                 .probe_station = 0.0});
}

std::vector<double> dip_angles(int count) {
  std::vector<double> angles;
  for (int i = 0; i < count; ++i) {
    angles.push_back(0.005 + 0.010 * i / std::max(1, count - 1));
  }
  return angles;
}

std::vector<passage::Passage> kink_passages(const Common& shared, const std::vector<double>& angles) {
  std::vector<passage::Passage> passages;
  passages.reserve(angles.size());
  for (const double angle : angles) {
    passages.push_back(kink_passage(shared, angle));
  }
  return passages;
}

assess::Measures measured(const Common& shared, const passage::History& history) {
  return assess::measure(history, 0.0, shared.settings.measures);
}

double difference(const passage::History& a, const passage::History& b) {
  double largest = 0.0, difference = a.force.size() == b.force.size() ? 0.0 : INFINITY;
  for (std::size_t i = 0; i < std::min(a.force.size(), b.force.size()); ++i) {
    largest = std::max(largest, std::abs(a.force[i]));
    difference = std::max(difference, std::abs(a.force[i] - b.force[i]));
  }
  return difference / largest;
}

} // namespace benchmark
