// The numbers a passage is told by, one row each: key, unit, label, decimals, meaning, where it comes from, and what it
// may be used for. Printed tables, JSON, HDF5 datasets, the reference page, limits of `speeds`, statistics and ranking
// of `compare`, columns of sweeps, attributes and variables in Python, labels of plots and pages are all made from this
// table. To add a number: its getter and its row.
#pragma once

#include "wingnose/assess/assessment.hpp"
#include "wingnose/words/names.hpp"
#include "wingnose/words/unit.hpp"

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::quantity {

// Which part of an answer a number belongs to; the order is that of print.
enum class Section { wheel_path, passage, track, sensor, closed_form, steel, guidance };
constexpr auto names(Section) {
  return std::array{Name{Section::wheel_path, "Wheel path"},
                    Name{Section::passage, "Passage"},
                    Name{Section::track, "Track"},
                    Name{Section::sensor, "First sensor"},
                    Name{Section::closed_form, "Closed forms (Jenkins et al. 1974)"},
                    Name{Section::steel, "What the landing does to the steel"},
                    Name{Section::guidance, "Vehicle in space (largest of all wheelsets)"}};
}
[[nodiscard]] constexpr std::string_view title(Section section) { return wingnose::name(section); }

// Whether `speeds` may hold a limit against it. Zero: a limit of 0 has a sense.
enum class Limit : std::uint8_t { none, at_most, at_most_or_zero, at_least };
// How two speeds are compared: not at all (it is given), by difference, also in per cent of today's value.
enum class Change : std::uint8_t { none, difference, percent };

struct Uses {
  Limit limit = Limit::none;
  Change change = Change::percent;
  bool compared = false; // `compare` gives its distribution
  // A column of every sweep (of steel: of sweeps that ask for it; of a vehicle in space: of sweeps of its case).
  bool swept = true;
  bool told_if_none = false;    // that there is none is an answer, too
  bool may_lack = false;        // not every model has it: a limit on it is then unanswered, not an error
  std::optional<double> mark{}; // value at which something else happens, in the quantity's unit ...
  std::string_view beyond{};    // ... and what
  // Where a largest value is reached; nullptr: not told.
  const assess::DamagePeak* (*place)(const assess::Assessment&) = nullptr;
};

struct Quantity {
  std::string_view key; // "p2_kN"; its unit is the last part
  Unit unit;
  std::string_view label; // "P2"
  int decimals;           // sensible in print
  std::string_view meaning;
  Section section;
  std::optional<double> (*of)(const assess::Assessment&); // in SI; nullopt: the passage has none
  Uses uses{};
};

[[nodiscard]] std::span<const Quantity> quantities();
// nullptr where there is none of that key.
[[nodiscard]] const Quantity* find(std::string_view key);
// Throws InputError with the likely key: what ("limit") is no quantity that can be limited.
[[nodiscard]] const Quantity& limited(std::string_view key);

// In the quantity's own unit; NaN where there is none.
[[nodiscard]] double value(const Quantity& quantity, const assess::Assessment& assessment);

[[nodiscard]] constexpr bool of_steel(const Quantity& q) { return q.section == Section::steel; }
[[nodiscard]] constexpr bool in_space(const Quantity& q) { return q.section == Section::guidance; }
// Those wanted(quantity), in the order of the table.
template <class Wanted> [[nodiscard]] std::vector<const Quantity*> quantities_where(Wanted wanted) {
  std::vector<const Quantity*> list;
  for (const Quantity& q : quantities()) {
    if (wanted(q)) {
      list.push_back(&q);
    }
  }
  return list;
}
[[nodiscard]] std::vector<const Quantity*> of_section(Section section);
// Those compared or swept; steel: with those of the steel; track: with those that need probes or not every track has;
// space: with those of a vehicle in space.
[[nodiscard]] std::vector<const Quantity*> compared(bool steel, bool track = false);
[[nodiscard]] std::vector<const Quantity*> swept(bool steel, bool space = false);

// "12.3 kN", "0.45", "none"; the value in the quantity's unit.
[[nodiscard]] std::string told(const Quantity& quantity, double value);

} // namespace wingnose::quantity
