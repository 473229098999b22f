// Law of a pad or a spot of ballast that is not a plain spring and dashpot: gaps, letting go, bilinear stiffness. SI.
//
// Force on what stands on it, N, compression positive, from its shortening e (m) and e' (m/s):
//   max(-pull, k (e - gap) + c e'),   and k (knee) + k_beyond (e - gap - knee) in place of k (e - gap) beyond the knee.
// Continuous; it may push a little before a fast bearer has closed the gap, by c e'.
#pragma once

#include <limits>

namespace wingnose::track::chain {

struct LinkLaw {
  double stiffness = 0.0, damping = 0.0; // N/m, N s/m: those of the spring and dashpot it deviates from
  double gap = 0.0;                      // m
  double knee = std::numeric_limits<double>::infinity();
  double beyond = 0.0; // N/m
  double pull = std::numeric_limits<double>::infinity();
  struct Value {
    double force, stiffness, damping; // N, and derivatives
  };
  [[nodiscard]] Value at(double e, double rate) const {
    const double a = e - gap;
    const bool stiff = a > knee;
    const double force = (stiff ? stiffness * knee + beyond * (a - knee) : stiffness * a) + damping * rate;
    if (force <= -pull) {
      return {-pull, 0.0, 0.0};
    }
    return {force, stiff ? beyond : stiffness, damping};
  }
};

// Where the law acts: in the pad of a rail (pad >= 0), or at a spot of ballast.
struct Link {
  int pad = -1, point = -1;
  LinkLaw law;
};

} // namespace wingnose::track::chain
