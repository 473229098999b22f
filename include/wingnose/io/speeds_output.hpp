// A speed study told to others: limits from text, JSON, HDF5, and the change between two speeds. Keys, units and labels
// are those of io::passage_measures and, where the steel was asked for, of io::steel_measures.
#pragma once

#include "wingnose/io/result_file.hpp"
#include "wingnose/io/steel_output.hpp"
#include "wingnose/study/speeds.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::io {

inline constexpr int speeds_schema_version = 1;

// A quantity as limits name it: "p2_kN".
struct LimitQuantity : Measure {
  study::Quantity quantity = study::Quantity::p2;
  double per_si = 1.0; // value in `unit` = value in SI times this
};
[[nodiscard]] std::vector<LimitQuantity> limit_quantities();
[[nodiscard]] LimitQuantity limit_quantity(study::Quantity quantity);
// "p2_kN=200" -> a limit in SI. Throws InputError with the likely key when it is misspelt.
[[nodiscard]] study::Limit parse_limit(std::string_view text, std::string source);

// The measures of one speed, in the units and the order of passage_measures().
[[nodiscard]] std::vector<std::optional<double>> measures_at(const study::SpeedPoint& point);

// What is known of the steel at one speed, in the units and the order of steel_measures().
[[nodiscard]] std::vector<std::optional<double>> steel_at(const study::SpeedPoint& point);

// One measure today and at the proposed speed; closed forms last, keyed "closed_form/derived/p2_kN".
struct MeasureChange : Measure {
  std::optional<double> today, proposed; // in `unit`
  std::optional<double> difference;      // in `unit`
  std::optional<double> percent;         // of today's value; none where that is 0 or where a ratio has no sense
};
// Empty when the study has not both speeds.
[[nodiscard]] std::vector<MeasureChange> speed_changes(const study::SpeedStudy& study);

// "found", "not_reached" or "broken_at_lowest".
[[nodiscard]] std::string_view outcome_name(study::LimitAnswer::Outcome outcome);

// One JSON object with unit-bearing keys; absent values are null.
[[nodiscard]] std::string speeds_json(const study::Case& c, const study::SpeedStudy& study);

// HDF5: speeds/ (arrays over speed), closed_form/{set}/ (arrays over speed), limits/ (arrays over limits),
// permissible/, change/, measures/ (of the wheel path), case/, notes/; steel/ where it was asked for. Every dataset has
// `unit` and `description`.
// Throws as write_result does.
void write_speeds(const std::filesystem::path& file, const study::Case& c, const study::SpeedStudy& study);

} // namespace wingnose::io
