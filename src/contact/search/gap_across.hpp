// The gap across the track about the place where a wheel touches: what the normal laws read.
#pragma once

#include "rolling_envelope.hpp"
#include "section.hpp"

#include "wingnose/contact/search/patches.hpp"
#include "wingnose/layout/surface.hpp"

namespace wingnose::contact {

// Columns of a wheel with its axle at station x that touches about `dx` ahead of it (m), read from three sections, with
// the level of first touch that they show; of a wheel at a height (m) only those that may be closed there, of one at an
// infinite height all that are near to touching. Nothing is allocated.
void read_gap(const layout::Surface& surface, const PlacedWheel& wheel, double yaw, double x, double dx, double height,
              GapLine& gap);
// The same about the first touch of an envelope, and with its level. No columns where it touches nothing.
void read_gap_at(const RollingEnvelope& envelope, double x, GapLine& gap);

} // namespace wingnose::contact
