// Words for messages: numbers as a reader would write them, lists, and the nearest known word to a misspelt one.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace wingnose::io {

// Shortest decimal that survives a unit conversion (ten digits), "44" rather than "44.000000000000004".
[[nodiscard]] std::string plain(double value);
// "a, b or c", each in double quotes.
[[nodiscard]] std::string one_of(const std::vector<std::string>& words);
[[nodiscard]] std::vector<std::string> split(std::string_view text, char separator);
[[nodiscard]] std::string_view trim(std::string_view text);

// Number of single-letter edits (insert, delete, replace, swap of neighbours) between two words, case ignored.
[[nodiscard]] int edit_distance(std::string_view a, std::string_view b);
// The known word a user most likely meant, or "" when none is near. A key whose stem is right and whose unit is missing
// or different ("speed", "speed_mph" for "speed_km_h") counts as near.
[[nodiscard]] std::string nearest(std::string_view word, const std::vector<std::string>& known);
// "Did you mean "x"?" or, without a near word, "Known: ...".
[[nodiscard]] std::string suggestion(std::string_view word, const std::vector<std::string>& known);

} // namespace wingnose::io
