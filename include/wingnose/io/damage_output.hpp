// What a landing does to the steel, told to others: a list of numbers for tables and JSON, and maps in HDF5.
#pragma once

#include "wingnose/assess/damage_traffic.hpp"
#include "wingnose/study/case.hpp"
#include "wingnose/study/traffic.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace wingnose::io {

inline constexpr int damage_schema_version = 1;

struct DamageReport {
  assess::Steel steel;
  assess::DamageOptions options;
  assess::ContactTrail trail;
  assess::Damage damage;                        // of one passage, new steel
  std::optional<assess::TrafficDamage> traffic; // of a tonnage of such wheels, or of a mix
  double tonnage = 0.0;                         // kg, of the traffic
  std::optional<study::Traffic> mix;            // a mixed traffic, whose damage `traffic` repeats
  std::string mix_text;                         // its file as read
  std::vector<study::InputFile> mix_inputs;     // files it was read from
};

// One number of the report, in the unit of its key. Peaks say where they are.
struct DamageNumber {
  std::string key, unit, label, description;
  int decimals = 1;
  double value = 0.0;
  std::optional<assess::DamagePeak> peak;
};
[[nodiscard]] std::vector<DamageNumber> damage_numbers(const DamageReport& report);
[[nodiscard]] std::vector<DamageNumber> traffic_numbers(const DamageReport& report); // empty without traffic

// One JSON object with unit-bearing keys, without the maps.
[[nodiscard]] std::string damage_json(const study::Case& c, const DamageReport& report);

// HDF5: passage/{body}/ and traffic/{body}/ with x_mm, y_mm and the maps [x][y]; contacts/ (arrays over the steps),
// limits/ (shakedown), edges/{body}/, measures/, steel/, traffic/{measures,stages,contacts,population}/, case/, notes/.
// Every dataset has `unit` and `description`. Throws as write_result does.
void write_damage(const std::filesystem::path& file, const study::Case& c, const DamageReport& report);

} // namespace wingnose::io
