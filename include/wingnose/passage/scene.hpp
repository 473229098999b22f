// Everything one passage needs, immutable and shared by threads: path of the wheel over the bodies, law of contact
// along it, modal track with its time step, vehicle matrices, speed. Expensive parts are shared pointers to const.
// Frame: wingnose/words/frame.hpp. SI.
#pragma once

#include "wingnose/contact/hertz.hpp"
#include "wingnose/contact/path_law.hpp"
#include "wingnose/contact/step_search.hpp"
#include "wingnose/layout/path.hpp"
#include "wingnose/passage/step_table.hpp"
#include "wingnose/track/modal.hpp"
#include "wingnose/vehicle/vehicle.hpp"
#include "wingnose/words/names.hpp"

#include <Eigen/Core>

#include <array>
#include <limits>
#include <memory>
#include <vector>

namespace wingnose::passage {

// modal_exponential: exact recurrence of the decoupled modes, contact force found inside the step (default).
// adaptive_runge_kutta: explicit order 5(4) with error control on the same equations, the independent cross-check.
enum class Method { modal_exponential, adaptive_runge_kutta };
constexpr auto names(Method) {
  return std::array{Name{Method::modal_exponential, "modal-exponential", "exact recurrence of the modes"},
                    Name{Method::adaptive_runge_kutta, "runge-kutta", "order 5(4) with error control, to check"}};
}

struct Settings {
  Direction direction = Direction::facing;
  double speed = 30.0;          // m/s, > 0
  double from = -4.0, to = 4.0; // m, stretch covered by the reported wheel, from < to whatever the direction
  double step = 4e-5;           // s; also the sampling step of the history
  Method method = Method::modal_exponential;
  double tolerance = 1e-8; // relative, adaptive method only
  int reported_wheel = 0;  // index, leading wheel = 0
  bool probes = true;      // record rail and bearer motion at fixed points near the landing
};

// The vehicle's own motion over one step under wheel forces that vary linearly in it: s_n+1 = A s_n + B0 f_n + B1
// f_n+1, with s = (displacements, velocities) from static equilibrium, up, and f the wheel forces minus their static
// values.
struct VehicleStep {
  Eigen::MatrixXd transition, input_begin, input_end; // [2m x 2m], [2m x wheels], [2m x wheels]
  Eigen::MatrixXd rate, rate_input;                   // ds/dt = rate s + rate_input f
};
[[nodiscard]] VehicleStep vehicle_step(const vehicle::VehicleModel& vehicle, double step);

struct Scene {
  std::shared_ptr<const layout::WheelPath> path;
  std::shared_ptr<const track::ModalTrack> track;
  std::shared_ptr<const StepTable> steps;
  vehicle::VehicleModel vehicle;
  VehicleStep vehicle_step;
  contact::PathLaw law; // of the contact on each body along the path, for the scene's steel
  // Where given, contact is searched at every step instead (exponential method only); `law` is that of the start.
  std::shared_ptr<const contact::StepSearch> search;
  double combined_modulus = 0.0; // Pa, E* of the scene's steel
  Settings settings;
  double landing_station = std::numeric_limits<double>::quiet_NaN(); // m: transfer or kink; NaN when there is none
  [[nodiscard]] int wheels() const { return vehicle.wheels(); }
  // Station of wheel i when the reported wheel is at x (m).
  [[nodiscard]] double wheel_station(int i, double x) const;
};

// landing_station: where the wheel is expected to land (transfer of kinematics, or the kink); NaN when unknown.
// steps: a table made before for the same track and step, or nullptr to make one. law: of the contact along the path
// (strips_law), or nullptr for Hertz's ellipses. search: of the contact at every step, or nullptr for the law along the
// path. Throws InputError when a wheel would leave the track model, on an unknown wheel index or impossible speeds and
// steps, and for a search with the adaptive method.
[[nodiscard]] Scene make_scene(std::shared_ptr<const layout::WheelPath> path,
                               std::shared_ptr<const track::ModalTrack> track, const vehicle::VehicleModel& vehicle,
                               const Settings& settings, double landing_station, const contact::Elastic& steel = {},
                               std::shared_ptr<const StepTable> steps = nullptr, const contact::PathLaw* law = nullptr,
                               std::shared_ptr<const contact::StepSearch> search = nullptr);

// Static equilibrium of vehicle, contact and track with the reported wheel at station x.
struct Equilibrium {
  Eigen::VectorXd displacement; // m, vehicle coordinates, up, from static equilibrium on a rigid level track
  Eigen::VectorXd force;        // N per wheel
  std::vector<std::array<double, 2>> body_force; // N, [wheel][body]
  std::vector<double> rail;                      // m, deflection under each wheel, downward
};
[[nodiscard]] Equilibrium equilibrium(const Scene& scene,
                                      double x); // throws ComputeError when the wheels find no support

} // namespace wingnose::passage
