#include "catch.hpp"

#include "wingnose/track/modal.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

using namespace wingnose;
using namespace wingnose::track;

namespace {

std::string complaint(const Track& t) {
  try {
    (void)assemble(t);
  } catch (const InputError& e) {
    return e.what();
  }
  return "";
}

bool mentions(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_CASE("Bays lie around the centre, seats keep their phase, the rail ends on the outermost seats") {
  Track t;
  t.bays = 10;
  t.elements_per_bay = 4;
  t.first_seat = 0.17;
  t.centre = 12.0;
  const auto a = assemble(t);
  REQUIRE(a.seat_station.size() == 11);
  CHECK(a.node.front() == a.seat_station.front());
  CHECK(a.node.back() == a.seat_station.back());
  CHECK(std::abs(0.5 * (a.node.front() + a.node.back()) - t.centre) <= 0.5 * t.spacing);
  for (const double x : a.seat_station) {
    CHECK(std::abs(std::remainder(x - t.first_seat, t.spacing)) < 1e-9);
  }
  for (std::size_t j = 0; j < a.seat_station.size(); ++j) {
    CHECK(a.node[static_cast<std::size_t>(a.seat_node[j])] == a.seat_station[j]);
  }
  CHECK(std::is_sorted(a.node.begin(), a.node.end()));
  CHECK(a.dofs() == 2 * 41 + 11);
}

TEST_CASE("A zone changes the elements whose middle it covers, a later zone wins") {
  Track t;
  t.bays = 4;
  t.elements_per_bay = 6; // 0.1 m
  RailProperties casting = t.rail, nose = t.rail;
  casting.EI = 1e7;
  nose.EI = 2e7;
  t.zones = {{-0.31, 0.34, casting}, {0.06, 0.2, nose}};
  const auto a = assemble(t);
  const auto EI_at = [&](double x) { return a.element[static_cast<std::size_t>(interpolate(a, x).element)].EI; };
  CHECK(EI_at(-0.35) == t.rail.EI);
  CHECK(EI_at(-0.25) == casting.EI);
  CHECK(EI_at(0.05) == casting.EI); // middle of the element at 0.05, outside the nose
  CHECK(EI_at(0.15) == nose.EI);
  CHECK(EI_at(0.25) == casting.EI);
  CHECK(EI_at(0.35) == t.rail.EI);
}

TEST_CASE("An override replaces the nearest seat only") {
  Track t;
  t.bays = 4;
  Seat soft = t.seat;
  soft.ballast_stiffness = 10e6;
  t.overrides = {{0.7, soft}};
  const auto a = assemble(t);
  for (std::size_t j = 0; j < a.seat.size(); ++j) {
    CHECK(a.seat[j].ballast_stiffness == (std::abs(a.seat_station[j] - 0.6) < 1e-9 ? 10e6 : 60e6));
  }
}

TEST_CASE("A track that cannot be right is refused with its reason") {
  Track t;
  t.bays = 4;
  CHECK(complaint(t).empty());
  SECTION("override beyond the modelled length") {
    t.overrides = {{5.0, t.seat}};
    CHECK(mentions(complaint(t), "half a spacing"));
  }
  SECTION("two overrides for one seat") {
    t.overrides = {{0.05, t.seat}, {-0.05, t.seat}};
    CHECK(mentions(complaint(t), "one per seat"));
  }
  SECTION("zone the wrong way round") {
    t.zones = {{1.0, 0.5, t.rail}};
    CHECK(mentions(complaint(t), "Swap"));
  }
  SECTION("zone outside") {
    t.zones = {{50.0, 60.0, t.rail}};
    CHECK(mentions(complaint(t), "Move the zone"));
  }
  SECTION("no rail stiffness") {
    t.rail.EI = 0.0;
    CHECK(mentions(complaint(t), "EI"));
  }
  SECTION("negative damping") {
    t.seat.pad_damping = -1.0;
    CHECK(mentions(complaint(t), "pad_damping"));
  }
  SECTION("no bays") {
    t.bays = 0;
    CHECK(mentions(complaint(t), "bays"));
  }
  SECTION("spacing not a number") {
    t.spacing = std::nan("");
    CHECK(mentions(complaint(t), "spacing"));
  }
}

TEST_CASE("A track without support, or a station beyond the rail, gives no number") {
  Track t;
  t.bays = 4;
  const auto m = modal_track(t);
  CHECK_THROWS_AS(m->element_at(1.21), InputError);
  CHECK_THROWS_AS(m->residual_at(std::nan("")), InputError);
  CHECK_THROWS_AS(interpolate(m->assembly, -1.3), InputError);
  t.seat.ballast_stiffness = 0.0;
  CHECK_THROWS_AS(modal_track(t), ComputeError);
  const std::array<double, 1> here{0.0};
  CHECK_THROWS_AS(static_deflection(assemble(t), 1e3, 0.0, here), ComputeError);
  t.seat.ballast_stiffness = 60e6;
  t.cut_off = 1.0;
  CHECK_THROWS_AS(modal_track(t), ComputeError);
}

TEST_CASE("Mode tables are padded to eight with modes that stay at rest") {
  Track t;
  t.bays = 6;
  const auto m = modal_track(t);
  CHECK(m->padded % 8 == 0);
  CHECK(m->padded - m->modes < 8);
  const auto padded = static_cast<std::size_t>(m->padded);
  CHECK(m->theta_re.size() == static_cast<std::size_t>(m->elements()) * 4 * padded);
  CHECK(m->bearer_im.size() == m->assembly.seat.size() * padded);
  for (std::size_t k = static_cast<std::size_t>(m->modes); k < padded; ++k) {
    CHECK(m->lambda_re[k] == -1.0);
    for (std::size_t row = 0; row < m->theta_re.size() / padded; ++row) {
      CHECK((m->theta_re[row * padded + k] == 0.0 && m->theta_im[row * padded + k] == 0.0));
    }
  }
}

TEST_CASE("Residual compliance is continuous, never negative, and straight lines between its points hold 1e-4") {
  Track t;
  t.bays = 10;
  const auto m = modal_track(t);
  for (const double r : m->residual) {
    CHECK(r >= 0.0);
  }
  for (std::size_t i = 1; i + 1 < m->assembly.node.size(); ++i) {
    const double x = m->assembly.node[i];
    CHECK(m->residual_at(x - 1e-9) == Approx(m->residual_at(x)).epsilon(1e-5).margin(1e-17));
  }
  const std::array<double, 1> here{0.0};
  const double total = static_deflection(m->assembly, 1.0, 0.0, here)[0];
  const int cells = m->residual_points - 1;
  const auto first = static_cast<std::size_t>(m->element_at(0.01) * m->residual_points);
  const double begin = m->assembly.node[static_cast<std::size_t>(m->element_at(0.01))];
  const double L = t.spacing / t.elements_per_bay;
  for (int p = 0; p < cells; ++p) {
    const auto i = first + static_cast<std::size_t>(p);
    const double straight = 0.5 * (m->residual[i] + m->residual[i + 1]);
    CHECK(std::abs(straight - m->residual_at(begin + L * (p + 0.5) / cells)) < 1e-4 * total);
  }
}

TEST_CASE("Every station belongs to the element that holds it") {
  Track t;
  t.bays = 5;
  t.elements_per_bay = 3;
  const auto m = modal_track(t);
  CHECK(m->element_at(m->begin()) == 0);
  CHECK(m->element_at(m->end()) == m->elements() - 1);
  for (double x = m->begin(); x < m->end(); x += 0.0137) {
    const auto e = static_cast<std::size_t>(m->element_at(x));
    CHECK(m->assembly.node[e] <= x);
    CHECK(x <= m->assembly.node[e + 1]);
  }
}

TEST_CASE("The compliance between held element ends is that of a clamped beam with shear") {
  Track t;
  t.bays = 2;
  t.elements_per_bay = 2;
  const auto a = assemble(t);
  const double L = 0.3;
  // Mid-span of a clamped beam: L^3 / (192 EI) + L / (4 kappa GA).
  CHECK(bubble_compliance(a, 0.15) ==
        Approx(L * L * L / (192.0 * t.rail.EI) + L / (4.0 * t.rail.kappa_GA)).epsilon(1e-10));
  CHECK(bubble_compliance(a, 0.3) == Approx(0.0).margin(1e-16));
}

TEST_CASE("A steel rail follows from its section") {
  const auto r = steel_rail(76.7e-4, 3038.3e-8, 60.21);
  CHECK(r.EI == Approx(RailProperties{}.EI).epsilon(1e-3));
  CHECK(r.kappa_GA == Approx(RailProperties{}.kappa_GA).epsilon(1e-3));
  CHECK(r.rho_I == Approx(RailProperties{}.rho_I).epsilon(1e-3));
  CHECK_THROWS_AS(steel_rail(-1.0, 3e-5, 60.0), InputError);
}
