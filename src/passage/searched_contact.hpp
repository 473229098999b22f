// Contact force of one wheel inside a time step, its contact searched there and then.
#pragma once

#include "contact_solve.hpp"

#include "wingnose/contact/path/step_search.hpp"
#include "wingnose/contact/search/patches.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace wingnose::passage {

// As solve_contact with the laws of `search`, which are known at one depth at a time: the force is found with the law
// of one term through the last depth, whose exponent is nearly right, and the law asked again at the depth it leads to.
// lines: the gaps of the bodies under this wheel; E_star: Pa. No allocation.
inline double solve_searched(const contact::StepSearch& search, const std::array<contact::GapLine, max_bodies>& lines,
                             double E_star, const std::array<double, max_bodies>& d, int bodies, double S, double start,
                             std::array<double, max_bodies>& body_force) {
  constexpr int most_rounds = 30, undamped = 10;
  std::array<contact::ForceLaw, max_bodies> law{};
  double F = std::max(start, 0.0);
  for (int round = 0; round < most_rounds; ++round) {
    for (int b = 0; b < bodies; ++b) {
      if (d[b] > 0.0) {
        law[b] = E_star * search.law(lines[b], d[b] - S * F);
      }
    }
    const double found = solve_contact(d, law, std::numeric_limits<double>::infinity(), bodies, S, F, body_force);
    const double change = std::abs(found - F);
    // The strips step by up to 0.3 % where a column begins to count: a solution on such a step is met by halving.
    F = round < undamped ? found : 0.5 * (F + found);
    if (change <= 1e-6 * F + 0.01) {
      break;
    }
  }
  share(F, bodies, body_force);
  return F;
}

} // namespace wingnose::passage
