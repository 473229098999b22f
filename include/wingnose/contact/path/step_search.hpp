// Contact searched under the wheel at every step of a passage: the yardstick for the laws kept along the path
// (path_law.hpp), some hundred times slower than they are.
//
// At each step the wheel is laid over every body where it stands (contact/search), which gives the height of first
// touch and the gap; the normal law of choice turns gap and depth into force. Nothing is fitted, nothing blended
// between stations. A search is immutable and may serve many passages and threads. SI. Frame: wingnose/words/frame.hpp.
#pragma once

#include "wingnose/contact/normal/force_law.hpp"
#include "wingnose/contact/normal/normal_law.hpp"
#include "wingnose/contact/path/wheel_path.hpp"
#include "wingnose/contact/search/held_wheel.hpp"
#include "wingnose/words/names.hpp"

#include <array>
#include <cstddef>
#include <memory>
#include <utility>

namespace wingnose::contact {

// Where a passage has its contact searched.
enum class SearchAt { path, step };
constexpr auto names(SearchAt) {
  return std::array{Name{SearchAt::path, "path", "once along the path of the wheel"},
                    Name{SearchAt::step, "step", "under the wheel at every step"}};
}

class StepSearch {
public:
  // The wheel is held as the path was rolled (radius, shift, roll, yaw); bodies as far as the path goes. Throws
  // InputError when path and crossing have different bodies.
  StepSearch(const WheelPath& path, const layout::Crossing& crossing, const profile::WheelProfile& wheel,
             const NormalLaw& law);
  // With a wheel made before.
  StepSearch(std::shared_ptr<const HeldWheel> wheel, const NormalLaw& law) : wheel_(std::move(wheel)), law_(law) {}

  [[nodiscard]] std::size_t bodies() const { return wheel_->bodies().size(); }
  // Gap of a body under the axle at station x (m); beyond the path's ends as at them. No columns where the wheel does
  // not meet the body. Nothing is allocated.
  void look(std::size_t body, double x, GapLine& line) const { wheel_->look(body, x, line); }
  // The law of one term that carries what the normal law carries at this depth (m, > 0), for E* = 1 Pa: exact there,
  // and a start for the next guess. Zero where nothing is carried. Nothing is allocated.
  [[nodiscard]] ForceLaw law(const GapLine& line, double depth) const;

private:
  std::shared_ptr<const HeldWheel> wheel_;
  NormalLaw law_;
};

} // namespace wingnose::contact
