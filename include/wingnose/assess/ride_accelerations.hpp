// What accelerometers fixed to the parts of a vehicle in space would show on its ride, low-passed: how crossings and
// curves are felt in the car, in bogie frames and in axle boxes.
//
// Vertical: beyond gravity; lateral: along the part's own axis across, with the share of gravity that cant and roll
// turn into it, as an accelerometer shows it. Of car bodies and frames at their centre of gravity; of axle boxes
// upwards over either wheel (the larger counts), sideways on the axle. Each is the largest size of speeds differenced
// between the instants kept, under a Butterworth low-pass of order 2 run forward and back (half of the amplitude is
// left at the cut-off), from 2 m behind where the ride begins and without one and a half periods of the cut-off at
// either end. Cut-offs: 10 Hz for car bodies, as EN 14363 has it (from memory); 100 Hz for frames and 500 Hz for axle
// boxes (our convention). SI.
#pragma once

#include "wingnose/passage/space/history.hpp"
#include "wingnose/words/names.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace wingnose::assess {

// A frame is a body that carries another one; a car body carries none.
enum class VehiclePart { car_body, frame, axle_box };
constexpr auto names(VehiclePart) {
  return std::array{Name{VehiclePart::car_body, "car body"}, Name{VehiclePart::frame, "frame"},
                    Name{VehiclePart::axle_box, "axle box"}};
}
inline constexpr int acceleration_order = 2;               // of one pass
[[nodiscard]] constexpr double cut_off(VehiclePart part) { // Hz
  return part == VehiclePart::car_body ? 10.0 : part == VehiclePart::frame ? 100.0 : 500.0;
}

struct PartAcceleration {
  std::string name; // of the body or the wheelset
  VehiclePart part;
  std::optional<double> vertical,
      lateral; // m/s2, without sign; nullopt where it is held that way, or the ride too short
};
// Of all bodies and, where rails bend, of axle boxes: masses that run along under the wheels tell no impact. None where
// fewer than four instants are left. Throws InputError where the instants kept lie too far apart for a cut-off.
[[nodiscard]] std::vector<PartAcceleration> accelerations(const passage::space::SpaceHistory& ride,
                                                          const passage::space::Rolling& rolling,
                                                          const passage::space::Ground& ground);

} // namespace wingnose::assess
