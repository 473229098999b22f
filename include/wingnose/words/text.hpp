// Words for messages: numbers as a reader would write them, lists, and suggestions for misspelt words (keys, choices,
// commands).
#pragma once

#include "wingnose/words/number.hpp"

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

// Number of single-letter edits (insert, delete, replace, swap of neighbours) between two words, case ignored.
[[nodiscard]] int edit_distance(std::string_view a, std::string_view b);
// The known word a user most likely meant, or "" when none is near. A key whose stem is right and whose unit is missing
// or different ("speed", "speed_mph" for "speed_km_h") counts as near.
[[nodiscard]] std::string nearest(std::string_view word, const std::vector<std::string>& known);
// "Did you mean "x"?" or, without a near word, "Known here: ...".
[[nodiscard]] std::string suggestion(std::string_view word, const std::vector<std::string>& known);

} // namespace wingnose
