#include "bearer_parts.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::track::chain::detail {
namespace {

constexpr double ballast_length = 0.25; // m of bearer at most for two spots of ballast (Gauss points)

Ballast ballast_at(const Bearer& bearer, double y) {
  Ballast found = bearer.ballast;
  for (const BallastZone& zone : bearer.zones) {
    if (y >= zone.from && y <= zone.to) {
      found = zone.ballast;
    }
  }
  return in_series(found, bearer.under_sleeper_pad);
}

double gap_at(const Bearer& bearer, double y) {
  double gap = 0.0;
  for (const Void& v : bearer.voids) {
    if (y >= v.from && y <= v.to) {
      gap = v.gap;
    }
  }
  return gap;
}

} // namespace

Kelvin in_series(Kelvin a, Kelvin b) {
  const double k1 = a.stiffness, k2 = b.stiffness, sum = k1 + k2;
  return {k1 * k2 / sum, (a.damping * k2 * k2 + b.damping * k1 * k1) / (sum * sum)};
}

Ballast in_series(Ballast b, const std::optional<UnderSleeperPad>& pad) {
  if (pad && b.stiffness > 0.0) {
    const double k1 = b.stiffness, k2 = pad->stiffness;
    const Kelvin both = in_series(Kelvin{k1, b.damping}, Kelvin{k2, pad->damping});
    b.damping = both.damping;
    b.loss *= k2 / (k1 + k2); // the pad's own loss is its damping
    b.stiffness = both.stiffness;
    if (b.knee) { // the force at which it bends stays
      *b.knee *= k1 / b.stiffness;
      b.stiffness_beyond = b.stiffness_beyond * k2 / (b.stiffness_beyond + k2);
    }
  }
  return b;
}

void add_point(BearerShape& to, const Bearer& bearer, double y, double length, const Ballast& ballast, double gap) {
  if (!(ballast.stiffness > 0.0 || ballast.damping > 0.0)) {
    return;
  }
  to.ballast.push_back({y, length, ballast.stiffness * length, ballast.damping * length, ballast.loss, {}});
  const bool lets_go = ballast.unilateral || !bearer.voids.empty();
  if (!lets_go && !ballast.knee) {
    return;
  }
  Link link;
  link.point = static_cast<int>(to.ballast.size()) - 1;
  link.law.stiffness = ballast.stiffness * length;
  link.law.damping = ballast.damping * length;
  link.law.gap = gap;
  if (ballast.knee) {
    link.law.knee = *ballast.knee;
    link.law.beyond = ballast.stiffness_beyond * length;
  }
  if (lets_go) {
    link.law.pull = 0.0;
  }
  to.links.push_back(link);
}

void add_bedding(BearerShape& to, const Bearer& bearer, const BeamBearer& beam) {
  std::vector<double> edge{beam.from, beam.to};
  const auto add_edge = [&](double y) {
    if (y > beam.from && y < beam.to) {
      edge.push_back(y);
    }
  };
  for (const BallastZone& zone : bearer.zones) {
    add_edge(zone.from);
    add_edge(zone.to);
  }
  for (const Void& v : bearer.voids) {
    add_edge(v.from);
    add_edge(v.to);
  }
  const bool leaning = leans(bearer);
  for (const RailSeat& seat : bearer.seat) {
    if (leaning) { // couples there make the curvature jump
      add_edge(seat.y);
    }
  }
  std::sort(edge.begin(), edge.end());
  // Couples at the seats ask for more than forces do.
  const double longest = leaning ? std::max(0.8 * ballast_length, (beam.to - beam.from) / 20.0)
                                 : std::max(ballast_length, (beam.to - beam.from) / 14.0);
  for (std::size_t i = 1; i < edge.size(); ++i) {
    const double length = edge[i] - edge[i - 1];
    const int pieces = std::max(1, static_cast<int>(std::ceil(length / longest - 1e-9)));
    for (int p = 0; p < pieces && length > 1e-9; ++p) {
      const double half = 0.5 * length / pieces, middle = edge[i - 1] + (2 * p + 1) * half;
      for (const double side : {-1.0, 1.0}) {
        const double y = middle + side * half / std::sqrt(3.0);
        add_point(to, bearer, y, half, ballast_at(bearer, y), gap_at(bearer, y));
      }
    }
  }
}

} // namespace wingnose::track::chain::detail
