// One function per command: from a file to text on `out`. Errors are thrown and told by main.
#pragma once

#include <filesystem>
#include <iosfwd>

namespace wingnose::cli {

void geometry(const std::filesystem::path& case_file, bool json, std::ostream& out);
void estimate(const std::filesystem::path& case_file, bool json, std::ostream& out);
void track(const std::filesystem::path& case_file, bool json, std::ostream& out);
// Stores the result when `output` is not empty.
void run(const std::filesystem::path& case_file, const std::filesystem::path& output, bool json, std::ostream& out);
void show(const std::filesystem::path& result_file, bool json, std::ostream& out);
void keys(bool json, std::ostream& out);

} // namespace wingnose::cli
