// Reads one value of a key from its TOML node into the draft: type, choice and range are checked here.
#pragma once

#include "document.hpp"
#include "schema.hpp"

#include <string>

namespace wingnose::io {

// "case.toml:12".
[[nodiscard]] std::string at(const Layer& layer, const toml::node& node);

// Throws InputError: `where`, what was written there, what is expected and what to do.
[[noreturn]] void wrong_type(const std::string& where, const toml::node& node, const std::string& expected,
                             const std::string& advice);

// `where` (file, line, key) is for messages; file names are taken from the layer's folder. Throws InputError.
void read_value(const toml::node& node, const Key& key, const std::string& where, const Layer& layer, Draft& draft);

} // namespace wingnose::io
