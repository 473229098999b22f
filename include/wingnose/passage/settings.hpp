// One passage as a case asks for it: sense, speed, stretch, step. SI; frame.hpp.
#pragma once

#include "wingnose/words/frame.hpp"
#include "wingnose/words/names.hpp"

#include <array>

namespace wingnose::passage {

// modal_exponential: exact recurrence of the decoupled modes, contact force found inside the step (default).
// adaptive_runge_kutta: explicit order 5(4) with error control on the same equations, the independent cross-check.
enum class Method { modal_exponential, adaptive_runge_kutta };
constexpr auto names(Method) {
  return std::array{Name{Method::modal_exponential, "modal-exponential", "exact recurrence of the modes"},
                    Name{Method::adaptive_runge_kutta, "runge-kutta", "order 5(4) with error control, to check"}};
}

struct Settings {
  Direction direction = Direction::facing;
  double speed = 30.0;          // m/s, > 0
  double from = -4.0, to = 4.0; // m, stretch covered by the reported wheel, from < to whatever the direction
  double step = 4e-5;           // s; also the sampling step of the history
  Method method = Method::modal_exponential;
  double tolerance = 1e-8; // relative, adaptive method only
  int reported_wheel = 0;  // index, leading wheel = 0
  bool probes = true;      // record rail and bearer motion at fixed points near the landing
};

} // namespace wingnose::passage
