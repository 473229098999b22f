// One table of names per enum, beside the enum, read by case files, command line, JSON, Python and the reference page:
//
//   enum class Direction { facing, trailing };
//   constexpr auto names(Direction) {
//     return std::array{Name{Direction::facing, "facing", "from wing to nose"}, ...};
//   }
//
// From it follow name(value), named<Direction>("facing") and names_of<Direction>(). A variant has its table too, with
// the index of each alternative as value: constexpr auto names(const NormalLaw&).
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

namespace wingnose {

template <class Value> struct Name {
  Value value;
  std::string_view name;
  std::string_view meaning = {};
};
template <class Value> Name(Value, const char*) -> Name<Value>;
template <class Value> Name(Value, const char*, const char*) -> Name<Value>;

// Throws InputError: what cannot be called `wanted`, what it can be called, the nearest of these.
[[noreturn]] void refuse_name(std::string_view what, std::string_view wanted, const std::vector<std::string>& known);

// The name of a value; every value of an enum has one (a test looks).
template <class Choice>
concept HasNames = requires(const Choice& choice) {
  names(choice);
};

namespace detail {
template <class... Kinds> constexpr std::size_t key_of(const std::variant<Kinds...>& choice) { return choice.index(); }
template <class Enum>
requires std::is_enum_v<Enum>
constexpr Enum key_of(Enum choice) { return choice; }
template <class... Kinds, std::size_t... I>
std::variant<Kinds...> alternative(std::size_t wanted, std::index_sequence<I...>, const std::variant<Kinds...>*) {
  std::variant<Kinds...> made;
  (void)((I == wanted && (made.template emplace<I>(), true)) || ...);
  return made;
}
template <class... Kinds> std::variant<Kinds...> choice_of(std::size_t key, const std::variant<Kinds...>* type) {
  return alternative(key, std::index_sequence_for<Kinds...>{}, type);
}
template <class Enum> Enum choice_of(Enum key, const Enum* /*type*/) { return key; }
} // namespace detail

template <HasNames Choice> [[nodiscard]] constexpr std::string_view name(const Choice& choice) {
  for (const auto& each : names(choice)) {
    if (each.value == detail::key_of(choice)) {
      return each.name;
    }
  }
  return "unknown"; // a value without a row: a test finds it
}

template <HasNames Choice> [[nodiscard]] std::vector<std::string> names_of() {
  std::vector<std::string> list;
  for (const auto& each : names(Choice{})) {
    list.emplace_back(each.name);
  }
  return list;
}

// The choice of a name; a variant gets the defaults of its alternative. Throws InputError: what ("direction of the
// move"), the names there are, the nearest one.
template <HasNames Choice> [[nodiscard]] Choice named(std::string_view wanted, std::string_view what) {
  for (const auto& each : names(Choice{})) {
    if (each.name == wanted) {
      return detail::choice_of(each.value, static_cast<const Choice*>(nullptr));
    }
  }
  refuse_name(what, wanted, names_of<Choice>());
}

} // namespace wingnose
