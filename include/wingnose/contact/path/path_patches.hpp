// The patches of a wheel along its path, by strips, under the forces of a passage: for what looks at every instant of a
// passage afterwards (damage). SI. Frame: wingnose/words/frame.hpp.
#pragma once

#include "wingnose/contact/normal/loaded_wheel.hpp"
#include "wingnose/contact/path/wheel_path.hpp"

#include <memory>
#include <span>
#include <string>
#include <vector>

namespace wingnose::contact {

class PathPatches {
public:
  // Bodies of the crossing between axle stations from .. to (m), the wheel held as the path was rolled (radius, shift,
  // roll, yaw). Throws InputError as HeldWheel does.
  PathPatches(const WheelPath& path, const layout::Crossing& crossing, const profile::WheelProfile& wheel, double from,
              double to, const Elastic& material = {});
  // Plain rail under every station, for prescribed paths: one body.
  PathPatches(const profile::RailHead& rail, const profile::WheelProfile& wheel, double radius,
              const Elastic& material = {});
  PathPatches(const PathPatches&) = delete;
  PathPatches(PathPatches&&) noexcept;
  PathPatches& operator=(const PathPatches&) = delete;
  PathPatches& operator=(PathPatches&&) noexcept;
  ~PathPatches();

  [[nodiscard]] std::size_t bodies() const;
  // Patches in which a body (index) carries `vertical` (N, > 0) when the axle stands at station x; their forces give
  // exactly that. Empty where no column of the wheel meets the body. Starts from the depth of the call before: quick
  // for neighbouring stations. Not for several threads at once.
  [[nodiscard]] std::vector<PatchSummary> at(std::size_t body, double x, double vertical);

private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

// Strips that lie side by side, as patches. height: of the taping circle's bottom (m).
[[nodiscard]] std::vector<PatchSummary> patches_of(const std::string& body, const GapLine& line, double height,
                                                   std::span<const Strip> strips);

} // namespace wingnose::contact
