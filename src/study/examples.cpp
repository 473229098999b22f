#include "wingnose/study/examples.hpp"

#include "wingnose/study/compare.hpp"
#include "wingnose/study/damage.hpp"
#include "wingnose/study/instants.hpp"
#include "wingnose/study/speeds.hpp"
#include "wingnose/study/sweep.hpp"
#include "wingnose/study/track_response.hpp"
#include "wingnose/study/turnout.hpp"
#include "wingnose/study/turnout_ride.hpp"

namespace wingnose::study {
namespace {

// Of a crossing: two bodies, two probes.
Result passage() {
  Result r;
  contact::WheelPath path;
  for (const char* body : {"wing", "nose"}) {
    r.history.bodies.emplace_back(body);
    r.history.body_force.push_back({0.0});
    path.bodies.emplace_back().name = body;
  }
  using H = passage::History; // one sample: empty probes would be none
  for (const auto series : {&H::time, &H::station, &H::force, &H::wheel_height, &H::wheel_acceleration,
                            &H::rail_deflection, &H::rail_acceleration, &H::bearer_acceleration, &H::wheel_peaks}) {
    r.history.*series = {0.0};
  }
  path.station = {};
  r.geometry.path = std::make_shared<const contact::WheelPath>(std::move(path));
  r.history.track.bearers.resize(1);
  r.assessment.track.emplace();
  r.assessment.sensors.emplace_back().name = "NAME";
  r.assessment.steel.emplace();
  r.assessment.estimates.resize(1);
  return r;
}

quantity::Tree a_sweep() {
  const Sweep sweep(cases::Document{}, {{"passage.speed_km_h", {108.0}}}, true, {true, true, 1});
  const quantity::Stream stream = sweep.stream();
  quantity::Tree tree = stream.head;
  for (const auto& column : stream.columns) {
    quantity::Array& array = tree.add(column.group, column.array);
    array.shape.assign(array.dims.size(), 0);
  }
  return tree;
}

quantity::Tree a_contact() {
  contact::StationContact contact;
  contact.bodies.push_back({"nose", 0.0, 0.0, {}, contact::PressureField{}});
  return tell(Case{}, contact);
}

quantity::Tree a_damage() {
  DamageStudy study;
  study.traffic.emplace();
  study.traffic->members.resize(2);
  study.traffic->population = {{{"all wheels", 1.0, {}, {}}}, {{"one", 0, 1.0, {}}, {"two", 0, 1.0, {}}}};
  return tell(Case{}, study);
}

quantity::Tree a_track() {
  TrackResponse response{};
  for (const char* place : {"over a bearer", "mid-span"}) {
    response.places.emplace_back().name = place;
  }
  return tell(Case{}, response);
}

// One that has all rows.
quantity::Tree a_turnout() {
  Case c;
  c.turnout.geometry = cases::TurnoutFrom::preset;
  c.turnout.preset = "R190-1:7.5";
  c.turnout.way = layout::turnout::Way::diverging;
  return tell(c, study_turnout(c));
}

quantity::Tree a_ride() {
  TurnoutRide ride;
  ride.assessment.guidance.emplace();
  return tell(Case{}, ride);
}

quantity::Tree a_comparison() {
  Comparison comparison;
  comparison.options.steel = true;
  return tell({}, comparison);
}

} // namespace

std::vector<cases::KeysOf> files_read() {
  auto unnamed = std::make_shared<Case>();
  unnamed->name.clear(); // a file that gives no name has its own
  return {{"case", &cases::case_schema(), std::move(unnamed)},
          {"vehicle", &cases::vehicle_schema(), std::make_shared<cases::VehicleFile>()},
          {"vehicle in space", &cases::space_vehicle_schema(), std::make_shared<cases::SpaceVehicleFile>()},
          {"comparison", &compare_schema(), std::make_shared<CompareOptions>()}};
}

std::vector<quantity::Tree> empty_answers() {
  SpeedStudy speeds;
  speeds.steel = true;
  return {tell(Case{}, passage()),
          tell(Case{}, passage().geometry),
          tell_estimates(Case{}, passage().assessment),
          a_track(),
          a_turnout(),
          a_ride(),
          a_contact(),
          a_damage(),
          tell(Case{}, speeds),
          a_comparison(),
          a_sweep()};
}

} // namespace wingnose::study
