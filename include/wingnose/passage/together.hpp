// Which of many passages advance together, and in which order they are best simulated.
#pragma once

#include "wingnose/passage/settings.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace wingnose::passage {

// What decides it: passages on the same track with the same step, at the same speed and in the same sense over the same
// window advance up to eight at a time.
struct Alike {
  std::size_t track, path; // which track with its step, and which path; equal numbers stand for the same one
  double speed, from, to;  // m/s, m
  Direction direction;
  bool alone; // simulate_batch does not take it: several wheels, contact searched at every step, ...
};
struct Together {
  std::vector<std::size_t> passages; // one, or up to eight
  bool batch = false;                // to be simulated by simulate_batch, also where it is one alone
};
// Those that are nullopt are left out. Groups on the same track and paths follow each other, so that few of these are
// held at a time.
[[nodiscard]] std::vector<Together> together(std::span<const std::optional<Alike>> passages);

} // namespace wingnose::passage
