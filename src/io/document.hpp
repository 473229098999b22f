// A TOML file together with the files it is based on, lowest first; a later layer overrides an earlier one key by key,
// arrays of tables as a whole.
#pragma once

#include <toml++/toml.h>

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::io {

struct Layer {
  std::string name; // for messages
  std::filesystem::path file, folder;
  std::string text;
  toml::table table;
};
struct Document {
  std::vector<Layer> layers; // base first, the file asked for last
  [[nodiscard]] const Layer& top() const { return layers.back(); }
};

// Follows `base = "other.toml"`; throws InputError: missing file, malformed TOML (with line), circle of bases.
[[nodiscard]] Document load_document(const std::filesystem::path& file, const std::string& where);
[[nodiscard]] Document parse_document(std::string_view text, std::string name, const std::filesystem::path& folder);

} // namespace wingnose::io
