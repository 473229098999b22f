#include "wingnose/words/number.hpp"

#include <array>
#include <cmath>
#include <cstdio>

namespace wingnose {

std::string number(double value, int digits) {
  std::array<char, 40> text{};
  std::snprintf(text.data(), text.size(), "%.*g", digits, value == 0.0 ? 0.0 : value);
  return text.data();
}

std::string fixed(std::optional<double> value, int decimals) {
  if (!value || !std::isfinite(*value)) {
    return "none";
  }
  std::array<char, 340> text{}; // the largest double has 309 digits
  std::snprintf(text.data(), text.size(), "%.*f", decimals, *value);
  std::string shown = text.data();
  const bool zero = shown.find_first_of("123456789") == std::string::npos;
  return zero && shown.front() == '-' ? shown.substr(1) : shown;
}

std::string in_km_h(double speed) { return number(std::round(speed * 3.6 * 1e3) * 1e-3) + " km/h"; }
std::string floored_km_h(double speed) { return number(std::floor(speed * 36.0) * 0.1) + " km/h"; }

} // namespace wingnose
