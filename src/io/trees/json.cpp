#include "wingnose/io/tree_file.hpp"

#include "wingnose/version.hpp"
#include "wingnose/words/number.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>

namespace wingnose::io {
namespace {

using Json = nlohmann::ordered_json;
using quantity::Array;
using quantity::Detail;
using quantity::Group;

// Ten digits are more than any of these numbers deserves, and spare the reader 14.000000000000002.
Json one(const Array& a, std::size_t i) {
  if (a.is_text) {
    return a.texts[i];
  }
  const double value = a.numbers[i];
  return std::isfinite(value) ? Json(std::strtod(number(value, digits_of_a_key).c_str(), nullptr)) : Json(nullptr);
}

// Lists in lists, outermost dimension first.
Json values(const Array& a, std::size_t dim, std::size_t begin, std::size_t count) {
  if (dim == a.shape.size()) {
    return one(a, begin);
  }
  Json list = Json::array();
  const std::size_t parts = a.shape[dim], each = parts > 0 ? count / parts : 0;
  for (std::size_t i = 0; i < parts; ++i) {
    list.push_back(values(a, dim + 1, begin + i * each, each));
  }
  return list;
}

// Lists over one dimension, several: rows of a table.
bool are_records(const std::vector<const Array*>& arrays) {
  return std::all_of(arrays.begin(), arrays.end(),
                     [&](const Array* a) { return a->dims.size() == 1 && a->dims == arrays.front()->dims; }) &&
         (arrays.size() > 1 || arrays.front()->is_text);
}

Json records(const std::vector<const Array*>& arrays) {
  Json list = Json::array();
  for (std::size_t i = 0; i < arrays.front()->shape.front(); ++i) {
    Json row;
    for (const Array* a : arrays) {
      row[a->name] = one(*a, i);
    }
    list.push_back(std::move(row));
  }
  return list;
}

// What is below a group stands inside its object, so that it cannot be a list.
bool has_groups_below(const quantity::Tree& tree, const Group& group) {
  return std::any_of(tree.groups().begin(), tree.groups().end(),
                     [&](const Group& other) { return other.path.starts_with(group.path + "/"); });
}

Json content(const quantity::Tree& tree, const Group& group) {
  std::vector<const Array*> arrays;
  for (const Array& a : group.arrays) {
    if (a.detail != Detail::stored) {
      arrays.push_back(&a);
    }
  }
  if (arrays.empty()) {
    return nullptr;
  }
  if (!group.path.empty() && are_records(arrays) && !has_groups_below(tree, group)) {
    return records(arrays);
  }
  Json object;
  for (const Array* a : arrays) {
    object[a->name] = values(*a, 0, 0, a->size());
  }
  return object;
}

// Whether the answer says more under this name than an attribute could.
bool names_content(const quantity::Tree& tree, const std::string& name) {
  return tree.find(name) != nullptr || std::any_of(tree.groups().begin(), tree.groups().end(), [&](const Group& group) {
           return group.path == name || group.path.starts_with(name + "/");
         });
}

} // namespace

std::string json(const quantity::Tree& tree) {
  Json top;
  top["kind"] = tree.kind();
  // Who made it: the file says so of an answer read back.
  const auto made_by = [&](const char* name, const std::string& now) {
    const std::string then = tree.attribute(name);
    top[name] = then.empty() ? now : then;
  };
  made_by("version", version);
  made_by("commit", commit);
  const std::map<std::string, std::string> attributes(tree.attributes.begin(),
                                                      tree.attributes.end()); // as a file has them
  for (const auto& [name, text] : attributes) {
    if (!top.contains(name) && name != "schema_version" && !names_content(tree, name)) {
      top[name] = text;
    }
  }
  for (const Group& group : tree.groups()) {
    Json inside = content(tree, group);
    if (inside.is_null()) {
      continue;
    }
    Json* place = &top;
    for (std::size_t from = 0; !group.path.empty() && from != std::string::npos;) {
      const std::size_t end = group.path.find('/', from);
      place = &(*place)[group.path.substr(from, end - from)];
      from = end == std::string::npos ? end : end + 1;
    }
    if (inside.is_array()) {
      *place = std::move(inside);
    } else {
      place->update(inside);
    }
  }
  top["caution"] = caution;
  // Names come from users: text that is not UTF-8 is shown with a replacement mark, not refused.
  return top.dump(2, ' ', false, Json::error_handler_t::replace);
}

} // namespace wingnose::io
