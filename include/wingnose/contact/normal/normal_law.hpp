// The laws of normal contact as one closed choice: from the gap across a body and the depth the wheel is in, to force.
//
//   Ellipse  one Hertz (1881) ellipse per body at its deepest point; its lateral curvature is that of the parabola that
//            encloses the same closed width at a fixed depth (as the rolled paths have it), so that it does not jump
//            where the contact moves to another place.
//   Strips   see wingnose/contact/strips.hpp.
//
// Contract of each: force >= 0 and 0 without overlap; grows with the depth; continuous (Strips: to 0.3 %; Ellipse:
// to the ratio of the cosines of both contact angles, where its one place changes) in the place of the wheel also where
// patches appear, merge, split, or the load goes over to another body; an elliptic gap gives Hertz's values
// within 1 % (approach) and 1.5 % (pressure, axes). Both are half-space, frictionless, loading only. SI.
#pragma once

#include "wingnose/contact/normal/strips.hpp"
#include "wingnose/words/constants.hpp"
#include "wingnose/words/names.hpp"

#include <array>
#include <cstddef>
#include <span>
#include <variant>

namespace wingnose::contact {

struct Ellipse {
  double closing_depth = wingnose::closing_depth; // m, at which the closed width is read
  [[nodiscard]] friend bool operator==(const Ellipse&, const Ellipse&) = default;
};
struct Strips {
  [[nodiscard]] friend bool operator==(const Strips&, const Strips&) = default;
};
using NormalLaw = std::variant<Ellipse, Strips>;
constexpr auto names(const NormalLaw&) {
  const std::array table{Name{std::size_t{0}, "ellipse", "one ellipse per body after Hertz"},
                         Name{std::size_t{1}, "strips", "strips over all patches of a body"}};
  static_assert(table.size() == std::variant_size_v<NormalLaw>);
  return table;
}

// Contact of one body when the wheel is `depth` (m, vertical) below its first touch with it. Nothing is allocated.
// outline, where given, receives the pressure over the width (an ellipse is cut into 40 strips).
[[nodiscard]] NormalContact normal_contact(const NormalLaw& law, const GapLine& line, double depth,
                                           const Elastic& material = {}, StripOutline* outline = nullptr);

// The vertical force alone (N): what a search for the load asks for again and again. Nothing is allocated.
[[nodiscard]] double vertical_force(const NormalLaw& law, const GapLine& line, double depth,
                                    const Elastic& material = {});

// Depth (m, vertical) at which the body carries `vertical` (N, >= 0), to 1e-9 relative. Throws InputError for a force
// that is negative or not finite, ComputeError where the wheel is not over the body.
[[nodiscard]] double depth_for_force(const NormalLaw& law, const GapLine& line, double vertical,
                                     const Elastic& material = {});

// Height of the taping circle's bottom (m) at which all bodies together carry `vertical` (N): they share the load as
// their gaps allow. As depth_for_force.
[[nodiscard]] double height_for_force(const NormalLaw& law, std::span<const GapLine> bodies, double vertical,
                                      const Elastic& material = {});

} // namespace wingnose::contact
