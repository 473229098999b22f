// Cases whose CSV files are the bytes of a target.
#pragma once

#include "target.hpp"

#include "wingnose/io/case_file.hpp"

#include <string_view>

namespace fuzz {

class GivenRows : public wingnose::cases::Files {
public:
  explicit GivenRows(std::string_view text) : text_(text) {}
  [[nodiscard]] wingnose::cases::Rows rows(const std::filesystem::path& file, const std::string&,
                                           const std::string&) override {
    return wingnose::io::parse_rows(text_, file.string());
  }
  [[nodiscard]] wingnose::cases::Sheet sheet(const std::filesystem::path&, const std::string&,
                                             const std::string&) override {
    throw wingnose::InputError("no sheets here");
  }
  [[nodiscard]] wingnose::cases::Case read_case(const std::filesystem::path&) override {
    throw wingnose::InputError("no cases here");
  }

private:
  std::string_view text_;
};

inline wingnose::cases::Case case_with(std::string_view keys, const std::uint8_t* data, std::size_t size) {
  GivenRows files({reinterpret_cast<const char*>(data), size});
  const auto read = wingnose::io::parse_sheet(keys, "fuzz.toml", WINGNOSE_SOURCE_DIR "/profiles", "case");
  return wingnose::cases::case_of(read.sheet, "fuzz", files);
}

} // namespace fuzz
