// Rows along a line, searched only where a cubic does not foresee them.
#include "catch.hpp"

#include "../../src/contact/search/sparse_rows.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <vector>

using namespace wingnose;

namespace {

struct Row {
  double value;
};
constexpr std::array<contact::Foreseen<Row>, 1> within_a_micrometre{{{&Row::value, 1e-6}}};

struct Rows {
  std::vector<Row> found;
  std::size_t searched = 0;
};
template <class Value> Rows rows(std::size_t count, const Value& value) {
  Rows r;
  r.found = contact::sparse_rows<Row>(
      count, within_a_micrometre,
      [&](std::size_t i) {
        ++r.searched;
        return Row{value(static_cast<double>(i))};
      },
      [](std::size_t, std::size_t) { return true; });
  return r;
}

} // namespace

TEST_CASE("A smooth line is searched at one row in four and met everywhere else") {
  const auto wave = [](double i) { return 1e-3 * std::sin(i / 40.0); };
  const Rows r = rows(403, wave);
  REQUIRE(r.found.size() == 403);
  CHECK(r.searched < 403 / 4 + 32); // both ends are searched
  for (std::size_t i = 0; i < r.found.size(); ++i) {
    CHECK(std::abs(r.found[i].value - wave(static_cast<double>(i))) < 1e-7);
  }
}

TEST_CASE("Around a kink and where a line begins every row is searched") {
  const auto line = [](double i) {
    return i < 101.0 ? std::numeric_limits<double>::quiet_NaN() : 1e-4 * std::abs(i - 203.5);
  };
  const Rows r = rows(400, line);
  CHECK(r.searched > 400 / 4 + 100);
  CHECK(r.searched < 300);
  for (std::size_t i = 101; i < r.found.size(); ++i) {
    CHECK(std::abs(r.found[i].value - line(static_cast<double>(i))) < 1e-9);
  }
  CHECK(std::isnan(r.found[100].value));
}
