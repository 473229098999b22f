#include "links_at_rest.hpp"

#include "wingnose/words/error.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace wingnose::track::chain::detail {
namespace {

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

} // namespace

std::vector<Where> all_links(const Chain& chain) {
  std::vector<Where> where;
  for (int i = 0; i < chain.seats(); ++i) {
    for (int l = 0; l < chain.link[i + 1] - chain.link[i]; ++l) {
      where.push_back({i, l});
    }
  }
  return where;
}

Eigen::VectorXd deviations(const Chain& chain, const Factor& f, const std::vector<Where>& where,
                           const Eigen::VectorXd& free) {
  constexpr int most_rounds = 100;
  const Eigen::MatrixXd Y = compliance_of_links(chain, f, where);
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

} // namespace wingnose::track::chain::detail
