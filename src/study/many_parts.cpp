#include "many_parts.hpp"

#include <functional>

namespace wingnose::study {

Places places(SharedParts::Pools& pools, const Case& c) {
  const auto mixed = [](std::size_t hash, double value) {
    return hash * 0x9E3779B97F4A7C15ULL + std::hash<double>{}(value);
  };
  Places at;
  const TrackPart track = track_part(c);
  const std::size_t track_hash = hash(track);
  at.track = pools.tracks.find(track_hash, track);
  at.table = pools.tables.find(mixed(track_hash, c.passage.step), {at.track, c.passage.step});
  const PathPart path = path_part(c);
  at.geometry = pools.geometries.find(hash(path), path);
  at.plan =
      pools.plans.find(mixed(mixed(at.geometry, static_cast<double>(at.table)), c.material.young),
                       {at.geometry, at.table, c.material, c.vehicle, c.wheel.radius, c.passage.from, c.passage.to});
  return at;
}

std::shared_ptr<const TrackWithSteps> table_of(SharedParts::Pools& pools, const Places& at) {
  return pools.tables[at.table].get([&] {
    const auto track =
        pools.tracks[at.track].get([&] { return track::modal_track(track_for(pools.tracks.key(at.track))); });
    return TrackWithSteps{*track, passage::step_table(*track, pools.tables.key(at.table).step)};
  });
}

void help_geometry(SharedParts::Pools& pools, const Places& at) {
  pools.geometries[at.geometry].help([&] { return geometry(pools.geometries.key(at.geometry)); });
}

std::shared_ptr<const PlanOnPath> plan_of(SharedParts::Pools& pools, const Places& at, const Case& c) {
  const auto path = pools.geometries[at.geometry].get([&] { return geometry(pools.geometries.key(at.geometry)); });
  return pools.plans[at.plan].get([&] {
    const auto table = table_of(pools, at);
    return PlanOnPath{path, plan(c, *path, table->track, table->steps)};
  });
}

void release(SharedParts::Pools& pools, const Places& at) {
  pools.plans.release(at.plan);
  pools.geometries.release(at.geometry);
  pools.tables.release(at.table);
  pools.tracks.release(at.track);
}

} // namespace wingnose::study
