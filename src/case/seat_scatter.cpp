// Stiffness drawn from bearer to bearer.
#include "wingnose/case/bearers.hpp"

#include <boost/math/distributions/normal.hpp>

#include <cmath>
#include <cstdint>
#include <random>

namespace wingnose::cases {
namespace {

// Of a standard normal distribution, belonging to a seat of the endless track whatever else is drawn.
double white(int seed, int stream, long seat) {
  std::seed_seq words{static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(stream),
                      static_cast<std::uint32_t>(seat)};
  std::mt19937_64 engine(words);
  constexpr double least = 0x1p-54; // the middle of the lowest of 2^53 classes: never 0 or 1
  const double uniform = static_cast<double>(engine() >> 11U) * 0x1p-53 + least;
  return boost::math::quantile(boost::math::normal(), uniform);
}

// A weighted sum over the seats around: weights exp(-2 (d / L)^2) correlate as exp(-(d / L)^2).
double smooth(const SeatScatter& v, int stream, long seat, double spacing) {
  const auto reach = static_cast<long>(std::ceil(3.0 * v.correlation / spacing)); // weights below 2e-8 are left out
  double sum = 0.0, squares = 0.0;
  for (long k = -reach; k <= reach; ++k) {
    const double d = static_cast<double>(k) * spacing / v.correlation;
    const double weight = std::exp(-2.0 * d * d);
    sum += weight * white(v.seed, stream, seat + k);
    squares += weight * weight;
  }
  return sum / std::sqrt(squares);
}

double lognormal(double coefficient_of_variation, double normal) {
  const double variance = std::log1p(coefficient_of_variation * coefficient_of_variation);
  return std::exp(std::sqrt(variance) * normal - 0.5 * variance);
}

} // namespace

Factors drawn(const SeatScatter& v, double station, double first_seat, double spacing) {
  Factors f;
  const long seat = std::lround((station - first_seat) / spacing);
  if (v.ballast > 0.0) {
    f.ballast = lognormal(v.ballast, smooth(v, 1, seat, spacing));
  }
  if (v.pad > 0.0) {
    f.pad = lognormal(v.pad, smooth(v, 2, seat, spacing));
  }
  return f;
}

} // namespace wingnose::cases
