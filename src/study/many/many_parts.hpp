// What cases share: tracks, their step tables, wheel paths, plans.
#pragma once

#include "wingnose/numeric/shared_parts.hpp"
#include "wingnose/study/many.hpp"

#include <functional>

namespace wingnose::study {

struct TableKey {
  std::size_t track; // index of a track
  double step;       // s
  int stride;        // as passage::Plan::stride
  [[nodiscard]] friend bool operator==(const TableKey&, const TableKey&) = default;
};
struct TrackWithSteps {
  std::shared_ptr<const track::ModalTrack> track;
  std::shared_ptr<const passage::StepTable> steps, long_steps;
};

// Paths with laws for a steel.
struct CoursesKey {
  std::size_t geometry; // index
  contact::Elastic material;
  [[nodiscard]] friend bool operator==(const CoursesKey&, const CoursesKey&) = default;
};

// The vehicle belongs to the key also because one that cannot be assembled must not spoil the cases of others.
struct PlanKey {
  std::size_t geometry, table; // indices
  contact::Elastic material;
  cases::Vehicle vehicle;
  std::optional<double> radius; // m, where the case replaces that of all wheels
  double from, to;              // m
  [[nodiscard]] friend bool operator==(const PlanKey&, const PlanKey&) = default;
};
struct PlanOnPath {
  std::shared_ptr<const Geometry> geometry;
  std::shared_ptr<const passage::Plan> plan;
};

// Where one case finds its parts.
struct Places {
  std::size_t track = 0, table = 0, geometry = 0, courses = 0, plan = 0;
};

struct SharedParts::Pools {
  // Throws InputError.
  [[nodiscard]] Places find(const Case& c) {
    const auto mixed = [](std::size_t hash, double value) {
      return hash * 0x9E3779B97F4A7C15ULL + std::hash<double>{}(value);
    };
    Places at;
    const TrackPart track = track_part(c);
    const std::size_t track_hash = hash(track);
    at.track = tracks_.find(track_hash, track);
    const int stride = passage::stride_within(longest_step(c), c.passage.step);
    at.table = tables_.find(mixed(mixed(track_hash, c.passage.step), stride), {at.track, c.passage.step, stride});
    const PathPart path = path_part(c);
    at.geometry = geometries_.find(hash(path), path);
    at.courses = courses_.find(mixed(at.geometry, c.material.young), {at.geometry, c.material});
    at.plan = plans_.find(mixed(mixed(at.geometry, static_cast<double>(at.table)), c.material.young),
                          {at.geometry, at.table, c.material, c.vehicle, c.wheel.radius, c.passage.from, c.passage.to});
    return at;
  }
  [[nodiscard]] std::shared_ptr<const TrackWithSteps> table_of(const Places& at) {
    return tables_[at.table].get([&] {
      if (tracks_.key(at.track).track.method == cases::TrackMethod::chain) {
        return TrackWithSteps{}; // made with each plan, it is quick
      }
      const auto track = tracks_[at.track].get([&] { return track::modal_track(track_for(tracks_.key(at.track))); });
      const TableKey& key = tables_.key(at.table);
      return TrackWithSteps{*track, passage::step_table(*track, key.step),
                            key.stride > 1 ? passage::long_step_table(*track, key.stride * key.step) : nullptr};
    });
  }
  void help_geometry(const Places& at) {
    geometries_[at.geometry].help([&] { return geometry(geometries_.key(at.geometry)); });
  }
  [[nodiscard]] std::shared_ptr<const PlanOnPath> plan_of(const Places& at, const Case& c) {
    const auto path = geometries_[at.geometry].get([&] { return geometry(geometries_.key(at.geometry)); });
    return plans_[at.plan].get([&] {
      const auto table = table_of(at);
      const auto courses = courses_[at.courses].get([&] { return passage::for_steel(path->courses, c.material); });
      return PlanOnPath{path, plan(c, *path, table->track, table->steps, table->long_steps, courses.get())};
    });
  }
  void release(const Places& at) {
    plans_.release(at.plan);
    courses_.release(at.courses);
    geometries_.release(at.geometry);
    tables_.release(at.table);
    tracks_.release(at.track);
  }
  void forget_unused() {
    tracks_.forget_unused();
    tables_.forget_unused();
    geometries_.forget_unused();
  }
  void keep_for_next_call() noexcept {
    tracks_.keep_for_next_call();
    tables_.keep_for_next_call();
    geometries_.keep_for_next_call();
    courses_.keep_for_next_call();
    plans_.keep_for_next_call();
  }

private:
  Pool<TrackPart, std::shared_ptr<const track::ModalTrack>> tracks_{2};
  Pool<TableKey, TrackWithSteps> tables_{2};
  Pool<PathPart, Geometry> geometries_{64};
  Pool<CoursesKey, std::vector<passage::Course>> courses_{0};
  Pool<PlanKey, PlanOnPath> plans_{0};
};

} // namespace wingnose::study
