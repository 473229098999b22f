// What a History means: peaks, filtered force, transfer and lost contact, each under its stated definition.
//
// first peak   first local maximum of the unfiltered total force after the landing, if one stands out ("none"
// otherwise) P2           largest value of the zero-phase low-passed force after the landing (Butterworth `order`,
// forward and back) landing      for a crossing, the first touch of the body landed on; for a prescribed path, its kink
// SI; wingnose/frame.hpp.
#pragma once

#include "wingnose/passage/history.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::assess {

struct MeasureOptions {
  double p2_cut_off = 150.0;            // Hz
  int p2_order = 2;                     // per pass; applied forward and back
  double first_peak_window = 0.003;     // s after landing
  double first_peak_prominence = 0.02;  // of the static load
  double window = 0.060;                // s after landing in which peaks are sought
  double acceleration_cut_off = 1000.0; // Hz
};

struct Measures {
  std::string landing_body;                          // "nose" facing, "wing" trailing, "path" for prescribed paths
  double landing_time, landing_station;              // s, m
  std::optional<double> first_peak, first_peak_time; // N, s after landing
  double p2, p2_time;                                // N, s after landing
  double p2_cut_off;                                 // Hz
  double peak_total, peak_total_station;             // N, m
  std::optional<double> peak_nose, peak_wing;        // N, largest force on each body after (nose) / around the landing
  std::optional<double> dynamic_transfer_station;    // m, where the landed body first carries more than the other
  double overlap_length;                             // m, both bodies loaded at once
  double lost_contact;                               // s, total time without any contact in the window
  double minimum_force;                              // N, lowest total before landing and after
  double impulse;              // N s, integral of (force - static) over its positive part after the landing
  double force_before_landing; // N, total just before
  double static_load;          // N
  double dynamic_factor;       // -, peak_total / static_load
  double p2_dynamic_factor;    // -
  std::optional<double> rail_acceleration,
      bearer_acceleration; // m/s2, peak of absolute value below acceleration_cut_off
  std::vector<std::string> notes;
};

[[nodiscard]] Measures measure(const passage::History& history, double landing_station, const MeasureOptions& options);
[[nodiscard]] std::vector<double> low_pass_zero_phase(const std::vector<double>& signal, double step, double cut_off,
                                                      int order);

} // namespace wingnose::assess
