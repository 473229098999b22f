// What drawings and rules are written in.
#pragma once
namespace wingnose::layout::turnout {

// In SI.
inline constexpr double mm = 1e-3, km_h = 1.0 / 3.6;

} // namespace wingnose::layout::turnout
