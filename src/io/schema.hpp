// The one list of keys a file may hold: from it come reading, range checks, suggestions, the reference page and the
// stored list of inputs. A key's unit is the last part of its name; values are kept in SI.
#pragma once

#include "draft.hpp"

#include <functional>
#include <limits>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace wingnose::io {

template <class T> using Slot = std::function<T&(Draft&)>; // where a value is kept

struct Key {
  std::string section; // "" for keys at the top of the file, "track.seat" for elements of [[track.seat]]
  std::string name;
  std::variant<Slot<double>, Slot<std::optional<double>>, Slot<int>, Slot<bool>, Slot<std::string>,
               Slot<std::vector<std::string>>, Slot<FileRef>>
      slot;
  std::string text; // meaning, for the reference page
  std::string unit = "-";
  double to_si = 1.0;                                      // SI value = to_si * value in the file
  double least = -std::numeric_limits<double>::infinity(); // in the file's unit
  double most = std::numeric_limits<double>::infinity();
  std::vector<std::string> choices = {}; // of a text, empty: any text
  std::string only = {};                 // choices of the section's selector the key belongs to ("a|b"), empty: all
  std::string implies = {};              // giving this key chooses this value of the selector
  bool required = false;
  bool selector = false; // the key that decides which others of its section apply
  bool in_case = true;   // the value is kept in study::Case and can be listed from it
};

// An array of tables: elements are read into the draft's scratch element one by one.
struct ElementList {
  std::string section;                           // "track.seat"
  std::function<void(Draft&)> begin;             // set the scratch element to its defaults
  std::function<void(Draft&)> append;            // take the scratch element into the draft
  std::function<std::size_t(const Draft&)> size; // stored elements
  std::function<void(Draft&, std::size_t)> load; // stored element -> scratch element
  std::string text;
  std::string only = {};
};

struct Schema {
  std::vector<std::pair<std::string, std::string>> sections; // name, meaning; in the order of the reference page
  std::vector<Key> keys;
  std::vector<ElementList> lists;
};

[[nodiscard]] Schema case_schema();
[[nodiscard]] Schema vehicle_schema();

// Parts of the above.
void add_crossing_keys(Schema& schema);
void add_wheel_and_vehicle_keys(Schema& schema);
void add_track_keys(Schema& schema);
void add_passage_keys(Schema& schema);
void add_damage_keys(Schema& schema);

// Value of a key in the file's unit as text, "" when it is optional and absent.
[[nodiscard]] std::string value_text(const Key& key, Draft& draft);
// "1 to 500 km/h", "one of ...", "a number".
[[nodiscard]] std::string allowed_text(const Key& key);

// A quantity key; `slot` is a callable Draft& -> double& (or optional<double>&).
template <class F>
[[nodiscard]] Key quantity(std::string section, std::string name, F slot, std::string unit, double to_si, double least,
                           double most, std::string text, std::string only = {}) {
  using Value = std::remove_reference_t<std::invoke_result_t<F, Draft&>>;
  Key key{std::move(section), std::move(name), Slot<Value>(slot), std::move(text)};
  key.unit = std::move(unit);
  key.to_si = to_si;
  key.least = least;
  key.most = most;
  key.only = std::move(only);
  return key;
}
// A text (or list of texts) out of a closed list.
template <class F>
[[nodiscard]] Key choice(std::string section, std::string name, F slot, std::vector<std::string> choices,
                         std::string text, std::string only = {}) {
  using Value = std::remove_reference_t<std::invoke_result_t<F, Draft&>>;
  Key key{std::move(section), std::move(name), Slot<Value>(slot), std::move(text)};
  key.choices = std::move(choices);
  key.only = std::move(only);
  return key;
}
// Free text or a file name.
template <class F>
[[nodiscard]] Key word(std::string section, std::string name, F slot, std::string text, std::string only = {}) {
  return choice(std::move(section), std::move(name), slot, {}, std::move(text), std::move(only));
}
[[nodiscard]] inline Key required(Key key) {
  key.required = true;
  return key;
}
[[nodiscard]] inline Key file_only(Key key) {
  key.in_case = false;
  return key;
}
[[nodiscard]] inline Key selecting(Key key) {
  key.selector = true;
  return key;
}

} // namespace wingnose::io
