#include "wingnose/track/chain/statics.hpp"

#include "blocks.hpp"
#include "parts.hpp"

#include "wingnose/words/error.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace wingnose::track::chain {
namespace {

using detail::first_mode;
using detail::first_unknown;

struct Where {
  int bearer, link;
};

std::vector<Where> all_links(const Chain& chain) {
  std::vector<Where> where;
  for (int i = 0; i < chain.seats(); ++i) {
    for (int l = 0; l < chain.link[i + 1] - chain.link[i]; ++l) {
      where.push_back({i, l});
    }
  }
  return where;
}

// Shortening of every link per newton against each.
Eigen::MatrixXd compliance_of_links(const Chain& chain, const Factor& f, const std::vector<Where>& where) {
  const auto m = static_cast<Eigen::Index>(where.size());
  Eigen::MatrixXd Y(m, m);
  Field field(chain);
  for (Eigen::Index j = 0; j < m; ++j) {
    field.clear();
    add_link_column(chain, f, field, where[j].bearer, where[j].link, 1.0);
    std::array<Complex, most_links> moved{};
    for (Eigen::Index i = 0; i < m; ++i) {
      if (where[i].link == 0) { // all of its bearer
        shortenings(chain, f, field, where[i].bearer,
                    std::span(moved).first(chain.bearer_of(where[i].bearer).links.size()));
      }
      Y(i, j) = moved[where[i].link].real();
    }
  }
  return Y;
}

// Deviations x of the links from their springs: x = law(dead + e) - dead force - k e with e = free - Y x, by Newton's
// method on what touches. free: shortenings without any deviation.
Eigen::VectorXd deviations(const Chain& chain, const std::vector<Where>& where, const Eigen::MatrixXd& Y,
                           const Eigen::VectorXd& free) {
  constexpr int most_rounds = 100;
  const Eigen::Index m = free.size();
  Eigen::VectorXd x = Eigen::VectorXd::Zero(m), r(m);
  double scale = 1.0; // N
  for (Eigen::Index i = 0; i < m; ++i) {
    const Link& link = chain.bearer_of(where[i].bearer).links[where[i].link];
    scale = std::max(scale, link.law.stiffness * std::abs(free[i]));
  }
  double last = std::numeric_limits<double>::infinity();
  double damp = 1.0;
  for (int round = 0; round < most_rounds; ++round) {
    const Eigen::VectorXd e = free - Y * x;
    Eigen::MatrixXd J = Eigen::MatrixXd::Identity(m, m);
    for (Eigen::Index i = 0; i < m; ++i) {
      const LinkLaw& law = chain.bearer_of(where[i].bearer).links[where[i].link].law;
      const int l = chain.link[where[i].bearer] + where[i].link;
      const LinkLaw::Value value = law.at(chain.dead_shortening[l] + e[i], 0.0);
      r[i] = x[i] - (value.force - chain.dead_force[l] - law.stiffness * e[i]);
      J.row(i) += (value.stiffness - law.stiffness) * Y.row(i);
    }
    const double off = r.cwiseAbs().maxCoeff();
    if (off <= 1e-11 * scale) {
      return x;
    }
    if (round > 30 && off >= last) { // places that touch and let go in turn
      damp = std::max(0.5 * damp, 0.1);
    }
    last = off;
    const Eigen::VectorXd change = J.partialPivLu().solve(r);
    if (!change.allFinite()) {
      break;
    }
    x -= damp * change;
  }
  throw ComputeError("the track finds no rest: check that ballast holds it once its gaps are closed");
}

// Force on the whole track, downward.
double total(const Chain& chain, const Field& rhs) {
  double sum = 0.0;
  for (int i = 0; i < chain.seats(); ++i) {
    for (int r = 0; r < chain.rails; ++r) {
      sum += rhs.seat[first_unknown(chain, i, r)].real();
    }
    const BearerShape& bearer = chain.bearer_of(i); // its weight over g is how it moves by 1 everywhere
    sum += rhs.bearer.segment(chain.coordinate[i], bearer.n).real().dot(bearer.weight);
  }
  return sum;
}

// What the ballast bears is what loads the track; where little holds it, rounding decides instead.
void check_held(const Chain& chain, const Motion& motion, double load) {
  double ballast = 0.0;
  for (int i = 0; i < chain.seats(); ++i) {
    ballast += ballast_force(chain, motion, i);
  }
  if (!(std::abs(ballast - load) <= 1e-5 * std::abs(load) + 1e-3)) {
    throw ComputeError("nothing holds the track: give it pads and ballast");
  }
}

// rhs: all forces; solution as displacements.
Motion rest(const Chain& chain, Field& field) {
  const Factor f = factor(chain, 0.0);
  const double load = total(chain, field);
  Motion motion(chain);
  reduce(chain, f, field);
  if (chain.links() > 0) {
    const std::vector<Where> where = all_links(chain);
    Eigen::VectorXd free(chain.links());
    for (Eigen::Index i = 0; i < free.size(); ++i) {
      free[i] = shortening(chain, f, field, where[i].bearer, where[i].link).real();
    }
    const Eigen::VectorXd x = deviations(chain, where, compliance_of_links(chain, f, where), free);
    for (Eigen::Index i = 0; i < free.size(); ++i) {
      motion.link[i] = x[i];
      add_link_column(chain, f, field, where[i].bearer, where[i].link, -x[i]);
    }
  }
  finish(chain, f, field);
  motion.seat = field.seat.real();
  motion.bay = field.bay.real();
  motion.bearer = field.bearer.real();
  check_held(chain, motion, load);
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
    : seat(Eigen::VectorXd::Zero(chain.seats() * 2 * chain.rails)),
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
    add_rail_force(chain, field, rail_point(chain, load.rail, load.x), load.force);
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
      const RailPoint q = rail_point(chain, load.rail, load.x);
      if (q.rail == p.rail && q.bay == p.bay) {
        const RailBay& bay = chain.bay_of(p.bay, p.rail);
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

std::vector<double> static_stiffness(const Chain& chain, int rail, double load, std::span<const double> x) {
  std::vector<double> stiffness;
  stiffness.reserve(x.size());
  if (chain.links() == 0) { // linear: one factor for all
    const Factor f = factor(chain, 0.0);
    for (const double at : x) {
      const RailPoint p = rail_point(chain, rail, at);
      stiffness.push_back(1.0 / (compliance(chain, f, p).real() + p.residual));
    }
    return stiffness;
  }
  for (const double at : x) {
    const std::array<Load, 1> one{{{rail, at, load}}};
    const std::array<RailPoint, 1> there{rail_point(chain, rail, at)};
    stiffness.push_back(load / static_deflection(chain, one, there)[0]);
  }
  return stiffness;
}

} // namespace wingnose::track::chain
