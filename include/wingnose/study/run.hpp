// One case through all its steps: path of the wheel, closed forms, passage, what it means. Every study loops over this.
#pragma once

#include "wingnose/assess/assessment.hpp"
#include "wingnose/case/case.hpp"
#include "wingnose/passage/courses.hpp"
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
using passage::Geometry;
using passage::landing_station;
[[nodiscard]] Geometry geometry(const PathPart& part);
[[nodiscard]] inline Geometry geometry(const Case& c) { return geometry(path_part(c)); }

// All that decides the model of the track: the choices, and the stretch all wheels cover.
struct TrackPart {
  cases::Track track;
  double from, to; // m
  [[nodiscard]] friend bool operator==(const TrackPart&, const TrackPart&) = default;
};
[[nodiscard]] TrackPart track_part(const Case& c); // throws InputError
[[nodiscard]] std::size_t hash(const TrackPart& part);
[[nodiscard]] track::Track track_for(const TrackPart& part); // around all wheels, see track::covering
[[nodiscard]] inline track::Track track_for(const Case& c) { return track_for(track_part(c)); }
[[nodiscard]] track::chain::Model chain_for(const TrackPart& part); // the same as a chain, with its voids
[[nodiscard]] double static_load(const Case& c);                    // N, of the reported wheel

// Closed forms of the case, see assess::estimates.
[[nodiscard]] std::vector<assess::Estimate> estimate(const Case& c, const Geometry& geometry,
                                                     Findings* findings = nullptr);

// What passages of cases that agree in path, track, vehicle and material share, and what this case adds. track: its
// modes; nullptr where the case asks for a chain, which is then made. courses: those of the geometry for the case's
// steel.
[[nodiscard]] std::shared_ptr<const passage::Plan> plan(const Case& c, const Geometry& geometry,
                                                        std::shared_ptr<const track::ModalTrack> track,
                                                        std::shared_ptr<const passage::StepTable> steps = nullptr,
                                                        std::shared_ptr<const passage::StepTable> long_steps = nullptr,
                                                        const std::vector<passage::Course>* courses = nullptr);
// s, of the steps of this passage where the force is smooth: as the case asks, and so short that the filter of P2 sees
// sixteen of them in a period of its cut-off. It follows from the case alone: the same case has the same numbers
// everywhere.
[[nodiscard]] double longest_step(const Case& c);
// s, between two records of fixed places, so short that every filter of theirs sees six in a period of its cut-off. It
// does not bound the steps that find the forces.
[[nodiscard]] double longest_record(const Case& c);
[[nodiscard]] passage::Run run_of(const Case& c, const Geometry& geometry);

// What a passage means, with the closed forms beside it. Throws ComputeError where it does not reach its landing.
[[nodiscard]] assess::Assessment assessment(const Case& c, const Geometry& geometry, const passage::History& history);
// What the path alone means.
[[nodiscard]] assess::Assessment assessment(const Case& c, const Geometry& geometry);

// Throws InputError for a case of another rung; what: that cannot be answered there.
void demand_vertical(const Case& c, std::string_view what);

struct Result {
  Geometry geometry;
  passage::History history;
  assess::Assessment assessment;
};
[[nodiscard]] Result run(const Case& c); // throws InputError on another rung than the vertical one
// With a track built before (shared between cases); modes, whatever the case asks for, unless nullptr.
[[nodiscard]] Result run(const Case& c, std::shared_ptr<const track::ModalTrack> track);

// A passage; the wheel path alone; closed forms alone.
[[nodiscard]] quantity::Tree tell(const Case& c, const Result& result);
[[nodiscard]] quantity::Tree tell(const Case& c, const Geometry& geometry);
[[nodiscard]] quantity::Tree tell_estimates(const Case& c, const Geometry& geometry);
[[nodiscard]] quantity::Tree tell_estimates(const Case& c, const assess::Assessment& assessment);

} // namespace wingnose::study
