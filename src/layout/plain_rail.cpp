#include "wingnose/layout/plain_rail.hpp"

#include "wingnose/layout/surface.hpp"
#include "wingnose/words/constants.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>

namespace wingnose::layout {
namespace {

// Lateral place of the gauge point on the head (m, rail frame): where its flank passes the gauge depth below its top.
double gauge_point(const profile::Curve& head) {
  constexpr int samples = 4000;
  const auto y_of = [&](int i) { return head.front() + (head.back() - head.front()) * i / samples; };
  double top = head.value(head.front());
  for (int i = 1; i <= samples; ++i) {
    top = std::max(top, head.value(y_of(i)));
  }
  double low = head.front(), high = head.front();
  for (int i = 0; i <= samples; ++i) {
    high = y_of(i);
    if (head.value(high) >= top - gauge_depth) {
      break;
    }
    low = high;
  }
  for (int k = 0; k < 50 && high - low > 1e-12; ++k) {
    const double mid = 0.5 * (low + high);
    (head.value(mid) < top - gauge_depth ? low : high) = mid;
  }
  return high;
}

} // namespace

PlainRail::PlainRail(const profile::RailHead& rail)
    : curve_(rail.curve), edge_(rail.curve.front() + (0.5 * standard_gauge - gauge_point(rail.curve))),
      width_(rail.curve.back() - rail.curve.front()) {}

Body plain_rail(const profile::RailHead& rail) { return {rail.name, Role::stock, Side::crossing, PlainRail(rail)}; }

} // namespace wingnose::layout
