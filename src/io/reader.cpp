#include "reader.hpp"

#include "value.hpp"
#include "wingnose/words/text.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>

namespace wingnose::io {

namespace {

std::string dotted(const std::string& section, const std::string& name) {
  return section.empty() ? name : section + "." + name;
}

// --- structure ------------------------------------------------------------------------------------------------------

std::vector<std::string> names_in(const Schema& schema, const std::string& section) {
  std::vector<std::string> names;
  for (const auto& key : schema.keys) {
    if (key.section == section) {
      names.push_back(key.name);
    }
  }
  const std::string prefix = section.empty() ? "" : section + ".";
  for (const auto& [name, text] : schema.sections) {
    const bool below = name.size() > prefix.size() && name.compare(0, prefix.size(), prefix) == 0;
    if (below && name.find('.', prefix.size()) == std::string::npos) {
      names.push_back(name.substr(prefix.size()));
    }
  }
  if (section.empty()) {
    names.emplace_back("base");
  }
  return names;
}

bool knows_section(const Schema& schema, const std::string& section) {
  return std::any_of(schema.sections.begin(), schema.sections.end(), [&](const auto& s) { return s.first == section; });
}

const ElementList* list_of(const Schema& schema, const std::string& section) {
  const auto found = std::find_if(schema.lists.begin(), schema.lists.end(),
                                  [&](const ElementList& list) { return list.section == section; });
  return found == schema.lists.end() ? nullptr : &*found;
}

[[noreturn]] void unknown_key(const Schema& schema, const std::string& section, const std::string& name,
                              const std::string& where) {
  for (const auto& key : schema.keys) {
    if (key.name == name && key.section != section) {
      const std::string home = key.section.empty() ? "the top of the file" : "[" + key.section + "]";
      throw InputError(where + ": unknown key \"" + name + "\"; it belongs in " + home + ".");
    }
  }
  const std::string kind = section.empty() ? "unknown section or key \"" : "unknown key \"";
  throw InputError(where + ": " + kind + name + "\". " + suggestion(name, names_in(schema, section)));
}

void check_table(const Layer& layer, const Schema& schema, const std::string& section, const toml::table& table);

void check_list(const Layer& layer, const Schema& schema, const std::string& section, const toml::node& node) {
  const std::string form = "tables headed [[" + section + "]]";
  if (!node.is_array() || !node.as_array()->is_array_of_tables()) {
    wrong_type(at(layer, node) + ": " + section, node, form, "Double square brackets start one element.");
  }
  for (const auto& element : *node.as_array()) {
    check_table(layer, schema, section, *element.as_table());
  }
}

void check_table(const Layer& layer, const Schema& schema, const std::string& section, const toml::table& table) {
  const auto names = names_in(schema, section);
  for (const auto& [toml_key, node] : table) {
    const std::string name(toml_key.str());
    const std::string full = dotted(section, name);
    const std::string where = at(layer, node) + (section.empty() ? "" : ": [" + section + "]");
    if (std::find(names.begin(), names.end(), name) == names.end()) {
      unknown_key(schema, section, name, where);
    }
    if (list_of(schema, full) != nullptr) {
      check_list(layer, schema, full, node);
    } else if (knows_section(schema, full)) {
      if (!node.is_table()) {
        wrong_type(where + ": " + full, node, "a table headed [" + full + "]", "Write its keys below that line.");
      }
      check_table(layer, schema, full, *node.as_table());
    }
  }
}

// --- layers ---------------------------------------------------------------------------------------------------------

struct Found {
  const toml::node* node = nullptr;
  int layer = -1;
};

const toml::table* table_at(const toml::table& top, const std::string& section) {
  const toml::table* table = &top;
  for (const auto& part : section.empty() ? std::vector<std::string>{} : split(section, '.')) {
    table = table == nullptr ? nullptr : (*table)[part].as_table();
  }
  return table;
}

Found find(const Document& document, const std::string& section, const std::string& name) {
  for (int i = static_cast<int>(document.layers.size()) - 1; i >= 0; --i) {
    const auto* table = table_at(document.layers[static_cast<std::size_t>(i)].table, section);
    const auto* node = table == nullptr ? nullptr : table->get(name);
    if (node != nullptr) {
      return {node, i};
    }
  }
  return {};
}

const Layer& layer_of(const Document& document, const Found& found) {
  return document.layers[static_cast<std::size_t>(found.layer)];
}

void store(const Document& document, const Found& found, const Key& key, Draft& draft) {
  const Layer& layer = layer_of(document, found);
  const std::string full = dotted(key.section, key.name);
  const std::string where = at(layer, *found.node) + ": " + full;
  read_value(*found.node, key, where, layer, draft);
  draft.where[full] = at(layer, *found.node);
}

// The value a section's selector has, and the layer that decided it (-1: the default). A key that implies a value of
// the selector (a vehicle file) decides when it stands in a later layer, and contradicts it in the same one.
struct Selected {
  std::string key, value;
  int layer = -1;
};

Selected select(const Document& document, const Schema& schema, const std::string& section, Draft& draft) {
  Selected selected;
  for (const auto& key : schema.keys) {
    if (key.section == section && key.selector) {
      const Found found = find(document, section, key.name);
      if (found.node != nullptr) {
        store(document, found, key, draft);
      }
      selected = {key.name, std::get<Slot<std::string>>(key.slot)(draft), found.layer};
    }
  }
  for (const auto& key : schema.keys) {
    const Found found = key.section == section && !key.implies.empty() ? find(document, section, key.name) : Found{};
    if (found.node == nullptr || found.layer < selected.layer) {
      continue;
    }
    if (found.layer == selected.layer) {
      throw InputError(at(layer_of(document, found), *found.node) + ": [" + section + "] has both " + selected.key +
                       " and " + key.name + "; keep one of them");
    }
    selected.value = key.implies;
    selected.layer = found.layer;
  }
  return selected;
}

bool applies(const std::string& only, const std::string& value) {
  const auto choices = split(only, '|');
  return only.empty() || std::find(choices.begin(), choices.end(), value) != choices.end();
}

[[noreturn]] void contradiction(const Document& document, const Found& found, const std::string& section,
                                const std::string& name, const std::string& only, const Selected& selected) {
  throw InputError(at(layer_of(document, found), *found.node) + ": " + section + "." + name + " goes with " +
                   selected.key + " = " + one_of(split(only, '|')) + ", but this case has " + selected.key + " = \"" +
                   selected.value + "\"; remove the key or change " + selected.key);
}

void read_keys(const Document& document, const Schema& schema, const std::string& section, Draft& draft) {
  const Selected selected = select(document, schema, section, draft);
  for (const auto& key : schema.keys) {
    if (key.section != section || key.selector) {
      continue;
    }
    const Found found = find(document, section, key.name);
    if (!applies(key.only, selected.value)) {
      // Keys a base gave for another choice are left behind; in the deciding file or above they are a contradiction.
      if (found.node != nullptr && found.layer >= selected.layer) {
        contradiction(document, found, section, key.name, key.only, selected);
      }
    } else if (found.node != nullptr) {
      store(document, found, key, draft);
    } else if (key.required) {
      const std::string reason = selected.key.empty() ? "" : " with " + selected.key + " = \"" + selected.value + '"';
      throw InputError(document.top().name + ": " + dotted(section, key.name) + " is missing" + reason + "; give " +
                       key.text + " (" + allowed_text(key) + ")");
    }
  }
}

void read_element(const Layer& layer, const toml::table& table, const Schema& schema, const ElementList& list,
                  Draft& draft) {
  list.begin(draft);
  for (const auto& key : schema.keys) {
    if (key.section != list.section) {
      continue;
    }
    const auto* node = table.get(key.name);
    if (node != nullptr) {
      const std::string where = at(layer, *node) + ": " + list.section + "." + key.name;
      read_value(*node, key, where, layer, draft);
    } else if (key.required) {
      throw InputError(at(layer, table) + ": [[" + list.section + "]] lacks " + key.name + "; give " + key.text + " (" +
                       allowed_text(key) + ")");
    }
  }
  list.append(draft);
}

void read_list(const Document& document, const Schema& schema, const ElementList& list, Draft& draft) {
  const auto dot = list.section.rfind('.');
  const std::string parent = dot == std::string::npos ? "" : list.section.substr(0, dot);
  const std::string name = dot == std::string::npos ? list.section : list.section.substr(dot + 1);
  const Found found = find(document, parent, name);
  if (found.node == nullptr) {
    return;
  }
  const Selected selected = select(document, schema, parent, draft);
  if (!applies(list.only, selected.value)) {
    if (found.layer >= selected.layer) {
      contradiction(document, found, parent, name, list.only, selected);
    }
    return;
  }
  for (const auto& element : *found.node->as_array()) {
    read_element(layer_of(document, found), *element.as_table(), schema, list, draft);
  }
}

} // namespace

void read_document(const Document& document, const Schema& schema, Draft& draft) {
  draft.document = document.top().name;
  for (const auto& layer : document.layers) {
    check_table(layer, schema, "", layer.table);
  }
  for (const auto& [section, text] : schema.sections) {
    if (list_of(schema, section) == nullptr) {
      read_keys(document, schema, section, draft);
    }
  }
  for (const auto& list : schema.lists) {
    read_list(document, schema, list, draft);
  }
}

} // namespace wingnose::io
