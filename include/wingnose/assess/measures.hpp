// What a History means: peaks, filtered force, transfer and lost contact, each under its stated definition.
//
// - landing: for a crossing, the first touch of the body landed on (nose facing, wing trailing); for a prescribed path,
//   its kink.
// - first peak: first local maximum of the unfiltered total force after the landing that stands out above the valleys
//   on both sides; "none" only where there is none. What it stands out over is told with it, and so is whether it lies
//   above the low-passed force at its instant: one below is the crest of the slow response.
// - high-frequency excess: the most by which the force exceeds its low-passed course after the landing, peak or none.
// - P2: largest value of the zero-phase low-passed force after the landing (Butterworth, forward and back).
// - window: peaks are sought from the landing to `window` after it, or over `window_length` of travel where that takes
//   longer; lost contact, overlap and the lowest force from as much before it to as much after it, because a wheel may
//   fly before it lands and again after.
//
// SI; wingnose/words/frame.hpp. Definitions follow Jenkins et al. (1974) for the two peaks; the filter is part of the
// number.
#pragma once

#include "wingnose/passage/history.hpp"
#include "wingnose/words/finding.hpp"
#include "wingnose/words/range.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::assess {

struct MeasureOptions {
  double p2_cut_off = 150.0;           // Hz, > 0
  int p2_order = 2;                    // of one pass, 1 .. 8; applied forward and back
  double first_peak_window = 0.002;    // s after landing; about a quarter period of the P2 filter's cut-off
  double first_peak_prominence = 0.10; // of the rise over the force before the landing, see "first peak"
  double window = 0.060;               // s
  double window_length = 0.6; // m, a usual bearer spacing: slower than 36 km/h the wheel meets it later than in 60 ms
  double impulse_window = 0.010; // s after landing; the unsprung mass has bounced on the contact, the track not yet
  double acceleration_cut_off = 1000.0; // Hz, zero-phase, same order as P2
  [[nodiscard]] friend bool operator==(const MeasureOptions&, const MeasureOptions&) = default;
};
constexpr auto ranges(const MeasureOptions*) {
  using O = MeasureOptions;
  return std::array{InRange{&O::p2_cut_off, "p2_cut_off", "Hz", 20, 2000},
                    InRange{&O::p2_order, "p2_order", 1, 8},
                    InRange{&O::first_peak_window, "first_peak_window", "s", 1e-4, 0.05},
                    InRange{&O::first_peak_prominence, "first_peak_prominence", "-", 0, 10},
                    InRange{&O::window, "window", "s", 1e-3, 1},
                    InRange{&O::window_length, "window_length", "m", 0, 5},
                    InRange{&O::impulse_window, "impulse_window", "s", 1e-4, 1},
                    InRange{&O::acceleration_cut_off, "acceleration_cut_off", "Hz", 20, 10e3}};
}

struct Measures {
  std::string landing_body;                       // "nose", "wing", or "path" for prescribed paths
  double landing_time, landing_station;           // s, m
  std::optional<double> first_peak;               // N
  std::optional<double> first_peak_delay;         // s after landing
  std::optional<double> first_peak_over_valleys;  // N, over the higher of the valleys on both sides
  std::optional<double> first_peak_over_low_pass; // N, over the low-passed force at its instant
  double high_frequency_excess;                   // N, largest excess of the force over its low-passed course
  double p2, p2_delay;                            // N, s after landing
  double p2_cut_off;                              // Hz
  double peak_total, peak_total_station;          // N, m
  std::optional<double> peak_nose, peak_wing;     // N, largest force on each body after the landing
  std::optional<double> dynamic_transfer_station; // m, where the body landed on first carries more than the other
  double overlap_length;                          // m travelled with both bodies loaded
  double lost_contact;                            // s without any contact
  double minimum_force;                           // N, lowest total
  double impulse;                                 // N s, of the force in excess of the static load, after the landing
  std::optional<double> landing_impulse;          // N s, of the body landed on over impulse_window after the landing;
                                                  // absent where the simulation ends before
  double force_before_landing;                    // N, total at the last sample before the landing
  double static_load;                             // N
  double dynamic_factor, p2_dynamic_factor;       // -, peak_total and p2 over static_load
  std::optional<double> rail_acceleration, bearer_acceleration; // m/s2, largest magnitude below acceleration_cut_off
  Findings findings;                                            // what a reader must know beside the numbers
};

// landing_station: m, the expected landing (transfer of the kinematic passage, or the kink). Throws ComputeError when
// the history does not reach it with a millisecond to spare on both sides.
[[nodiscard]] Measures measure(const passage::History& history, double landing_station, const MeasureOptions& options);

// Zero-phase Butterworth low-pass of a uniformly sampled signal; the two passes leave half the amplitude at the
// cut-off. step: s; cut_off: Hz, below 0.45 / step; order: of one pass. Throws InputError.
[[nodiscard]] std::vector<double> low_pass_zero_phase(const std::vector<double>& signal, double step, double cut_off,
                                                      int order);

} // namespace wingnose::assess
