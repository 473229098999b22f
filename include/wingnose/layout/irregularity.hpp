// Track irregularity: how far the surfaces of both rails lie off where they are drawn, by station, as a recording car
// or a survey gives it. A wheel meets every body of its rail displaced by the deviation at its own station; the slope
// of the deviation turns no surface, so wavelengths should be longer than a metre.
//
// Frame: words/frame.hpp; left is +y of a facing move, heights are positive upwards, lateral deviations to the left, of
// either rail. Between points a curve of third degree that keeps its slope from one to the next and does not swing
// beyond level points (modified Akima: Akima, J. ACM 17, 1970). SI.
#pragma once

#include "wingnose/words/range.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace wingnose::layout {

struct IrregularityPoint {
  double station;                     // m, rising from point to point
  double left_height, right_height;   // m
  double left_lateral, right_lateral; // m
  [[nodiscard]] friend bool operator==(const IrregularityPoint&, const IrregularityPoint&) = default;
};
constexpr auto ranges(const IrregularityPoint*) {
  using P = IrregularityPoint;
  return std::array{InRange{&P::left_height, "left height", "m", -0.03, 0.03},
                    InRange{&P::right_height, "right height", "m", -0.03, 0.03},
                    InRange{&P::left_lateral, "left lateral", "m", -0.03, 0.03},
                    InRange{&P::right_lateral, "right lateral", "m", -0.03, 0.03}};
}

// What is wrong with points: fewer than four, a station that does not rise, a value that is none or out of range, a
// first or last point that is not level with what lies outside, where nothing deviates. The first such fault.
struct IrregularityFault {
  std::optional<std::size_t> point; // counted from 0; nullopt: all of them
  std::string what, value, allowed, advice;
};
[[nodiscard]] std::optional<IrregularityFault> fault_of(std::span<const IrregularityPoint> points);

class Irregularity {
public:
  // Throws InputError where the points have a fault.
  explicit Irregularity(std::vector<IrregularityPoint> points);

  struct Deviation {
    double y = 0.0, z = 0.0;             // m
    double y_slope = 0.0, z_slope = 0.0; // -, along the track
  };
  // Of the left (0) or the right (1) rail; none outside of the points.
  [[nodiscard]] Deviation at(std::size_t rail, double station) const;
  // Seen from the other side: left is right.
  [[nodiscard]] Irregularity mirrored() const;
  // Stations count from the other end, sides stay as they are.
  [[nodiscard]] Irregularity backwards() const;
  [[nodiscard]] const std::vector<IrregularityPoint>& points() const { return points_; }

private:
  struct Slopes {
    std::array<double, 4> of; // -, of the columns at a point
  };
  std::vector<IrregularityPoint> points_;
  std::vector<Slopes> slopes_;
};

} // namespace wingnose::layout
