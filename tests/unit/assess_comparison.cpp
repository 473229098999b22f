// Comparisons of crossings on made-up passages with known numbers; nothing is simulated.
#include "catch.hpp"
#include "said.hpp"

#include "wingnose/assess/comparison.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <limits>
#include <string>
#include <vector>

using namespace wingnose;
using assess::ComparedPassage;
using said::has;
using said::of_kind;
using said::refusal;
using said::says;
using State = ComparedPassage::State;

namespace {

enum Observed : std::size_t { peak, lost, thickness };
constexpr std::size_t wheels = 24;

// Two classes in turn, "new" and "hollow". On the second crossing new wheels land 10 kN lighter and hollow ones 5 kN
// harder than on the first; wheel 0 transfers on a nose 10 mm thick there and loses contact.
struct MadeUp {
  assess::CrossingComparison comparison;
  assess::ComparisonTerms terms;
  assess::ForceGrid grid{0.1, 0.0, 0.2, 0.01, 0.02};

  MadeUp() {
    for (const std::string name : {"first", "second"}) {
      auto& crossing = comparison.crossings.emplace_back();
      crossing.name = name;
      for (std::size_t m = 0; m < wheels; ++m) {
        const bool other = name == "second", hollow = m % 2 == 1;
        ComparedPassage& p = crossing.members.emplace_back();
        p.speed = 30.0;
        p.static_load = 80e3;
        p.observed = {100e3 + 10.0 * static_cast<double>(m) + (other ? (hollow ? 5e3 : -10e3) : 0.0),
                      other && m == 0 ? 0.001 : 0.0, other && m == 0 ? 0.010 : 0.030 + 1e-4 * static_cast<double>(m)};
      }
    }
    terms.classes = {"new", "hollow"};
    for (std::size_t m = 0; m < wheels; ++m) {
      terms.names.push_back("wheel " + std::to_string(m));
      terms.wheel_class.push_back(m % 2);
      terms.weights.push_back(1.0);
    }
    terms.criteria = {{peak, {SampleStatistic::Kind::mean}, false}};
    terms.called = {{"largest force, mean", unit("kN"), 1}};
    terms.lost_contact = lost;
    terms.nose_thickness = thickness;
    terms.peak_nose = peak;
    terms.thin_nose = 0.020;
    terms.resamples = 200;
    terms.seed = 1;
    terms.confidence = 0.95;
  }

  const assess::CrossingComparison& compared() {
    const std::vector<assess::ForcesOfMany> forces(2, assess::ForcesOfMany(grid, wheels));
    assess::compare(comparison, terms, forces, true);
    return comparison;
  }
};

} // namespace

TEST_CASE("The crossing under which wheels land lighter on the mean ranks first, and a class that disagrees is told") {
  MadeUp made;
  const auto& c = made.compared();
  CHECK(c.rankings.front().order == std::vector<std::size_t>{1, 0});
  CHECK(c.differences.front().value == Approx(-2500.0));
  REQUIRE(c.groups.size() == 2); // speeds and loads do not vary
  CHECK(c.groups[0].name == "class new");
  CHECK(c.groups[1].members.size() == 12);
  CHECK(c.groups[1].flips == std::vector<bool>{true});
  CHECK(c.groups[0].flips == std::vector<bool>{false});
  // The difference of 2.5 kN lies within the spread of +5 and -10 kN: it is no win.
  CHECK_FALSE(c.rankings.front().apart.front());
  CHECK_FALSE(says(c.dependence, "is best by"));
  CHECK(says(c.dependence, "these wheels tell no best crossing by any criterion"));
  CHECK(says(c.dependence, "lie within 2.5 kN, each within the spread of the next"));
  CHECK(says(c.dependence, "for class hollow (50.0 % of the wheels) \"first\" is better than \"second\""));
}

TEST_CASE("A crossing better beyond the spread of the wheels is best") {
  MadeUp made;
  for (auto& p : made.comparison.crossings[1].members) {
    p.observed[peak] -= 20e3;
  }
  const auto& c = made.compared();
  CHECK(c.rankings.front().apart.front());
  CHECK(says(c.dependence, "\"second\" is best by every criterion"));
}

TEST_CASE("Early transfers and lost contact are shares of weight, told with the wheel") {
  MadeUp made;
  made.terms.weights[0] = 6.0;
  const auto& c = made.compared();
  CHECK(c.crossings[1].early == Approx(6.0 / 29.0));
  CHECK(c.crossings[1].loses_contact == Approx(6.0 / 29.0));
  CHECK(c.crossings[1].early_members == std::vector<std::size_t>{0});
  CHECK(c.crossings[0].early_members.empty());
  CHECK(says(of_kind(c.findings, FindingKind::early_transfer), "wheel 0 at 10.0 mm"));
  CHECK(c.crossings[0].paths.back().member == 0); // the earliest of all
  CHECK(c.crossings[0].paths.front().reason == "typical of new");
}

TEST_CASE("A wheel that is not done on one crossing is left out on both and counted as the worst beside that") {
  MadeUp made;
  auto& failed = made.comparison.crossings[1].members[3];
  failed.state = State::could_not_compute;
  failed.failure = "the wheel leaves the rail";
  failed.observed.assign(3, std::numeric_limits<double>::quiet_NaN());
  const auto& c = made.compared();
  CHECK(!c.compared[3]);
  CHECK(c.dropped == Approx(1.0 / 24.0));
  CHECK(c.effective_count == Approx(23.0));
  CHECK(c.crossings[0].distributions[peak].count == 23);
  CHECK(c.crossings[1].failed == Approx(1.0 / 24.0));
  CHECK(std::isinf(c.rankings.front().worst_values[1]));
  CHECK(c.rankings.front().worst_places == std::vector<std::size_t>{1, 2});
  CHECK(says(c.findings, "counted as the worst, these wheels change the ranking by largest force, mean"));
}

TEST_CASE("When no wheel is done on all crossings the comparison is refused with the first reason") {
  MadeUp made;
  for (auto& m : made.comparison.crossings[0].members) {
    m.state = State::bad_input;
    m.failure = "no such load";
  }
  CHECK(has(refusal<ComputeError>([&] { (void)made.compared(); }), "on \"first\", wheel 0: no such load"));
}
