#include "peaks.hpp"

#include <algorithm>

namespace wingnose::assess {
namespace {

Peak refine(const std::vector<double>& s, std::size_t i) {
  if (i == 0 || i + 1 >= s.size()) {
    return {s[i], static_cast<double>(i)};
  }
  const double before = s[i - 1], here = s[i], after = s[i + 1];
  const double bend = before - 2.0 * here + after;
  // A corner (lost contact, the first sample after a kink) is no parabola: keep the sample.
  if (!(bend < 0.0) || before > here || after > here || before == 0.0 || after == 0.0) {
    return {here, static_cast<double>(i)};
  }
  const double shift = 0.5 * (before - after) / bend;
  return {here - 0.25 * (before - after) * shift, static_cast<double>(i) + shift};
}

} // namespace

Peak largest(const std::vector<double>& signal, std::size_t from, std::size_t to) {
  const auto begin = signal.begin();
  const auto top = std::max_element(begin + static_cast<std::ptrdiff_t>(from), begin + static_cast<std::ptrdiff_t>(to));
  return refine(signal, static_cast<std::size_t>(top - begin));
}

std::optional<FirstPeak> first_peak(const std::vector<double>& s, std::size_t from, std::size_t to, double prominence,
                                    double least_rise) {
  double lowest_before = s[from];
  for (std::size_t i = from + 1; i < to && i + 1 < s.size(); ++i) {
    lowest_before = std::min(lowest_before, s[i]);
    if (!(s[i] > s[i - 1] && s[i] >= s[i + 1])) {
      continue;
    }
    double lowest_after = s[i];
    for (std::size_t j = i + 1; j < s.size() && s[j] <= s[i]; ++j) {
      lowest_after = std::min(lowest_after, s[j]);
    }
    const double rise = s[i] - s[from], over_valleys = s[i] - std::max(lowest_before, lowest_after);
    if (rise >= least_rise && over_valleys >= prominence * rise) {
      return FirstPeak{refine(s, i), i, over_valleys};
    }
  }
  return std::nullopt;
}

} // namespace wingnose::assess
