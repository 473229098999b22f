// From the table of bodies, wheelsets and links to matrices.
#include "ends.hpp"
#include "sound.hpp"

#include "wingnose/words/frame.hpp"

namespace wingnose::vehicle::space {
namespace {

Eigen::VectorXd scattered(const Eigen::Matrix<double, 1, 12>& row, const std::array<int, 12>& at, int size) {
  Eigen::VectorXd out = Eigen::VectorXd::Zero(size);
  for (std::size_t i = 0; i < 12; ++i) {
    if (at[i] >= 0) {
      out(at[i]) += row(static_cast<Eigen::Index>(i));
    }
  }
  return out;
}

void add_link(const Link& link, const Ends& ends, SpatialModel& model) {
  const std::array<int, 12> at = places(model, ends);
  const EndRows stretch = stretch_rows(ends.from_upper, ends.from_lower), turning = turning_rows();
  EndMatrix stiffness = EndMatrix::Zero(), damping = EndMatrix::Zero();
  for (int axis = 0; axis < 3; ++axis) {
    const LinkDirection& along = link.along[static_cast<std::size_t>(axis)];
    const LinkTurning& about = link.about[static_cast<std::size_t>(axis)];
    const EndMatrix moved = stretch.row(axis).transpose() * stretch.row(axis);
    const EndMatrix turned = turning.row(axis).transpose() * turning.row(axis);
    stiffness += along.stiffness * moved + about.stiffness * turned;
    damping += about.damping * turned;
    const bool in_series = along.series_stiffness > 0.0;
    if (along.stop_stiffness > 0.0 || along.blow_off_force > 0.0) {
      model.beyond.push_back({scattered(stretch.row(axis), at, model.size()), along,
                              in_series ? static_cast<int>(model.series.size()) : -1});
    }
    if (in_series) {
      model.series.push_back({scattered(stretch.row(axis), at, model.size()), along.series_stiffness, along.damping});
    } else {
      damping += along.damping * moved;
    }
  }
  scatter(stiffness, at, model.K);
  scatter(damping, at, model.C);
}

void add_part(SpatialModel& model, const std::string& name, const std::array<double, motions>& inertia,
              const Freedom& free, bool wheelset) {
  const auto part = static_cast<int>(model.coordinate.size()) / motions;
  for (int k = 0; k < motions; ++k) {
    const auto motion = static_cast<Motion>(k);
    const int at = index(part, motion);
    model.coordinate.push_back(name + " " + std::string(wingnose::name(motion)));
    model.M(at, at) = inertia[static_cast<std::size_t>(k)];
    if (free[static_cast<std::size_t>(k)] && !(wheelset && motion == Motion::x)) {
      model.free.push_back(at);
    }
  }
  model.weight(index(part, Motion::z)) = inertia[0] * gravity;
}

void add_parts(SpatialModel& model) {
  for (const Wheelset& w : model.vehicle.wheelsets) {
    add_part(model, w.name, {w.mass, w.mass, w.mass, w.roll_inertia, w.spin_inertia, w.yaw_inertia}, w.free, true);
  }
  for (const RigidBody& b : model.vehicle.bodies) {
    add_part(model, b.name, {b.mass, b.mass, b.mass, b.roll_inertia, b.pitch_inertia, b.yaw_inertia}, b.free, false);
  }
}

// A wheelset turns at V / r about its axle, which rolls and yaws with it: its angular momentum J V / r (-yaw, 1, roll)
// changes at J V / r (-yaw', 0, roll').
void add_gyroscopic(SpatialModel& model) {
  for (int part = 0; part < model.wheelsets(); ++part) {
    const Wheelset& wheelset = model.vehicle.wheelsets[static_cast<std::size_t>(part)];
    const double momentum = wheelset.spin_inertia / wheelset.height();
    model.gyroscopic(index(part, Motion::roll), index(part, Motion::yaw)) -= momentum;
    model.gyroscopic(index(part, Motion::yaw), index(part, Motion::roll)) += momentum;
  }
}

} // namespace

int SpatialModel::part(std::string_view name) const { return part_called(vehicle, std::string(name), "part"); }

SpatialModel assemble(const SpatialVehicle& vehicle) {
  check(vehicle);
  SpatialModel model;
  model.vehicle = vehicle;
  const int size = model.size();
  model.M = model.C = model.K = model.geometric = model.gyroscopic = Eigen::MatrixXd::Zero(size, size);
  model.weight = Eigen::VectorXd::Zero(size);
  add_parts(model);
  add_gyroscopic(model);
  const std::vector<Ends> ends = ends_of(vehicle);
  for (std::size_t i = 0; i < ends.size(); ++i) {
    add_link(vehicle.links[i], ends[i], model);
  }
  rest(model, ends);
  return model;
}

} // namespace wingnose::vehicle::space
