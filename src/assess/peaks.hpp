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

// First local maximum in [from, to) that rises at least `least_rise` above signal[from] and stands out, by the share
// `prominence` of that rise, above three things: the lowest value between `from` and it, the lowest value between it
// and the next higher value, and the slow (low-passed) signal at its instant. The last keeps the crest of the slow
// response itself, which may come early, from passing for a first peak.
[[nodiscard]] std::optional<Peak> first_peak(const std::vector<double>& signal, const std::vector<double>& slow,
                                             std::size_t from, std::size_t to, double prominence, double least_rise);

} // namespace wingnose::assess
