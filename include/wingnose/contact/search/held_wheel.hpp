// A wheel held in one attitude (shift, roll, yaw) over the bodies of a track, wherever along them: the search of
// look.hpp made ready for many stations. Immutable; may serve many threads. SI; frame.hpp.
#pragma once

#include "wingnose/contact/search/look.hpp"
#include "wingnose/layout/surface.hpp"
#include "wingnose/profile/wheel.hpp"

#include <cstddef>
#include <memory>
#include <vector>

namespace wingnose::contact {

struct Attitude {
  double wheel_radius = 0.46;  // m
  double lateral_offset = 0.0; // m, shift of the wheelset, + towards +y
  double roll = 0.0;           // rad, positive lifts the field side of the wheel
  double yaw = 0.0;            // rad, positive turns the wheel from x towards y
};

// Axle stations a wheel is made ready for.
struct Stretch {
  double from, to;      // m
  double pitch = 0.001; // m, about their spacing
};

class HeldWheel {
public:
  // Beyond the stretch everything is as at its ends. The bodies are copied, which is cheap. Throws InputError as
  // WheelSurface does.
  HeldWheel(const profile::WheelProfile& wheel, std::vector<layout::Body> bodies, const Attitude& attitude,
            const Stretch& stretch);
  HeldWheel(const HeldWheel&) = delete;
  HeldWheel(HeldWheel&&) noexcept;
  HeldWheel& operator=(const HeldWheel&) = delete;
  HeldWheel& operator=(HeldWheel&&) noexcept;
  ~HeldWheel();

  [[nodiscard]] const std::vector<layout::Body>& bodies() const;
  [[nodiscard]] const Attitude& attitude() const;
  [[nodiscard]] const Stretch& stretch() const;
  // First touch and gap of one body (index) with the axle at station x (m). Nothing is allocated.
  [[nodiscard]] Touch touch(std::size_t body, double x) const;
  void look(std::size_t body, double x, GapLine& gap) const;

private:
  struct Parts;
  std::unique_ptr<const Parts> parts_;
};

} // namespace wingnose::contact
