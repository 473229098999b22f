// Steps on the way from a Bearer to its BearerShape. SI.
#pragma once

#include "wingnose/track/chain/chain.hpp"

namespace wingnose::track::chain::detail {

// Ballast with the pad under the bearer: Kelvin bodies in series, stiffness exact, damping to first order in frequency.
[[nodiscard]] Ballast in_series(Ballast ballast, const std::optional<UnderSleeperPad>& pad);

// Adds the spot of ballast at y that `length` of the bearer stands on and, where it is more than a spring, its law.
void add_point(BearerShape& to, const Bearer& bearer, double y, double length, const Ballast& ballast, double gap);
// Two Gauss points per piece of bedding, pieces ending wherever ballast or gap change.
void add_bedding(BearerShape& to, const Bearer& bearer, const BeamBearer& beam);
void add_pads(BearerShape& to, const Bearer& bearer);

// A bearer that bends, in coordinates of its own.
[[nodiscard]] BearerShape beam_on_bedding(const Bearer& bearer, const BeamBearer& beam);

} // namespace wingnose::track::chain::detail
