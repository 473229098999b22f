// One value of one key: its checks, its way in and its way out.
#include "keys.hpp"

#include "wingnose/words/text.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::cases {
namespace {

std::string with_unit(const std::string& text, const Key& key) {
  return text + (shown(key.unit).empty() ? "" : " " + std::string(shown(key.unit)));
}
std::string in_unit(double si, const Key& key) { return plain(si / key.unit.to_si); }

double read_number(const Written& value, const Key& key, const std::string& where) {
  if (value.kind != Written::Kind::number) {
    refuse(where, value, allowed_text(key), "Write a number without quotes; the unit is in the key.");
  }
  // Both ends as they are documented count, whatever rounding does to them in SI.
  const double least = key.range.least / key.unit.to_si, most = key.range.most / key.unit.to_si;
  const auto slack = [](double end) { return std::isfinite(end) ? 1e-12 * std::abs(end) : 0.0; };
  const bool in = value.number >= least - slack(least) && value.number <= most + slack(most);
  if (!std::isfinite(value.number) || !in) {
    throw InputError(where, with_unit(plain(value.number), key), allowed_text(key), "Check the value and its unit.");
  }
  return key.unit.to_si * value.number;
}

double read_whole(const Written& value, const Key& key, const std::string& where) {
  const double number = read_number(value, key, where);
  if (number != std::floor(number)) {
    throw InputError(where, plain(number), allowed_text(key), "A whole number is needed.");
  }
  return number;
}

std::string read_word(const Written& value, const Key& key, const std::string& where) {
  if (value.kind != Written::Kind::text) {
    refuse(where, value, allowed_text(key), "Write text in quotes.");
  }
  if (key.choices.empty() && trim(value.text).empty()) {
    throw InputError(where, "an empty text", allowed_text(key), "Write something or leave the key out.");
  }
  if (!key.choices.empty() && std::find(key.choices.begin(), key.choices.end(), value.text) == key.choices.end()) {
    refuse_name(where, value.text, key.choices);
  }
  return value.text;
}

struct Put {
  const Key& key;
  const Written& value;
  const std::string& where;
  void* into;
  Files& files;

  void operator()(NumberSlot slot) const { slot(into) = read_number(value, key, where); }
  void operator()(MaybeSlot slot) const { slot(into) = read_number(value, key, where); }
  void operator()(WholeSlot slot) const { slot(into) = static_cast<int>(read_whole(value, key, where)); }
  void operator()(SizeSlot slot) const { slot(into) = static_cast<std::size_t>(read_whole(value, key, where)); }
  void operator()(FlagSlot slot) const {
    if (value.kind != Written::Kind::flag) {
      refuse(where, value, "true or false", "Write it without quotes.");
    }
    slot(into) = value.flag;
  }
  void operator()(TextSlot slot) const { slot(into) = read_word(value, key, where); }
  void operator()(TextsSlot slot) const {
    if (value.kind != Written::Kind::list) {
      refuse(where, value, "a list of texts, each " + allowed_text(key), "Write it as [\"...\", \"...\"].");
    }
    std::vector<std::string> words;
    for (const Written& element : value.list) {
      words.push_back(read_word(element, key, where));
    }
    slot(into) = words;
  }
  void operator()(const ChoiceSlot& slot) const { slot.set(into, read_word(value, key, where)); }
  void operator()(const FileSlot& slot) const {
    slot.read(*static_cast<Case*>(into), (value.folder / read_word(value, key, where)).lexically_normal(), where,
              files);
  }
};

struct Text {
  const Key& key;
  void* of;
  std::string operator()(NumberSlot slot) const { return in_unit(slot(of), key); }
  std::string operator()(MaybeSlot slot) const { return slot(of) ? in_unit(*slot(of), key) : ""; }
  std::string operator()(WholeSlot slot) const { return std::to_string(slot(of)); }
  std::string operator()(SizeSlot slot) const { return std::to_string(slot(of)); }
  std::string operator()(FlagSlot slot) const { return slot(of) ? "true" : "false"; }
  std::string operator()(TextSlot slot) const { return slot(of); }
  std::string operator()(TextsSlot slot) const {
    std::string text;
    for (const std::string& word : slot(of)) {
      text += (text.empty() ? "" : ", ") + word;
    }
    return text;
  }
  std::string operator()(const ChoiceSlot& slot) const { return slot.get(of); }
  std::string operator()(const FileSlot& slot) const { return slot.get(*static_cast<Case*>(of)); }
};

// The key of a member: its name is the member's, and then the unit.
const Key* key_of(const Schema& schema, const std::string& member) {
  const Key* best = nullptr;
  for (const Key& key : schema.keys) {
    const bool stem = key.name == member || key.name.starts_with(member + "_");
    best = stem && (best == nullptr || key.name.size() < best->name.size()) ? &key : best;
  }
  return best;
}

// element: of a list, counted from 1; 0 where the section is none.
std::string place_of(const Key& key, std::size_t element, const Sheet* sheet) {
  if (sheet == nullptr) {
    return "";
  }
  const Sheet* table = table_of(sheet, key.section, element);
  const Written* value = table == nullptr ? nullptr : table->find(key.name);
  return (value != nullptr ? value->where : sheet->file()) + ": ";
}

// An error that begins with the name of a key, "track.casting[2].begin_m": in a file the line tells which element.
std::string told_by_place(std::string said, const Schema& schema, const Sheet* sheet) {
  const std::string name = said.substr(0, said.find(": "));
  const std::size_t open = name.find('['), close = name.find(']');
  const bool in_list = open != std::string::npos && close != std::string::npos;
  const std::string full_name = in_list ? name.substr(0, open) + name.substr(close + 1) : name;
  const auto key = std::find_if(schema.keys.begin(), schema.keys.end(),
                                [&](const Key& each) { return each.full_name() == full_name; });
  if (key == schema.keys.end() || sheet == nullptr) {
    return (sheet != nullptr ? sheet->file() + ": " : "") + said;
  }
  const std::string index = in_list ? name.substr(open, close - open + 1) : "";
  for (std::size_t at = said.find(index); in_list && at != std::string::npos; at = said.find(index)) {
    said.erase(at, index.size());
  }
  return place_of(*key, in_list ? std::stoul(index.substr(1)) : 0, sheet) + said;
}

} // namespace

void put(const Key& key, const Written& value, const std::string& where, void* into, Files& files) {
  std::visit(Put{key, value, where, into, files}, key.slot);
}

std::string value_text(const Key& key, void* of) { return std::visit(Text{key, of}, key.slot); }

std::string allowed_text(const Key& key) {
  if (!key.choices.empty()) {
    return one_of(key.choices);
  }
  if (std::holds_alternative<FileSlot>(key.slot)) {
    return "the name of a file in quotes";
  }
  if (std::holds_alternative<FlagSlot>(key.slot)) {
    return "true or false";
  }
  if (std::holds_alternative<TextSlot>(key.slot)) {
    return "any text in quotes";
  }
  return with_unit(in_unit(key.range.least, key) + " to " + in_unit(key.range.most, key), key);
}

void tell_by_keys(const InputError& error, const Schema& schema, void* of, const Sheet* sheet) {
  const auto* contradiction = dynamic_cast<const Contradiction*>(&error);
  if (contradiction == nullptr) {
    throw InputError(told_by_place(error.what(), schema, sheet));
  }
  const Contradiction& c = *contradiction;
  const Key *key = key_of(schema, c.member), *other = c.other.empty() ? nullptr : key_of(schema, c.other);
  if (key == nullptr || (other == nullptr && !c.other.empty())) {
    throw InputError(error.what());
  }
  const std::string theirs = other == nullptr ? "" : value_text(*other, of);
  const std::string with = other == nullptr ? ""
                                            : " with " + other->full_name() +
                                                  (theirs.empty() ? " left out" : " = " + with_unit(theirs, *other));
  throw InputError(place_of(*key, 0, sheet) + key->full_name(), with_unit(in_unit(c.value, *key), *key),
                   std::string(name(c.kind)) + " " + with_unit(in_unit(c.bound, *key), *key) + with, c.advice);
}

Key file(std::string name, std::string meaning, FileSlot slot, std::string only) {
  return {{}, std::move(name), unit("-"), std::move(meaning), slot, {}, {}, std::move(only)};
}

std::string section_above(const std::string& section) {
  const std::size_t dot = section.rfind('.');
  return dot == std::string::npos ? "" : section.substr(0, dot);
}

void add(Schema& schema, std::string section, std::string meaning, std::vector<Key> keys, std::string only) {
  for (Key& key : keys) {
    key.section = section;
    schema.keys.push_back(std::move(key));
  }
  if (!meaning.empty()) {
    schema.sections.push_back({std::move(section), std::move(meaning), std::move(only)});
  }
}

} // namespace wingnose::cases
