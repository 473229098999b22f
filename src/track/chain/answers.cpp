#include "wingnose/track/chain/statics.hpp"

#include "blocks.hpp"
#include "parts.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <numbers>

namespace wingnose::track::chain {
namespace {

using detail::boundary;
using detail::first_mode;
using detail::first_unknown;

// A place on a bearer that is a beam.
struct OnBeam {
  Eigen::Index first; // unknown of the element
  double h, s;        // m, -
};

OnBeam on_beam(const BearerShape& bearer, double y) {
  if (bearer.node.empty() || !(y >= bearer.node.front() && y <= bearer.node.back())) {
    throw InputError("place on the bearer", number(y) + " m across",
                     bearer.node.empty()
                         ? "none, the bearer is lumped"
                         : number(bearer.node.front()) + " to " + number(bearer.node.back()) + " m across",
                     "Describe the bearer as a beam and stay on it.");
  }
  const auto after = std::upper_bound(bearer.node.begin() + 1, bearer.node.end() - 1, y);
  const auto e = static_cast<std::size_t>(after - bearer.node.begin()) - 1;
  const double h = bearer.node[e + 1] - bearer.node[e];
  return {2 * static_cast<Eigen::Index>(e), h, (y - bearer.node[e]) / h};
}

Eigen::VectorXd shape_at(const BearerShape& bearer, const OnBeam& at) {
  const double s = at.s, h = at.h;
  const Eigen::Vector4d w(1 - 3 * s * s + 2 * s * s * s, h * s * (1 - s) * (1 - s), 3 * s * s - 2 * s * s * s,
                          h * s * s * (s - 1));
  return bearer.shapes.middleRows<4>(at.first).transpose() * w;
}

auto coordinates(const Chain& chain, const Eigen::VectorXd& all, int i) {
  return all.segment(chain.coordinate[i], chain.bearer_of(i).n);
}

// Index of the link of a pad or a spot of ballast among the chain's; -1 where there is none.
int link_of(const Chain& chain, int i, int Link::*what, int which) {
  const std::vector<Link>& links = chain.bearer_of(i).links;
  const auto found = std::find_if(links.begin(), links.end(), [&](const Link& l) { return l.*what == which; });
  return found == links.end() ? -1 : chain.link[i] + static_cast<int>(found - links.begin());
}

} // namespace

double rail_deflection(const Chain& chain, const Motion& m, const RailPoint& at) {
  return at.boundary.dot(boundary(chain, m.seat, at.bay, at.rail)) +
         at.modal.dot(m.bay.segment<most_modes>(first_mode(chain, at.bay, at.rail)));
}

double seat_deflection(const Chain& chain, const Motion& m, int i, int rail) {
  return chain.bearer_of(i).seat.col(rail).dot(coordinates(chain, m.bearer, i));
}

double seat_force(const Chain& chain, const Motion& m, int i, int rail) {
  const BearerShape& bearer = chain.bearer_of(i);
  const Eigen::Index w = first_unknown(chain, i, rail);
  const double e = m.seat[w] - bearer.seat.col(rail).dot(coordinates(chain, m.bearer, i));
  const double rate = m.seat_rate[w] - bearer.seat.col(rail).dot(coordinates(chain, m.bearer_rate, i));
  const int link = link_of(chain, i, &Link::pad, rail);
  return bearer.pad[rail].stiffness * e + bearer.pad[rail].damping * rate + (link >= 0 ? m.link[link] : 0.0);
}

std::vector<double> ballast_forces(const Chain& chain, const Motion& m, int i) {
  const BearerShape& bearer = chain.bearer_of(i);
  std::vector<double> force;
  force.reserve(bearer.ballast.size());
  for (std::size_t p = 0; p < bearer.ballast.size(); ++p) {
    const BallastPoint& point = bearer.ballast[p];
    const int link = link_of(chain, i, &Link::point, static_cast<int>(p));
    force.push_back(point.stiffness * point.shape.dot(coordinates(chain, m.bearer, i)) +
                    point.damping * point.shape.dot(coordinates(chain, m.bearer_rate, i)) +
                    (link >= 0 ? m.link[link] : 0.0));
  }
  return force;
}

double ballast_force(const Chain& chain, const Motion& m, int i) {
  double sum = 0.0;
  for (const double force : ballast_forces(chain, m, i)) {
    sum += force;
  }
  return sum;
}

double ballast_pressure(const Chain& chain, const Motion& m, int i) {
  const BearerShape& bearer = chain.bearer_of(i);
  if (const auto* lumped = std::get_if<LumpedBearer>(&chain.model.bearers[i].body)) {
    return ballast_force(chain, m, i) / (lumped->length * bearer.width); // the mean
  }
  const std::vector<double> force = ballast_forces(chain, m, i);
  double most = 0.0;
  for (std::size_t p = 0; p < force.size(); ++p) {
    most = std::max(most, force[p] / (bearer.ballast[p].length * bearer.width));
  }
  return most;
}

double bearer_deflection(const Chain& chain, const Motion& m, int i, double y) {
  const BearerShape& bearer = chain.bearer_of(i);
  return shape_at(bearer, on_beam(bearer, y)).dot(coordinates(chain, m.bearer, i));
}

double bearer_moment(const Chain& chain, const Motion& m, int i, double y) {
  const BearerShape& bearer = chain.bearer_of(i);
  const OnBeam at = on_beam(bearer, y);
  const double h = at.h, s = at.s;
  const Eigen::Vector4d curvature(-6 + 12 * s, h * (-4 + 6 * s), 6 - 12 * s, h * (-2 + 6 * s));
  const Eigen::Vector4d nodal = bearer.shapes.middleRows<4>(at.first) * coordinates(chain, m.bearer, i);
  // Downward deflections: a beam whose lower side is stretched has w'' < 0. The cubic leaves out what the ballast under
  // its element bends, as if its ends were held.
  double pressure = 0.0, nearest = std::numeric_limits<double>::infinity(); // N/m, of the spot next to y
  const std::vector<double> force = ballast_forces(chain, m, i);
  for (std::size_t p = 0; p < force.size(); ++p) {
    if (std::abs(bearer.ballast[p].y - y) < nearest) {
      nearest = std::abs(bearer.ballast[p].y - y);
      pressure = force[p] / bearer.ballast[p].length;
    }
  }
  return -bearer.EI * curvature.dot(nodal) / (h * h) - pressure * h * h * (6 * s - 6 * s * s - 1) / 12;
}

double bearer_strain(const Chain& chain, const Motion& m, int i, double y) {
  const BearerShape& bearer = chain.bearer_of(i);
  return bearer_moment(chain, m, i, y) * 0.5 * bearer.depth / bearer.EI;
}

double energy(const Chain& chain, const Motion& m) {
  double sum = 0.0;
  for (int b = 0; b < chain.bays(); ++b) {
    for (int r = 0; r < chain.rails; ++r) {
      const RailBay& bay = chain.bay_of(b, r);
      const Eigen::Vector4d u = boundary(chain, m.seat, b, r), v = boundary(chain, m.seat_rate, b, r);
      const Modes q = m.bay.segment<most_modes>(first_mode(chain, b, r));
      const Modes p = m.bay_rate.segment<most_modes>(first_mode(chain, b, r));
      sum += u.dot(bay.K * u) + v.dot(bay.M * v) + q.dot(bay.stiffness.cwiseProduct(q)) + p.squaredNorm() +
             2.0 * v.dot(bay.coupling * p);
    }
  }
  for (int i = 0; i < chain.seats(); ++i) {
    const BearerShape& bearer = chain.bearer_of(i);
    const auto q = coordinates(chain, m.bearer, i);
    sum += q.dot(bearer.stiffness.cwiseProduct(q)) + coordinates(chain, m.bearer_rate, i).squaredNorm();
    for (int r = 0; r < chain.rails; ++r) {
      const double e = m.seat[first_unknown(chain, i, r)] - bearer.seat.col(r).dot(q);
      sum += bearer.pad[r].stiffness * e * e;
    }
  }
  return 0.5 * sum;
}

std::vector<Complex> receptance(const Chain& chain, const RailPoint& load, const RailPoint& at,
                                std::span<const double> frequency) {
  std::vector<Complex> answer;
  answer.reserve(frequency.size());
  Field field(chain);
  double left = 0.0; // static compliance of the loaded bay that its modes leave out
  if (load.bay == at.bay && load.rail == at.rail) {
    const RailBay& bay = chain.bay_of(at.bay, at.rail);
    left = detail::held_between(bay, load.inside, at.inside);
    for (int j = 0; j < bay.modes; ++j) {
      left -= load.modal[j] * at.modal[j] / bay.stiffness[j];
    }
  }
  for (const double hertz : frequency) {
    const Factor f = factor(chain, Complex(0.0, 2.0 * std::numbers::pi * hertz), true);
    field.clear();
    add_rail_column(chain, f, field, load, 1.0);
    answer.push_back(deflection(chain, f, field, at) + left / Complex(1.0, chain.model.rail_loss));
  }
  return answer;
}

std::vector<Complex> bearer_receptance(const Chain& chain, const RailPoint& load, int i, int rail, double y,
                                       std::span<const double> frequency) {
  const BearerShape& bearer = chain.bearer_of(i);
  const Eigen::VectorXd shape =
      bearer.node.empty() ? Eigen::VectorXd(bearer.seat.col(rail)) : shape_at(bearer, on_beam(bearer, y));
  std::vector<Complex> answer;
  answer.reserve(frequency.size());
  Field field(chain);
  for (const double hertz : frequency) {
    const Factor f = factor(chain, Complex(0.0, 2.0 * std::numbers::pi * hertz), true);
    field.clear();
    add_rail_column(chain, f, field, load, 1.0);
    finish(chain, f, field);
    answer.push_back((field.bearer.segment(chain.coordinate[i], bearer.n).transpose() * shape.cast<Complex>())(0));
  }
  return answer;
}

} // namespace wingnose::track::chain
