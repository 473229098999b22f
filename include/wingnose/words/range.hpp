// Where a value may lie, ends included. A range is written down once, beside the member it belongs to, and read by
// everyone who needs it: checks of the room, case files, reference page, Python:
//
//   struct Seat {
//     double pad_stiffness = 120e6; // N/m
//     ...
//   };
//   constexpr auto ranges(const Seat*) {
//     return std::array{InRange{&Seat::pad_stiffness, "pad_stiffness", "N/m", 1e6, 5e9}, ...};
//   }
//
// In SI. The name is that of the member, which is also the stem of its key in case files.
#pragma once

#include "wingnose/words/error.hpp"
#include "wingnose/words/names.hpp"

#include <array>
#include <limits>
#include <string>
#include <string_view>

namespace wingnose {

struct Range {
  double least = -std::numeric_limits<double>::infinity();
  double most = std::numeric_limits<double>::infinity();
  [[nodiscard]] friend constexpr bool operator==(const Range&, const Range&) = default;
};

// false also where there is no number.
[[nodiscard]] constexpr bool within(double value, const Range& range) {
  return value >= range.least && value <= range.most;
}

// Throws InputError where the value is not a number of the range: what ("flangeway"), value and range in `unit` ("mm",
// `per_si` of them in one SI unit), advice.
void demand_within(std::string_view what, double value, const Range& range, std::string_view unit = "",
                   double per_si = 1.0, std::string_view advice = "");

enum class Bound { at_least, up_to, above, below }; // the last two without the bound itself
constexpr auto names(Bound) {
  return std::array{Name{Bound::at_least, "at least"}, Name{Bound::up_to, "up to"}, Name{Bound::above, "more than"},
                    Name{Bound::below, "less than"}};
}

// A value that its own range allows and another value forbids. Case files tell it by their keys and units.
class Contradiction : public InputError {
public:
  // member: "nose_ramp_end_thickness"; bound: in SI; other: the member it contradicts, empty where its own range has a
  // gap.
  Contradiction(std::string member, double value, Bound kind, double bound, std::string other, std::string advice);
  std::string member, other, advice;
  double value, bound;
  Bound kind;
};

template <class T> struct InRange {
  double T::*number = nullptr; // either of these
  int T::*whole = nullptr;
  std::string_view name, unit;
  Range range;

  constexpr InRange(double T::*member, std::string_view called, std::string_view in, double least, double most)
      : number(member), name(called), unit(in), range{least, most} {}
  constexpr InRange(int T::*member, std::string_view called, double least, double most)
      : whole(member), name(called), unit("-"), range{least, most} {}
  [[nodiscard]] constexpr bool is(double T::*member) const { return number == member; }
  [[nodiscard]] constexpr bool is(int T::*member) const { return whole == member; }
  [[nodiscard]] double of(const T& value) const {
    return number != nullptr ? value.*number : static_cast<double>(value.*whole);
  }
};

namespace detail {
template <class T, class M> T class_of(M T::*);
}

// The range of a member; a member without one does not compile.
template <auto member> [[nodiscard]] consteval Range range_of() {
  using T = decltype(detail::class_of(member));
  for (const auto& each : ranges(static_cast<const T*>(nullptr))) {
    if (each.is(member)) {
      return each.range;
    }
  }
  throw "this member has no range beside it";
}

// Throws InputError for the first member outside its range; whose: "seat", "crossing".
template <class T> void demand_ranges(const T& value, std::string_view whose) {
  for (const auto& each : ranges(static_cast<const T*>(nullptr))) {
    demand_within(std::string(whose) + " " + std::string(each.name), each.of(value), each.range, each.unit);
  }
}

} // namespace wingnose
