// How the parts of a chain are made. SI.
#pragma once

#include "wingnose/track/chain/chain.hpp"

#include <vector>

namespace wingnose::track::chain::detail {

struct Stretch {
  double length; // m
  RailProperties section;
  [[nodiscard]] friend bool operator==(const Stretch&, const Stretch&) = default;
};
// stretches: those of one bay, one after the other.
[[nodiscard]] RailBay make_bay(const std::vector<Stretch>& stretches, int modes);
// Static deflection (m/N) at x of a bay with held ends under a unit force at x_load, both m from its first end; exact.
[[nodiscard]] double held_between(const RailBay& bay, double x_load, double x);

// Throws InputError for a plane that is not described.
[[nodiscard]] int line_of(const Chain& chain, int rail, Plane plane);

// A bearer but for its station.
[[nodiscard]] BearerShape make_bearer(const Bearer& bearer);

} // namespace wingnose::track::chain::detail
