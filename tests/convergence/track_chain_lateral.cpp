// Observed order of the step where a chain also bends laterally.
#include "catch.hpp"
#include "chain_motion.hpp"

#include "wingnose/track/chain/stepper.hpp"

#include <cmath>
#include <numbers>
#include <vector>

using namespace chain_samples;

TEST_CASE("Free lateral motion of a chain converges with the fourth power of the step") {
  const auto c = make_chain(sideways(turnout(20)));
  // Set going by a smooth lateral pulse in steps that are the same whatever h is.
  Motion start(*c);
  {
    Stepper stepper(*c, 1);
    const StepFactor f = step_factor(*c, 1e-5);
    std::vector<WheelForce> from{{rail_point(*c, 0, 6.0, Plane::lateral)}}, to = from;
    for (int i = 1; i <= 800; ++i) {
      to[0].force = 2e4 * std::pow(std::sin(std::numbers::pi * i / 800), 4);
      stepper.begin(start, f, from, to);
      stepper.end(start);
      from = to;
    }
  }
  const auto after = [&](double h) { return left_alone(*c, start, h, 4e-3); };
  const Motion exact = after(5e-6);
  for (const auto part : {&Motion::bearer, &Motion::seat}) {
    std::vector<double> error;
    for (const double h : {1.6e-4, 8e-5, 4e-5}) {
      error.push_back((after(h).*part - exact.*part).cwiseAbs().maxCoeff());
    }
    CHECK(std::log2(error[0] / error[1]) == Approx(4.0).margin(0.5));
    CHECK(std::log2(error[1] / error[2]) == Approx(4.0).margin(0.5));
  }
}
