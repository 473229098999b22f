// Tracks for tests of the chain.
#pragma once

#include "wingnose/track/chain/statics.hpp"

#include <span>
#include <string>
#include <vector>

namespace chain_samples {

using namespace wingnose::track;
using namespace wingnose::track::chain;

// Plain track of two rails on bearers of 2.6 m.
inline Model plain(int bearers, const BeamBearer& beam = {}) {
  Model m;
  m.rails.resize(2);
  for (int i = 0; i < bearers; ++i) {
    Bearer b;
    b.x = 0.6 * i;
    b.body = beam;
    b.seat = {{-0.75, {}}, {0.75, {}}};
    m.bearers.push_back(b);
  }
  return m;
}

// As in a turnout: every bearer longer than the one before, rails diverging, pads and ballast varying, no ballast under
// the middle of some, a casting in one rail.
inline Model turnout(int bearers) {
  Model m = plain(bearers);
  for (int i = 0; i < bearers; ++i) {
    Bearer& b = m.bearers[i];
    b.x += 0.03 * (i % 3);
    BeamBearer beam{-1.3, 1.3 + 2.0 * i / bearers, 125.0 + i % 4, 6.4e6 + 2e5 * (i % 5), 0.22};
    b.body = beam;
    b.seat[1].y = 0.75 + 0.8 * i / bearers;
    b.seat[0].pad.stiffness = 80e6 + 10e6 * (i % 4);
    b.seat[1].pad.stiffness = 150e6;
    b.ballast.stiffness = 25e6 + 5e6 * (i % 3);
    if (i % 4 == 1) {
      b.zones.push_back({-0.3, 0.3, {0.0, 0.0}});
    }
    if (i % 5 == 2) {
      b.under_sleeper_pad = UnderSleeperPad{60e6, 0.0};
    }
  }
  RailProperties casting = m.rails[1].section;
  casting.EI *= 2.0;
  casting.rho_A *= 2.0;
  m.rails[1].zones.push_back({m.bearers[bearers / 2].x, m.bearers[bearers / 2 + 2].x, casting});
  return m;
}

// Where two tracks part: their rails, one to four of them, on bearers of 4.9 m.
inline Model panel(int rails, int bearers) {
  constexpr double y[] = {-0.75, 0.75, 1.45, 2.95};
  Model m = plain(bearers, {-1.3, 3.6, 150.0, 10e6});
  m.rails.resize(rails);
  for (int i = 0; i < bearers; ++i) {
    Bearer& b = m.bearers[i];
    b.seat.clear();
    for (int r = 0; r < rails; ++r) {
      b.seat.push_back({y[r] + 0.02 * i, {(90.0 + 10.0 * r) * 1e6, 40e3}});
    }
    b.ballast.stiffness = 25e6 + 4e6 * (i % 3);
  }
  return m;
}

// A track with its lateral plane: 60E1 about its vertical axis, fastenings that shift and roll.
inline Model sideways(Model m) {
  for (Rail& rail : m.rails) {
    rail.lateral = LateralRail{1.076e6, 2.48e8, 0.0402};
  }
  for (std::size_t i = 0; i < m.bearers.size(); ++i) {
    Bearer& b = m.bearers[i];
    const double some = static_cast<double>(i % 3);
    b.lateral = LateralBearer{7e6 + 1e6 * some, 30e3, 0.0, 0.11, 0.08};
    for (RailSeat& seat : b.seat) {
      seat.lateral = LateralSeat{40e6 + 5e6 * some, 20e3, 0.0, 0.16, 0.4e6, 300.0};
    }
  }
  return m;
}

// One Euler rail 60E1 on lumped bearers of no account, `seat` N/m each: the track of the reference rows on voids.
inline Model on_springs(double seat, int bearers) {
  Model m;
  m.rails.push_back({{6.38e6, 1e13, 60.21, 0.0}, {}});
  m.gravity = 0.0;
  for (int i = 0; i < bearers; ++i) {
    Bearer b;
    b.x = 0.6 * i;
    b.body = LumpedBearer{150.0};
    b.seat = {{0.0, {1e12, 0.0}}};
    b.ballast = {seat, 0.0};
    m.bearers.push_back(b);
  }
  return m;
}

inline double deflection(const Chain& c, const std::vector<Load>& loads, int rail, double x) {
  const std::vector<RailPoint> at{rail_point(c, rail, x)};
  return static_deflection(c, loads, at)[0];
}

} // namespace chain_samples
