#include "catch.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/finding.hpp"
#include "wingnose/words/names.hpp"
#include "wingnose/words/range.hpp"

#include <cmath>
#include <limits>
#include <set>

using namespace wingnose;

namespace {

enum class Colour { red, green };
constexpr auto names(Colour) { return std::array{Name{Colour::red, "red"}, Name{Colour::green, "green", "as grass"}}; }
struct Flat {
  int metres = 3;
};
struct Round {};
using Shape = std::variant<Flat, Round>;
constexpr auto names(const Shape&) { return std::array{Name{std::size_t{0}, "flat"}, Name{std::size_t{1}, "round"}}; }

template <class Call> std::string complaint(const Call& call) {
  try {
    call();
  } catch (const InputError& error) {
    return error.what();
  }
  return "";
}

} // namespace

TEST_CASE("Numbers read as a person writes them") {
  CHECK(number(44.0) == "44");
  CHECK(number(1e-7) == "1e-07");
  CHECK(number(-0.0) == "0");
  CHECK(number(0.044 / 1e-3, digits_of_a_key) == "44");
  CHECK(fixed(412.2, 2) == "412.20");
  CHECK(fixed(-0.001, 1) == "0.0");
  CHECK(fixed(std::nullopt, 1) == "none");
  CHECK(fixed(std::numeric_limits<double>::quiet_NaN(), 1) == "none");
  CHECK(fixed(-std::numeric_limits<double>::max(), 3).size() == 314);
}

TEST_CASE("A value outside its range is refused in the unit the reader gave it in") {
  constexpr Range flangeway{0.02, 0.12};
  CHECK(within(0.02, flangeway));
  CHECK(within(0.12, flangeway));
  CHECK_FALSE(within(std::nan(""), flangeway));
  CHECK_NOTHROW(demand_within("flangeway", 0.044, flangeway));
  CHECK(complaint([&] { demand_within("flangeway", 0.13, flangeway, "mm", 1e3); }) ==
        "flangeway: 130 mm is not allowed; allowed: 20 to 120 mm. Check the value and its unit.");
  CHECK(complaint([] { demand_within("speed", -1.0, {0.0}, "m/s"); }) ==
        "speed: -1 m/s is not allowed; allowed: 0 or more m/s. Check the value and its unit.");
  CHECK(complaint([] { demand_within("speed", INFINITY, {0.0}, "m/s"); }).find("inf m/s is not allowed") !=
        std::string::npos);
}

TEST_CASE("Choices are known by their names, and a misspelt one is told the nearest") {
  CHECK(name(Colour::green) == "green");
  CHECK(named<Colour>("red", "colour") == Colour::red);
  CHECK(names_of<Colour>() == std::vector<std::string>{"red", "green"});
  CHECK(complaint([] { (void)named<Colour>("gren", "colour of the paint"); }) ==
        "colour of the paint: \"gren\" is not allowed; allowed: \"red\" or \"green\". Did you mean \"green\"?");
  CHECK(name(Shape{Round{}}) == "round");
  CHECK(std::get<Flat>(named<Shape>("flat", "shape")).metres == 3);
  CHECK(std::holds_alternative<Round>(named<Shape>("round", "shape")));
  CHECK(complaint([] { (void)named<Shape>("oval", "shape"); }).find("\"flat\" or \"round\"") != std::string::npos);
}

TEST_CASE("Every kind of finding has one row with words of its own") {
  std::set<std::string_view> keys;
  for (const FindingWords& w : finding_kinds()) {
    CHECK(keys.insert(w.key).second);
    CHECK(&words_of(w.kind) == &w);
    CHECK_FALSE(w.meaning.empty());
  }
  CHECK(finding_kinds().size() == static_cast<std::size_t>(FindingKind::assumption) + 1);
}

TEST_CASE("Findings of many cases are told once each, the gravest kinds first, with how many cases they are of") {
  const Finding rim{FindingKind::rim_contact, "the wing carries the wheel 56 mm outside the taping line", "wing"};
  const Finding flange{FindingKind::flange_contact, "the nose carries the wheel 40 mm inside the taping line"};
  GatheredFindings all;
  all.add("new 1", std::vector{rim, rim});
  all.add("new 2", std::vector{rim, flange});
  all.add("new 3", {});
  const Findings told = all.told("3 wheels");
  REQUIRE(told.size() == 2);
  CHECK(told[0].kind == FindingKind::flange_contact);
  CHECK(told[0].where == "1 of 3 wheels, new 2");
  CHECK(told[1].where == "2 of 3 wheels, first new 1");
  CHECK(told[1].what == rim.what + " (wing)");
  CHECK(any_grave(told));
  CHECK(of_gravity(told, Gravity::warning) == Findings{told[1]});
  CHECK(sentence(rim) == "wing: the wing carries the wheel 56 mm outside the taping line; check the offset, the wheel "
                         "and the width of the wing");
}
