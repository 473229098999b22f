// A wheel standing at one station under a given load: where it touches, how the bodies share the load, and what each
// patch looks like after a fast law or the half-space solution. SI. Frame: wingnose/frame.hpp.
#pragma once

#include "wingnose/contact/normal_law_fields.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::contact {

// One patch: strips or loaded rows that lie side by side.
struct PatchSummary {
  std::string body;
  double y = 0.0;             // m, centre of its pressure from the track centre line
  double wheel_y = 0.0;       // m, the same on the wheel, from its taping line
  double dx = 0.0;            // m, ahead of the axle
  double angle = 0.0;         // rad, contact angle there
  double force = 0.0;         // N, normal
  double approach = 0.0;      // m, normal, at its deepest point
  double half_length = 0.0;   // m, along the track
  double half_width = 0.0;    // m, across, along the surface
  double area = 0.0;          // m2
  double peak_pressure = 0.0; // Pa
};

struct BodyContact {
  std::string body;
  double vertical = 0.0;              // N, its share of the load
  std::vector<Strip> strips;          // pressure over the width as the law has it
  std::optional<PressureField> field; // where asked for
};

struct StationContact {
  double station = 0.0, lateral = 0.0; // m, axle; taping line
  double height = 0.0;                 // m, of the taping circle's bottom over z = 0
  double vertical = 0.0;               // N
  std::string law;                     // "ellipse", "strips" or "half-space"
  std::vector<PatchSummary> patches;   // by body, then across
  std::vector<BodyContact> bodies;     // those that carry
  std::vector<std::string> warnings;   // where the half-space assumption is stretched
};

struct StationOptions {
  NormalLaw law = Strips{};
  bool half_space = false; // patches from the half-space solution; the load is shared by the strips
  bool fields = false;     // pressure fields beside a fast law
  FieldSize cells{};       // of the pressure fields
};

// Tables of the bodies a wheel can reach at a station. Throws ComputeError where there is none.
[[nodiscard]] std::vector<BodyTable> bodies_at(const crossing::Crossing& crossing, double station);

// Throws InputError for a load that is not positive and finite, ComputeError where the wheel is over no body.
[[nodiscard]] StationContact contact_at(const WheelTable& wheel, std::span<const BodyTable> bodies,
                                        const WheelPlace& place, double vertical, const Elastic& material = {},
                                        const StationOptions& options = {});

} // namespace wingnose::contact
