// Many passages at once, on all cores: those that are alike advance together, and what they share is made a little
// ahead of its use and released after it.
#pragma once

#include "wingnose/numeric/workers.hpp"
#include "wingnose/passage/history.hpp"
#include "wingnose/passage/plan.hpp"
#include "wingnose/words/error.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace wingnose::passage {

// What decides which passages advance together: up to eight on the same track with the same step, at the same speed and
// in the same sense over the same window.
struct Alike {
  std::size_t track, path; // which track with its step, and which path; equal
                           // numbers stand for the same one
  double speed, from, to;  // m/s, m
  Direction direction;
  bool alone; // simulate_batch does not take it: several wheels, contact
              // searched at every step, ...
};

struct Together {
  std::vector<std::size_t> passages; // one, or up to eight
  bool batch = false;                // to be simulated by simulate_batch, also where it is one alone
};
// Those that are nullopt are left out. Groups on the same track and paths follow each other, so that few of these are
// held at a time.
[[nodiscard]] std::vector<Together> together(std::span<const std::optional<Alike>> passages);

// What is done for each of many passages, by its index; by several threads at once, for different ones. An InputError
// or ComputeError of `make` and `finish`, and of the simulation, goes to `refuse`, anything else ends the work.
class PassagesAsked {
public:
  virtual ~PassagesAsked() = default;
  virtual void prepare_track(std::size_t i) = 0; // its errors come again when the passage is made
  virtual void prepare_path(std::size_t i) = 0;  // unless another thread is just doing so
  // before: one made just before it, whose plan of steps it may share, or nullptr.
  [[nodiscard]] virtual Passage make(std::size_t i, const Passage* before) = 0;
  virtual void finish(std::size_t i, History history) = 0;
  virtual void refuse(std::size_t i, const InputError& error) = 0;
  virtual void refuse(std::size_t i, const ComputeError& error) = 0;
  virtual void release(std::size_t i) = 0; // once, after all of these
};
// options.total counts passages. What a passage gives does not depend on threads or on what runs beside it.
void simulate_many(std::span<const std::optional<Alike>> passages, PassagesAsked& asked, const WorkOptions& options);

} // namespace wingnose::passage
