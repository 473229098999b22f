// From TOML to sheets: files built on each other are laid over each other, every value keeps its place.
#include "checksum.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/words/error.hpp"

// It asserts before it refuses: what people write may be wrong in a debugging build too.
#define TOML_ASSERT(expr) static_cast<void>(0)
#include <toml++/toml.h>

#include <algorithm>
#include <sstream>

namespace wingnose::io {
namespace {

namespace fs = std::filesystem;
using cases::Sheet;
using cases::Written;

struct Layer {
  std::string name; // for messages
  fs::path file, folder;
  std::string text;
  toml::table table;
};

// Outside text in quotes and comments TOML is plain ASCII (toml.io, v1.0.0); the parser's tables of other letters do
// not hold all of them, so that it is not asked.
void refuse_letters_outside_quotes(const std::string& text, const std::string& name) {
  constexpr std::string_view mark = "\xEF\xBB\xBF"; // of the byte order, allowed once at the beginning
  std::string_view open;                            // quotes or the comment the place lies in
  int line = 1;
  for (std::size_t i = text.starts_with(mark) ? mark.size() : 0; i < text.size(); ++i) {
    const std::string_view rest = std::string_view(text).substr(i);
    line += text[i] == '\n' ? 1 : 0;
    if (text[i] == '\n' && open.size() == 1) { // these end with their line
      open = {};
    } else if (open.empty()) {
      for (const std::string_view begin : {"\"\"\"", "'''", "\"", "'", "#"}) {
        if (rest.starts_with(begin)) {
          open = begin;
          i += begin.size() - 1;
          break;
        }
      }
      if (open.empty() && static_cast<unsigned char>(text[i]) >= 0x80) {
        throw InputError(name + ":" + std::to_string(line) +
                         ": not valid TOML: a letter that is not plain ASCII outside quotes. Text values need quotes.");
      }
    } else if (open.front() == '"' && text[i] == '\\') {
      ++i;
      line += i < text.size() && text[i] == '\n' ? 1 : 0;
    } else if (open != "#" && rest.starts_with(open)) {
      i += open.size() - 1;
      open = {};
    }
  }
}

Layer parse_layer(std::string text, std::string name, fs::path file, fs::path folder) {
  Layer layer{std::move(name), std::move(file), std::move(folder), std::move(text), {}};
  refuse_letters_outside_quotes(layer.text, layer.name);
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

// Lowest first. Files are compared by their canonical names so that a circle through "./" or links is seen.
void add_layers(std::vector<Layer>& layers, Layer layer, std::vector<fs::path> chain) {
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
    add_layers(layers, parse_layer(text, file.lexically_normal().generic_string(), file, file.parent_path()),
               std::move(chain));
    layer.table.erase("base");
  }
  layers.push_back(std::move(layer));
}

std::string as_written(const toml::node& node) {
  std::ostringstream text;
  node.visit([&text](const auto& value) {
    if constexpr (toml::is_table<decltype(value)>) {
      text << "a table";
    } else if constexpr (toml::is_array<decltype(value)>) {
      text << "a list";
    } else if constexpr (toml::is_string<decltype(value)>) {
      text << '"' << value.get() << '"';
    } else {
      text << value;
    }
  });
  return text.str();
}

class Laying {
public:
  explicit Laying(const std::vector<Layer>& layers) : layers_(layers) {}

  [[nodiscard]] Sheet top() const {
    std::vector<const toml::table*> tables;
    for (const Layer& layer : layers_) {
      tables.push_back(&layer.table);
    }
    return laid(tables);
  }

private:
  [[nodiscard]] std::string where(std::size_t layer, const toml::node& node) const {
    return layers_[layer].name + ":" + std::to_string(node.source().begin.line);
  }

  // One table per layer, nullptr where a layer has none.
  [[nodiscard]] Sheet laid(const std::vector<const toml::table*>& tables) const {
    std::vector<Sheet::Entry> entries;
    std::string place;
    for (std::size_t l = tables.size(); l-- > 0;) {
      if (tables[l] == nullptr) {
        continue;
      }
      place = place.empty() ? where(l, *tables[l]) : place;
      for (const auto& [key, node] : *tables[l]) {
        const std::string name(key.str());
        if (std::none_of(entries.begin(), entries.end(), [&](const auto& e) { return e.first == name; })) {
          entries.emplace_back(name, value(name, node, l, tables));
        }
      }
    }
    return {layers_.back().name, place, std::move(entries), layers_.back().folder};
  }

  [[nodiscard]] Written value(const std::string& name, const toml::node& node, std::size_t layer,
                              const std::vector<const toml::table*>& tables) const {
    Written w;
    w.shown = as_written(node);
    w.where = where(layer, node);
    w.folder = layers_[layer].folder;
    w.layer = static_cast<int>(layer);
    if (node.is_number()) {
      w.kind = Written::Kind::number;
      w.number = *node.value<double>();
      w.whole = node.is_integer() ? node.value<std::int64_t>() : std::nullopt;
    } else if (node.is_boolean()) {
      w.kind = Written::Kind::flag;
      w.flag = node.as_boolean()->get();
    } else if (node.is_string()) {
      w.kind = Written::Kind::text;
      w.text = node.as_string()->get();
    } else if (node.is_array()) {
      w.kind = Written::Kind::list;
      for (const toml::node& element : *node.as_array()) {
        w.list.push_back(value(name, element, layer, std::vector<const toml::table*>(tables.size(), nullptr)));
      }
    } else if (node.is_table()) {
      w.kind = Written::Kind::table;
      std::vector<const toml::table*> below(tables.size(), nullptr);
      for (std::size_t l = 0; l <= layer; ++l) {
        const toml::node* same = tables[l] == nullptr ? nullptr : tables[l]->get(name);
        below[l] = same == nullptr ? nullptr : same->as_table();
      }
      below[layer] = node.as_table();
      w.table = std::make_shared<const Sheet>(laid(below));
    }
    return w;
  }

  const std::vector<Layer>& layers_;
};

// The text as read, with the texts of its bases below as comments.
std::string whole_text(const std::vector<Layer>& layers) {
  std::string text = layers.back().text;
  for (std::size_t i = layers.size() - 1; i-- > 0;) {
    text += "\n# --- base: " + layers[i].name + "\n# ";
    for (const char c : layers[i].text) {
      text += c == '\n' ? std::string("\n# ") : std::string(1, c);
    }
    text += '\n';
  }
  return text;
}

SheetFile from_layers(const std::vector<Layer>& layers, const fs::path& folder, const std::string& role) {
  SheetFile file{Laying(layers).top(), whole_text(layers), {}};
  for (std::size_t i = layers.size(); i-- > 0;) {
    const Layer& layer = layers[i];
    const fs::path name =
        layer.file.empty() ? fs::path(layer.name) : layer.file.lexically_relative(folder.empty() ? "." : folder);
    file.inputs.push_back({i + 1 == layers.size() ? role : "base " + role,
                           (name.empty() ? layer.file : name).generic_string(), sha256(layer.text)});
  }
  return file;
}

} // namespace

SheetFile read_sheet(const fs::path& file, const std::string& role) {
  std::vector<Layer> layers;
  add_layers(layers, parse_layer(read_text(file), file.generic_string(), file, file.parent_path()),
             {fs::weakly_canonical(file)});
  return from_layers(layers, file.parent_path(), role);
}

SheetFile parse_sheet(std::string_view text, std::string name, const fs::path& folder, const std::string& role) {
  std::vector<Layer> layers;
  add_layers(layers, parse_layer(std::string(text), std::move(name), {}, folder), {});
  return from_layers(layers, folder, role);
}

} // namespace wingnose::io
