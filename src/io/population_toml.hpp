// Parts of reading a population: wheels listed one by one.
#pragma once

#include "compare_toml.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace wingnose::io::compare {

inline constexpr const char* only_class = "all wheels"; // where a file has no [[class]]

// [[wheel]] tables.
[[nodiscard]] study::Population read_listed(const std::vector<Table>& tables, std::vector<study::WheelClass> classes);
// where: of the key that names the file, for messages.
[[nodiscard]] study::Population read_csv(const std::filesystem::path& file, const std::string& where,
                                         std::vector<study::WheelClass> classes);

// The list of wheels, when it is a file of its own; the cases know theirs.
[[nodiscard]] std::vector<study::InputFile> wheel_inputs(const Table& top);

} // namespace wingnose::io::compare
