// The table of keys: one row per key with its way in and its way out. From it come reading and its checks, suggestions,
// the reference page and the list of all values a case rests on. A key's unit is the last part of its name; ranges and
// defaults stand beside the members. To add a key: the member with its range, and its row.
#pragma once

#include "wingnose/case/sheet.hpp"
#include "wingnose/words/range.hpp"
#include "wingnose/words/unit.hpp"

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <variant>
#include <vector>

namespace wingnose::cases {

// How a value is reached in what a schema fills; the pointer is to that (a Case, a vehicle, an element of a list).
using NumberSlot = double& (*)(void*);
using MaybeSlot = std::optional<double>& (*)(void*);
using WholeSlot = int& (*)(void*);
using SizeSlot = std::size_t& (*)(void*);
using FlagSlot = bool& (*)(void*);
using TextSlot = std::string& (*)(void*);
using TextsSlot = std::vector<std::string>& (*)(void*);
struct ChoiceSlot {
  std::string (*get)(void*);
  void (*set)(void*, const std::string&); // of one of the choices
};
struct FileSlot { // of cases; read puts in place what the file holds
  std::string (*get)(Case&);
  void (*read)(Case&, const std::filesystem::path&, const std::string& where, Files&);
};
using Slot =
    std::variant<NumberSlot, MaybeSlot, WholeSlot, SizeSlot, FlagSlot, TextSlot, TextsSlot, ChoiceSlot, FileSlot>;

struct Key {
  std::string section; // "" for keys at the top of a file, "track.seat" for elements of [[track.seat]]
  std::string name;    // "speed_km_h"
  Unit unit;
  std::string meaning; // for the reference page
  Slot slot;
  Range range = {};                      // in SI
  std::vector<std::string> choices = {}; // of a text or a choice; empty: any text
  std::string only = {};                 // values of the section's selector the key belongs to ("a|b"); empty: all
  std::string implies = {};              // giving this key chooses this value of the selector
  bool required = false;
  bool selector = false; // the key that decides which others of its section apply
  [[nodiscard]] std::string full_name() const { return section.empty() ? name : section + "." + name; }
};

// An array of tables, [[track.seat]].
struct List {
  std::string section, meaning;
  void* (*append)(void* owner); // a new element with its defaults
  std::size_t (*size)(void* owner);
  void* (*at)(void* owner, std::size_t i);
  std::string only = {};
};

struct Section {
  std::string name, meaning;
  std::string only = {}; // values of the selector of the section above ("track" of "track.bearers"); empty: all
};
struct Schema {
  std::vector<Section> sections; // in the order of the reference page
  std::vector<Key> keys;
  std::vector<List> lists;
};

// Keys of one kind of file ("case", "vehicle", "comparison"), and what the schema fills, as it is before anything is
// read.
struct KeysOf {
  std::string file;
  const Schema* schema = nullptr;
  std::shared_ptr<void> defaults;
};

// Fills what the schema describes from a sheet: every key known, of the right kind, in range, and not contradicting the
// choice its section has made. Throws InputError.
void fill(const Schema& schema, const Sheet& sheet, void* into, Files& files);
// The checks of one value, and the value put in its place. Throws InputError.
void put(const Key& key, const Written& value, const std::string& where, void* into, Files& files);
// The value as text in the key's unit, "" where it is absent.
[[nodiscard]] std::string value_text(const Key& key, void* of);
// "1 to 500 km/h", "one of ...", "a number".
[[nodiscard]] std::string allowed_text(const Key& key);
// Value of the section's selector, "" where it has none.
[[nodiscard]] std::string selected(const Schema& schema, const std::string& section, void* of);
[[nodiscard]] bool applies(const std::string& only, const std::string& choice);
// Tells an error by the place its key is written at: a contradiction between two members by their keys, in their own
// units; another one that begins with the name of a key as it is. sheet: where values were written, may be nullptr.
[[noreturn]] void tell_by_keys(const InputError& error, const Schema& schema, void* of, const Sheet* sheet);

// --- rows ------------------------------------------------------------------------------------------------------------
// part: a function that gives a part of what is filled, Seat& (*)(Case&); member: of that part.

namespace detail {
template <class Part, class Owner> Owner owner_of(Part& (*)(Owner&));
template <class M>
inline constexpr bool is_number = std::is_same_v<M, double> || std::is_same_v<M, std::optional<double>> ||
                                  std::is_same_v<M, int> || std::is_same_v<M, std::size_t>;

template <auto part, auto member> auto& reach(void* of) {
  using Owner = decltype(owner_of(part));
  return part(*static_cast<Owner*>(of)).*member;
}
template <auto part, auto member> Slot slot_of() {
  using M = std::remove_reference_t<decltype(reach<part, member>(nullptr))>;
  if constexpr (HasNames<M>) {
    return ChoiceSlot{[](void* of) { return std::string(wingnose::name(reach<part, member>(of))); },
                      [](void* of, const std::string& wanted) {
                        auto& choice = reach<part, member>(of);
                        if (wingnose::name(choice) != wanted) { // a variant keeps the values it has
                          choice = named<M>(wanted, "choice");
                        }
                      }};
  } else {
    return &reach<part, member>;
  }
}
} // namespace detail

// The unit is the one the name ends in; the choices are those of the member's type, or of a text those given. ranged:
// the member a number has its range beside, where not its own, or a pointer to a Range.
template <auto part, auto member, auto ranged = member>
[[nodiscard]] Key key(std::string name, std::string meaning, std::string only = {},
                      std::vector<std::string> choices = {}) {
  using M = std::remove_reference_t<decltype(detail::reach<part, member>(nullptr))>;
  Key key{{}, std::move(name), unit("-"), std::move(meaning), detail::slot_of<part, member>(), {}, std::move(choices)};
  key.unit = unit_of(key.name);
  key.only = std::move(only);
  if constexpr (std::is_same_v<decltype(ranged), const Range*>) {
    key.range = *ranged;
  } else if constexpr (HasNames<M>) {
    key.choices = names_of<M>();
  } else if constexpr (detail::is_number<M>) {
    key.range = range_of<ranged>();
  }
  return key;
}
// The name of a file.
[[nodiscard]] Key file(std::string name, std::string meaning, FileSlot slot, std::string only = {});
[[nodiscard]] inline Key required(Key key) {
  key.required = true;
  return key;
}
[[nodiscard]] inline Key selecting(Key key) {
  key.selector = true;
  return key;
}

// Adds a section with its keys.
void add(Schema& schema, std::string section, std::string meaning, std::vector<Key> keys, std::string only = {});
// "track" of "track.bearers", "" of "track".
[[nodiscard]] std::string section_above(const std::string& section);
// The elements of a list and the keys of each. list: a function that gives the std::vector.
template <auto list> [[nodiscard]] List list_of(std::string section, std::string meaning, std::string only = {}) {
  using Owner = decltype(detail::owner_of(list));
  return {std::move(section),
          std::move(meaning),
          [](void* of) -> void* { return &list(*static_cast<Owner*>(of)).emplace_back(); },
          [](void* of) { return list(*static_cast<Owner*>(of)).size(); },
          [](void* of, std::size_t i) -> void* { return &list(*static_cast<Owner*>(of))[i]; },
          std::move(only)};
}

[[nodiscard]] const Schema& case_schema();
[[nodiscard]] const Schema& vehicle_schema();       // of a VehicleFile
[[nodiscard]] const Schema& space_vehicle_schema(); // of a SpaceVehicleFile

// What a vehicle file says: the table, and for how many rails its values are given.
struct VehicleFile {
  vehicle::Vehicle vehicle;
  std::string given_for;
};

// What a file of a vehicle in space says.
struct SpaceVehicleFile {
  struct Body {
    vehicle::space::RigidBody body;
    std::vector<std::string> held; // motions
  };
  struct Wheelset {
    vehicle::space::Wheelset set; // the radius of its wheel at +y is that of both
    std::vector<std::string> held;
  };
  std::string name, source;
  std::vector<Body> bodies;
  std::vector<Wheelset> wheelsets;
  std::vector<vehicle::space::Link> links;
};
[[nodiscard]] vehicle::space::SpatialVehicle vehicle_of(const SpaceVehicleFile& file);
[[nodiscard]] SpaceVehicleFile file_of(const vehicle::space::SpatialVehicle& vehicle);

} // namespace wingnose::cases
