#include "wingnose/track/chain/statics.hpp"

#include "blocks.hpp"
#include "links_at_rest.hpp"
#include "parts.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace wingnose::track::chain {
namespace {

using detail::all_links;
using detail::first_mode;
using detail::first_unknown;
using detail::Where;

// Force on the whole track, downward or sideways.
double total(const Chain& chain, const Field& rhs, Plane plane) {
  double sum = 0.0;
  const int first = plane == Plane::lateral ? chain.rails : 0;
  for (int i = 0; i < chain.seats(); ++i) {
    for (int r = first; r < first + chain.rails; ++r) {
      sum += rhs.seat[first_unknown(chain, i, r)].real();
    }
    if (plane == Plane::lateral) {
      continue;
    }
    const BearerShape& bearer = chain.bearer_of(i); // its weight over g is how it moves by 1 everywhere
    sum += rhs.bearer.segment(chain.coordinate[i], bearer.n).real().dot(bearer.weight);
  }
  return sum;
}

// What the ballast bears is what loads the track; where little holds it, rounding decides instead.
void check_held(const Chain& chain, const Motion& motion, double load, Plane plane) {
  double ballast = 0.0;
  for (int i = 0; i < chain.seats(); ++i) {
    ballast += ballast_force(chain, motion, i, plane);
  }
  if (!(std::abs(ballast - load) <= 1e-5 * std::abs(load) + 1e-3)) {
    throw ComputeError("nothing holds the track: give it pads and ballast");
  }
}

// rhs: all forces; solution as displacements.
Motion rest(const Chain& chain, Field& field) {
  const Factor f = factor(chain, 0.0);
  const double down = total(chain, field, Plane::vertical);
  const double aside = chain.lines > chain.rails ? total(chain, field, Plane::lateral) : 0.0;
  Motion motion(chain);
  reduce(chain, f, field);
  if (chain.links() > 0) {
    const std::vector<Where> where = all_links(chain);
    Eigen::VectorXd free(chain.links());
    for (Eigen::Index i = 0; i < free.size(); ++i) {
      free[i] = shortening(chain, f, field, where[i].bearer, where[i].link).real();
    }
    const Eigen::VectorXd x = detail::deviations(chain, f, where, free);
    for (Eigen::Index i = 0; i < free.size(); ++i) {
      motion.link[i] = x[i];
      add_link_column(chain, f, field, where[i].bearer, where[i].link, -x[i]);
    }
  }
  finish(chain, f, field);
  motion.seat = field.seat.real();
  motion.bay = field.bay.real();
  motion.bearer = field.bearer.real();
  check_held(chain, motion, down, Plane::vertical);
  if (chain.lines > chain.rails) {
    check_held(chain, motion, aside, Plane::lateral);
  }
  return motion;
}

Field own_weight(const Chain& chain) {
  Field field(chain);
  const double g = chain.model.gravity;
  for (int b = 0; b < chain.bays(); ++b) {
    for (int r = 0; r < chain.rails; ++r) {
      const RailBay& bay = chain.bay_of(b, r);
      field.seat.segment<2>(first_unknown(chain, b, r)) += g * bay.weight.head<2>();
      field.seat.segment<2>(first_unknown(chain, b + 1, r)) += g * bay.weight.tail<2>();
      field.bay.segment<most_modes>(first_mode(chain, b, r)) += g * bay.modal_weight;
    }
  }
  for (int i = 0; i < chain.seats(); ++i) {
    field.bearer.segment(chain.coordinate[i], chain.bearer_of(i).n) += g * chain.bearer_of(i).weight;
  }
  return field;
}

} // namespace

Motion::Motion(const Chain& chain)
    : seat(Eigen::VectorXd::Zero(chain.seats() * 2 * chain.lines)),
      bay(Eigen::VectorXd::Zero(static_cast<Eigen::Index>(chain.bay.size()) * most_modes)),
      bearer(Eigen::VectorXd::Zero(chain.coordinate.back())), seat_rate(seat), bay_rate(bay), bearer_rate(bearer),
      link(chain.links(), 0.0) {}

void detail::settle(Chain& chain) {
  // Counted from the weightless track, on which no link bears anything.
  std::fill(chain.dead_shortening.begin(), chain.dead_shortening.end(), 0.0);
  std::fill(chain.dead_force.begin(), chain.dead_force.end(), 0.0);
  Field field = own_weight(chain);
  const Motion motion = rest(chain, field);
  for (const Where& at : all_links(chain)) {
    const BearerShape& bearer = chain.bearer_of(at.bearer);
    const Link& link = bearer.links[at.link];
    const auto q = motion.bearer.segment(chain.coordinate[at.bearer], bearer.n);
    const double e = link.pad >= 0
                         ? motion.seat[first_unknown(chain, at.bearer, link.pad)] - bearer.seat.col(link.pad).dot(q)
                         : bearer.ballast[link.point].shape.dot(q);
    const int l = chain.link[at.bearer] + at.link;
    chain.dead_shortening[l] = e;
    chain.dead_force[l] = link.law.at(e, 0.0).force;
  }
}

Motion dead_weight(const Chain& chain) {
  Chain weightless = chain;
  std::fill(weightless.dead_shortening.begin(), weightless.dead_shortening.end(), 0.0);
  std::fill(weightless.dead_force.begin(), weightless.dead_force.end(), 0.0);
  Field field = own_weight(weightless);
  return rest(weightless, field);
}

Motion at_rest(const Chain& chain, std::span<const Load> loads) {
  Field field(chain);
  for (const Load& load : loads) {
    add_rail_force(chain, field, rail_point(chain, load.rail, load.x, load.plane), load.force);
  }
  return rest(chain, field);
}

std::vector<double> static_deflection(const Chain& chain, std::span<const Load> loads, std::span<const RailPoint> at) {
  const Motion motion = at_rest(chain, loads);
  std::vector<double> w;
  w.reserve(at.size());
  for (const RailPoint& p : at) {
    double sum = rail_deflection(chain, motion, p);
    for (const Load& load : loads) { // what the modes of the loaded bay leave out
      const RailPoint q = rail_point(chain, load.rail, load.x, load.plane);
      if (q.line == p.line && q.bay == p.bay) {
        const RailBay& bay = chain.bay_of(p.bay, p.line);
        double left = detail::held_between(bay, q.inside, p.inside);
        for (int j = 0; j < bay.modes; ++j) {
          left -= q.modal[j] * p.modal[j] / bay.stiffness[j];
        }
        sum += load.force * left;
      }
    }
    w.push_back(sum);
  }
  return w;
}

std::vector<double> static_stiffness(const Chain& chain, int rail, double load, std::span<const double> x,
                                     Plane plane) {
  std::vector<double> stiffness;
  stiffness.reserve(x.size());
  if (chain.links() == 0) { // linear: one factor for all
    const Factor f = factor(chain, 0.0);
    for (const double at : x) {
      const RailPoint p = rail_point(chain, rail, at, plane);
      stiffness.push_back(1.0 / (compliance(chain, f, p).real() + p.residual));
    }
    return stiffness;
  }
  for (const double at : x) {
    const std::array<Load, 1> one{{{rail, at, load, plane}}};
    const std::array<RailPoint, 1> there{rail_point(chain, rail, at, plane)};
    stiffness.push_back(load / static_deflection(chain, one, there)[0]);
  }
  return stiffness;
}

} // namespace wingnose::track::chain
