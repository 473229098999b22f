#include "many_parts.hpp"

#include <functional>

namespace wingnose::study {

using Pools = SharedParts::Pools;

Places Pools::find(const Case& c) {
  const auto mixed = [](std::size_t hash, double value) {
    return hash * 0x9E3779B97F4A7C15ULL + std::hash<double>{}(value);
  };
  Places at;
  const TrackPart track = track_part(c);
  const std::size_t track_hash = hash(track);
  at.track = tracks_.find(track_hash, track);
  at.table = tables_.find(mixed(track_hash, c.passage.step), {at.track, c.passage.step});
  const PathPart path = path_part(c);
  at.geometry = geometries_.find(hash(path), path);
  at.plan = plans_.find(mixed(mixed(at.geometry, static_cast<double>(at.table)), c.material.young),
                        {at.geometry, at.table, c.material, c.vehicle, c.wheel.radius, c.passage.from, c.passage.to});
  return at;
}

std::shared_ptr<const TrackWithSteps> Pools::table_of(const Places& at) {
  return tables_[at.table].get([&] {
    const auto track = tracks_[at.track].get([&] { return track::modal_track(track_for(tracks_.key(at.track))); });
    return TrackWithSteps{*track, passage::step_table(*track, tables_.key(at.table).step)};
  });
}

void Pools::help_geometry(const Places& at) {
  geometries_[at.geometry].help([&] { return geometry(geometries_.key(at.geometry)); });
}

std::shared_ptr<const PlanOnPath> Pools::plan_of(const Places& at, const Case& c) {
  const auto path = geometries_[at.geometry].get([&] { return geometry(geometries_.key(at.geometry)); });
  return plans_[at.plan].get([&] {
    const auto table = table_of(at);
    return PlanOnPath{path, plan(c, *path, table->track, table->steps)};
  });
}

void Pools::release(const Places& at) {
  plans_.release(at.plan);
  geometries_.release(at.geometry);
  tables_.release(at.table);
  tracks_.release(at.track);
}

void Pools::forget_unused() {
  tracks_.forget_unused();
  tables_.forget_unused();
  geometries_.forget_unused();
}

void Pools::keep_for_next_call() noexcept {
  tracks_.keep_for_next_call();
  tables_.keep_for_next_call();
  geometries_.keep_for_next_call();
  plans_.keep_for_next_call();
}

SharedParts::SharedParts() : pools_(std::make_unique<Pools>()) {}
SharedParts::SharedParts(SharedParts&&) noexcept = default;
SharedParts& SharedParts::operator=(SharedParts&&) noexcept = default;
SharedParts::~SharedParts() = default;

} // namespace wingnose::study
