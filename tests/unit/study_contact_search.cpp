// Cases whose passage searches for contact at every step: the yardstick of the law along the path.
#include "catch.hpp"
#include "landing_case.hpp"

#include "wingnose/study/many.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <string>

using namespace wingnose;

namespace {

cases::Case landing(contact::NormalLaw law, contact::SearchAt at) {
  cases::Case c = landing_case::landing(law);
  c.contact.search = at;
  return c;
}

// Largest difference of the wheel force over the histories (N).
double largest_difference(const passage::History& a, const passage::History& b) {
  REQUIRE(a.force.size() == b.force.size());
  double most = 0.0;
  for (std::size_t i = 0; i < a.force.size(); ++i) {
    most = std::max(most, std::abs(a.force[i] - b.force[i]));
  }
  return most;
}

} // namespace

TEST_CASE("Contact searched at every step and the law kept along the path give the same passage") {
  // Wheels on one patch, on two (hollow), and turned; the fit of the law is up to 20 % off in places, for some um of
  // depth, which a force feels through the softness of the rail alone.
  struct Wheel {
    double hollow, offset, yaw, roll;
  };
  const auto w = GENERATE(Wheel{0.0, 0.0, 0.0, 0.0}, Wheel{0.0, 0.004, 0.0, 0.0}, Wheel{0.002, -0.003, 0.0, 0.0},
                          Wheel{0.0, 0.002, 0.010, -0.002});
  for (const contact::NormalLaw law : {contact::NormalLaw(contact::Ellipse{}), contact::NormalLaw(contact::Strips{})}) {
    cases::Case along = landing(law, contact::SearchAt::path);
    if (w.hollow > 0.0) {
      along.wheel.hollow = {.depth = w.hollow, .width = 0.06};
    }
    along.wheel.lateral_offset = w.offset;
    along.wheel.yaw = w.yaw;
    along.wheel.roll = w.roll;
    cases::Case stepwise = along;
    stepwise.contact.search = contact::SearchAt::step;
    const auto a = study::run(along), b = study::run(stepwise);
    CHECK(a.geometry.search == nullptr);
    REQUIRE(b.geometry.search != nullptr);
    CAPTURE(w.hollow, w.offset, w.yaw, name(law), a.assessment.measures->p2, b.assessment.measures->p2,
            a.assessment.measures->peak_total, b.assessment.measures->peak_total,
            largest_difference(a.history, b.history));
    CHECK(b.assessment.measures->p2 != a.assessment.measures->p2);
    CHECK(b.assessment.measures->p2 == Approx(a.assessment.measures->p2).epsilon(0.002));
    CHECK(b.assessment.measures->peak_total == Approx(a.assessment.measures->peak_total).epsilon(0.005));
    for (std::size_t i = 0; i < b.history.time.size(); ++i) {
      CHECK(b.history.body_force[0][i] + b.history.body_force[1][i] == Approx(b.history.force[i]).margin(1e-6));
      CHECK((b.history.body_force[0][i] >= 0.0 && b.history.body_force[1][i] >= 0.0));
    }
  }
}

TEST_CASE("Searched at every step the force does not jump where the load changes bodies or a patch comes in") {
  cases::Case c = landing(contact::Strips{}, contact::SearchAt::step);
  c.wheel.hollow = {.depth = 0.002, .width = 0.06};
  const auto coarse = study::run(c);
  c.passage.step *= 0.5;
  const auto fine = study::run(c);
  const auto change = [](const passage::History& h) {
    double most = 0.0;
    for (std::size_t i = 1; i < h.force.size(); ++i) {
      most = std::max(most, std::abs(h.force[i] - h.force[i - 1]));
    }
    return most;
  };
  // A jump would stay whatever the step; a steep rise halves with it.
  CAPTURE(change(coarse.history), change(fine.history));
  CHECK(change(fine.history) < 0.65 * change(coarse.history));
}

TEST_CASE("Many cases with and without a search at every step answer as each does alone") {
  std::vector<cases::Case> cases;
  for (const double speed : {25.0, 30.0}) {
    for (const auto at : {contact::SearchAt::path, contact::SearchAt::step}) {
      cases.push_back(landing(contact::Ellipse{}, at));
      cases.back().passage.speed = speed;
    }
  }
  const auto outcomes = study::run_many(cases, {.threads = 2});
  for (std::size_t i = 0; i < cases.size(); ++i) {
    CAPTURE(i, outcomes[i].failure);
    REQUIRE(outcomes[i].assessment);
    CHECK(outcomes[i].assessment->measures->p2 == Approx(study::run(cases[i]).assessment.measures->p2).epsilon(1e-9));
  }
  CHECK(outcomes[0].assessment->measures->p2 != outcomes[1].assessment->measures->p2);
}

TEST_CASE("A search at every step is refused where there is no surface, and with the adaptive method") {
  cases::Case joint = landing(contact::Strips{}, contact::SearchAt::step);
  joint.excitation = layout::DippedJoint{.dip_angle = 0.01, .half_length = 1.0};
  CHECK_THROWS_AS(study::run(joint), InputError);
  cases::Case adaptive = landing(contact::Ellipse{}, contact::SearchAt::step);
  adaptive.passage.method = passage::Method::adaptive_runge_kutta;
  CHECK_THROWS_AS(study::run(adaptive), InputError);
  joint.contact.search = contact::SearchAt::path;
  joint.wheel.yaw = 0.002;
  CHECK_THROWS_AS(study::run(joint), InputError);
  CHECK_THROWS_AS(named<contact::SearchAt>("online", "search for contact"), InputError);
}
