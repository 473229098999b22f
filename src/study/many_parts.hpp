// What cases share: tracks, their step tables, wheel paths, plans.
#pragma once

#include "wingnose/numeric/shared_parts.hpp"
#include "wingnose/study/many.hpp"

namespace wingnose::study {

struct TableKey {
  std::size_t track; // index of a track
  double step;       // s
  [[nodiscard]] friend bool operator==(const TableKey&, const TableKey&) = default;
};
struct TrackWithSteps {
  std::shared_ptr<const track::ModalTrack> track;
  std::shared_ptr<const passage::StepTable> steps;
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
  std::size_t track = 0, table = 0, geometry = 0, plan = 0;
};

struct SharedParts::Pools {
  [[nodiscard]] Places find(const Case& c); // throws InputError
  [[nodiscard]] std::shared_ptr<const TrackWithSteps> table_of(const Places& at);
  void help_geometry(const Places& at);
  [[nodiscard]] std::shared_ptr<const PlanOnPath> plan_of(const Places& at, const Case& c);
  void release(const Places& at);
  void forget_unused();
  void keep_for_next_call() noexcept;

private:
  Pool<TrackPart, std::shared_ptr<const track::ModalTrack>> tracks_{2};
  Pool<TableKey, TrackWithSteps> tables_{2};
  Pool<PathPart, Geometry> geometries_{64};
  Pool<PlanKey, PlanOnPath> plans_{0};
};

} // namespace wingnose::study
