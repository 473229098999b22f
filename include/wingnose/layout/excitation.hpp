// What a wheel may run over: a crossing, generated or from sections, or a path that is prescribed.
#pragma once

#include "wingnose/layout/generator.hpp"
#include "wingnose/layout/prescribed.hpp"
#include "wingnose/layout/sections.hpp"
#include "wingnose/layout/surface.hpp"
#include "wingnose/words/names.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <variant>

namespace wingnose::layout {

using Excitation = std::variant<CrossingShape, SectionedShape, DippedJoint, GivenPath>;
constexpr auto names(const Excitation&) {
  const std::array table{Name{std::size_t{0}, "generated", "crossing from drawing numbers"},
                         Name{std::size_t{1}, "sections", "crossing from measured sections"},
                         Name{std::size_t{2}, "joint", "dipped rail joint"},
                         Name{std::size_t{3}, "path", "given wheel path"}};
  static_assert(table.size() == std::variant_size_v<Excitation>);
  return table;
}
// Whether there is a crossing, with wing and nose; a joint or a given path is prescribed.
[[nodiscard]] inline bool is_crossing(const Excitation& excitation) {
  return std::holds_alternative<CrossingShape>(excitation) || std::holds_alternative<SectionedShape>(excitation);
}
// "crossing 3, 1:15, generated"
[[nodiscard]] std::string description(const Excitation& excitation);
// The crossing, made; nullopt where there is none. Throws InputError as its maker does.
[[nodiscard]] std::optional<Crossing> crossing_of(const Excitation& excitation);

} // namespace wingnose::layout
