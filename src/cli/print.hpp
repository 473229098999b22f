// Answers as plain text: aligned rows and tables made from a tree, findings with the gravest first.
#pragma once

#include "wingnose/quantity/tree.hpp"

#include <filesystem>
#include <iosfwd>

namespace wingnose::cli {

void print(std::ostream& out, const quantity::Tree& tree);
// A file read back: where it comes from, what a command printed of it (`told`), and the datasets it holds.
void print_stored(std::ostream& out, const std::filesystem::path& file, const quantity::Tree& tree,
                  const quantity::Tree& told);

} // namespace wingnose::cli
