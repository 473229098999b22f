// How well the points of a body's sections are measured, told by themselves.
#pragma once

#include "wingnose/layout/sections.hpp"

namespace wingnose::layout {

// The noise (m, standard deviation) by which its sections are smoothed: as stated, or what the points scatter where
// that is far less. Smoothing takes away as much as it is told to, of clean points their shape. Whoever measures,
// measures every section alike: the median of all counts, since points too far apart for a sharp shape seem to scatter.
[[nodiscard]] double noise_of(const SectionedBody& body, double stated);

} // namespace wingnose::layout
