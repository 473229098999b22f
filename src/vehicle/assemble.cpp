// From the table of bodies and elements to matrices and static wheel loads.
#include "checks.hpp"
#include "loose_motions.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>

namespace wingnose::vehicle {
namespace {

// Where a body or wheel sits among the coordinates; pitch = -1 where it cannot pitch.
struct Place {
  std::string name;
  Eigen::Index heave;
  Eigen::Index pitch;
  double x;
};

std::vector<Place> places(const Vehicle& vehicle) {
  std::vector<Place> out;
  Eigen::Index next = 0;
  for (const Wheel& wheel : vehicle.wheels) {
    out.push_back({wheel.name, next++, -1, wheel.x});
  }
  for (const Body& body : vehicle.bodies) {
    const Eigen::Index heave = next++;
    out.push_back({body.name, heave, body.pitch_inertia > 0.0 ? next++ : -1, body.x});
  }
  return out;
}

const Place& place_of(const std::vector<Place>& all, const std::string& name) {
  return *std::find_if(all.begin(), all.end(), [&name](const Place& place) { return place.name == name; });
}

// Upward movement at x of one end, as a row over the coordinates: z + (x - x_centre) phi.
void add_end(Eigen::VectorXd& row, const Place& place, double x, double sign) {
  row(place.heave) += sign;
  if (place.pitch >= 0) {
    row(place.pitch) += sign * (x - place.x);
  }
}

void require_supported(const Eigen::MatrixXd& K, const std::vector<std::string>& names) {
  if (const std::string list = detail::loose_motions(K, names); !list.empty()) {
    throw InputError("suspension of the vehicle", "a motion without support (" + list + ")",
                     "every body carried by springs, two or more apart if it can pitch",
                     "Add the missing spring, or set pitch_inertia to 0 for a body that cannot pitch.");
  }
}

Eigen::VectorXd displacement(const Eigen::MatrixXd& K, const Eigen::VectorXd& weight, Eigen::Index wheels) {
  const Eigen::Index bodies = K.rows() - wheels;
  Eigen::VectorXd out = Eigen::VectorXd::Zero(K.rows());
  if (bodies > 0) {
    out.tail(bodies) = -K.bottomRightCorner(bodies, bodies).ldlt().solve(weight.tail(bodies));
  }
  return out;
}

std::vector<double> static_loads(const VehicleModel& model, const Vehicle& vehicle) {
  // Row of a wheel in K u = -weight + wheel force.
  const Eigen::VectorXd force = model.K * static_displacement(model) + model.weight;
  std::vector<double> loads(force.data(), force.data() + model.wheels());
  for (std::size_t i = 0; i < loads.size(); ++i) {
    if (!(loads[i] > 0.0)) {
      throw InputError("wheel \"" + vehicle.wheels[i].name + "\"", "a static load of " + number(loads[i] / 1e3) + " kN",
                       "greater than 0",
                       "The bodies above tip over their supports; check that x is negative behind the leading wheel.");
    }
  }
  return loads;
}

} // namespace

Eigen::VectorXd static_displacement(const VehicleModel& model) {
  return displacement(model.K, model.weight, model.wheels());
}

VehicleModel assemble(const Vehicle& vehicle) {
  check(vehicle);
  const std::vector<Place> all = places(vehicle);
  const auto wheels = static_cast<Eigen::Index>(vehicle.wheels.size());

  VehicleModel model;
  std::vector<double> masses;
  std::vector<double> weights;
  for (const Wheel& wheel : vehicle.wheels) {
    model.wheel_x.push_back(wheel.x);
    model.wheel_radius.push_back(wheel.radius);
    model.coordinate.push_back(wheel.name);
    model.motion.push_back(Motion::wheel);
    masses.push_back(wheel.unsprung_mass);
    weights.push_back(wheel.unsprung_mass * gravity);
  }
  for (const Body& body : vehicle.bodies) {
    model.coordinate.push_back(body.name + " heave");
    model.motion.push_back(Motion::heave);
    masses.push_back(body.mass);
    weights.push_back(body.mass * gravity);
    if (body.pitch_inertia > 0.0) {
      model.coordinate.push_back(body.name + " pitch");
      model.motion.push_back(Motion::pitch);
      masses.push_back(body.pitch_inertia);
      weights.push_back(0.0);
    }
  }
  const auto size = static_cast<Eigen::Index>(masses.size());
  model.M = Eigen::Map<const Eigen::VectorXd>(masses.data(), size).asDiagonal();
  model.weight = Eigen::Map<const Eigen::VectorXd>(weights.data(), size);
  model.C = Eigen::MatrixXd::Zero(size, size);
  model.K = Eigen::MatrixXd::Zero(size, size);
  for (const Suspension& element : vehicle.suspensions) {
    Eigen::VectorXd stretch = Eigen::VectorXd::Zero(size);
    add_end(stretch, place_of(all, element.upper), element.x, 1.0);
    add_end(stretch, place_of(all, element.lower), element.x, -1.0);
    model.K += element.stiffness * stretch * stretch.transpose();
    model.C += element.damping * stretch * stretch.transpose();
  }
  if (size > wheels) {
    const std::vector<std::string> names(model.coordinate.begin() + wheels, model.coordinate.end());
    require_supported(model.K.bottomRightCorner(size - wheels, size - wheels), names);
  }
  model.static_load = static_loads(model, vehicle);
  return model;
}

Vehicle one_side_of(Vehicle both) {
  for (Body& body : both.bodies) {
    body.mass /= 2;
    body.pitch_inertia /= 2;
  }
  for (Wheel& wheel : both.wheels) {
    wheel.unsprung_mass /= 2;
  }
  for (Suspension& suspension : both.suspensions) {
    suspension.stiffness /= 2;
    suspension.damping /= 2;
  }
  return both;
}

VehicleModel laden(const VehicleModel& model, int wheel, double load) {
  const double own = model.weight[wheel], carried = model.static_load[static_cast<std::size_t>(wheel)] - own;
  const double factor = (load - own) / carried;
  if (!(carried > 0.0 && factor > 0.0 && std::isfinite(factor))) {
    throw InputError("load of wheel " + std::to_string(wheel + 1), number(load / 1e3) + " kN",
                     "above the weight of the wheel itself, " + number(own / 1e3) +
                         " kN, on a wheel that carries more than that",
                     "Give the static load of the wheel, or another vehicle.");
  }
  VehicleModel other = model;
  const Eigen::Index wheels = model.wheels(), above = model.M.rows() - wheels;
  other.M.bottomRightCorner(above, above) *= factor;
  other.weight.tail(above) *= factor;
  for (Eigen::Index w = 0; w < wheels; ++w) {
    const auto i = static_cast<std::size_t>(w);
    other.static_load[i] = model.weight[w] + factor * (model.static_load[i] - model.weight[w]);
  }
  return other;
}

} // namespace wingnose::vehicle
