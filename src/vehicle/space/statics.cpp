// The vehicle at rest, and leaning under a lateral acceleration.
#include "ends.hpp"
#include "loose_motions.hpp"

#include "wingnose/words/error.hpp"

#include <Eigen/Cholesky>

#include <cmath>

namespace wingnose::vehicle::space {
namespace {

std::vector<int> free_of_bodies(const SpatialModel& model) {
  std::vector<int> out;
  for (const int at : model.free) {
    if (at >= index(model.wheelsets(), Motion::x)) {
      out.push_back(at);
    }
  }
  return out;
}

void require_carried(const SpatialModel& model, const Eigen::MatrixXd& K, const std::vector<int>& at) {
  std::vector<std::string> names;
  names.reserve(at.size());
  for (const int i : at) {
    names.push_back(model.coordinate[static_cast<std::size_t>(i)]);
  }
  if (const std::string list = vehicle::detail::loose_motions(K, names); !list.empty()) {
    throw InputError("links of the vehicle", "a motion that no link carries (" + list + ")",
                     "every motion of a body carried by springs or held",
                     "Add the missing link, or hold that coordinate of the body.");
  }
}

// Displacements of the bodies under a force on them, the wheelsets held.
Eigen::VectorXd settle(const SpatialModel& model, const Eigen::MatrixXd& K, const Eigen::VectorXd& force) {
  const std::vector<int> at = free_of_bodies(model);
  Eigen::VectorXd out = Eigen::VectorXd::Zero(model.size());
  if (!at.empty()) {
    const Eigen::VectorXd moved = K(at, at).ldlt().solve(Eigen::VectorXd(force(at)));
    out(at) = moved;
  }
  return out;
}

// Loads of a wheelset's two wheels from what its rails give it: force upward, lateral force at rail level, moment about
// its centre of gravity.
std::array<double, 2> shared_load(const Wheelset& wheelset, double upward, double lateral, double moment) {
  const double couple = (moment - wheelset.height() * lateral) / wheelset.half_spacing; // load at +y less that at -y
  return {0.5 * (upward + couple), 0.5 * (upward - couple)};
}

std::vector<std::array<double, 2>> loads(const SpatialModel& model, const Eigen::VectorXd& from_rails) {
  std::vector<std::array<double, 2>> out;
  out.reserve(static_cast<std::size_t>(model.wheelsets()));
  for (int part = 0; part < model.wheelsets(); ++part) {
    out.push_back(shared_load(model.vehicle.wheelsets[static_cast<std::size_t>(part)],
                              from_rails(index(part, Motion::z)), from_rails(index(part, Motion::y)),
                              from_rails(index(part, Motion::roll))));
  }
  return out;
}

} // namespace

void rest(SpatialModel& model, const std::vector<Ends>& ends) {
  if (const std::vector<int> at = free_of_bodies(model); !at.empty()) {
    require_carried(model, model.K(at, at), at);
  }
  model.settled = settle(model, model.K, -model.weight);
  for (std::size_t i = 0; i < ends.size(); ++i) {
    const Link& link = model.vehicle.links[i];
    const std::array<int, 12> at = places(model, ends[i]);
    Eigen::Matrix<double, 12, 1> moved;
    for (std::size_t k = 0; k < 12; ++k) {
      moved(static_cast<Eigen::Index>(k)) = at[k] < 0 ? 0.0 : model.settled(at[k]);
    }
    const Eigen::Vector3d stiffness(link.along[0].stiffness, link.along[1].stiffness, link.along[2].stiffness);
    const Eigen::Vector3d tension =
        stiffness.cwiseProduct(stretch_rows(ends[i].from_upper, ends[i].from_lower) * moved);
    model.preload.emplace_back(-tension);
    scatter(geometric_matrix(tension, ends[i].from_upper, ends[i].from_lower, link.axes_with_upper), at,
            model.geometric);
  }
  model.wheel_load = loads(model, model.K * model.settled + model.weight);
  for (int part = 0; part < model.wheelsets(); ++part) {
    for (const double load : model.wheel_load[static_cast<std::size_t>(part)]) {
      if (!(load > 0.0)) {
        throw InputError("wheelset \"" + model.vehicle.wheelsets[static_cast<std::size_t>(part)].name + "\"",
                         "a static wheel load of " + number(load / 1e3) + " kN", "greater than 0",
                         "The bodies above tip over their links; check where these and the centres of gravity are.");
      }
    }
  }
}

Lean lean(const SpatialModel& model, double lateral_acceleration, const Terms& terms) {
  const Eigen::MatrixXd K = terms.geometric ? Eigen::MatrixXd(model.K + model.geometric) : model.K;
  Eigen::VectorXd force = Eigen::VectorXd::Zero(model.size());
  for (int part = 0; part < model.parts(); ++part) {
    const int y = index(part, Motion::y);
    force(y) = -model.M(y, y) * lateral_acceleration;
  }
  Lean out{settle(model, K, force), model.wheel_load};
  const auto change = loads(model, K * out.displacement - force);
  for (std::size_t i = 0; i < change.size(); ++i) {
    out.wheel_load[i][0] += change[i][0];
    out.wheel_load[i][1] += change[i][1];
  }
  return out;
}

} // namespace wingnose::vehicle::space
