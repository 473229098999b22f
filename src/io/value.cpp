#include "value.hpp"

#include "wingnose/words/text.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

namespace wingnose::io {

namespace {

std::string written(const toml::node& node) {
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

std::string in_unit(double value, const Key& key) { return plain(value) + (key.unit == "-" ? "" : " " + key.unit); }

double read_number(const toml::node& node, const Key& key, const std::string& where) {
  const auto value = node.is_number() ? node.value<double>() : std::nullopt;
  if (!value) {
    wrong_type(where, node, allowed_text(key), "Write a number without quotes; the unit is in the key.");
  }
  if (!std::isfinite(*value) || *value < key.least || *value > key.most) {
    throw InputError(where, in_unit(*value, key), allowed_text(key), "Check the value and its unit.");
  }
  return *value;
}

std::string read_choice(const toml::node& node, const Key& key, const std::string& where) {
  if (!node.is_string()) {
    wrong_type(where, node, allowed_text(key), "Write text in quotes.");
  }
  std::string text = node.as_string()->get();
  if (key.choices.empty() && trim(text).empty()) {
    throw InputError(where, "an empty text", allowed_text(key), "Write something or leave the key out.");
  }
  if (!key.choices.empty() && std::find(key.choices.begin(), key.choices.end(), text) == key.choices.end()) {
    const std::string near = nearest(text, key.choices);
    throw InputError(where, '"' + text + '"', allowed_text(key),
                     near.empty() ? "Choose one of these." : "Did you mean \"" + near + "\"?");
  }
  return text;
}

struct Store {
  const toml::node& node;
  const Key& key;
  const std::string& where;
  const Layer& layer;
  Draft& draft;

  void operator()(const Slot<double>& slot) const { slot(draft) = key.to_si * read_number(node, key, where); }
  void operator()(const Slot<std::optional<double>>& slot) const {
    slot(draft) = key.to_si * read_number(node, key, where);
  }
  void operator()(const Slot<int>& slot) const {
    const double value = read_number(node, key, where);
    if (value != std::floor(value)) {
      throw InputError(where, plain(value), allowed_text(key), "A whole number is needed.");
    }
    slot(draft) = static_cast<int>(value);
  }
  void operator()(const Slot<bool>& slot) const {
    if (!node.is_boolean()) {
      wrong_type(where, node, "true or false", "Write it without quotes.");
    }
    slot(draft) = node.as_boolean()->get();
  }
  void operator()(const Slot<std::string>& slot) const { slot(draft) = read_choice(node, key, where); }
  void operator()(const Slot<std::vector<std::string>>& slot) const {
    if (!node.is_array()) {
      wrong_type(where, node, "a list of texts, each " + allowed_text(key), "Write it as [\"...\", \"...\"].");
    }
    std::vector<std::string> values;
    for (const auto& element : *node.as_array()) {
      values.push_back(read_choice(element, key, where));
    }
    slot(draft) = values;
  }
  void operator()(const Slot<FileRef>& slot) const {
    slot(draft) = {(layer.folder / read_choice(node, key, where)).lexically_normal(), where};
  }
};

} // namespace

std::string at(const Layer& layer, const toml::node& node) {
  return layer.name + ":" + std::to_string(node.source().begin.line);
}

void wrong_type(const std::string& where, const toml::node& node, const std::string& expected,
                const std::string& advice) {
  throw InputError(where, written(node), expected, advice);
}

void read_value(const toml::node& node, const Key& key, const std::string& where, const Layer& layer, Draft& draft) {
  std::visit(Store{node, key, where, layer, draft}, key.slot);
}

} // namespace wingnose::io
