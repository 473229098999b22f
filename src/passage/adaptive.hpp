// The independent cross-check: the same equations as one system of first-order differential equations, integrated by
// Boost.Odeint's error-controlled Dormand-Prince 5(4) method with dense output. Shares the modes with the default
// method, nothing of its stepping.
#pragma once

#include "recorder.hpp"

namespace wingnose::passage {

// `state` as made by initial_state; observed at every sample time through `recorder`.
void integrate_adaptive(const Passage& passage, State& state, int samples, Recorder& recorder);

} // namespace wingnose::passage
