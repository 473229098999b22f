// Cases whose passage takes its contact from the strips.
#include "catch.hpp"
#include "landing_case.hpp"

#include "wingnose/study/instants.hpp"
#include "wingnose/study/many.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

using namespace wingnose;
using landing_case::landing;

namespace {

double largest_change(const std::vector<double>& force) {
  double most = 0.0;
  for (std::size_t i = 1; i < force.size(); ++i) {
    most = std::max(most, std::abs(force[i] - force[i - 1]));
  }
  return most;
}

} // namespace

TEST_CASE("Strips in the passage: bodies share the force, which is near that of the ellipses but not the same") {
  const auto ellipse = study::run(landing(contact::Ellipse{})), strips = study::run(landing(contact::Strips{}));
  CHECK(ellipse.geometry.law == nullptr);
  REQUIRE(strips.geometry.law != nullptr);
  CHECK(strips.geometry.law->searched > 20);
  // Track and wheel decide about P2, the contact only about what happens within it (Jenkins et al. 1974): its spring is
  // an order of magnitude stiffer than the rail.
  CHECK(strips.assessment.measures->p2 == Approx(ellipse.assessment.measures->p2).epsilon(0.01));
  CHECK(strips.assessment.measures->p2 != ellipse.assessment.measures->p2);
  const passage::History& h = strips.history;
  for (std::size_t i = 0; i < h.time.size(); i += 5) {
    CHECK(h.body_force[0][i] + h.body_force[1][i] == Approx(h.force[i]).margin(1e-6));
  }
}

TEST_CASE("In a passage a yawed wheel touches ahead of its axle by radius times yaw times the slope of the contact") {
  for (const contact::NormalLaw law : {contact::NormalLaw(contact::Ellipse{}), contact::NormalLaw(contact::Strips{})}) {
    auto straight = landing(law, 0.002);
    straight.passage.from = -1.4;
    auto& shape = std::get<layout::CrossingShape>(straight.excitation);
    shape.wing_inclination = 0.06; // at 1:40 an S1002 touches where R tan(angle) is its distance from the taping line
    auto yawed = straight;
    yawed.wheel.yaw = 0.008;
    const auto a = study::run(straight), b = study::run(yawed);
    const auto& path = *b.geometry.path;
    CHECK(path.yaw == 0.008);
    // On the wing ahead of the knuckle, where the body is the same at every station.
    const double x = -1.2;
    const auto i =
        static_cast<std::size_t>(std::lower_bound(path.station.begin(), path.station.end(), x) - path.station.begin());
    const contact::BodyPath& wing = path.bodies[0];
    const double radius = path.wheel_radius + b.geometry.wheel.height(wing.wheel_y[i]);
    const double ahead = 0.008 * (radius * std::tan(wing.angle[i]) - wing.wheel_y[i]);
    CHECK(std::abs(ahead) > 1e-4);
    CHECK(wing.contact_dx[i] == Approx(ahead).epsilon(0.03).margin(2e-6));
    // Contacts on wing and nose are inclined: each body is met elsewhere along the track, and the load changes
    // bodies at another station.
    REQUIRE((a.geometry.kinematics.transfer_station && b.geometry.kinematics.transfer_station));
    CHECK(std::abs(*b.geometry.kinematics.transfer_station - *a.geometry.kinematics.transfer_station) > 5e-4);
    CHECK(b.assessment.measures->p2 != a.assessment.measures->p2);
    CHECK(b.assessment.measures->p2 == Approx(a.assessment.measures->p2).epsilon(0.1));
    CHECK(largest_change(b.history.force) < 1.5 * largest_change(a.history.force));
  }
}

TEST_CASE("The contact at an instant is that of the wheel as the case holds it, unless told otherwise") {
  auto c = landing(contact::Strips{}, 0.002);
  c.wheel.yaw = 0.010;
  const auto r = study::run(c);
  const contact::StationOptions by_strips{.law = contact::Strips{}};
  const auto at = [&](const study::WheelAttitude& attitude) {
    const auto contact = study::contact_at_instant(c, r, study::Moment::peak, by_strips, attitude);
    REQUIRE_FALSE(contact.patches.empty());
    return contact.patches.front().dx;
  };
  CHECK(at({}) == at({.yaw = 0.010}));
  CHECK(std::abs(at({}) - at({.yaw = 0.0})) > 2e-4);
}

TEST_CASE("With strips the analytic steps and the adaptive cross-check agree") {
  auto c = landing(contact::Strips{});
  const auto steps = study::run(c);
  c.passage.method = passage::Method::adaptive_runge_kutta;
  const auto adaptive = study::run(c);
  CHECK(steps.assessment.measures->peak_total == Approx(adaptive.assessment.measures->peak_total).epsilon(0.002));
  CHECK(steps.assessment.measures->p2 == Approx(adaptive.assessment.measures->p2).epsilon(0.001));
}

TEST_CASE("Many cases keep the laws of contact apart and answer each as it is answered alone") {
  std::vector<cases::Case> cases;
  for (const double offset : {0.0, 0.003}) {
    cases.push_back(landing(contact::Ellipse{}, offset));
    cases.push_back(landing(contact::Strips{}, offset));
  }
  for (const auto& [roll, yaw] : {std::pair{0.0, 0.006}, std::pair{0.003, 0.0}}) {
    cases.push_back(landing(contact::Ellipse{}));
    cases.back().wheel.roll = roll;
    cases.back().wheel.yaw = yaw;
  }
  const auto outcomes = study::run_many(cases, {.threads = 1});
  for (std::size_t i = 0; i < cases.size(); ++i) {
    CAPTURE(i, outcomes[i].failure);
    REQUIRE(outcomes[i].assessment);
    const auto alone = study::run(cases[i]);
    CHECK(outcomes[i].assessment->measures->p2 == Approx(alone.assessment.measures->p2).epsilon(1e-9));
    CHECK(outcomes[i].assessment->measures->peak_total == Approx(alone.assessment.measures->peak_total).epsilon(1e-9));
  }
  CHECK(outcomes[2].assessment->measures->p2 != outcomes[3].assessment->measures->p2);
  CHECK(outcomes[0].assessment->measures->p2 != outcomes[4].assessment->measures->p2);
  CHECK(outcomes[0].assessment->measures->p2 != outcomes[5].assessment->measures->p2);
}

TEST_CASE("The force of a passage does not jump where patches move, split or go over to the other body") {
  auto c = landing(contact::Strips{}, 0.004);
  c.wheel.hollow = {.depth = 0.002, .width = 0.06};
  const double coarse = largest_change(study::run(c).history.force);
  c.passage.step *= 0.5;
  const double fine = largest_change(study::run(c).history.force);
  // What is continuous changes half as much in half the time; a jump would change as much.
  CAPTURE(coarse, fine);
  CHECK(fine < 0.65 * coarse);
}

TEST_CASE("A joint on plain rail takes the strips of the wheel on that rail") {
  auto c = landing(contact::Strips{});
  c.excitation = layout::DippedJoint{.dip_angle = 0.01, .half_length = 10.0};
  const auto strips = study::run(c);
  c.contact.law = contact::Ellipse{};
  const auto ellipse = study::run(c);
  REQUIRE(strips.geometry.law != nullptr);
  CHECK(strips.geometry.law->searched == 1);
  REQUIRE(strips.assessment.measures->first_peak);
  CHECK(*strips.assessment.measures->first_peak == Approx(*ellipse.assessment.measures->first_peak).epsilon(0.02));
  // The closed form's contact spring is the law's own slope at the static load.
  const contact::ForceLaw law = c.material.combined() * strips.geometry.law->body[0][0];
  const double load = strips.assessment.measures->static_load, d = contact::depth_for_force(law, load), h = 1e-4 * d;
  CHECK(strips.assessment.estimates.front().input.k_H ==
        Approx((law.at(d + h).force - law.at(d - h).force) / (2.0 * h)).epsilon(1e-5));
}
