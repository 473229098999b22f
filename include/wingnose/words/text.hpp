// Words for messages: numbers as a reader would write them, and lists.
#pragma once

#include "wingnose/words/number.hpp"
#include "wingnose/words/suggestion.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace wingnose {

// A value of a key, "44" rather than "44.000000000000004".
[[nodiscard]] inline std::string plain(double value) { return number(value, digits_of_a_key); }
// "a, b or c", each in double quotes.
[[nodiscard]] std::string one_of(const std::vector<std::string>& words);
// "a, b and c", as they are.
[[nodiscard]] std::string listed(const std::vector<std::string>& words);
[[nodiscard]] std::vector<std::string> split(std::string_view text, char separator);
[[nodiscard]] std::string_view trim(std::string_view text);

} // namespace wingnose
