// Numbers as text, the one way every message, table, file and key writes them.
#pragma once

#include <optional>
#include <string>

namespace wingnose {

// Up to `digits` significant digits, 1 .. 17, without trailing zeros: "44", "0.0125", "1e-07"; "nan" where there is no
// number. Never "-0".
[[nodiscard]] std::string number(double value, int digits = 6);

// Digits that survive a conversion of units, so that 0.044 m is "44" mm again.
inline constexpr int digits_of_a_key = 10;

// So many decimals, 0 .. 12, for columns of a table: "412.20"; "none" where there is no (finite) value. Never "-0".
[[nodiscard]] std::string fixed(std::optional<double> value, int decimals);

[[nodiscard]] std::string in_km_h(double speed);      // m/s: "108 km/h"
[[nodiscard]] std::string floored_km_h(double speed); // down to the tenth: a permissible speed is not rounded up

} // namespace wingnose
