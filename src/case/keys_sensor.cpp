// Keys of [[sensor]], and of what stresses at the rail foot need.
#include "keys.hpp"

namespace wingnose::cases {
namespace {

using assess::Sensor;

Sensor& sensor(Sensor& one) { return one; }
std::vector<Sensor>& sensors(Case& c) { return c.sensors; }
Casting& casting(Casting& one) { return one; }
RailChoice& rail(Case& c) {
  if (!c.track.choice) {
    c.track.choice.emplace();
  }
  return *c.track.choice;
}

} // namespace

void add_sensor_keys(Schema& schema) {
  add(schema, "track", "",
      {key<rail, &RailChoice::foot_modulus, &foot_moduli>(
          "rail_foot_modulus_cm3", "section modulus of the rail at its foot, for the stress there; absent: that of the "
                                   "section, where it is known")});
  add(schema, "track.casting", "",
      {key<casting, &Casting::foot_modulus, &foot_moduli>(
          "foot_modulus_cm3", "section modulus at the foot, for the stress there; absent: not known")});
  add(schema, "sensor", "a sensor on the track: what a logger there would record",
      {required(key<sensor, &Sensor::name>("name", "name of the sensor: letters, digits, - and _")),
       key<sensor, &Sensor::on>("on", "what it stands on"),
       required(key<sensor, &Sensor::station>("station_m", "its station; on a bearer the one nearest to it")),
       key<sensor, &Sensor::across, &assess::sensor_across>(
           "across_mm", "its place across the track, on a bearer that bends; absent: under the rail"),
       key<sensor, &Sensor::quantity>("quantity", "what its record holds"),
       key<sensor, &Sensor::low>("low_Hz",
                                 "high-pass of its band; 0: none, the model's motion has no drift to be freed of"),
       key<sensor, &Sensor::high>("high_Hz", "low-pass of its band; the default is as far as bearers of eight "
                                             "coordinates hold"),
       key<sensor, &Sensor::order>("order", "order of either filter of the band"),
       key<sensor, &Sensor::sampling>("sampling_Hz", "samples of the logger per second; its anti-alias filter ends at "
                                                     "0.4 of them")});
  schema.lists.push_back(list_of<sensors>("sensor", "sensors on the track"));
}

} // namespace wingnose::cases
