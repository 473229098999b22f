// Real vectors in which the damped track is solved: undamped modes below the cut-off, and the static shapes the rail
// takes under forces at its seats as far as those modes do not hold them.
//
// Pad dampers are strong point forces. Modes alone resolve the rail's local give at a seat only slowly (receptance at
// 500 Hz still 1 % off with all modes to 7 kHz); one residual static shape per damped seat makes that error vanish
// (modal truncation augmentation: Dickens, Nakagawa and Wittbrodt, Computers & Structures 62 (1997)).
#pragma once

#include "real_modes.hpp"

namespace wingnose::track::detail {

// All M- and K-orthogonal, normalised to unit modal mass; cut_off in Hz.
// Throws ComputeError.
[[nodiscard]] RealModes reduced_basis(const Assembly& a, double cut_off);

} // namespace wingnose::track::detail
