// What passages share (Plan) and what one of them adds cheaply (Run). A plan is immutable and serves any number of
// passages and threads: the paths of the wheels, the laws of contact along them, the modal track with its time step,
// the vehicle. None of these knows speed, direction or load, so none is made again for another of them. Frame:
// wingnose/words/frame.hpp. SI.
#pragma once

#include "wingnose/contact/normal/hertz.hpp"
#include "wingnose/contact/path/kinematics.hpp"
#include "wingnose/contact/path/path_law.hpp"
#include "wingnose/contact/path/step_search.hpp"
#include "wingnose/passage/felt.hpp"
#include "wingnose/passage/settings.hpp"
#include "wingnose/passage/step_plan.hpp"
#include "wingnose/passage/step_table.hpp"
#include "wingnose/passage/vehicle_step.hpp"
#include "wingnose/track/chain/stepper.hpp"
#include "wingnose/track/modal.hpp"
#include "wingnose/vehicle/vehicle.hpp"

#include <memory>
#include <optional>
#include <vector>

namespace wingnose::passage {

// What one wheel runs along, made for its own profile, radius and the way it is held. Wheels that are alike share it.
struct Course {
  std::shared_ptr<const contact::WheelPath> path;
  std::shared_ptr<const contact::PathLaw> law = nullptr; // nullptr: Hertz's ellipses of the path
  // Where given, contact is searched at every step instead (exponential method only); `law` is that of the start.
  std::shared_ptr<const contact::StepSearch> search = nullptr;
};

// What a plan is made of.
struct PlanParts {
  std::vector<Course> courses; // one per wheel, leading first, or one that all wheels take; laws for E* = 1 Pa
  std::shared_ptr<const track::ModalTrack> track;
  vehicle::VehicleModel vehicle;
  contact::Elastic steel{};
  double from = -4.0, to = 4.0;                     // m, stretch covered by the reported wheel, in x
  double step = 4e-5;                               // s
  std::shared_ptr<const StepTable> steps = nullptr; // of this track and step; nullptr: one is made
  // The track as a chain in place of `track` and `steps`, which are then nullptr; the wheels run on its rail `rail`. On
  // a chain of two rails every wheel has a partner abreast that carries its static load.
  std::shared_ptr<const track::chain::Chain> chain = nullptr;
  int rail = 0;
  // s, where the force is smooth, steps may be as long: whole multiples of `step`; up to `step` there are no others.
  double longest_step = 0.0;
  std::shared_ptr<const StepTable> long_steps = nullptr; // of this track and that multiple; nullptr: made where needed
  bool laws_for_steel = false;                           // the courses come from for_steel() with this steel
};
// The courses with laws for the steel, which plans of other vehicles on the same paths may share.
[[nodiscard]] std::vector<Course> for_steel(const std::vector<Course>& courses, const contact::Elastic& steel);
// How many of the steps `step` a long one of at most `longest` s holds, 1 or more.
[[nodiscard]] int stride_within(double longest, double step);

struct Plan {
  std::vector<Course> courses;                    // [wheel], laws for the plan's steel
  std::shared_ptr<const track::ModalTrack> track; // modes and their steps, or nullptr ...
  std::shared_ptr<const StepTable> steps, long_steps;
  std::shared_ptr<const track::chain::Chain> chain; // ... and a chain with its steps
  std::shared_ptr<const track::chain::StepFactor> chain_steps, long_chain_steps;
  int rail = 0; // of the chain
  std::shared_ptr<const RunningVehicle> vehicle;
  double step = 0.0;             // s
  int stride = 1;                // steps that a long one holds; 1: there are no long ones
  double combined_modulus = 0.0; // Pa, E* of the steel
  double from = 0.0, to = 0.0;   // m
  [[nodiscard]] int wheels() const { return vehicle->model.wheels(); }
  [[nodiscard]] double track_begin() const { return chain ? chain->begin() : track->begin(); } // m
  [[nodiscard]] double track_end() const { return chain ? chain->end() : track->end(); }
};
// Throws InputError for parts that do not belong together: a window turned round, a path of no stations, three bodies
// or another wheel's radius, a law or search of another path, a step table of another track or step, modes and a chain
// at once.
[[nodiscard]] std::shared_ptr<const Plan> make_plan(PlanParts parts);

// One move over a plan.
struct Run {
  Direction direction = Direction::facing;
  double speed = 30.0;    // m/s, 0.1 .. 200
  int reported_wheel = 0; // index, leading wheel = 0
  // N, static load of the reported wheel, with everything above the wheels laden alike; nullopt: as the vehicle has it.
  std::optional<double> load = std::nullopt;
  Method method = Method::modal_exponential;
  double tolerance = 1e-8;                            // relative, adaptive method only
  bool probes = true;                                 // record rail and bearer motion at fixed points
  std::optional<double> probe_station = std::nullopt; // m, where they lie; nullopt: mid-way
  std::vector<SensorPlace> sensors = {};              // whose motion is recorded with the probes
  double longest_record = 0.0; // s, between two records of fixed places on a chain; up to the plan's step: every step
};
// The run of a case; probe_station: where its wheel is expected to land.
[[nodiscard]] Run run_of(const Settings& settings, std::optional<double> probe_station = std::nullopt);

// A plan and a run that fit each other.
struct Passage {
  std::shared_ptr<const Plan> plan;
  Run run;
  std::shared_ptr<const RunningVehicle> vehicle; // the plan's, or the same under the run's load
  std::vector<Stretch> stretches = {};           // of equal steps, from the first to the last sample
  [[nodiscard]] int wheels() const { return plan->wheels(); }
  // Station of wheel i when the reported wheel is at x (m).
  [[nodiscard]] double wheel_station(int i, double x) const {
    const std::vector<double>& ahead = vehicle->model.wheel_x;
    return x + sense(run.direction) * (ahead[i] - ahead[run.reported_wheel]);
  }
  [[nodiscard]] double start() const { return run.direction == Direction::facing ? plan->from : plan->to; } // m
};
// Throws InputError where a wheel would leave the track model, for an unknown wheel, impossible speeds and loads, and
// for contact searched at every step or a chain with the adaptive method. like: a passage whose plan of steps is taken
// over where it is the same, being that of one wheel on the same course in the same steps, or nullptr.
[[nodiscard]] Passage make_passage(std::shared_ptr<const Plan> plan, const Run& run, const Passage* like = nullptr);

} // namespace wingnose::passage
