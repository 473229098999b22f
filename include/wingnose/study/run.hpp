// One case through all its steps: path of the wheel, closed forms, passage, what it means. Every study loops over this.
#pragma once

#include "wingnose/assess/assessment.hpp"
#include "wingnose/case/case.hpp"
#include "wingnose/contact/path/path_law.hpp"
#include "wingnose/contact/path/step_search.hpp"
#include "wingnose/passage/plan.hpp"
#include "wingnose/quantity/tree.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

namespace wingnose::study {

using cases::Case;

// All that decides the path of the wheel, how its contact follows it and how it is read. Nothing else of a case reaches
// `geometry`, so cases that agree in it share the path.
struct PathPart {
  layout::Excitation excitation;
  cases::PlainRail plain_rail;
  cases::Wheel wheel; // its radius left out
  cases::Contact contact;
  double from, to; // m, stations any wheel of the vehicle covers
  contact::KinematicsOptions kinematics;
  std::vector<double> radii; // m, of all wheels, the leading one first
  std::size_t reported;      // index of the wheel whose path is read
  [[nodiscard]] friend bool operator==(const PathPart&, const PathPart&) = default;
};
[[nodiscard]] PathPart path_part(const Case& c); // throws InputError
[[nodiscard]] std::size_t hash(const PathPart& part);

// The path (shared, reusable by every case with the same path part) and what it means.
struct Geometry {
  std::shared_ptr<const contact::WheelPath> path;
  std::shared_ptr<const contact::PathLaw> law;       // of the contact along the path for E* = 1 Pa; null: ellipses
  std::shared_ptr<const contact::StepSearch> search; // of the contact at every step; null: the law along the path
  std::vector<passage::Course> courses;              // of every wheel; the three above are those of the reported one
  std::optional<layout::Crossing> crossing;
  profile::WheelProfile wheel; // as rolled
  contact::Kinematics kinematics;
  Findings findings;
};
[[nodiscard]] Geometry geometry(const PathPart& part);
[[nodiscard]] inline Geometry geometry(const Case& c) { return geometry(path_part(c)); }

// Where the wheel is expected to land: the kinematic transfer, or the kink of a prescribed path (m). Throws
// ComputeError when there is neither.
[[nodiscard]] double landing_station(const Geometry&);

// All that decides the model of the track: the choices, and the stretch all wheels cover.
struct TrackPart {
  cases::Track track;
  double from, to; // m
  [[nodiscard]] friend bool operator==(const TrackPart&, const TrackPart&) = default;
};
[[nodiscard]] TrackPart track_part(const Case& c); // throws InputError
[[nodiscard]] std::size_t hash(const TrackPart& part);
// Its length extended so that all wheels stay inside with margin.
[[nodiscard]] track::Track track_for(const TrackPart& part);
[[nodiscard]] inline track::Track track_for(const Case& c) { return track_for(track_part(c)); }

// Closed forms of the case for each lumped track, "derived" first. One that does not exist for a case is left out, and
// `findings`, where given, says why.
[[nodiscard]] std::vector<assess::Estimate> estimate(const Case& c, const Geometry& geometry,
                                                     Findings* findings = nullptr);

// What passages of cases that agree in path, track, vehicle and material share, and what this case adds.
[[nodiscard]] std::shared_ptr<const passage::Plan> plan(const Case& c, const Geometry& geometry,
                                                        std::shared_ptr<const track::ModalTrack> track,
                                                        std::shared_ptr<const passage::StepTable> steps = nullptr);
[[nodiscard]] passage::Run run_of(const Case& c, const Geometry& geometry);

// What a passage means, with the closed forms beside it. Throws ComputeError where it does not reach its landing.
[[nodiscard]] assess::Assessment assessment(const Case& c, const Geometry& geometry, const passage::History& history);
// What the path alone means.
[[nodiscard]] assess::Assessment assessment(const Case& c, const Geometry& geometry);

struct Result {
  Geometry geometry;
  passage::History history;
  assess::Assessment assessment;
};
[[nodiscard]] Result run(const Case& c);
// With a track built before (shared between cases).
[[nodiscard]] Result run(const Case& c, std::shared_ptr<const track::ModalTrack> track);

// A passage; the wheel path alone; closed forms alone.
[[nodiscard]] quantity::Tree tell(const Case& c, const Result& result);
[[nodiscard]] quantity::Tree tell(const Case& c, const Geometry& geometry);
[[nodiscard]] quantity::Tree tell_estimates(const Case& c, const Geometry& geometry);
[[nodiscard]] quantity::Tree tell_estimates(const Case& c, const assess::Assessment& assessment);

} // namespace wingnose::study
