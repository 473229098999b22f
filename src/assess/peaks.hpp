// Peaks of sampled signals, refined by the parabola through three samples.
#pragma once

#include <optional>
#include <vector>

namespace wingnose::assess {

struct Peak {
  double value;
  double position; // in samples
};

// Largest value of signal[from, to), refined. Precondition: from < to <= size.
[[nodiscard]] Peak largest(const std::vector<double>& signal, std::size_t from, std::size_t to);

struct FirstPeak {
  Peak peak;
  std::size_t sample;
  double over_valleys; // value less the higher of the valleys on both sides
};
// First local maximum in [from, to) that rises at least `least_rise` above signal[from] and stands out, by the share
// `prominence` of that rise, above the lowest value between `from` and it and the lowest value between it and the next
// higher value.
[[nodiscard]] std::optional<FirstPeak> first_peak(const std::vector<double>& signal, std::size_t from, std::size_t to,
                                                  double prominence, double least_rise);

} // namespace wingnose::assess
