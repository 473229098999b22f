#include "wingnose/study/run.hpp"

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
  double from, to;
};
// Stations covered by any wheel of the vehicle during the window.
Span wheel_span(const Case& c, const vehicle::Vehicle& v) {
  const cases::Passage& s = c.passage;
  double ahead = 0.0, behind = 0.0; // of the reported wheel, in the sense of travel
  const auto reported = static_cast<std::size_t>(s.reported_wheel - 1);
  if (reported >= v.wheels.size()) {
    throw InputError("reported wheel", std::to_string(s.reported_wheel), "1 to " + std::to_string(v.wheels.size()),
                     "Wheels are counted from the leading one.");
  }
  for (const vehicle::Wheel& w : v.wheels) {
    const double offset = w.x - v.wheels[reported].x;
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
void check_surface(const PathPart& part) {
  const bool prescribed = !layout::is_crossing(part.excitation);
  for (const auto& [name, value] : {std::pair{"roll", part.wheel.roll}, std::pair{"yaw", part.wheel.yaw}}) {
    if (prescribed && value != 0.0) {
      throw InputError(std::string(name) + " of the wheel (wheel." + name + "_mrad)", number(value * 1e3) + " mrad",
                       "0 on a joint or a given path", "Leave it out, or run over a crossing.");
    }
  }
  if (prescribed && part.contact.search == contact::SearchAt::step) {
    throw InputError("search for contact (contact.search)", "step", "path on a joint or a given path",
                     "Leave it out, or run over a crossing.");
  }
}

std::size_t mixed(std::size_t hash, double value) { return hash * 0x9E3779B97F4A7C15ULL + std::hash<double>{}(value); }
// All numbers of a part that have a range beside them.
template <class T> std::size_t mixed_all(std::size_t hash, const T& value) {
  for (const auto& member : ranges(static_cast<const T*>(nullptr))) {
    hash = mixed(hash, member.of(value));
  }
  return hash;
}

Finding rough_law(const contact::PathLaw& law) {
  return {FindingKind::contact_law_fit,
          "the force kept for the passage is up to " + number(std::round(law.worst_fit * 100.0)) +
              " % off that of the strips, where a second patch closes at once",
          law.worst_body + ", station " + number(std::round(law.worst_station * 1e3)) + " mm"};
}

} // namespace

PathPart path_part(const Case& c) {
  const vehicle::Vehicle v = cases::vehicle_of(c);
  const Span span = wheel_span(c, v);
  PathPart part{c.excitation, c.plain_rail, c.wheel, c.contact, span.from, span.to, c.kinematics, {}, 0};
  part.wheel.radius = std::nullopt; // told by the vehicle
  part.reported = static_cast<std::size_t>(c.passage.reported_wheel - 1);
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

namespace {

std::optional<layout::Crossing> crossing_of(const layout::Excitation& excitation) {
  using Found = std::optional<layout::Crossing>;
  return std::visit(overloaded{[](const layout::CrossingShape& shape) { return Found(layout::generate(shape)); },
                               [](const layout::SectionedShape& shape) { return Found(layout::from_sections(shape)); },
                               [](const layout::DippedJoint&) { return Found(); },
                               [](const layout::GivenPath&) { return Found(); }},
                    excitation);
}

profile::RailHead rail_of(const PathPart& part) {
  return profile::rail_head(part.plain_rail.head, part.plain_rail.inclination);
}

contact::PathOptions path_options(const PathPart& part, double radius) {
  return {.lateral_offset = part.wheel.lateral_offset,
          .from = std::max(part.from - 0.1, -path_reach),
          .to = std::min(part.to + 0.1, path_reach),
          .wheel_radius = radius,
          .roll = part.wheel.roll,
          .yaw = part.wheel.yaw};
}

// What a wheel of this radius runs along over a crossing.
passage::Course rolled_course(const PathPart& part, const Geometry& g, double radius) {
  const auto wheel =
      std::make_shared<const contact::HeldWheel>(contact::hold(*g.crossing, g.wheel, path_options(part, radius)));
  passage::Course course{std::make_shared<const contact::WheelPath>(contact::roll(*wheel))};
  // Without a law of its own the passage takes the ellipses of the path.
  std::visit(overloaded{[](const contact::Ellipse&) {},
                        [&](const contact::Strips&) {
                          course.law =
                              std::make_shared<const contact::PathLaw>(contact::strips_law(*course.path, *wheel));
                        }},
             part.contact.law);
  if (part.contact.search == contact::SearchAt::step) {
    course.search = std::make_shared<const contact::StepSearch>(wheel, part.contact.law);
  }
  return course;
}

// The same along a prescribed path on plain rail.
passage::Course prescribed_course(const PathPart& part, const Geometry& g, contact::WheelPath path) {
  passage::Course course{std::make_shared<const contact::WheelPath>(std::move(path))};
  std::visit(overloaded{[](const contact::Ellipse&) {},
                        [&](const contact::Strips&) {
                          course.law = std::make_shared<const contact::PathLaw>(
                              contact::strips_law(*course.path, rail_of(part), g.wheel));
                        }},
             part.contact.law);
  return course;
}

passage::Course course_for(const PathPart& part, const Geometry& g, double radius) {
  contact::PathOptions options = path_options(part, radius);
  const auto plain = [&] { return contact::plain_contact(g.wheel, rail_of(part), radius); };
  return std::visit(overloaded{[&](const layout::CrossingShape&) { return rolled_course(part, g, radius); },
                               [&](const layout::SectionedShape&) { return rolled_course(part, g, radius); },
                               [&](const layout::DippedJoint& joint) {
                                 // A prescribed dip reaches as far as its ramps do, not as far as a crossing body is
                                 // modelled.
                                 options.from = part.from - 0.1;
                                 options.to = part.to + 0.1;
                                 return prescribed_course(part, g, contact::dipped_joint(joint, plain(), options));
                               },
                               [&](const layout::GivenPath& given) {
                                 return prescribed_course(part, g, contact::given_path(given, plain(), options));
                               }},
                    part.excitation);
}

} // namespace

Geometry geometry(const PathPart& part) {
  check_surface(part);
  Geometry g;
  g.wheel = cases::profile_of(part.wheel);
  g.crossing = crossing_of(part.excitation);
  for (const double radius : part.radii) { // wheels of one radius run along the same
    const auto first =
        static_cast<std::size_t>(std::find(part.radii.begin(), part.radii.end(), radius) - part.radii.begin());
    g.courses.push_back(first < g.courses.size() ? g.courses[first] : course_for(part, g, radius));
  }
  const passage::Course& reported = g.courses[part.reported];
  g.path = reported.path;
  g.law = reported.law;
  g.search = reported.search;
  g.kinematics = contact::kinematics(*g.path, g.crossing ? &*g.crossing : nullptr, g.wheel, part.kinematics);
  g.findings = g.kinematics.findings;
  if (g.law && g.law->worst_fit > told_fit) {
    g.findings.push_back(rough_law(*g.law));
  }
  const Findings ends = contact::ends_in_window(*g.path, part.from, part.to);
  g.findings.insert(g.findings.end(), ends.begin(), ends.end());
  return g;
}

double landing_station(const Geometry& g) {
  if (g.kinematics.transfer_station) {
    return *g.kinematics.transfer_station;
  }
  if (g.path->landing) {
    return *g.path->landing;
  }
  if (g.path->station.empty()) {
    throw ComputeError("no landing on a wheel path without stations");
  }
  throw ComputeError("no transfer between wing and nose within stations " + number(g.path->station.front()) + " to " +
                     number(g.path->station.back()) + " m; lengthen the window or check the crossing's heights");
}

TrackPart track_part(const Case& c) {
  const Span span = wheel_span(c, cases::vehicle_of(c));
  return {c.track, span.from, span.to};
}

std::size_t hash(const TrackPart& p) {
  const track::Track& t = p.track;
  return mixed(mixed(mixed_all(mixed_all(p.track.castings.size(), t.seat), t), p.from), p.to);
}

track::Track track_for(const TrackPart& part) {
  track::Track t = cases::track_of(part.track);
  const double needed = part.to - part.from + 2.0 * track_margin;
  t.bays = std::max(t.bays, static_cast<int>(std::ceil(needed / t.spacing)));
  t.centre = 0.5 * (part.from + part.to);
  return t;
}

namespace {

// Contact stiffness linearised at the static load where the wheel lands.
double contact_stiffness(const Case& c, const Geometry& g, double static_load) {
  const std::vector<double>& x = g.path->station;
  const double landing = landing_station(g);
  const auto at = static_cast<std::size_t>(
      std::min(std::lower_bound(x.begin(), x.end(), landing) - x.begin(), static_cast<std::ptrdiff_t>(x.size()) - 1));
  const auto body = std::find_if(g.path->bodies.begin(), g.path->bodies.end(), [&](const contact::BodyPath& b) {
    return std::isfinite(b.height[at]) && std::isfinite(b.curvature_y[at]);
  });
  if (g.law) {
    const auto which = static_cast<std::size_t>(body - g.path->bodies.begin());
    const contact::ForceLaw law = c.material.combined() * g.law->body[which][at];
    return law.at(contact::depth_for_force(law, static_load, g.law->reach), g.law->reach).stiffness;
  }
  const double hertz = contact::hertz_stiffness(body->curvature_x[at], body->curvature_y[at], c.material);
  return contact::hertz_tangent_stiffness(hertz, static_load);
}

// Lumped track of the beam on elastic foundation. Pad and ballast act in series: at the frequency of P2 the softer
// ballast governs the damping, seen through the share of the deflection that the ballast takes.
closedform::LumpedTrack derived_track(const track::Track& t) {
  const track::Seat& seat = t.seat;
  const double stiffness = seat.pad_stiffness * seat.ballast_stiffness / (seat.pad_stiffness + seat.ballast_stiffness);
  const double ballast_share = stiffness / seat.ballast_stiffness, pad_share = stiffness / seat.pad_stiffness;
  const double damping =
      seat.ballast_damping * ballast_share * ballast_share + seat.pad_damping * pad_share * pad_share;
  const double mass = t.rail.rho_A + seat.bearer_mass * ballast_share * ballast_share / t.spacing;
  return closedform::lumped_track(closedform::FoundationBeam{t.rail.EI, stiffness / t.spacing}, mass,
                                  damping / t.spacing);
}

} // namespace

std::vector<assess::Estimate> estimate(const Case& c, const Geometry& g, Findings* findings) {
  const auto wheel = static_cast<std::size_t>(c.passage.reported_wheel - 1);
  const vehicle::Vehicle v = cases::vehicle_of(c);
  const track::Track t = cases::track_of(c.track);
  closedform::JointCase joint;
  joint.static_load = vehicle::assemble(v).static_load.at(wheel);
  joint.unsprung_mass = v.wheels.at(wheel).unsprung_mass;
  joint.speed = c.passage.speed;
  joint.dip_angle = g.kinematics.dip_angle;
  std::vector<assess::Estimate> result;
  const auto add = [&](const std::string& name, const auto& track, std::string assumptions) {
    try {
      joint.track = track();
      result.push_back({name, joint, closedform::joint_forces(joint), std::move(assumptions)});
    } catch (const ComputeError& error) {
      if (findings != nullptr) {
        findings->push_back({FindingKind::no_closed_form, std::string("not available, because ") + error.what(),
                             "closed form " + name});
      }
    }
  };
  try {
    joint.k_H = contact_stiffness(c, g, joint.static_load);
  } catch (const ComputeError& error) {
    if (findings != nullptr) {
      findings->push_back({FindingKind::no_closed_form, std::string("not available, because ") + error.what()});
    }
    return result;
  }
  joint.m_e = effective_rail_mass(t.rail, 500.0);
  add(
      "derived", [&] { return derived_track(t); },
      "lumped track from the beam on elastic foundation (plain rail and ordinary seats; castings, single seats and "
      "voids are not in it); total dip angle from the kinematic passage; effective rail mass at 500 Hz; P1 is "
      "indicative only");
  for (const closedform::ConstantSet& set : cases::sets_of(c)) {
    add(
        set.name, [&] { return set.track; }, "lumped track constants of " + set.source + " (" + set.status + ")");
  }
  return result;
}

std::shared_ptr<const passage::Plan> plan(const Case& c, const Geometry& g,
                                          std::shared_ptr<const track::ModalTrack> track,
                                          std::shared_ptr<const passage::StepTable> steps) {
  return passage::make_plan({.courses = g.courses,
                             .track = std::move(track),
                             .vehicle = vehicle::assemble(cases::vehicle_of(c)),
                             .steel = c.material,
                             .from = c.passage.from,
                             .to = c.passage.to,
                             .step = c.passage.step,
                             .steps = std::move(steps)});
}

passage::Run run_of(const Case& c, const Geometry& g) {
  const cases::Passage& p = c.passage;
  return {.direction = p.direction,
          .speed = p.speed,
          .reported_wheel = p.reported_wheel - 1,
          .method = p.method,
          .tolerance = p.tolerance,
          .probes = p.probes,
          .probe_station = landing_station(g)};
}

assess::Assessment assessment(const Case& c, const Geometry& g) {
  assess::Assessment a;
  a.speed = c.passage.speed;
  a.kinematics = g.kinematics;
  a.findings = g.findings;
  return a;
}

assess::Assessment assessment(const Case& c, const Geometry& g, const passage::History& history) {
  assess::Assessment a = assessment(c, g);
  a.measures = assess::measure(history, landing_station(g), c.measures);
  a.findings.insert(a.findings.end(), a.measures->findings.begin(), a.measures->findings.end());
  a.estimates = estimate(c, g, &a.findings);
  return a;
}

Result run(const Case& c, std::shared_ptr<const track::ModalTrack> track) {
  Result r;
  r.geometry = geometry(c);
  r.history = passage::simulate(plan(c, r.geometry, std::move(track)), run_of(c, r.geometry));
  r.assessment = assessment(c, r.geometry, r.history);
  return r;
}

Result run(const Case& c) { return run(c, track::modal_track(track_for(c))); }

} // namespace wingnose::study
