#include "wingnose/layout/turnout/wheelset.hpp"

#include "drawn_units.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::layout::turnout {
namespace {

constexpr std::string_view source = "TSI Locomotives and passenger rolling stock, table of wheelset limits";
using enum Worth;

constexpr std::array limits_in_use{WheelsetLimits{{840 * mm, 2.0},
                                                  {1357 * mm, 1363 * mm},
                                                  {1410 * mm, 1426 * mm},
                                                  {22 * mm, 33 * mm},
                                                  36 * mm,
                                                  well_remembered,
                                                  source},
                                   WheelsetLimits{{760 * mm, 840 * mm},
                                                  {1358 * mm, 1363 * mm},
                                                  {1412 * mm, 1426 * mm},
                                                  {25 * mm, 33 * mm},
                                                  36 * mm,
                                                  well_remembered,
                                                  source},
                                   WheelsetLimits{{0.0, 760 * mm},
                                                  {1359 * mm, 1363 * mm},
                                                  {1415 * mm, 1426 * mm},
                                                  {27.5 * mm, 33 * mm},
                                                  36 * mm,
                                                  well_remembered,
                                                  source}};

// Back to back goes as far as it may; the flange as far as its own limits and front to front then allow.
Wheelset extreme(double back_to_back, double front_to_front, const Range& flange) {
  return {back_to_back, std::clamp(0.5 * (front_to_front - back_to_back), flange.least, flange.most)};
}

} // namespace

std::span<const WheelsetLimits> wheelset_limits() { return limits_in_use; }

const WheelsetLimits& limits_of(double diameter) {
  return *std::find_if(limits_in_use.begin(), limits_in_use.end() - 1,
                       [&](const WheelsetLimits& limits) { return diameter >= limits.diameter.least; });
}

bool allows(const WheelsetLimits& limits, const Wheelset& w) {
  return within(w.back_to_back, limits.back_to_back) && within(w.flange_thickness, limits.flange_thickness) &&
         within(w.front_to_front(), limits.front_to_front);
}

// Of all points of the allowed region B + e is largest (least) at its corner of largest (least) B: along the line of
// constant B + 2 e it grows with B.
Wheelset widest(const WheelsetLimits& l) {
  return extreme(l.back_to_back.most, l.front_to_front.most, l.flange_thickness);
}
Wheelset narrowest(const WheelsetLimits& l) {
  return extreme(l.back_to_back.least, l.front_to_front.least, l.flange_thickness);
}

} // namespace wingnose::layout::turnout
