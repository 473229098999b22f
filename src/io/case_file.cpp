#include "wingnose/io/case_file.hpp"

#include "csv.hpp"
#include "document.hpp"
#include "draft.hpp"
#include "reader.hpp"

namespace wingnose::io {

namespace {

// The text as read, with the texts of its bases below as comments, so that it stays one valid file.
std::string whole_text(const Document& document) {
  std::string text = document.top().text;
  for (std::size_t i = document.layers.size() - 1; i-- > 0;) {
    const Layer& layer = document.layers[i];
    text += "\n# --- base: " + layer.name + "\n# ";
    for (const char c : layer.text) {
      text += c == '\n' ? std::string("\n# ") : std::string(1, c);
    }
    text += '\n';
  }
  return text;
}

study::Case to_case(const Document& document, const std::filesystem::path& folder, const std::string& default_name) {
  Draft draft;
  draft.c.name = default_name;
  for (std::size_t i = document.layers.size(); i-- > 0;) {
    const Layer& layer = document.layers[i];
    const bool top = i + 1 == document.layers.size();
    add_input(draft.c, top ? "case" : "base case", layer.file.empty() ? std::filesystem::path(layer.name) : layer.file,
              layer.text, layer.file.empty() ? std::filesystem::path() : folder);
  }
  read_document(document, case_schema(), draft);
  study::Case c = build(std::move(draft), folder);
  c.source_text = whole_text(document);
  return c;
}

} // namespace

study::Case read_case(const std::filesystem::path& file) {
  return to_case(load_document(file, ""), file.parent_path(), file.stem().string());
}

study::Case parse_case(std::string_view toml_text, std::string name, const std::filesystem::path& folder) {
  const std::string stem = std::filesystem::path(name).stem().string();
  return to_case(parse_document(toml_text, std::move(name), folder), folder, stem);
}

} // namespace wingnose::io
