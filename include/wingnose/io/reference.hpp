// The reference page: every key of the files people write, every number told, every finding, and what result files
// hold. Made from the tables the program itself works with.
#pragma once

#include "wingnose/case/key.hpp"
#include "wingnose/quantity/tree.hpp"

#include <span>
#include <string>

namespace wingnose::io {

// Markdown. answers: one empty answer of every kind, whose arrays are listed.
[[nodiscard]] std::string reference(std::span<const cases::KeysOf> keys, std::span<const quantity::Tree> answers);
// The same as one JSON object: keys by file, quantities, findings, datasets by kind.
[[nodiscard]] std::string reference_json(std::span<const cases::KeysOf> keys, std::span<const quantity::Tree> answers);

} // namespace wingnose::io
