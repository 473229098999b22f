// Suggestions for misspelt words (keys, choices, commands).
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace wingnose {

// Number of single-letter edits (insert, delete, replace, swap of neighbours) between two words, case ignored.
[[nodiscard]] int edit_distance(std::string_view a, std::string_view b);
// The known word a user most likely meant, or "" when none is near. A key whose stem is right and whose unit is missing
// or different ("speed", "speed_mph" for "speed_km_h") counts as near.
[[nodiscard]] std::string nearest(std::string_view word, const std::vector<std::string>& known);
// "Did you mean "x"?" or, without a near word, "Known here: ...".
[[nodiscard]] std::string suggestion(std::string_view word, const std::vector<std::string>& known);

} // namespace wingnose
