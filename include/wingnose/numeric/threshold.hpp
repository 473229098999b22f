// How far a quantity that is sampled over a rising variable keeps below a threshold, when it need not be monotone: the
// first place where it is exceeded, refined, and where it is kept again. A scan sees exceedances wider than its steps.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace wingnose::numeric {

// Places from `from` to `to` in steps, both ends and the places of `also` among them; rising. Places closer than `same`
// are one.
[[nodiscard]] std::vector<double> scan(double from, double to, double step,
                                       std::span<const std::optional<double>> also = {}, double same = 0.0);

struct Interval {
  double from, to;
};
struct Threshold {
  std::optional<double> first_exceeding; // lowest sample above 0; none: kept everywhere
  std::optional<double> kept_up_to;      // highest place below it that keeps; none where the first sample exceeds
  std::vector<Interval> kept_again;      // samples above the first exceeding one that keep again
};

// x: at least one, strictly rising; excess: the quantity less its threshold there, above 0 where exceeded; excess_at:
// the same at any place between two samples. The last sample that keeps and the first that exceeds are brought together
// to `tolerance` (Alefeld, Potra, Shi 1995, "algorithm 748", doi:10.1145/210089.210111) and the keeping end is
// answered. Throws InputError for empty, unequal or unordered lists.
[[nodiscard]] Threshold first_exceedance(std::span<const double> x, std::span<const double> excess,
                                         const std::function<double(double x)>& excess_at, double tolerance);

} // namespace wingnose::numeric
