// How well the points of a body's sections are measured, told by themselves.
#pragma once

#include "wingnose/layout/sections.hpp"

#include <optional>

namespace wingnose::layout {

// What the points of a body's sections scatter about smooth curves (m, standard deviation): the median of its sections;
// nothing where too few of them have points enough. span: m of arc over which the four neighbours of a point may reach.
[[nodiscard]] std::optional<double> scatter_of(const SectionedBody& body, double span);
inline constexpr double any_span = 1e9;
inline constexpr double near = 8e-3; // neighbours farther apart differ by the shape itself

// The noise (m, standard deviation) by which its sections are smoothed: as stated, or what the points scatter where
// that is far less. Smoothing takes away as much as it is told to, of clean points their shape. Whoever measures,
// measures every section alike: the median of all counts, since points too far apart for a sharp shape seem to scatter.
[[nodiscard]] double noise_of(std::optional<double> scattered, double stated);
// Whether the points scatter so much more than stated that shapes, and forces, are those of the scatter.
[[nodiscard]] bool noise_understated(std::optional<double> scattered, double stated);

} // namespace wingnose::layout
