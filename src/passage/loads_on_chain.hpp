// What the wheels of a passage put on a track that is a chain.
#pragma once

#include "wingnose/passage/plan.hpp"

#include <Eigen/Core>

#include <vector>

namespace wingnose::passage {

// With the reported wheel at x: every wheel with its force (N), then, on two rails, its partner abreast with the static
// load.
inline std::vector<track::chain::Load> loads_on_chain(const Passage& passage, double x, const Eigen::VectorXd& force) {
  const int rail = passage.plan->rail;
  std::vector<track::chain::Load> loads;
  loads.reserve(static_cast<std::size_t>(passage.wheels()) * passage.plan->chain->rails);
  for (int w = 0; w < passage.wheels(); ++w) {
    loads.push_back({rail, passage.wheel_station(w, x), force[w]});
  }
  for (int w = 0; w < passage.wheels() && passage.plan->chain->rails == 2; ++w) {
    loads.push_back({1 - rail, passage.wheel_station(w, x), passage.vehicle->model.static_load[w]});
  }
  return loads;
}

} // namespace wingnose::passage
