// The wheel's contact looked at closer: at an instant of a passage (assess/instants.hpp), every body under the force it
// carries then, or standing under a load. SI; frame.hpp.
#pragma once

#include "wingnose/assess/instants.hpp"
#include "wingnose/contact/normal/loaded_wheel.hpp"
#include "wingnose/study/run.hpp"

#include <optional>
#include <string_view>

namespace wingnose::study {

using assess::Instant;
using assess::Moment;

// result: of the same case. Throws ComputeError where the passage has no such instant.
[[nodiscard]] Instant instant(const Case& c, const Result& result, Moment moment);

// How the wheel is held while it is looked at, where not as the case has it.
struct WheelAttitude {
  std::optional<double> roll{}, yaw{}; // rad, -0.1 .. 0.1, see contact::WheelPlace
};

// The wheel at an instant of the passage, every body under its own force.
[[nodiscard]] contact::StationContact contact_at_instant(const Case& c, const Result& result, Moment moment,
                                                         const contact::StationOptions& options = {},
                                                         const WheelAttitude& attitude = {});
// The wheel standing at a station (m) under a load (N) which the bodies share. On a joint or a given path: plain rail.
[[nodiscard]] contact::StationContact contact_standing(const Case& c, const Geometry& geometry, double station,
                                                       double load, const contact::StationOptions& options = {},
                                                       const WheelAttitude& attitude = {});

struct ContactQuestion {
  std::optional<Moment> at{};              // of the passage, which is simulated; none: the wheel stands ...
  std::optional<double> station{}, load{}; // m, N, ... here, under this; none: where it lands, under its static load
  contact::StationOptions options{};
  WheelAttitude attitude{};
};
[[nodiscard]] contact::StationContact contact_of(const Case& c, const ContactQuestion& question);
// Options of a law by its name: "ellipse", "strips" or "half-space". Throws InputError: what ("--law") names none.
[[nodiscard]] contact::StationOptions station_options(std::string_view law, std::string_view what);

[[nodiscard]] quantity::Tree tell(const Case& c, const contact::StationContact& contact);

} // namespace wingnose::study
