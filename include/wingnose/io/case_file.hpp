// Files that people write: TOML tables and CSV rows, read into sheets with the place of every value, and cases made of
// them. Errors are InputError with file, line and key, value, allowed range and advice.
#pragma once

#include "wingnose/case/document.hpp"
#include "wingnose/case/sheet.hpp"

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

namespace wingnose::io {

// The whole of a regular file of at most `largest_text` bytes; every file that people write is read here. Throws
// InputError (with `where`: the key that named it): missing, a folder, a device or a pipe, larger, empty, unreadable.
inline constexpr std::size_t largest_text = 256'000'000;
[[nodiscard]] std::string read_text(const std::filesystem::path& file, const std::string& where = {});

// A TOML file together with the files it is based on (`base = "other.toml"`): a later one overrides an earlier one key
// by key, arrays of tables as a whole. Throws InputError: missing file, malformed TOML, a circle of bases.
struct SheetFile {
  cases::Sheet sheet;
  std::string text;                     // as read, bases below as comments, so that it stays one valid file
  std::vector<cases::InputFile> inputs; // the file, and its bases
};
[[nodiscard]] SheetFile read_sheet(const std::filesystem::path& file, const std::string& role);
[[nodiscard]] SheetFile parse_sheet(std::string_view toml_text, std::string name, const std::filesystem::path& folder,
                                    const std::string& role);

// Rows of a CSV text: a header line, commas, a point as decimal sign, # starts a comment line.
[[nodiscard]] cases::Rows parse_rows(std::string_view text, const std::string& name);

// Files on the disk. folder: inputs are named from here.
class DiskFiles : public cases::Files {
public:
  explicit DiskFiles(std::filesystem::path folder) : folder_(std::move(folder)) {}
  [[nodiscard]] cases::Rows rows(const std::filesystem::path& file, const std::string& where,
                                 const std::string& role) override;
  [[nodiscard]] cases::Sheet sheet(const std::filesystem::path& file, const std::string& where,
                                   const std::string& role) override;
  [[nodiscard]] cases::Case read_case(const std::filesystem::path& file) override;

private:
  std::filesystem::path folder_;
};

// What a file says, its text, and all files it rests on. read: of a sheet and files, as study::read_comparison.
template <class T> struct FromFile {
  T value;
  std::string text;
  std::vector<cases::InputFile> inputs;
};
template <class Read>
[[nodiscard]] auto read_file(const std::filesystem::path& path, const std::string& role, Read read) {
  SheetFile file = read_sheet(path, role);
  DiskFiles files(path.parent_path());
  FromFile<decltype(read(file.sheet, files))> from{read(file.sheet, files), std::move(file.text),
                                                   std::move(file.inputs)};
  from.inputs.insert(from.inputs.end(), files.inputs.begin(), files.inputs.end());
  return from;
}

// Relative paths inside the file are taken from the file's own folder.
[[nodiscard]] cases::Case read_case(const std::filesystem::path& file);
// The same from text; `name` stands for the file in messages, `folder` anchors relative paths.
[[nodiscard]] cases::Case parse_case(std::string_view toml_text, std::string name, const std::filesystem::path& folder);

} // namespace wingnose::io
