#include "wingnose/study/case.hpp"

#include "wingnose/closedform/foundation_beam.hpp"
#include "wingnose/numeric/overloaded.hpp"
#include "wingnose/passage/simulate.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wingnose::study {
namespace {

// Crossing bodies are modelled this far from the theoretical point; beyond it every wheel runs level.
constexpr double path_reach = 5.5; // m
// Track beyond the outermost wheel, so that no reflection from the end returns within the window (checked by
// lengthening).
constexpr double track_margin = 6.0; // m
// Differences between strips and their law along the path that a reader should know of. Elsewhere it is some percent.
constexpr double told_fit = 0.15;

struct Span {
  double begin, end;
};
// Stations covered by any wheel of the vehicle during the window.
Span wheel_span(const Case& c) {
  const passage::Settings& s = c.passage;
  double ahead = 0.0, behind = 0.0; // of the reported wheel, in the sense of travel
  const auto reported = static_cast<std::size_t>(s.reported_wheel);
  if (reported >= c.vehicle.wheels.size()) {
    throw InputError("reported wheel", std::to_string(reported + 1), "1 to " + std::to_string(c.vehicle.wheels.size()),
                     "Wheels are counted from the leading one.");
  }
  for (const vehicle::Wheel& w : c.vehicle.wheels) {
    const double offset = w.x - c.vehicle.wheels[reported].x;
    ahead = std::max(ahead, offset);
    behind = std::min(behind, offset);
  }
  return s.direction == Direction::facing ? Span{s.from + behind, s.to + ahead} : Span{s.from - ahead, s.to - behind};
}

// Effective rail mass for P1: the mass whose inertia equals the reactance of an infinite beam at `frequency`,
// 2 m' / k_b with k_b = (m' omega^2 / EI)^(1/4).
double effective_rail_mass(const track::RailProperties& rail, double frequency) {
  const double omega = 2.0 * std::numbers::pi * frequency;
  return 2.0 * rail.rho_A / std::pow(rail.rho_A * omega * omega / rail.EI, 0.25);
}

// A joint or a given path has no surface to be searched, which a turned wheel would meet elsewhere.
void check_surface(const Case& c) {
  const bool prescribed = std::holds_alternative<layout::DippedJoint>(c.excitation) ||
                          std::holds_alternative<layout::GivenPath>(c.excitation);
  for (const auto& [name, value] : {std::pair{"roll", c.roll}, std::pair{"yaw", c.yaw}}) {
    if (prescribed && value != 0.0) {
      throw InputError(std::string(name) + " of the wheel (wheel." + name + "_mrad)", number(value * 1e3) + " mrad",
                       "0 on a joint or a given path", "Leave it out, or run over a crossing.");
    }
  }
  if (prescribed && c.contact_search == contact::SearchAt::step) {
    throw InputError("search for contact (contact.search)", "step", "path on a joint or a given path",
                     "Leave it out, or run over a crossing.");
  }
}

std::optional<layout::Crossing> crossing_of(const Excitation& excitation) {
  using Found = std::optional<layout::Crossing>;
  return std::visit(overloaded{[](const layout::CrossingShape& shape) { return Found(layout::generate(shape)); },
                               [](const layout::SectionedShape& shape) { return Found(layout::from_sections(shape)); },
                               [](const layout::DippedJoint&) { return Found(); },
                               [](const layout::GivenPath&) { return Found(); }},
                    excitation);
}

contact::PathOptions path_options(const Case& c, double radius) {
  const Span span = wheel_span(c);
  return {.lateral_offset = c.lateral_offset,
          .from = std::max(span.begin - 0.1, -path_reach),
          .to = std::min(span.end + 0.1, path_reach),
          .wheel_radius = radius,
          .roll = c.roll,
          .yaw = c.yaw};
}

// What a wheel of this radius runs along over a crossing.
passage::Course rolled_course(const Case& c, const layout::Crossing& crossing, double radius) {
  const auto wheel =
      std::make_shared<const contact::HeldWheel>(contact::hold(crossing, c.wheel, path_options(c, radius)));
  passage::Course course{std::make_shared<const contact::WheelPath>(contact::roll(*wheel))};
  // Without a law of its own the passage takes the ellipses of the path.
  std::visit(overloaded{[](const contact::Ellipse&) {},
                        [&](const contact::Strips&) {
                          course.law =
                              std::make_shared<const contact::PathLaw>(contact::strips_law(*course.path, *wheel));
                        }},
             c.normal_law);
  if (c.contact_search == contact::SearchAt::step) {
    course.search = std::make_shared<const contact::StepSearch>(wheel, c.normal_law);
  }
  return course;
}

// The same along a prescribed path on plain rail.
passage::Course prescribed_course(const Case& c, contact::WheelPath path) {
  passage::Course course{std::make_shared<const contact::WheelPath>(std::move(path))};
  std::visit(overloaded{[](const contact::Ellipse&) {},
                        [&](const contact::Strips&) {
                          course.law = std::make_shared<const contact::PathLaw>(contact::strips_law(
                              *course.path, profile::rail_head(c.rail_head, c.rail_inclination), c.wheel));
                        }},
             c.normal_law);
  return course;
}

passage::Course course_for(const Case& c, const std::optional<layout::Crossing>& crossing, double radius) {
  contact::PathOptions options = path_options(c, radius);
  const auto plain = [&] {
    return contact::plain_contact(c.wheel, profile::rail_head(c.rail_head, c.rail_inclination), radius);
  };
  return std::visit(overloaded{[&](const layout::CrossingShape&) { return rolled_course(c, *crossing, radius); },
                               [&](const layout::SectionedShape&) { return rolled_course(c, *crossing, radius); },
                               [&](const layout::DippedJoint& joint) {
                                 // A prescribed dip reaches as far as its ramps do, not as far as a crossing body is
                                 // modelled.
                                 options.from = wheel_span(c).begin - 0.1;
                                 options.to = wheel_span(c).end + 0.1;
                                 return prescribed_course(c, contact::dipped_joint(joint, plain(), options));
                               },
                               [&](const layout::GivenPath& given) {
                                 return prescribed_course(c, contact::given_path(given, plain(), options));
                               }},
                    c.excitation);
}

} // namespace

Geometry geometry(const Case& c) {
  (void)wheel_span(c); // refuses a wheel that is not there
  check_surface(c);
  Geometry g;
  g.crossing = crossing_of(c.excitation);
  const std::vector<vehicle::Wheel>& wheels = c.vehicle.wheels;
  for (const vehicle::Wheel& wheel : wheels) { // wheels of one radius run along the same
    const auto alike = std::find_if(wheels.begin(), wheels.end(),
                                    [&](const vehicle::Wheel& other) { return other.radius == wheel.radius; });
    const auto first = static_cast<std::size_t>(alike - wheels.begin());
    g.courses.push_back(first < g.courses.size() ? g.courses[first] : course_for(c, g.crossing, wheel.radius));
  }
  const passage::Course& reported = g.courses[static_cast<std::size_t>(c.passage.reported_wheel)];
  g.path = reported.path;
  g.law = reported.law;
  g.search = reported.search;
  contact::KinematicsOptions kinematics = c.kinematics;
  kinematics.direction = c.passage.direction;
  g.kinematics = contact::kinematics(*g.path, g.crossing ? &*g.crossing : nullptr, c.wheel, kinematics);
  if (g.law && g.law->worst_fit > told_fit) {
    g.kinematics.findings.push_back({FindingKind::contact_law_fit,
                                     "the force kept for the passage is up to " + fixed(g.law->worst_fit * 100.0, 0) +
                                         " % off that of the strips, where a second patch closes at once",
                                     g.law->worst_body + ", station " + fixed(g.law->worst_station * 1e3, 0) + " mm"});
  }
  const Span covered = wheel_span(c);
  for (Finding& end : contact::ends_in_window(*g.path, covered.begin, covered.end)) {
    g.kinematics.findings.push_back(std::move(end));
  }
  return g;
}

double landing_station(const Geometry& g) {
  if (g.kinematics.transfer_station) {
    return *g.kinematics.transfer_station;
  }
  if (g.path->landing) {
    return *g.path->landing;
  }
  throw ComputeError("no transfer between wing and nose within stations " + number(g.path->station.front()) + " to " +
                     number(g.path->station.back()) + " m; lengthen the window or check the crossing's heights");
}

track::Track track_for(const Case& c) {
  const Span span = wheel_span(c);
  track::Track t = c.track;
  const double needed = span.end - span.begin + 2.0 * track_margin;
  t.bays = std::max(t.bays, static_cast<int>(std::ceil(needed / t.spacing)));
  t.centre = 0.5 * (span.begin + span.end);
  return t;
}

std::vector<Estimate> estimate(const Case& c, const Geometry& g) {
  const auto wheel = static_cast<std::size_t>(c.passage.reported_wheel);
  const vehicle::VehicleModel vehicle = vehicle::assemble(c.vehicle);
  closedform::JointCase joint;
  joint.static_load = vehicle.static_load.at(wheel);
  joint.unsprung_mass = c.vehicle.wheels.at(wheel).unsprung_mass;
  joint.speed = c.passage.speed;
  joint.dip_angle = g.kinematics.dip_angle;

  // Contact stiffness linearised at the static load where the wheel lands.
  const double landing = landing_station(g);
  const std::vector<double>& x = g.path->station;
  const auto at = static_cast<std::size_t>(
      std::min(std::lower_bound(x.begin(), x.end(), landing) - x.begin(), static_cast<std::ptrdiff_t>(x.size()) - 1));
  const auto body = std::find_if(g.path->bodies.begin(), g.path->bodies.end(), [&](const contact::BodyPath& b) {
    return std::isfinite(b.height[at]) && std::isfinite(b.curvature_y[at]);
  });
  if (g.law) {
    const auto which = static_cast<std::size_t>(body - g.path->bodies.begin());
    const contact::ForceLaw law = c.steel.combined() * g.law->body[which][at];
    joint.k_H = law.at(contact::depth_for_force(law, joint.static_load, g.law->reach), g.law->reach).stiffness;
  } else {
    const double hertz = contact::hertz_stiffness(body->curvature_x[at], body->curvature_y[at], c.steel);
    joint.k_H = contact::hertz_tangent_stiffness(hertz, joint.static_load);
  }
  joint.m_e = effective_rail_mass(c.track.rail, 500.0);

  // Lumped track of the beam on elastic foundation. Pad and ballast act in series: at the frequency of P2 the softer
  // ballast governs the damping, seen through the share of the deflection that the ballast takes.
  const track::Seat& seat = c.track.seat;
  const double stiffness = seat.pad_stiffness * seat.ballast_stiffness / (seat.pad_stiffness + seat.ballast_stiffness);
  const double ballast_share = stiffness / seat.ballast_stiffness, pad_share = stiffness / seat.pad_stiffness;
  const double damping =
      seat.ballast_damping * ballast_share * ballast_share + seat.pad_damping * pad_share * pad_share;
  const double mass = c.track.rail.rho_A + seat.bearer_mass * ballast_share * ballast_share / c.track.spacing;
  const closedform::FoundationBeam beam{c.track.rail.EI, stiffness / c.track.spacing};

  std::vector<Estimate> result;
  joint.track = closedform::lumped_track(beam, mass, damping / c.track.spacing);
  result.push_back(
      {"derived", joint, closedform::joint_forces(joint),
       "lumped track from the beam on elastic foundation (plain rail and ordinary seats; castings, single seats and "
       "voids are "
       "not in it); total dip angle from the kinematic passage; effective rail mass at 500 Hz; P1 is indicative only"});
  for (const closedform::ConstantSet& set : c.lumped) {
    joint.track = set.track;
    result.push_back({set.name, joint, closedform::joint_forces(joint),
                      "lumped track constants of " + set.source + " (" + set.status + ")"});
  }
  return result;
}

std::shared_ptr<const passage::Plan> plan(const Case& c, const Geometry& g,
                                          std::shared_ptr<const track::ModalTrack> track,
                                          std::shared_ptr<const passage::StepTable> steps) {
  return passage::make_plan({.courses = g.courses,
                             .track = std::move(track),
                             .vehicle = vehicle::assemble(c.vehicle),
                             .steel = c.steel,
                             .from = c.passage.from,
                             .to = c.passage.to,
                             .step = c.passage.step,
                             .steps = std::move(steps)});
}

passage::Run run_of(const Case& c, const Geometry& g) { return passage::run_of(c.passage, landing_station(g)); }

Result run(const Case& c, std::shared_ptr<const track::ModalTrack> track) {
  Result r;
  r.geometry = geometry(c);
  r.estimates = estimate(c, r.geometry);
  r.history = passage::simulate(plan(c, r.geometry, std::move(track)), run_of(c, r.geometry));
  r.measures = assess::measure(r.history, landing_station(r.geometry), c.measures);
  return r;
}

Result run(const Case& c) { return run(c, track::modal_track(track_for(c))); }

} // namespace wingnose::study
