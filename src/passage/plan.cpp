#include "wingnose/passage/plan.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>

namespace wingnose::passage {
namespace {

constexpr double same_radius = 1e-9; // m
// s; a longer step of a chain moves a landing by more than a hundredth of a millimetre and, where a bearer hangs over a
// void, the largest force by more than a thousandth.
constexpr double longest_on_chain = 160e-6;

// Steps that a long one holds.
int stride_of(const PlanParts& p) {
  return stride_within(p.chain ? std::min(p.longest_step, longest_on_chain) : p.longest_step, p.step);
}

void check(const PlanParts& p) {
  if (!(p.to > p.from)) {
    throw InputError("passage window", number(p.from) + " to " + number(p.to) + " m", "from below to",
                     "from and to are stations in x, whatever the direction of the move.");
  }
  const std::size_t wheels = p.vehicle.wheel_x.size();
  if (p.courses.size() != 1 && p.courses.size() != wheels) {
    throw InputError("wheel paths", std::to_string(p.courses.size()),
                     "one for all wheels, or " + std::to_string(wheels) + ", one each",
                     "Give the path of every wheel.");
  }
  if (p.chain ? p.track || p.steps : !p.track) {
    throw InputError("track of a passage", p.chain ? "modes and a chain" : "none", "either modes or a chain",
                     "Give one of them.");
  }
  if (p.steps && (p.steps->track != p.track || p.steps->step != p.step)) {
    throw InputError("step table", number(p.steps->step) + " s", "the table of this track and step",
                     "Make one with step_table().");
  }
  const int stride = stride_of(p);
  if (p.long_steps && stride > 1 && (p.long_steps->track != p.track || p.long_steps->step != stride * p.step)) {
    throw InputError("table of long steps", number(p.long_steps->step) + " s", "the table of this track and long step",
                     "Make one with step_table().");
  }
}

// radius: of the wheel (m). Prescribed paths, on plain rail, are those of any wheel.
void check(const Course& course, double radius) {
  const contact::WheelPath& path = *course.path;
  if (path.station.size() < 2 || path.bodies.empty() || path.bodies.size() > 2) {
    throw InputError("wheel path",
                     std::to_string(path.bodies.size()) + " bodies, " + std::to_string(path.station.size()) +
                         " stations",
                     "one or two bodies, two or more stations", "Roll the wheel over the crossing first.");
  }
  const bool rolled = path.bodies.front().role != layout::Role::stock;
  if (rolled && std::abs(path.wheel_radius - radius) > same_radius) {
    throw InputError("wheel path", "rolled with a radius of " + number(path.wheel_radius) + " m",
                     "the radius of its wheel, " + number(radius) + " m", "Give every wheel a path of its own.");
  }
  if (course.law &&
      (course.law->body.size() != path.bodies.size() || course.law->body.front().size() != path.station.size())) {
    throw InputError("law of contact", std::to_string(course.law->body.size()) + " bodies", "a law of the same path",
                     "Make it from this path.");
  }
  if (course.search && course.search->bodies() != path.bodies.size()) {
    throw InputError("search for contact at every step", std::to_string(course.search->bodies()) + " bodies",
                     std::to_string(path.bodies.size()) + " as the path's", "Make it for the same crossing.");
  }
}

std::shared_ptr<const contact::PathLaw> law_for(const Course& course, double E_star) {
  contact::PathLaw law = course.law ? *course.law : contact::ellipse_law(*course.path);
  for (std::vector<contact::ForceLaw>& body : law.body) {
    for (contact::ForceLaw& one : body) {
      one = E_star * one;
    }
  }
  return std::make_shared<const contact::PathLaw>(std::move(law));
}

// Every wheel's own.
std::vector<Course> each(const PlanParts& p) {
  const std::vector<double>& radius = p.vehicle.wheel_radius;
  const auto of_wheel = [&](const std::vector<Course>& some, std::size_t w) {
    return some.size() == 1 ? some[0] : some[w];
  };
  for (std::size_t w = 0; w < radius.size(); ++w) {
    check(of_wheel(p.courses, w), radius[w]);
  }
  const std::vector<Course> ready = p.laws_for_steel ? p.courses : for_steel(p.courses, p.steel);
  std::vector<Course> courses;
  for (std::size_t w = 0; w < radius.size(); ++w) {
    courses.push_back(of_wheel(ready, w));
  }
  return courses;
}

void check(const Passage& passage) {
  const Run& run = passage.run;
  const Plan& plan = *passage.plan;
  if (!(run.speed > 0.1 && run.speed < 200.0)) {
    throw InputError("speed", number(run.speed) + " m/s", "0.1 to 200 m/s", "Give the speed of the move.");
  }
  if (run.reported_wheel < 0 || run.reported_wheel >= plan.wheels()) {
    throw InputError("reported wheel", std::to_string(run.reported_wheel + 1), "1 to " + std::to_string(plan.wheels()),
                     "Wheels are counted from the leading one.");
  }
  for (const double x : {plan.from, plan.to}) {
    for (int w = 0; w < plan.wheels(); ++w) {
      const double at = passage.wheel_station(w, x);
      if (at < plan.track_begin() || at > plan.track_end()) {
        throw InputError("track length", number(plan.track_begin()) + " to " + number(plan.track_end()) + " m",
                         "a track that carries wheel " + std::to_string(w + 1) + " at " + number(at) + " m",
                         "Give more bays or a shorter window.");
      }
    }
  }
  if (plan.chain && run.method != Method::modal_exponential) {
    throw InputError("method", std::string(name(run.method)),
                     std::string(name(Method::modal_exponential)) + " on a chain",
                     "The other method knows modes only.");
  }
  for (const Course& course : plan.courses) {
    if (course.search && run.method != Method::modal_exponential) {
      throw InputError("search for contact at every step", "with method " + std::string(name(run.method)),
                       "method " + std::string(name(Method::modal_exponential)),
                       "The adaptive method takes the law along the path.");
    }
  }
}

// Whether both step alike because all that step_plan() looks at is the same.
bool same_steps(const Passage& a, const Passage& b) {
  const Plan &p = *a.plan, &q = *b.plan;
  const Run &r = a.run, &s = b.run;
  return a.wheels() == 1 && b.wheels() == 1 && p.courses[0].path == q.courses[0].path && p.step == q.step &&
         p.stride == q.stride && p.from == q.from && p.to == q.to && r.speed == s.speed && r.direction == s.direction &&
         r.method == s.method;
}

} // namespace

std::vector<Course> for_steel(const std::vector<Course>& given, const contact::Elastic& steel) {
  using Parts = std::pair<const contact::WheelPath*, const contact::PathLaw*>;
  std::map<Parts, std::shared_ptr<const contact::PathLaw>> made; // wheels that share a course go on sharing it
  std::vector<Course> courses;
  for (const Course& course : given) {
    std::shared_ptr<const contact::PathLaw>& law = made[{course.path.get(), course.law.get()}];
    if (!law) {
      law = law_for(course, steel.combined());
    }
    courses.push_back({course.path, law, course.search});
  }
  return courses;
}

int stride_within(double longest, double step) {
  const double steps = std::floor(longest / step + 1e-9); // to rounding
  return steps >= 1.0 ? static_cast<int>(std::min(steps, 1e4)) : 1;
}

std::shared_ptr<const Plan> make_plan(PlanParts parts) {
  check(parts);
  Plan plan;
  plan.from = parts.from;
  plan.to = parts.to;
  plan.combined_modulus = parts.steel.combined();
  plan.courses = each(parts);
  plan.step = parts.step;
  plan.stride = stride_of(parts);
  const double long_step = plan.stride * plan.step;
  if (parts.chain) {
    if (parts.chain->rails > 2) {
      throw InputError("rails of the track", std::to_string(parts.chain->rails), "1 or 2 under a passage",
                       "Give the rails of the track the vehicle runs on.");
    }
    (void)track::chain::rail_point(*parts.chain, parts.rail,
                                   parts.chain->begin()); // throws for a rail that is not there
    plan.chain_steps =
        std::make_shared<const track::chain::StepFactor>(track::chain::step_factor(*parts.chain, parts.step));
    if (plan.stride > 1) {
      plan.long_chain_steps =
          std::make_shared<const track::chain::StepFactor>(track::chain::step_factor(*parts.chain, long_step));
    }
    plan.chain = std::move(parts.chain);
    plan.rail = parts.rail;
  } else {
    plan.steps = parts.steps ? std::move(parts.steps) : step_table(parts.track, parts.step);
    if (plan.stride > 1) {
      plan.long_steps = parts.long_steps ? std::move(parts.long_steps) : long_step_table(parts.track, long_step);
    }
    plan.track = std::move(parts.track);
  }
  plan.vehicle = running(std::move(parts.vehicle), plan.step, plan.stride);
  return std::make_shared<const Plan>(std::move(plan));
}

Run run_of(const Settings& s, std::optional<double> probe_station) {
  return {.direction = s.direction,
          .speed = s.speed,
          .reported_wheel = s.reported_wheel,
          .method = s.method,
          .tolerance = s.tolerance,
          .probes = s.probes,
          .probe_station = probe_station};
}

Passage make_passage(std::shared_ptr<const Plan> plan, const Run& run, const Passage* like) {
  Passage passage{std::move(plan), run, nullptr};
  passage.vehicle = passage.plan->vehicle;
  check(passage);
  if (run.load) {
    passage.vehicle = running(vehicle::laden(passage.vehicle->model, run.reported_wheel, *run.load), passage.plan->step,
                              passage.plan->stride);
  }
  passage.stretches = like != nullptr && same_steps(passage, *like) ? like->stretches : step_plan(passage);
  return passage;
}

} // namespace wingnose::passage
