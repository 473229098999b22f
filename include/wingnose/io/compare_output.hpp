// A comparison of crossings told to others: JSON and HDF5, and read back.
//
// The HDF5 file; {c} is the number of a crossing from 0 on, {m} a quantity of compared_quantities() ("p2_kN"), {k} a
// number from 0 on. Lists only; `unit` and `description` stand on every dataset; what does not exist is NaN.
//
//   crossings/name                       texts, one per crossing; the first is the reference
//   crossings/case_text, crossings/case_name      texts, one per crossing
//   crossings/failed_share, no_transfer_share     of all wheels, per crossing
//   crossings/lost_contact_share, early_share     of the wheels compared, per crossing
//   crossings/steel, friction            per crossing; these and the next two only when the steel was asked for
//   crossings/beyond_shakedown_share, beyond_surface_flow_share   of the wheels compared, per crossing
//   classes/name, classes/share          wheel classes and their share of weight
//   members/name, members/class          texts, one per wheel
//   members/share                        share of weight of all wheels
//   members/compared                     1: computed on all crossings
//   members/speed_km_h, static_load_kN, lateral_offset_mm
//   members/input/{key}                  values of case keys, numbers or texts; NaN or "" where a wheel has none
//   crossing/{c}/members/{m}             per wheel
//   crossing/{c}/members/status          per wheel: 0 done, 1 no transfer, 2 bad input, 3 could not compute
//   crossing/{c}/members/failure         texts per wheel
//   crossing/{c}/members/steel_failure, change_of_contact_angle_rad   only when the steel was asked for
//   crossing/{c}/statistics/{s}          per quantity; {s}: count, share, mean, standard_deviation, least, greatest,
//                                        q05, q25, q50, q75, q95, q99
//   crossing/{c}/cumulative/{m}, crossing/{c}/cumulative/{m}_share    rising values, share of weight up to each
//   crossing/{c}/envelope/station_mm, q05_kN, q50_kN, q95_kN, most_kN total force
//   crossing/{c}/nose_load/thickness_from_mm, thickness_to_mm, mean_kN, q95_kN, bearing_share
//   crossing/{c}/early/member            wheels that transfer early, by number, earliest first
//   crossing/{c}/path/{k}/station_mm, height_mm, height_wing_mm, height_nose_mm    height: the higher of both
//   paths/member, paths/reason           which wheel path {k} is of (the same on every crossing), and why
//   quantities/key, quantities/label, quantities/unit        the {m}, in the order of statistics
//   criteria/key, label, unit, better    what is ranked by; better: "lower" or "higher"
//   ranking/{c}/value, rank, apart_from_next   per criterion; rank 1 is best; apart 1: interval without 0
//   differences/key, label, unit         criteria, then means of the other quantities
//   differences/{c}/value, low, high, higher_share   per difference, {c} from 1 on: crossing less reference
//   groups/name, kind, share             kind: "class", "speed", "load"
//   groups/{k}/crossing/{c}/value, rank  per criterion
//   groups/{k}/flips                     per criterion: 1: another crossing is best here, and clearly
//   texts/dependence, warnings, notes; steel_assumptions when the steel was asked for
//   options/thin_nose_mm, confidence, resamples, seed, population_count   (scalars)
//   case/text                            the comparison file as read
//   case/inputs                          every file it rests on: role, name and SHA-256, separated by tabs
#pragma once

#include "wingnose/io/result_file.hpp"
#include "wingnose/study/compare.hpp"

#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::io {

inline constexpr int compare_schema_version = 1;

struct ComparedQuantity : Measure {
  study::Observed of = study::Observed::p2;
  double per_si = 1.0; // value in `unit` = value in SI times this
};
// steel: those of the steel, too.
[[nodiscard]] std::vector<ComparedQuantity> compared_quantities(bool steel = false);
[[nodiscard]] ComparedQuantity compared_quantity(study::Observed of);
// A statistic as it is printed and stored: key "p2_kN_q95", label "P2, 95 %"; shares in %.
struct NamedStatistic : Measure {
  double per_si = 1.0;
};
[[nodiscard]] NamedStatistic named(const study::Statistic& statistic);

// One JSON object with unit-bearing keys; absent values are null. Wheels one by one are left to the file.
[[nodiscard]] std::string comparison_json(const study::Comparison& comparison);

// documents: one per crossing, as compared; source_text: the comparison file. Throws as write_result does.
void write_comparison(const std::filesystem::path& file, std::span<const study::ComparedCrossing> crossings,
                      const study::Comparison& comparison, std::string_view source_text = {});

// Every dataset by its path: numbers in `arrays`, texts in `texts`. Throws InputError as read_result does.
[[nodiscard]] StoredResult read_comparison_result(const std::filesystem::path& file);

} // namespace wingnose::io
