// Parts of a comparison: cases of wheels on crossings, and what is said.
#pragma once

#include "wingnose/study/compare.hpp"

#include <span>
#include <string>
#include <vector>

namespace wingnose::study {

inline constexpr Range resamples_allowed{100, 100'000};

void check(const CompareOptions& options); // throws InputError
void check(std::span<const ComparedCrossing> crossings,
           const cases::Population& population); // throws InputError

// A wheel with its profile, to be put on any crossing.
struct Wheel {
  std::optional<cases::Wheel> shape; // its profile counts, not how it is held
  std::vector<cases::InputFile> inputs;
  std::vector<cases::Override> values; // for the crossing's case
  std::string failure;                 // why there is no profile
};

[[nodiscard]] Wheel wheel_of(std::span<const ComparedCrossing> crossings, const cases::Population& population,
                             std::size_t m);
// Throws InputError.
[[nodiscard]] Case put_on(const ComparedCrossing& crossing, const Wheel& wheel, const std::string& name);

// Every file the comparison rests on, by what it gave to which crossing or class.
[[nodiscard]] std::vector<cases::InputFile> inputs_of(std::span<const ComparedCrossing> crossings,
                                                      const cases::Population& population,
                                                      const CompareOptions& options);

// What is found of the cases alone: crossings that differ by more than the crossing, which would be taken for it; keys
// of the damage that vary over the wheels.
[[nodiscard]] Findings found_of_cases(std::span<const ComparedCrossing> crossings, const cases::Population& population,
                                      const CompareOptions& options);
[[nodiscard]] Findings found_of_steel(const cases::Population& population);

} // namespace wingnose::study
