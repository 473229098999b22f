// A track described up and down alone, given the same lateral plane everywhere. SI.
#pragma once

#include "wingnose/track/chain/model.hpp"

namespace wingnose::track::chain {

// The rail's is that of 60E1 about its vertical axis (I 512.3 cm4, shear coefficient 0.40); fastening and ballast are
// common practice, no source.
struct Across {
  LateralRail rail{1.076e6, 2.478e8, 0.0402};
  LateralSeat seat{.stiffness = 40e6,
                   .damping = 20e3,
                   .loss = 0.0,
                   .height = 0.16, // the rail pushed at its head
                   .roll_stiffness = 0.4e6,
                   .roll_damping = 300.0};
  LateralBearer bearer{.stiffness = 7e6, .damping = 30e3, .loss = 0.0, .pad_above = 0.11, .ballast_below = 0.08};
  [[nodiscard]] friend bool operator==(const Across&, const Across&) = default;
};
// Of every rail, seat and bearer, whatever they had; a bearer's values per metre, for a lumped one times its length.
[[nodiscard]] Model with_across(Model model, const Across& across = {});

} // namespace wingnose::track::chain
