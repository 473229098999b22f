// Lateral track against closed forms. The reference tables hold no lateral stiffness of a track: these rows are worked.
#include "scoreboard.hpp"

#include "chain_samples.hpp"

#include <cmath>
#include <string>
#include <vector>

using namespace chain_samples;

namespace {

// Rails that carry nothing themselves: a force over a seat goes into its bearer alone.
Model single(const BeamBearer& beam, double near_seat) {
  Model m = sideways(plain(3, beam));
  for (Rail& rail : m.rails) {
    rail.section = {1.0, 1e3, 60.0, 0.1};
    rail.lateral = LateralRail{1.0, 1e3, 0.1};
  }
  for (Bearer& b : m.bearers) {
    b.ballast = {30e6, 0.0};
    b.seat[0].y = near_seat;
    b.seat[1].y = near_seat + 1.5;
  }
  return m;
}

} // namespace

TEST_CASE("On fine lateral springs a rail is a beam on an elastic foundation sideways too") {
  Model m = on_springs(5e6, 201);
  for (int i = 0; i < 201; ++i) {
    m.bearers[i].x = 0.1 * i;
    m.bearers[i].width = 0.05;
  }
  m = sideways(m);
  m.rails[0].lateral = LateralRail{1.076e6, 1e13, 0.0};
  for (Bearer& b : m.bearers) {
    b.lateral = LateralBearer{1.2e6};
    b.seat[0].lateral = LateralSeat{3e6, 0.0, 0.0, 0.15, 0.08e6};
  }
  const auto c = make_chain(m);
  // Ballast, fastening and its roll at 0.15 m in series, every 0.1 m.
  const double k = 1.0 / (1.0 / 1.2e6 + 1.0 / 3e6 + 0.15 * 0.15 / 0.08e6) / 0.1, EI = m.rails[0].lateral->EI,
               beta = std::pow(k / (4 * EI), 0.25);
  const std::vector<Load> loads{{0, 10.0, 2e4, Plane::lateral}};
  const Source source{Trust::worked, "infinite Euler beam on Winkler's foundation"};
  for (const double x : {0.0, 0.8, 1.5}) {
    const std::vector<RailPoint> at{rail_point(*c, 0, 10.0 + x, Plane::lateral)};
    score_abs("lateral deflection " + scoreboard::number(x, "%.1f") + " m from 20 kN, mm",
              1e3 * static_deflection(*c, loads, at)[0],
              1e3 * 2e4 * beta / (2 * k) * std::exp(-beta * x) * (std::cos(beta * x) + std::sin(beta * x)), 2e-3,
              source);
  }
}

TEST_CASE("A stiff bearer under a lateral force shifts and rolls as a rigid body on springs") {
  constexpr double L = 2.6, k = 30e6, H = 2e4;
  const Model m = single({0.0, L, 115.0, 6.4e11}, 0.55);
  const auto c = make_chain(m);
  const Bearer& b = m.bearers[1];
  const double h = b.seat[0].lateral->height + b.lateral->pad_above, d = b.lateral->ballast_below,
               ky = b.lateral->stiffness;
  // ky L (v - d phi) = H;  k L^3 / 12 phi + d ky L (d phi - v) = H h, so k L^3 / 12 phi = H (h + d).
  const double phi = H * (h + d) / (k * L * L * L / 12.0), v = H / (ky * L) + d * phi;
  const Motion rest = at_rest(*c, std::vector<Load>{{0, 0.6, H, Plane::lateral}});
  const Source source{Trust::worked, "rigid bearer: shift and roll about its neutral line"};
  score("shift of the bearer, mm", 1e3 * bearer_shift(*c, rest, 1), 1e3 * v, 1e-4, source);
  score("roll of the bearer, mrad", 1e3 * bearer_slope(*c, rest, 1, 0.5 * L), 1e3 * phi, 1e-4, source);
  const std::vector<RailPoint> at{rail_point(*c, 0, 0.6, Plane::lateral)};
  const LateralSeat& seat = *b.seat[0].lateral;
  score("lateral deflection of the rail, mm",
        1e3 * static_deflection(*c, std::vector<Load>{{0, 0.6, H, Plane::lateral}}, at)[0],
        1e3 * (v + h * phi + H * (1.0 / seat.stiffness + seat.height * seat.height / *seat.roll_stiffness)), 1e-4,
        source);
}

TEST_CASE("The track rolls on a long bearer by what the reference row tells") {
  Model m = plain(3, {0.0, 4.4, 130.0, 10e6, 0.22, 12});
  for (Rail& rail : m.rails) {
    rail.section = {1.0, 1e3, 60.0, 0.1};
  }
  for (Bearer& b : m.bearers) {
    b.ballast = {30e6, 0.0};
    b.seat[0].y = 0.55;
    b.seat[1].y = 2.05;
  }
  const auto c = make_chain(m);
  const Motion rest = at_rest(*c, std::vector<Load>{{0, 0.6, 5e4}, {1, 0.6, 5e4}});
  score_abs("difference between the seats of one track on a bearer of 4.4 m, mm",
            1e3 * (seat_deflection(*c, rest, 1, 0) - seat_deflection(*c, rest, 1, 1)), 0.4059, 2e-4,
            {Trust::worked, "Euler beam on Winkler support, 400 elements"});
}
