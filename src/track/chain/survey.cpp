#include "wingnose/track/chain/survey.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::track::chain {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

std::vector<Load> abreast(const Chain& chain, double x, double load) {
  std::vector<Load> loads;
  loads.reserve(chain.rails);
  for (int rail = 0; rail < chain.rails; ++rail) {
    loads.push_back({rail, x, load});
  }
  return loads;
}

double length_of(const Chain& chain, int i) {
  const auto* beam = std::get_if<BeamBearer>(&chain.model.bearers[i].body);
  return beam != nullptr ? beam->to - beam->from : none;
}

// What is left of the widest gap under a bearer.
double left_of(const Chain& chain, int i, std::span<const double> shortening) {
  const BearerShape& bearer = chain.bearer_of(i);
  double left = 0.0;
  for (std::size_t l = 0; l < bearer.links.size(); ++l) {
    if (bearer.links[l].point >= 0) {
      left = std::max(left, bearer.links[l].law.gap - shortening[l]);
    }
  }
  return left;
}

// Shortenings of the links of a bearer: at rest under its own weight, and with what loads add.
std::vector<double> shortenings_of(const Chain& chain, const Motion& motion, int i) {
  const BearerShape& bearer = chain.bearer_of(i);
  std::vector<double> e(bearer.links.size(), 0.0);
  for (std::size_t l = 0; l < e.size(); ++l) {
    e[l] = chain.dead_shortening[chain.link[i] + static_cast<int>(l)];
    if (bearer.links[l].point >= 0) {
      e[l] += bearer.ballast[bearer.links[l].point].shape.dot(motion.bearer.segment(chain.coordinate[i], bearer.n));
    }
  }
  return e;
}

Closing closing(const Chain& chain, int i, double gap, std::span<const double> loads) {
  Closing c{chain.seat[i], gap, 0.0, none, {}, {}};
  const double x = chain.seat[i];
  const std::vector<RailPoint> there{rail_point(chain, 0, x)};
  double before = 0.0;
  c.left = left_of(chain, i, shortenings_of(chain, Motion(chain), i));
  if (c.left == 0.0) {
    c.closes_at = 0.0;
  }
  for (const double load : loads) {
    const std::vector<Load> pair = abreast(chain, x, load);
    const Motion motion = at_rest(chain, pair);
    c.deflection.push_back(rail_deflection(chain, motion, there[0]));
    c.ballast_force.push_back(ballast_force(chain, motion, i));
    const double now = left_of(chain, i, shortenings_of(chain, motion, i));
    if (std::isnan(c.closes_at) && now == 0.0) {
      c.closes_at = load; // made finer below
      double low = before, high = load;
      for (int round = 0; round < 30 && high - low > 1.0; ++round) { // N
        const double middle = 0.5 * (low + high);
        const bool closed =
            left_of(chain, i, shortenings_of(chain, at_rest(chain, abreast(chain, x, middle)), i)) == 0.0;
        (closed ? high : low) = middle;
      }
      c.closes_at = high;
    }
    before = load;
  }
  return c;
}

} // namespace

Bending largest_bending(const Chain& chain, const Motion& motion, int i) {
  const auto* beam = std::get_if<BeamBearer>(&chain.model.bearers[i].body);
  if (beam == nullptr) {
    return {none, none};
  }
  // Extremes lie under the seats or between them: their places, and enough others.
  Bending most{0.0, 0.0};
  const auto look = [&](double y) {
    const double moment = bearer_moment(chain, motion, i, y);
    if (std::abs(moment) > std::abs(most.moment)) {
      most = {moment, bearer_strain(chain, motion, i, y)};
    }
  };
  for (const RailSeat& seat : chain.model.bearers[i].seat) {
    look(seat.y);
  }
  constexpr int places = 40;
  for (int k = 1; k < places; ++k) {
    look(beam->from + (beam->to - beam->from) * k / places);
  }
  return most;
}

std::vector<LoadedBearer> loaded_bearers(const Chain& chain, double load, double from, double to) {
  std::vector<LoadedBearer> found;
  for (int i = 0; i < chain.seats(); ++i) {
    const double x = chain.seat[i];
    if (x < from || x > to) {
      continue;
    }
    const std::vector<Load> loads = abreast(chain, x, load);
    const Motion motion = at_rest(chain, loads);
    const Bending bending = largest_bending(chain, motion, i);
    found.push_back({x, length_of(chain, i), rail_deflection(chain, motion, rail_point(chain, 0, x)),
                     seat_deflection(chain, motion, i, 0), seat_force(chain, motion, i, 0),
                     ballast_force(chain, motion, i), ballast_pressure(chain, motion, i), bending.moment,
                     bending.strain});
  }
  return found;
}

std::vector<Closing> closings(const Chain& chain, std::span<const double> loads) {
  std::vector<Closing> found;
  for (int i = 0; i < chain.seats(); ++i) {
    double gap = 0.0;
    for (const Void& v : chain.model.bearers[i].voids) {
      gap = std::max(gap, v.gap);
    }
    if (gap > 0.0) {
      found.push_back(closing(chain, i, gap, loads));
    }
  }
  return found;
}

} // namespace wingnose::track::chain
