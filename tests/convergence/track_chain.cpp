// Observed orders of the step of a chain.
#include "catch.hpp"
#include "chain_motion.hpp"

#include "wingnose/track/chain/stepper.hpp"

#include <cmath>
#include <numbers>
#include <vector>

using namespace chain_samples;

namespace {

// A track at rest meets a smooth force that grows from nothing and dies away, over a fixed place.
Motion pulse(const Chain& c, double h, double duration) {
  Stepper stepper(c, 1);
  const StepFactor f = step_factor(c, h);
  Motion motion(c);
  std::vector<WheelForce> from{{rail_point(c, 0, 6.0)}}, to = from;
  const auto steps = static_cast<int>(std::lround(duration / h));
  const auto force = [&](double t) { return 1e5 * std::pow(std::sin(std::numbers::pi * t / duration), 4); };
  for (int i = 0; i < steps; ++i) {
    to[0].force = force((i + 1) * h);
    stepper.begin(motion, f, from, to);
    for (int sweep = 0; sweep < 50 && stepper.meet_links() > 1e-7; ++sweep) {
    }
    stepper.end(motion);
    from = to;
  }
  return motion;
}

double order(double coarse, double fine) { return std::log2(coarse / fine); }

} // namespace

TEST_CASE("Free motion of a chain converges with the fourth power of the step") {
  const auto c = make_chain(turnout(20));
  // Set going by a smooth pulse in steps that are the same whatever h is.
  const Motion start = pulse(*c, 1e-5, 8e-3);
  const auto after = [&](double h) { return left_alone(*c, start, h, 4e-3); };
  const Eigen::VectorXd exact = after(5e-6).bearer;
  std::vector<double> error;
  for (const double h : {1.6e-4, 8e-5, 4e-5}) {
    error.push_back((after(h).bearer - exact).cwiseAbs().maxCoeff());
  }
  CHECK(order(error[0], error[1]) == Approx(4.0).margin(0.5));
  CHECK(order(error[1], error[2]) == Approx(4.0).margin(0.5));
}

TEST_CASE("A force that varies linearly within a step converges with its second power, voids or not") {
  for (const bool voids : {false, true}) {
    Model m = plain(20);
    if (voids) {
      m.bearers[10].voids.push_back({-2.0, 2.0, 0.3e-3});
    }
    const auto c = make_chain(m);
    const Eigen::VectorXd exact = pulse(*c, 5e-6, 8e-3).seat;
    std::vector<double> error;
    for (const double h : {1.6e-4, 8e-5, 4e-5}) {
      error.push_back((pulse(*c, h, 8e-3).seat - exact).cwiseAbs().maxCoeff() / exact.cwiseAbs().maxCoeff());
    }
    INFO((voids ? "with" : "without") << " voids, errors " << error[0] << ' ' << error[1] << ' ' << error[2]);
    CHECK(order(error[0], error[1]) == Approx(2.0).margin(voids ? 0.7 : 0.3));
    CHECK(order(error[1], error[2]) == Approx(2.0).margin(voids ? 0.7 : 0.3));
    CHECK(error[2] < 1e-3);
  }
}

TEST_CASE("Modes of a bay and coordinates of a bearer converge") {
  const auto at = [](double half_length, int modes, int coordinates, double hertz) {
    Model m = plain(31, {-half_length, half_length, 130.0, 8e6, 0.22, coordinates});
    m.modes_per_bay = modes;
    const auto c = make_chain(m);
    const RailPoint p = rail_point(*c, 0, 9.15);
    const std::vector<double> f{hertz};
    return receptance(*c, p, p, f)[0];
  };
  const auto error = [&](double half_length, int modes, int coordinates, double hertz) {
    const Complex fine = at(half_length, 6, 12, hertz);
    return std::abs(at(half_length, modes, coordinates, hertz) - fine) / std::abs(fine);
  };
  CHECK(error(1.3, 2, 12, 700.0) > 4.0 * error(1.3, 5, 12, 700.0));
  CHECK(error(1.3, 5, 12, 700.0) < 1e-3);
  CHECK(error(1.3, 6, 8, 500.0) < 2e-3); // eight hold to 500 Hz under a plain bearer,
  CHECK(error(2.2, 6, 8, 500.0) > 2e-3); // not under a long one,
  CHECK(error(2.2, 6, 0, 500.0) < 2e-3); // where more are taken
  CHECK(error(2.2, 6, 10, 500.0) < error(2.2, 6, 8, 500.0));
}
