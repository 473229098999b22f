// Checksums of input files, so that a result says which files it came from.
#pragma once

#include <string>
#include <string_view>

namespace wingnose::io {

[[nodiscard]] std::string sha256(std::string_view bytes); // 64 hexadecimal digits

} // namespace wingnose::io
