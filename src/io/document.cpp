#include "document.hpp"

#include "csv.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>

namespace wingnose::io {

namespace {

namespace fs = std::filesystem;

Layer parse_layer(std::string_view text, std::string name, fs::path file, fs::path folder) {
  Layer layer{std::move(name), std::move(file), std::move(folder), std::string(text), {}};
  try {
    layer.table = toml::parse(layer.text, layer.name);
  } catch (const toml::parse_error& error) {
    const auto begin = error.source().begin;
    throw InputError(layer.name + ":" + std::to_string(begin.line) + ": not valid TOML (column " +
                     std::to_string(begin.column) + "): " + std::string(error.description()) +
                     ". Text values need quotes, tables are written [name], and a key may stand only once.");
  }
  if (layer.table.empty()) {
    throw InputError(layer.name + ": the file holds no keys; see \"wingnose keys\" for what a case can say");
  }
  return layer;
}

// Files are compared by their canonical names so that a circle through "./" or links is seen.
void add_layers(Document& document, Layer layer, std::vector<fs::path> chain) {
  const auto* base = layer.table.get("base");
  if (base != nullptr) {
    const std::string where = layer.name + ":" + std::to_string(base->source().begin.line) + ": base";
    if (!base->is_string() || base->as_string()->get().empty()) {
      throw InputError(where + ": must be the name of a case file in quotes, such as base = \"demo.toml\"");
    }
    const fs::path file = layer.folder / base->as_string()->get();
    const std::string text = read_text(file, where);
    const fs::path real = fs::weakly_canonical(file);
    if (std::find(chain.begin(), chain.end(), real) != chain.end()) {
      throw InputError(where + ": \"" + base->as_string()->get() +
                       "\" leads back to this file; a chain of bases must end in a file without a base");
    }
    chain.push_back(real);
    add_layers(document, parse_layer(text, file.lexically_normal().generic_string(), file, file.parent_path()),
               std::move(chain));
  }
  document.layers.push_back(std::move(layer));
}

} // namespace

Document load_document(const fs::path& file, const std::string& where) {
  const std::string text = read_text(file, where);
  Document document;
  add_layers(document, parse_layer(text, file.generic_string(), file, file.parent_path()),
             {fs::weakly_canonical(file)});
  return document;
}

Document parse_document(std::string_view text, std::string name, const fs::path& folder) {
  Document document;
  add_layers(document, parse_layer(text, std::move(name), {}, folder), {});
  return document;
}

} // namespace wingnose::io
