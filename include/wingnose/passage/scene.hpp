// Everything one passage needs, immutable and shared by threads: path of the wheel over the bodies, contact stiffness
// along it, modal track, vehicle matrices, speed and steps. Built from values by `make_scene`; expensive parts are
// shared pointers to const. Frame: wingnose/frame.hpp. SI.
#pragma once

#include "wingnose/contact/hertz.hpp"
#include "wingnose/crossing/path.hpp"
#include "wingnose/track/modal.hpp"
#include "wingnose/vehicle/vehicle.hpp"

#include <memory>

namespace wingnose::passage {

enum class Method { modal_exponential, adaptive_runge_kutta };

struct Settings {
  Direction direction = Direction::facing;
  double speed = 30.0;          // m/s
  double from = -4.0, to = 4.0; // m, stations of the reported wheel at start and end in the sense of x (from < to)
  double step = 2.5e-5;         // s
  Method method = Method::modal_exponential;
  double tolerance = 1e-8; // relative, adaptive method only
  int reported_wheel = 0;  // index, leading wheel = 0
  bool probes = true;      // record rail and bearer accelerations near the landing
};

struct Scene {
  std::shared_ptr<const crossing::WheelPath> path;
  std::shared_ptr<const track::ModalTrack> track;
  vehicle::VehicleModel vehicle;
  std::vector<std::vector<double>>
      contact_stiffness; // N/m^1.5 vertical, per body over path->station (incl. contact angle)
  Settings settings;
  double landing_station; // m: transfer station, or the kink of a prescribed path; NaN when there is none
};
[[nodiscard]] Scene make_scene(std::shared_ptr<const crossing::WheelPath> path,
                               std::shared_ptr<const track::ModalTrack> track, const vehicle::VehicleModel& vehicle,
                               const Settings& settings, const contact::Elastic& material = {});
// As above for paths whose landing is not stored in the path (transfer found by kinematics).
[[nodiscard]] Scene with_landing(Scene scene, double landing_station);

} // namespace wingnose::passage
