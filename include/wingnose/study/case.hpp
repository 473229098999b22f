// One case: all a user asked for, in SI, validated. The unit every study loops over. Files are read by the room io.
#pragma once

#include "wingnose/assess/damage.hpp"
#include "wingnose/assess/measures.hpp"
#include "wingnose/assess/steel.hpp"
#include "wingnose/closedform/joint_forces.hpp"
#include "wingnose/contact/normal/normal_law.hpp"
#include "wingnose/contact/path/kinematics.hpp"
#include "wingnose/passage/history.hpp"
#include "wingnose/passage/plan.hpp"
#include "wingnose/track/track.hpp"
#include "wingnose/vehicle/vehicle.hpp"

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace wingnose::study {

struct InputFile {
  std::string role, path, sha256;
};

// Joint and given path run on plain rail `rail_head` with `rail_inclination`.
using Excitation = std::variant<layout::CrossingShape, layout::SectionedShape, layout::DippedJoint, layout::GivenPath>;

struct Case {
  std::string name = "case";
  Excitation excitation = layout::CrossingShape{};
  profile::WheelProfile wheel = profile::s1002();
  double lateral_offset = 0.0;     // m
  double roll = 0.0, yaw = 0.0;    // rad, of the wheel on a crossing, see contact::PathOptions; 0 on prescribed paths
  std::string rail_head = "60E1";  // plain-line contact of prescribed paths
  double rail_inclination = 0.025; // rad
  vehicle::Vehicle vehicle;
  track::Track track;
  contact::Elastic steel;
  contact::NormalLaw normal_law = contact::Ellipse{}; // of the contact in the passage
  // step: searched under the wheel at every step, for crossings; some hundred times slower, to check the other.
  contact::SearchAt contact_search = contact::SearchAt::path;
  passage::Settings passage;
  contact::KinematicsOptions kinematics;
  assess::MeasureOptions measures;
  assess::Steel grade = assess::steel("R350HT"); // of wing and nose, for damage; study/steel_damage.hpp
  assess::DamageOptions damage;
  std::vector<closedform::ConstantSet> lumped; // closed-form track sets to report; empty: derived from the track
  std::vector<InputFile> inputs;               // files the case came from
  std::string source_text;                     // the case file as read
};

// Geometry step: the path (shared, reusable by every case on the same crossing with the same wheel, held the same
// way) and its kinematics.
struct Geometry {
  std::shared_ptr<const contact::WheelPath> path;
  std::shared_ptr<const contact::PathLaw> law;       // of the contact along the path for E* = 1 Pa; null: ellipses
  std::shared_ptr<const contact::StepSearch> search; // of the contact at every step; null: the law along the path
  std::vector<passage::Course> courses;              // of every wheel; the three above are those of the reported one
  std::optional<layout::Crossing> crossing;
  contact::Kinematics kinematics;
};
[[nodiscard]] Geometry geometry(const Case&);

// Closed forms of the case, for each lumped track.
struct Estimate {
  std::string track_name;
  closedform::JointCase input;
  closedform::JointForces forces;
  std::string assumptions;
};
[[nodiscard]] std::vector<Estimate> estimate(const Case&, const Geometry&);

// Where the wheel is expected to land: the kinematic transfer, or the kink of a prescribed path (m). Throws
// ComputeError when there is neither.
[[nodiscard]] double landing_station(const Geometry&);

// The track model of a case: length extended so that all wheels stay inside with margin.
[[nodiscard]] track::Track track_for(const Case&);

// What passages of a case share, from parts that may be shared between cases: the track model and its step table.
[[nodiscard]] std::shared_ptr<const passage::Plan> plan(const Case&, const Geometry&,
                                                        std::shared_ptr<const track::ModalTrack> track,
                                                        std::shared_ptr<const passage::StepTable> steps = nullptr);
// The run of the case over such a plan, its probes where the wheel is expected to land.
[[nodiscard]] passage::Run run_of(const Case&, const Geometry&);

struct Result {
  Geometry geometry;
  passage::History history;
  assess::Measures measures;
  std::vector<Estimate> estimates;
};
[[nodiscard]] Result run(const Case&);
// With a track built before (shared between cases).
[[nodiscard]] Result run(const Case&, std::shared_ptr<const track::ModalTrack> track);

} // namespace wingnose::study
