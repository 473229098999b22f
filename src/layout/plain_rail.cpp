#include "wingnose/layout/plain_rail.hpp"

#include "wingnose/layout/surface.hpp"
#include "wingnose/words/frame.hpp"

namespace wingnose::layout {

PlainRail::PlainRail(const profile::RailHead& rail)
    : curve_(rail.curve), edge_(rail.curve.front() + (0.5 * standard_gauge - profile::gauge_point(rail))),
      width_(rail.curve.back() - rail.curve.front()) {}

Body plain_rail(const profile::RailHead& rail) { return {rail.name, Role::stock, Side::crossing, PlainRail(rail)}; }

} // namespace wingnose::layout
