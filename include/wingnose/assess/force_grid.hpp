// Forces of many passages over one crossing on a common grid of stations and of nose thicknesses: envelopes over the
// stations, and how the nose is loaded where it is so thick. Of each passage some kilobytes are kept.
// SI; wingnose/words/frame.hpp.
#pragma once

#include "wingnose/layout/surface.hpp"
#include "wingnose/passage/history.hpp"
#include "wingnose/words/range.hpp"

#include <array>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

namespace wingnose::assess {

struct ForceGrid {
  double envelope_step = 0.010; // m; the largest force within each step counts
  double envelope_from = -0.5;  // m, stations of the envelopes, cut to what all passages cover
  double envelope_to = 1.5;
  double thickness_step = 0.002; // m, bins of nose thickness
  double thickness_to = 0.080;   // m, bins reach from 0 to here
};
constexpr auto ranges(const ForceGrid*) {
  using G = ForceGrid;
  return std::array{InRange{&G::envelope_step, "envelope_step", "m", 1e-3, 1},
                    InRange{&G::envelope_from, "envelope_from", "m", -50, 50},
                    InRange{&G::envelope_to, "envelope_to", "m", -50, 50},
                    InRange{&G::thickness_step, "thickness_step", "m", 1e-4, 0.05},
                    InRange{&G::thickness_to, "thickness_to", "m", 1e-4, 0.5}};
}
void check(const ForceGrid& grid); // throws InputError

struct Envelope {
  std::vector<double> station;           // m, middle of each step
  std::vector<double> low, middle, high; // N, 5, 50 and 95 % of the passages' largest force within the step
  std::vector<double> most;              // N, over all passages
};

// Load of the nose where it is so thick: over passages, the mean force while the axle is over the bin, and the largest.
struct NoseLoad {
  std::vector<double> from, to; // m, nose thickness; bins no passage covers are left out
  std::vector<double> mean;     // N, weighted mean over passages of each one's mean force
  std::vector<double> high;     // N, 95 % quantile over passages of each one's largest force
  std::vector<double> bearing;  // share of passages whose nose bears at all there
};
// Mean of the bins' means, and the largest of their high values, of bins with a middle between two thicknesses (m);
// NaN where there is none.
[[nodiscard]] std::pair<double, double> mean_and_high(const NoseLoad& load, double from, double to);

class ForcesOfMany {
public:
  ForcesOfMany(const ForceGrid& grid, std::size_t passages);
  // Of one passage; different ones may be kept by different threads at once.
  void keep(std::size_t passage, const passage::History& history, const layout::Crossing& crossing);
  // Over some of the passages; weights: one for each of them.
  [[nodiscard]] Envelope envelope(std::span<const std::size_t> passages, std::span<const double> weights) const;
  [[nodiscard]] NoseLoad nose_load(std::span<const std::size_t> passages, std::span<const double> weights) const;

private:
  ForceGrid grid_;
  std::size_t cells_, bins_;
  std::vector<float> force_;                // N, [passage][cell], NaN where not covered
  std::vector<float> nose_mean_, nose_max_; // N, [passage][bin]
};

} // namespace wingnose::assess
