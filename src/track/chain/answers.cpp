#include "wingnose/track/chain/statics.hpp"

#include "blocks.hpp"
#include "on_beam.hpp"
#include "parts.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::track::chain {
namespace {

using detail::boundary;
using detail::first_mode;
using detail::first_unknown;

using detail::line_of;
using detail::on_beam;
using detail::OnBeam;
using detail::shape_at;

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
  return at.boundary.dot(boundary(chain, m.seat, at.bay, at.line)) +
         at.modal.dot(m.bay.segment<most_modes>(first_mode(chain, at.bay, at.line)));
}

double rail_velocity(const Chain& chain, const Motion& m, const RailPoint& at) {
  return at.boundary.dot(boundary(chain, m.seat_rate, at.bay, at.line)) +
         at.modal.dot(m.bay_rate.segment<most_modes>(first_mode(chain, at.bay, at.line)));
}

double seat_velocity(const Chain& chain, const Motion& m, int i, int rail) {
  return chain.bearer_of(i).seat.col(line_of(chain, rail, Plane::vertical)).dot(coordinates(chain, m.bearer_rate, i));
}

double seat_deflection(const Chain& chain, const Motion& m, int i, int rail, Plane plane) {
  return chain.bearer_of(i).seat.col(line_of(chain, rail, plane)).dot(coordinates(chain, m.bearer, i));
}

double seat_force(const Chain& chain, const Motion& m, int i, int rail, Plane plane) {
  const BearerShape& bearer = chain.bearer_of(i);
  const int line = line_of(chain, rail, plane);
  const Eigen::Index w = first_unknown(chain, i, line);
  const double e = m.seat[w] - bearer.seat.col(line).dot(coordinates(chain, m.bearer, i));
  const double rate = m.seat_rate[w] - bearer.seat.col(line).dot(coordinates(chain, m.bearer_rate, i));
  const int link = link_of(chain, i, &Link::pad, line);
  return bearer.pad[line].stiffness * e + bearer.pad[line].damping * rate + (link >= 0 ? m.link[link] : 0.0);
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

double ballast_force(const Chain& chain, const Motion& m, int i, Plane plane) {
  if (plane == Plane::lateral) {
    (void)line_of(chain, 0, plane);
    const BearerShape& bearer = chain.bearer_of(i);
    return bearer.ballast_force.dot(coordinates(chain, m.bearer, i)) +
           bearer.ballast_damping.dot(coordinates(chain, m.bearer_rate, i));
  }
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

double bearer_slope(const Chain& chain, const Motion& m, int i, double y) {
  const BearerShape& bearer = chain.bearer_of(i);
  const OnBeam at = on_beam(bearer, y);
  const double s = at.s, h = at.h;
  const Eigen::Vector4d slope(6 * (s * s - s) / h, 1 - 4 * s + 3 * s * s, 6 * (s - s * s) / h, 3 * s * s - 2 * s);
  return slope.dot(bearer.shapes.middleRows<4>(at.first) * coordinates(chain, m.bearer, i));
}

double bearer_shift(const Chain& chain, const Motion& m, int i) {
  (void)line_of(chain, 0, Plane::lateral);
  return chain.bearer_of(i).shift.dot(coordinates(chain, m.bearer, i));
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
    for (int r = 0; r < chain.lines; ++r) {
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
    for (int r = 0; r < chain.lines; ++r) {
      const double e = m.seat[first_unknown(chain, i, r)] - bearer.seat.col(r).dot(q);
      sum += bearer.pad[r].stiffness * e * e;
    }
  }
  return 0.5 * sum;
}

double damping_power(const Chain& chain, const Motion& m) {
  double sum = 0.0;
  for (int i = 0; i < chain.seats(); ++i) {
    const BearerShape& bearer = chain.bearer_of(i);
    const auto q = coordinates(chain, m.bearer_rate, i);
    sum += q.dot(bearer.damping * q);
    for (int r = 0; r < chain.lines; ++r) {
      const double e = m.seat_rate[first_unknown(chain, i, r)] - bearer.seat.col(r).dot(q);
      sum += bearer.pad[r].damping * e * e;
    }
  }
  return sum;
}

} // namespace wingnose::track::chain
