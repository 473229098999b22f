// A step takes nothing from its working memory: filled with NaN before every step, a passage gives the same bits.
#include "catch.hpp"
#include "passage_cases.hpp"

#include "wingnose/layout/surface.hpp"
#include "wingnose/profile/wheel.hpp"

#include <memory>
#include <vector>

using namespace wingnose;

namespace {

// Force of every wheel after each of `steps` steps.
std::vector<double> forces(const passage::Passage& move, int steps, bool spoiled) {
  passage::State state = passage::initial_state(move);
  passage::ExponentialStepper stepper(move);
  const double h = move.plan->steps->step;
  std::vector<double> all;
  for (int i = 0; i < steps; ++i) {
    if (spoiled) {
      stepper.spoil();
    }
    stepper.do_step(move, state, i * h, h);
    all.insert(all.end(), state.force.data(), state.force.data() + state.force.size());
  }
  return all;
}

void check_alike(const passage::Passage& move, int steps) {
  const std::vector<double> plain = forces(move, steps, false);
  CHECK(plain == forces(move, steps, true));
  CHECK(cases::largest(plain) > 1.01 * move.vehicle->model.static_load.front()); // something happened
}

} // namespace

TEST_CASE("A step reads nothing that the step before left in its working memory") {
  const auto track = track::modal_track(cases::short_track());
  const auto s = cases::settings(40.0, -0.5, 0.5);
  SECTION("one wheel over a kink") { check_alike(cases::over(cases::kink_path(20e-3, -0.4), track, s), 300); }
  SECTION("a bogie") {
    const auto bogie = vehicle::assemble(vehicle::preset("bogie"));
    check_alike(cases::over(cases::kink_path(20e-3, -0.4), track, s, -0.4, bogie), 300);
  }
  SECTION("contact searched at every step") {
    const auto crossing = layout::generate({});
    const auto wheel = profile::s1002();
    const auto path = std::make_shared<const contact::WheelPath>(
        contact::roll(crossing, wheel, {.from = s.from - 0.1, .to = s.to + 0.1}));
    for (const contact::NormalLaw law :
         {contact::NormalLaw(contact::Ellipse{}), contact::NormalLaw(contact::Strips{})}) {
      auto parts = cases::parts(path, track, s);
      parts.courses.front().search = std::make_shared<const contact::StepSearch>(*path, crossing, wheel, law);
      check_alike(passage::make_passage(passage::make_plan(parts), passage::run_of(s)), 150);
    }
  }
}

TEST_CASE("A step of eight passages reads nothing that the step before left in their working memory") {
  const auto track = track::modal_track(cases::short_track());
  const auto s = cases::settings(40.0, -0.5, 0.5);
  const auto table = passage::step_table(track, s.step);
  std::vector<passage::Passage> moves;
  for (int i = 1; i <= 5; ++i) { // three lanes idle
    moves.push_back(cases::over(cases::kink_path(4e-3 * i, -0.4), track, s, -0.4, cases::usual_wheel(), table));
  }
  const auto run = [&](bool spoiled) {
    passage::BatchState state(moves);
    passage::BatchStepper stepper(moves);
    std::vector<double> all;
    for (int i = 0; i < 300; ++i) {
      if (spoiled) {
        stepper.spoil();
      }
      stepper.do_step(moves, state, i * s.step, s.step);
      all.insert(all.end(), state.force.begin(), state.force.begin() + 5);
    }
    return all;
  };
  CHECK(run(false) == run(true));
  moves.front() = cases::with_laws(moves.front(), [](contact::PathLaw& path) { path.body.front()[0].c1 = 1.0; });
  CHECK(passage::BatchStepper(moves).further_terms());
  CHECK(run(false) == run(true));
}
