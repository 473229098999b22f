// Bound-constrained conjugate gradients for the normal contact of half-spaces on one grid. SI but for pressures, which
// are divided by pi E*, so that deflection = influence * pressure.
#pragma once

#include "half_space_memory.hpp"

#include <cstddef>
#include <optional>

namespace wingnose::contact {

// Exactly one of the two is given.
struct Demand {
  std::optional<double> load;     // sum of the cell pressures / (pi E*)
  std::optional<double> approach; // m
};

struct Outcome {
  std::size_t iterations = 0;
  double change = 0.0, approach = 0.0, mismatch = 0.0;
  bool converged = false;
};

// From the pressure the memory holds to the solution, which it holds then.
[[nodiscard]] Outcome iterate(const HalfSpaceGrid& grid, HalfSpaceWorkspace::Memory& memory, const Demand& demand,
                              double tolerance, std::size_t max_iterations);

} // namespace wingnose::contact
