// Chains set in motion, for the tests that watch them.
#pragma once

#include "chain_samples.hpp"

#include "wingnose/track/chain/stepper.hpp"

#include <cmath>
#include <utility>
#include <vector>

namespace chain_samples {

inline Model without_damping(Model m) {
  for (Bearer& b : m.bearers) {
    b.ballast.damping = 0.0;
    for (BallastZone& z : b.zones) {
      z.ballast.damping = 0.0;
    }
    if (b.lateral) {
      b.lateral->damping = 0.0;
    }
    for (RailSeat& s : b.seat) {
      s.pad.damping = 0.0;
      if (s.lateral) {
        s.lateral->damping = s.lateral->roll_damping = 0.0;
      }
    }
  }
  return m;
}

// Loads of fixed size rolling for some steps, whose lengths (s) take turns; speed: m/s.
inline Motion roll(const Chain& c, const std::vector<Load>& start, int steps, const std::vector<double>& lengths,
                   double speed = 30.0) {
  Stepper stepper(c, static_cast<int>(start.size()));
  std::vector<StepFactor> factors;
  for (const double h : lengths) {
    factors.push_back(step_factor(c, h));
  }
  Motion motion = at_rest(c, start);
  std::vector<WheelForce> from;
  for (const Load& load : start) {
    from.push_back({rail_point(c, load.rail, load.x, load.plane), load.force});
  }
  std::vector<WheelForce> to = from;
  for (int i = 0; i < steps; ++i) {
    const StepFactor& f = factors[i % factors.size()];
    for (std::size_t w = 0; w < to.size(); ++w) {
      to[w].at = rail_point(c, start[w].rail, to[w].at.x + speed * f.h, start[w].plane);
    }
    stepper.begin(motion, f, from, to);
    for (int sweep = 0; sweep < 30 && stepper.meet_links() > 1e-3; ++sweep) {
    }
    stepper.end(motion);
    from = to;
  }
  return motion;
}

// Left alone for some seconds, in steps of h.
inline Motion left_alone(const Chain& c, Motion motion, double h, double seconds) {
  Stepper stepper(c, 0);
  const StepFactor f = step_factor(c, h);
  const auto steps = static_cast<int>(std::lround(seconds / h));
  for (int i = 0; i < steps; ++i) {
    stepper.begin(motion, f, {}, {});
    stepper.end(motion);
  }
  return motion;
}

// The energy of a chain swinging freely, before and after 8000 steps of two lengths.
inline std::pair<double, double> energy_of_swinging(const Chain& c) {
  Motion motion(c);
  for (Eigen::Index i = 0; i < motion.seat_rate.size(); ++i) {
    motion.seat_rate[i] = std::sin(1.7 * static_cast<double>(i));
  }
  motion.bearer_rate.setConstant(-0.3);
  const double before = energy(c, motion);
  Stepper stepper(c, 0);
  const StepFactor shorter = step_factor(c, 4e-5), longer = step_factor(c, 2.5e-4);
  for (int i = 0; i < 8000; ++i) {
    stepper.begin(motion, i % 3 == 0 ? shorter : longer, {}, {});
    stepper.end(motion);
  }
  return {before, energy(c, motion)};
}

inline double largest(const Eigen::VectorXd& a) { return a.cwiseAbs().maxCoeff(); }

} // namespace chain_samples
