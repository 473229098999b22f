// Texts of others (names of cases, files, keys, what a damaged file holds) on a terminal.
#pragma once

#include <string>
#include <string_view>

namespace wingnose {

// Control characters as "\\x1b", "\\n", "\\t", so that a name cannot move the cursor, hide what stands before it or
// begin a line of its own. UTF-8 stays but for its own control characters (U+0080 to U+009F).
[[nodiscard]] std::string visible(std::string_view text);

} // namespace wingnose
