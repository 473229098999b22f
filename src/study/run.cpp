#include "wingnose/study/run.hpp"

#include "wingnose/assess/estimates.hpp"
#include "wingnose/numeric/hash.hpp"
#include "wingnose/numeric/overloaded.hpp"
#include "wingnose/passage/simulate.hpp"
#include "wingnose/profile/measured_findings.hpp"

namespace wingnose::study {
namespace {

using numeric::mixed;
using numeric::mixed_all;

std::size_t reported(const Case& c) { return static_cast<std::size_t>(c.passage.reported_wheel - 1); }

passage::Span covered(const Case& c, const vehicle::Vehicle& v) {
  return passage::covered(v.wheels, reported(c), c.passage.direction, {c.passage.from, c.passage.to});
}

std::vector<assess::SensorReading> readings(const Case& c, const passage::History& h) {
  std::vector<assess::SensorReading> all;
  const std::vector<double> ahead = vehicle::assemble(cases::vehicle_of(c)).wheel_x;
  const auto [last, first] = std::minmax_element(ahead.begin(), ahead.end());
  for (std::size_t i = 0; i < h.track.points.size(); ++i) {
    const passage::PointMotion& motion = h.track.points[i];
    // When a wheel that many metres ahead of the reported one comes to it.
    const double way = sense(c.passage.direction) * (motion.station - h.station.front());
    const auto arrival = [&](double wheel) { return (way - (wheel - ahead[reported(c)])) / c.passage.speed; };
    all.push_back(assess::read(c.sensors[i], motion, {c.passage.speed, arrival(*first), arrival(*last), h.step}));
    all.back().trusted = assess::trusted_up_to(h.track, c.sensors[i], h.step);
  }
  return all;
}

std::optional<double> given_dip_angle(const Case& c) {
  const auto* joint = std::get_if<layout::DippedJoint>(&c.excitation);
  return joint != nullptr ? std::optional(joint->dip_angle) : std::nullopt;
}

} // namespace

void demand_vertical(const Case& c, std::string_view what) {
  if (c.rung != cases::Rung::vertical) {
    throw InputError("case.rung", '"' + std::string(name(c.rung)) + '"', "\"vertical\" for " + std::string(what),
                     "Vehicles in space are answered by run, sweep and speeds.");
  }
}

PathPart path_part(const Case& c) {
  const vehicle::Vehicle v = cases::vehicle_of(c);
  const passage::Span span = covered(c, v);
  PathPart part{c.excitation, c.plain_rail, c.wheel, c.contact, span.from, span.to, c.kinematics, {}, reported(c)};
  part.wheel.radius = std::nullopt; // told by the vehicle
  for (const vehicle::Wheel& wheel : v.wheels) {
    part.radii.push_back(wheel.radius);
  }
  part.kinematics.direction = c.passage.direction;
  return part;
}

std::size_t hash(const PathPart& p) {
  std::size_t h = mixed_all(mixed_all(p.excitation.index(), p.wheel), p.wheel.hollow);
  for (const double value : {p.from, p.to, p.radii[p.reported], static_cast<double>(p.kinematics.direction),
                             static_cast<double>(p.contact.search), static_cast<double>(p.contact.law.index()),
                             static_cast<double>(p.wheel.shape.index())}) {
    h = mixed(h, value);
  }
  return std::visit(
      overloaded{[h](const layout::CrossingShape& s) { return mixed_all(h, s); },
                 [h](const layout::SectionedShape& s) { return mixed_all(h, s); },
                 [h](const layout::DippedJoint& j) { return mixed_all(h, j); },
                 [h](const layout::GivenPath& g) { return mixed(h, static_cast<double>(g.station.size())); }},
      p.excitation);
}

Geometry geometry(const PathPart& part) {
  const cases::Wheel& wheel = part.wheel;
  const profile::WheelProfile profile = cases::profile_of(wheel);
  Geometry g = passage::geometry({.excitation = part.excitation,
                                  .rail = part.plain_rail.head,
                                  .inclination = part.plain_rail.inclination,
                                  .wheel = profile,
                                  .lateral_offset = wheel.lateral_offset,
                                  .roll = wheel.roll,
                                  .yaw = wheel.yaw,
                                  .law = part.contact.law,
                                  .search = part.contact.search,
                                  .span = {part.from, part.to}},
                                 part.radii, part.reported, part.kinematics);
  Findings findings;
  const auto* measured = std::get_if<cases::MeasuredWheel>(&wheel.shape);
  if (measured != nullptr) {
    findings = profile::measured_findings(*measured->y, *measured->height, measured->noise, measured->csv);
  }
  if (const auto* sections = std::get_if<layout::SectionedShape>(&part.excitation)) {
    append(findings, layout::section_findings(*sections));
  }
  if (measured != nullptr && measured->y->size() > profile::most_points) {
    findings.push_back(
        {FindingKind::points_thinned, "of " + std::to_string(measured->y->size()) + " points of \"" + measured->csv +
                                          "\" " + std::to_string(profile.curve.pieces().size() + 1) + " are used"});
  }
  append(findings, g.findings);
  g.findings = std::move(findings);
  return g;
}

TrackPart track_part(const Case& c) {
  const passage::Span span = covered(c, cases::vehicle_of(c));
  return {c.track, span.from, span.to};
}

std::size_t hash(const TrackPart& p) {
  const track::Track& t = p.track;
  const std::size_t bearers = mixed_all(mixed_all(p.track.castings.size(), p.track.variation), p.track.bearers.all);
  return mixed(mixed(mixed_all(mixed_all(bearers, t.seat), t), p.from), p.to);
}

track::Track track_for(const TrackPart& part) { return cases::laid(part.track, part.from, part.to); }

track::chain::Model chain_for(const TrackPart& part) { return cases::chain_of(part.track, part.from, part.to); }

double static_load(const Case& c) { return vehicle::assemble(cases::vehicle_of(c)).static_load.at(reported(c)); }

std::vector<assess::Estimate> estimate(const Case& c, const Geometry& g, Findings* findings) {
  const vehicle::Vehicle v = cases::vehicle_of(c);
  return assess::estimates({.static_load = vehicle::assemble(v).static_load.at(reported(c)),
                            .unsprung_mass = v.wheels.at(reported(c)).unsprung_mass,
                            .speed = c.passage.speed,
                            .path = *g.path,
                            .law = g.law.get(),
                            .kinematics = g.kinematics,
                            .dip_angle = given_dip_angle(c),
                            .material = c.material,
                            .track = cases::track_of(c.track)},
                           cases::sets_of(c), findings);
}

std::shared_ptr<const passage::Plan> plan(const Case& c, const Geometry& g,
                                          std::shared_ptr<const track::ModalTrack> track,
                                          std::shared_ptr<const passage::StepTable> steps,
                                          std::shared_ptr<const passage::StepTable> long_steps,
                                          const std::vector<passage::Course>* courses) {
  std::shared_ptr<const track::chain::Chain> chain;
  if (c.track.method == cases::TrackMethod::chain && !track) {
    chain = track::chain::make_chain(chain_for(track_part(c)));
  }
  return passage::make_plan({.courses = courses != nullptr ? *courses : g.courses,
                             .track = std::move(track),
                             .vehicle = vehicle::assemble(cases::vehicle_of(c)),
                             .steel = c.material,
                             .from = c.passage.from,
                             .to = c.passage.to,
                             .step = c.passage.step,
                             .steps = std::move(steps),
                             .chain = std::move(chain),
                             .longest_step = longest_step(c),
                             .long_steps = std::move(long_steps),
                             .laws_for_steel = courses != nullptr});
}

double longest_step(const Case& c) {
  // Moves P1, P2 and the largest force by less than 0.05 % (tests/convergence/study_steps.cpp).
  constexpr double usual_stride = 8.0;
  const cases::Passage& p = c.passage;
  return std::min(p.longest_step.value_or(usual_stride * p.step), 1.0 / (16.0 * c.measures.p2_cut_off));
}

double longest_record(const Case& c) {
  double longest = 1.0 / (6.0 * c.measures.acceleration_cut_off);
  for (const assess::Sensor& sensor : c.sensors) { // between samples its motion is a cubic
    longest = std::min(longest, 1.0 / (6.0 * sensor.high));
  }
  return longest;
}

passage::Run run_of(const Case& c, const Geometry& g) {
  const cases::Passage& p = c.passage;
  return {.direction = p.direction,
          .speed = p.speed,
          .reported_wheel = p.reported_wheel - 1,
          .method = p.method,
          .tolerance = p.tolerance,
          .probes = p.probes,
          .probe_station = landing_station(g),
          .sensors = cases::sensor_places(c),
          .longest_record = longest_record(c)};
}

assess::Assessment assessment(const Case& c, const Geometry& g) {
  assess::Assessment a;
  a.speed = c.passage.speed;
  a.kinematics = g.kinematics;
  a.findings = g.findings;
  const cases::Passage& p = c.passage;
  append(a.findings, passage::begins_in_dip(g, p.direction == Direction::facing ? p.from : p.to));
  return a;
}

assess::Assessment assessment(const Case& c, const Geometry& g, const passage::History& history) {
  assess::Assessment a = assessment(c, g);
  a.measures = assess::measure(history, landing_station(g), c.measures);
  append(a.findings, a.measures->findings);
  a.estimates = estimate(c, g, &a.findings);
  a.track = assess::measure_track(history);
  a.sensors = readings(c, history);
  append(a.findings, assess::sensor_findings(history.track, c.sensors, a.sensors, a.speed));
  return a;
}

Result run(const Case& c, std::shared_ptr<const track::ModalTrack> track) {
  demand_vertical(c, "this answer");
  Result r;
  r.geometry = geometry(c);
  r.history = passage::simulate(plan(c, r.geometry, std::move(track)), run_of(c, r.geometry));
  r.assessment = assessment(c, r.geometry, r.history);
  return r;
}

Result run(const Case& c) {
  return run(c, c.track.method == cases::TrackMethod::chain ? nullptr : track::modal_track(track_for(c)));
}

} // namespace wingnose::study
