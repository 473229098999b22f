#include "wingnose/passage/courses.hpp"

#include "wingnose/numeric/overloaded.hpp"
#include "wingnose/words/constants.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace wingnose::passage {
namespace {

// Crossing bodies are modelled this far from the theoretical point; beyond it every wheel runs level.
constexpr double path_reach = 5.5; // m
constexpr double beyond = 0.1;     // m, paths reach so far beyond the outermost wheel

// A joint or a given path has no surface to be searched, which a turned wheel would meet elsewhere.
void check(const Rolling& r) {
  const bool prescribed = !layout::is_crossing(r.excitation);
  for (const auto& [name, value] : {std::pair{"roll", r.roll}, std::pair{"yaw", r.yaw}}) {
    if (prescribed && value != 0.0) {
      throw InputError(std::string(name) + " of the wheel (wheel." + name + "_mrad)", number(value * 1e3) + " mrad",
                       "0 on a joint or a given path", "Leave it out, or run over a crossing.");
    }
  }
  if (prescribed && r.search == contact::SearchAt::step) {
    throw InputError("search for contact (contact.search)", "step", "path on a joint or a given path",
                     "Leave it out, or run over a crossing.");
  }
}

contact::PathOptions path_options(const Rolling& r, double from, double to, double radius) {
  return {
      .lateral_offset = r.lateral_offset, .from = from, .to = to, .wheel_radius = radius, .roll = r.roll, .yaw = r.yaw};
}

// The law of contact along a path; without one of its own the passage takes the ellipses of the path.
template <class... From>
std::shared_ptr<const contact::PathLaw> law_along(const contact::NormalLaw& law, const From&... from) {
  using Made = std::shared_ptr<const contact::PathLaw>;
  return std::visit(overloaded{[](const contact::Ellipse&) { return Made(); },
                               [&](const contact::Strips&) {
                                 return Made(std::make_shared<const contact::PathLaw>(contact::strips_law(from...)));
                               }},
                    law);
}

// What a wheel of this radius runs along over a crossing.
Course rolled(const Rolling& r, const layout::Crossing& crossing, double radius) {
  const auto options =
      path_options(r, std::max(r.span.from - beyond, -path_reach), std::min(r.span.to + beyond, path_reach), radius);
  const auto wheel = std::make_shared<const contact::HeldWheel>(contact::hold(crossing, r.wheel, options));
  Course course{std::make_shared<const contact::WheelPath>(contact::roll(*wheel))};
  course.law = law_along(r.law, *course.path, *wheel);
  if (r.search == contact::SearchAt::step) {
    course.search = std::make_shared<const contact::StepSearch>(wheel, r.law);
  }
  return course;
}

// The same along a prescribed path on plain rail.
Course prescribed(const Rolling& r, contact::WheelPath path) {
  Course course{std::make_shared<const contact::WheelPath>(std::move(path))};
  course.law = law_along(r.law, *course.path, profile::rail_head(r.rail, r.inclination), r.wheel);
  return course;
}

Course course_for(const Rolling& r, const layout::Crossing* crossing, double radius) {
  const auto plain = [&] { return contact::plain_contact(r.wheel, profile::rail_head(r.rail, r.inclination), radius); };
  return std::visit(
      overloaded{[&](const layout::CrossingShape&) { return rolled(r, *crossing, radius); },
                 [&](const layout::SectionedShape&) { return rolled(r, *crossing, radius); },
                 [&](const layout::DippedJoint& joint) { // reaches as far as its ramps do, not as a crossing body
                   const auto options = path_options(r, r.span.from - beyond, r.span.to + beyond, radius);
                   return prescribed(r, contact::dipped_joint(joint, plain(), options));
                 },
                 [&](const layout::GivenPath& given) {
                   const auto options = path_options(r, std::max(r.span.from - beyond, -path_reach),
                                                     std::min(r.span.to + beyond, path_reach), radius);
                   return prescribed(r, contact::given_path(given, plain(), options));
                 }},
      r.excitation);
}

// See Geometry::level_ahead.
std::optional<double> level_ahead(const Rolling& r, const layout::Crossing* crossing, double radius,
                                  Direction direction) {
  const bool facing = direction == Direction::facing;
  const auto far_out = [&]() -> std::optional<double> {
    const double from = facing ? -path_reach : path_reach - beyond;
    try {
      const auto path = contact::roll(*crossing, r.wheel, path_options(r, from, from + beyond, radius));
      const std::vector<double> height = contact::upper_envelope(path);
      return facing ? height.front() : height.back();
    } catch (const ComputeError&) { // it touches nothing there
      return std::nullopt;
    }
  };
  return std::visit(overloaded{[&](const layout::CrossingShape&) { return far_out(); },
                               [&](const layout::SectionedShape&) { return far_out(); },
                               [](const layout::DippedJoint& joint) {
                                 const bool straight = joint.shape == layout::DippedJoint::Shape::kink;
                                 return straight ? std::nullopt : std::optional(0.0);
                               },
                               [&](const layout::GivenPath& given) {
                                 return std::optional(facing ? given.height.front() : given.height.back());
                               }},
                    r.excitation);
}

// The other wheel of the axle is shifted the other way: where its flange would stand on its plain rail, no track holds
// the wheelset either. One profile and one gauge for both.
Findings other_flange(const Rolling& r, const layout::Crossing* crossing, double radius) {
  constexpr double within_reach = 0.005; // m: every wheelset is free to move so far
  if (crossing == nullptr || !(r.lateral_offset < -within_reach)) {
    return {};
  }
  auto options = path_options(r, -path_reach, -path_reach + beyond, radius);
  options.lateral_offset = -r.lateral_offset;
  options.roll = options.yaw = 0.0;
  try {
    const auto path = contact::roll(*crossing, r.wheel, options);
    const auto wing = std::find_if(path.bodies.begin(), path.bodies.end(), [](const contact::BodyPath& b) {
      return std::isfinite(b.height.front()) && b.wheel_y.front() < flange_begin;
    });
    if (wing == path.bodies.end()) {
      return {};
    }
  } catch (const ComputeError&) { // it touches nothing there
    return {};
  }
  return {{FindingKind::flange_on_plain_rail, "the flange of the other wheel of the axle stands on its rail"}};
}

} // namespace

Span covered(std::span<const vehicle::Wheel> wheels, std::size_t reported, Direction direction, const Span& window) {
  if (reported >= wheels.size()) {
    throw InputError("reported wheel", std::to_string(reported + 1), "1 to " + std::to_string(wheels.size()),
                     "Wheels are counted from the leading one.");
  }
  double ahead = 0.0, behind = 0.0; // of the reported wheel, in the sense of travel
  for (const vehicle::Wheel& wheel : wheels) {
    const double offset = wheel.x - wheels[reported].x;
    ahead = std::max(ahead, offset);
    behind = std::min(behind, offset);
  }
  return direction == Direction::facing ? Span{window.from + behind, window.to + ahead}
                                        : Span{window.from - ahead, window.to - behind};
}

Geometry geometry(const Rolling& r, std::span<const double> radii, std::size_t reported,
                  const contact::KinematicsOptions& options) {
  check(r);
  Geometry g;
  g.wheel = r.wheel;
  g.crossing = layout::crossing_of(r.excitation);
  const layout::Crossing* crossing = g.crossing ? &*g.crossing : nullptr;
  for (const double radius : radii) {
    const auto first = static_cast<std::size_t>(std::find(radii.begin(), radii.end(), radius) - radii.begin());
    g.courses.push_back(first < g.courses.size() ? g.courses[first] : course_for(r, crossing, radius));
  }
  const Course& course = g.courses[reported];
  g.path = course.path;
  g.law = course.law;
  g.search = course.search;
  g.level_ahead = level_ahead(r, crossing, radii[reported], options.direction);
  g.kinematics = contact::kinematics(*g.path, crossing, g.wheel, options);
  g.findings = g.kinematics.findings;
  append(g.findings, other_flange(r, crossing, radii[reported]));
  if (g.law) {
    append(g.findings, contact::findings_of(*g.law));
  }
  append(g.findings, contact::ends_in_window(*g.path, r.span.from, r.span.to));
  return g;
}

Findings begins_in_dip(const Geometry& g, double begin) {
  // On the demo crossing a wheel that begins 0.13 mm down misses P2 by 0.3 %, one 0.26 mm down by 4 %.
  constexpr double noticed = 1e-4; // m
  if (!g.path || !g.level_ahead) { // an answer made of empty values, to list what it holds, has no path
    return {};
  }
  const auto& x = g.path->station;
  if (x.empty() || begin < x.front() || begin > x.back()) { // beyond its ends a path is level
    return {};
  }
  const auto at = static_cast<std::size_t>(std::lower_bound(x.begin(), x.end(), begin) - x.begin());
  const double down = *g.level_ahead - contact::upper_envelope(*g.path)[at];
  if (!(std::abs(down) > noticed)) {
    return {};
  }
  return {{FindingKind::window_begins_in_dip,
           "the wheel is " + fixed(std::abs(down) * 1e3, 2) + " mm " + (down > 0.0 ? "below" : "above") +
               " its level ahead already where the passage begins",
           "station " + fixed(begin * 1e3, 0) + " mm"}};
}

} // namespace wingnose::passage
