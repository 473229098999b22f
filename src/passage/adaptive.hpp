// The independent cross-check: the same equations as one system of first-order differential equations, integrated by
// Boost.Odeint's error-controlled Dormand-Prince 5(4) method with dense output. Shares the modes with the default
// method, nothing of its stepping.
#pragma once

#include "wingnose/passage/state.hpp"

#include <functional>

namespace wingnose::passage {

// `state` as made by initial_state; record(state, sample) at every sample time.
void integrate_adaptive(const Passage& passage, State& state, int samples,
                        const std::function<void(const State&, int)>& record);

} // namespace wingnose::passage
