// Fills what a schema describes from a sheet: every key known, of the right kind, in range, and not contradicting the
// choice its section has made.
#include "keys.hpp"

#include "wingnose/words/text.hpp"

#include <algorithm>

namespace wingnose::cases {
namespace {

std::string dotted(const std::string& section, const std::string& name) {
  return section.empty() ? name : section + "." + name;
}

// --- structure -------------------------------------------------------------------------------------------------------

std::vector<std::string> names_in(const Schema& schema, const std::string& section) {
  std::vector<std::string> names;
  for (const Key& key : schema.keys) {
    if (key.section == section) {
      names.push_back(key.name);
    }
  }
  const std::string prefix = section.empty() ? "" : section + ".";
  for (const Section& s : schema.sections) {
    const bool below = s.name.size() > prefix.size() && s.name.starts_with(prefix);
    if (below && s.name.find('.', prefix.size()) == std::string::npos) {
      names.push_back(s.name.substr(prefix.size()));
    }
  }
  if (section.empty()) {
    names.emplace_back("base");
  }
  return names;
}

bool knows_section(const Schema& schema, const std::string& section) {
  return std::any_of(schema.sections.begin(), schema.sections.end(),
                     [&](const Section& s) { return s.name == section; });
}

const List* list_named(const Schema& schema, const std::string& section) {
  const auto found =
      std::find_if(schema.lists.begin(), schema.lists.end(), [&](const List& list) { return list.section == section; });
  return found == schema.lists.end() ? nullptr : &*found;
}

[[noreturn]] void unknown_key(const Schema& schema, const std::string& section, const std::string& name,
                              const std::string& where) {
  for (const Key& key : schema.keys) {
    if (key.name == name && key.section != section) {
      const std::string home = key.section.empty() ? "the top of the file" : "[" + key.section + "]";
      throw InputError(where + ": unknown key \"" + name + "\"; it belongs in " + home + ".");
    }
  }
  const std::string kind = section.empty() ? "unknown section or key \"" : "unknown key \"";
  throw InputError(where + ": " + kind + name + "\". " + suggestion(name, names_in(schema, section)));
}

void check_table(const Schema& schema, const std::string& section, const Sheet& sheet);

void check_list(const Schema& schema, const std::string& section, const Written& value) {
  if (!value.is_tables()) {
    refuse(value.where + ": " + section, value, "tables headed [[" + section + "]]",
           "Double square brackets start one element.");
  }
  for (const Written& element : value.list) {
    check_table(schema, section, *element.table);
  }
}

void check_table(const Schema& schema, const std::string& section, const Sheet& sheet) {
  const auto names = names_in(schema, section);
  for (const auto& [name, value] : sheet.entries()) {
    const std::string full = dotted(section, name);
    const std::string where = value.where + (section.empty() ? "" : ": [" + section + "]");
    if (std::find(names.begin(), names.end(), name) == names.end()) {
      unknown_key(schema, section, name, where);
    }
    if (list_named(schema, full) != nullptr) {
      check_list(schema, full, value);
    } else if (knows_section(schema, full)) {
      if (value.kind != Written::Kind::table) {
        refuse(where + ": " + full, value, "a table headed [" + full + "]", "Write its keys below that line.");
      }
      check_table(schema, full, *value.table);
    }
  }
}

// --- values ----------------------------------------------------------------------------------------------------------

const Written* find(const Sheet& top, const std::string& section, const std::string& name) {
  const Sheet* table = table_of(&top, section);
  return table == nullptr ? nullptr : table->find(name);
}

// The value a section's selector has, and the layer that decided it (-1: the default). A key that implies a value of
// the selector (a vehicle file) decides when it stands in a later layer, and contradicts it in the same one.
struct Selected {
  std::string key, value;
  int layer = -1;
};

class Filling {
public:
  Filling(const Schema& schema, const Sheet& sheet, void* into, Files& files)
      : schema_(schema), sheet_(sheet), into_(into), files_(files) {}

  void fill() {
    check_table(schema_, "", sheet_);
    for (const Section& section : schema_.sections) {
      if (list_named(schema_, section.name) == nullptr) {
        if (open(section)) {
          read_keys(section.name);
        }
      }
    }
    for (const List& list : schema_.lists) {
      read_list(list);
    }
  }

private:
  void take(const Key& key, const Written& value) {
    put(key, value, value.where + ": " + key.full_name(), into_, files_);
  }

  Selected select(const std::string& section) {
    Selected selected;
    for (const Key& key : schema_.keys) {
      if (key.section == section && key.selector) {
        const Written* found = find(sheet_, section, key.name);
        if (found != nullptr) {
          take(key, *found);
        }
        selected = {key.name, value_text(key, into_), found != nullptr ? found->layer : -1};
      }
    }
    for (const Key& key : schema_.keys) {
      const bool may = key.section == section && !key.implies.empty();
      const Written* found = may ? find(sheet_, section, key.name) : nullptr;
      if (found == nullptr || found->layer < selected.layer) {
        continue;
      }
      if (found->layer == selected.layer) {
        throw InputError(found->where + ": [" + section + "] has both " + selected.key + " and " + key.name +
                         "; keep one of them");
      }
      selected.value = key.implies;
      selected.layer = found->layer;
    }
    return selected;
  }

  [[noreturn]] static void contradiction(const Written& found, const std::string& name, const std::string& only,
                                         const Selected& selected) {
    throw InputError(found.where + ": " + name + " goes with " + selected.key + " = " + one_of(split(only, '|')) +
                     ", but this case has " + selected.key + " = \"" + selected.value +
                     "\"; remove the key or change " + selected.key);
  }

  // Whether what the section above has chosen lets it be read.
  bool open(const Section& section) {
    const Selected above = section.only.empty() ? Selected{} : select(section_above(section.name));
    if (applies(section.only, above.value)) {
      return true;
    }
    for (const Key& key : schema_.keys) {
      const Written* found = key.section == section.name ? find(sheet_, section.name, key.name) : nullptr;
      if (found != nullptr && found->layer >= above.layer) {
        contradiction(*found, key.full_name(), section.only, above);
      }
    }
    return false;
  }

  void read_keys(const std::string& section) {
    const Selected selected = select(section);
    for (const Key& key : schema_.keys) {
      if (key.section != section || key.selector) {
        continue;
      }
      const Written* found = find(sheet_, section, key.name);
      if (!applies(key.only, selected.value)) {
        // Keys a base gave for another choice are left behind; in the deciding file or above they are a contradiction.
        if (found != nullptr && found->layer >= selected.layer) {
          contradiction(*found, key.full_name(), key.only, selected);
        }
      } else if (found != nullptr) {
        take(key, *found);
      } else if (key.required) {
        const std::string reason = selected.key.empty() ? "" : " with " + selected.key + " = \"" + selected.value + '"';
        throw InputError(sheet_.file() + ": " + key.full_name() + " is missing" + reason + "; give " + key.meaning +
                         " (" + allowed_text(key) + ")");
      }
    }
  }

  void read_list(const List& list) {
    const std::string parent = section_above(list.section);
    const std::string name = parent.empty() ? list.section : list.section.substr(parent.size() + 1);
    const Written* found = find(sheet_, parent, name);
    if (found == nullptr) {
      return;
    }
    const Selected selected = select(parent);
    if (!applies(list.only, selected.value)) {
      if (found->layer >= selected.layer) {
        contradiction(*found, list.section, list.only, selected);
      }
      return;
    }
    for (const Written& element : found->list) {
      read_element(list, *element.table);
    }
  }

  void read_element(const List& list, const Sheet& element) {
    void* into = list.append(into_);
    for (const Key& key : schema_.keys) {
      if (key.section != list.section) {
        continue;
      }
      if (const Written* value = element.find(key.name)) {
        put(key, *value, value->where + ": " + key.full_name(), into, files_);
      } else if (key.required) {
        throw InputError(element.place() + ": [[" + list.section + "]] lacks " + key.name + "; give " + key.meaning +
                         " (" + allowed_text(key) + ")");
      }
    }
  }

  const Schema& schema_;
  const Sheet& sheet_;
  void* into_;
  Files& files_;
};

} // namespace

const Sheet* table_of(const Sheet* top, const std::string& section, std::size_t element) {
  const Sheet* table = top;
  for (const std::string& part : section.empty() ? std::vector<std::string>{} : split(section, '.')) {
    const Written* found = table == nullptr ? nullptr : table->find(part);
    const bool in_list = found != nullptr && element > 0 && element <= found->list.size();
    table = found == nullptr ? nullptr : in_list ? found->list[element - 1].table.get() : found->table.get();
  }
  return table;
}

void fill(const Schema& schema, const Sheet& sheet, void* into, Files& files) {
  Filling(schema, sheet, into, files).fill();
}

bool applies(const std::string& only, const std::string& choice) {
  return only.empty() || ('|' + only + '|').find('|' + choice + '|') != std::string::npos;
}

std::string selected(const Schema& schema, const std::string& section, void* of) {
  std::string value;
  for (const Key& key : schema.keys) {
    if (key.section == section && key.selector) {
      value = value_text(key, of);
    }
  }
  for (const Key& key : schema.keys) {
    const bool implied = key.section == section && !key.implies.empty() && !value_text(key, of).empty();
    value = implied ? key.implies : value;
  }
  return value;
}

} // namespace wingnose::cases
