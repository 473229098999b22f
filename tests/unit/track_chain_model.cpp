#include "catch.hpp"
#include "chain_samples.hpp"

#include "wingnose/words/error.hpp"

#include <string>

using namespace chain_samples;

namespace {

std::string complaint(const Model& m) {
  try {
    check(m);
  } catch (const wingnose::InputError& e) {
    return e.what();
  }
  return "";
}

bool mentions(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_CASE("A turnout's track that cannot be right is refused with its reason") {
  Model m = turnout(12);
  CHECK(complaint(m).empty());
  SECTION("bearers that overlap") {
    m.bearers[5].x = m.bearers[4].x + 0.2;
    CHECK(mentions(complaint(m), "overlap"));
  }
  SECTION("bearers out of order") {
    std::swap(m.bearers[5].x, m.bearers[6].x);
    CHECK(mentions(complaint(m), "order"));
  }
  SECTION("a bearer shorter than the gauge") {
    std::get<BeamBearer>(m.bearers[3].body).to = 0.7;
    CHECK(mentions(complaint(m), "too short"));
  }
  SECTION("a gap without ballast") {
    m.bearers[3].ballast = {0.0, 0.0};
    m.bearers[3].voids.push_back({-1.3, 1.0, 1e-3});
    CHECK(mentions(complaint(m), "needs ballast"));
  }
  SECTION("a gap over a part without ballast") {
    m.bearers[1].voids.push_back({-0.2, 0.2, 1e-3});
    CHECK(mentions(complaint(m), "needs ballast"));
  }
  SECTION("a gap beside the bearer") {
    m.bearers[3].voids.push_back({5.0, 6.0, 1e-3});
    CHECK(mentions(complaint(m), "under the bearer"));
  }
  SECTION("a casting beyond the track") {
    m.rails[0].zones.push_back({50.0, 60.0, m.rails[0].section});
    CHECK(mentions(complaint(m), "on the track"));
  }
  SECTION("five rails") {
    m.rails.resize(5);
    CHECK(mentions(complaint(m), "1 to 4"));
  }
  SECTION("two rails on one spot of a bearer") {
    m.bearers[3].seat[1].y = m.bearers[3].seat[0].y;
    CHECK(mentions(complaint(m), "a place for each"));
  }
  SECTION("a rail without a seat") {
    m.bearers[2].seat.pop_back();
    CHECK(mentions(complaint(m), "seat for every rail"));
  }
  SECTION("a pad without stiffness") {
    m.bearers[2].seat[0].pad.stiffness = 0.0;
    CHECK(mentions(complaint(m), "pad stiffness"));
  }
}

TEST_CASE("A place beyond the track or on a rail that is not there gives no number") {
  const auto c = make_chain(turnout(12));
  CHECK_THROWS_AS(rail_point(*c, 0, c->end() + 0.01), wingnose::InputError);
  CHECK_THROWS_AS(rail_point(*c, 0, c->begin() - 0.01), wingnose::InputError);
  CHECK_THROWS_AS(rail_point(*c, 2, 1.0), wingnose::InputError);
  const Motion rest(*c);
  CHECK_THROWS_AS(bearer_deflection(*c, rest, 3, 5.0), wingnose::InputError);
}

TEST_CASE("A track that nothing holds gives no number") {
  Model m = plain(6);
  for (Bearer& b : m.bearers) {
    b.ballast = {0.0, 0.0};
  }
  const auto c = make_chain(m);
  const std::vector<Load> loads{{0, 1.0, 1e5}};
  CHECK_THROWS_AS(at_rest(*c, loads), wingnose::ComputeError);
}

TEST_CASE("Bays and bearers that are alike are made once") {
  const auto c = make_chain(plain(60));
  CHECK(c->bay_kind.size() == 1);
  CHECK(c->bearer_kind.size() == 1);
  CHECK(make_chain(turnout(20))->bearer_kind.size() == 20);
}
