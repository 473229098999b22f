// The motions of a vehicle whose wheelsets are held down on the rails, and where each wheelset stands among them.
#pragma once

#include "wingnose/vehicle/space/rolling.hpp"

#include <vector>

namespace wingnose::vehicle::space {

struct WheelsetOnRails {
  int shift, yaw;      // among the reduced coordinates, -1 where held
  double at_rail;      // -, shift at rail level per shift of the axle
  double half_spacing; // m
  double radius;       // m
  double axle_load;    // N
};
struct OnRails {
  Eigen::MatrixXd shapes; // a column for each motion, over the model's coordinates
  std::vector<std::string> names;
  std::vector<WheelsetOnRails> wheelsets;
};
// What the axle load does to a shifted and to a yawed wheelset.
void add_gravity(const WheelsetOnRails& set, const AnalyticContact& contact, LinearSystem& to);
[[nodiscard]] OnRails on_rails(const SpatialModel& model, const AnalyticContact& contact);

} // namespace wingnose::vehicle::space
