// Reading a tabulated wheel path: envelope, interpolation, crossings of two bodies, straight fits.
#pragma once

#include "wingnose/contact/path/kinematics.hpp"

#include <utility>
#include <vector>

namespace wingnose::contact {

// Index of the body that carries at each station, -1 where none.
[[nodiscard]] std::vector<int> carrying_body(const WheelPath& path);

// Linear interpolation; NaN or infinite neighbours give way to the finite one.
[[nodiscard]] double value_at(const std::vector<double>& x, const std::vector<double>& column, double at);

// Stations where `landing` takes over from `left`, in the order of travel.
[[nodiscard]] std::vector<double> landings(const std::vector<double>& x, const BodyPath& left, const BodyPath& landing,
                                           Direction direction);

// Contiguous stretch around `at` on which the two heights differ by at most `tolerance`.
[[nodiscard]] std::pair<double, double> zone_around(const std::vector<double>& x, const BodyPath& a, const BodyPath& b,
                                                    double at, double tolerance);

// Least-squares slope dz/dx of the (linearly interpolated) column between two stations, in either order; 0 when fewer
// than two finite values lie there.
[[nodiscard]] double straight_fit(const std::vector<double>& x, const std::vector<double>& column, double from,
                                  double to);

} // namespace wingnose::contact
