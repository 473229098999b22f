#include "section_noise.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::layout {
namespace {

constexpr double far_less = 0.5;          // of the noise stated
constexpr double too_noisy = 3.0;         // times the noise stated, and
constexpr double noticed_scatter = 20e-6; // m: drawn points as far apart as millimetres seem to scatter by their shape
constexpr std::size_t least_told = 8;     // points of a section with neighbours near enough
constexpr std::size_t enough = 12;        // points of a section, and
constexpr std::size_t sections = 3;       // sections to tell the noise by

double median(std::vector<double>& values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

// Standard deviation of values about the cubics through their two neighbours on both sides, by the median, which a
// shape that bends sharply in one part hardly moves (m).
double scatter(const std::vector<double>& s, const std::vector<double>& value, double span) {
  std::vector<double> sizes;
  for (std::size_t i = 2; i + 2 < s.size(); ++i) {
    if (s[i + 2] - s[i - 2] > span) {
      continue;
    }
    double read = 0.0, squares = 1.0;
    for (const std::size_t j : {i - 2, i - 1, i + 1, i + 2}) {
      double weight = 1.0; // Lagrange's
      for (const std::size_t k : {i - 2, i - 1, i + 1, i + 2}) {
        weight *= k == j ? 1.0 : (s[i] - s[k]) / (s[j] - s[k]);
      }
      read += weight * value[j];
      squares += weight * weight;
    }
    sizes.push_back(std::abs(value[i] - read) / std::sqrt(squares));
  }
  constexpr double median_of_normal = 0.6745;
  return sizes.size() < least_told ? std::numeric_limits<double>::quiet_NaN() : median(sizes) / median_of_normal;
}

} // namespace

std::optional<double> scatter_of(const SectionedBody& body, double span) {
  std::vector<double> found;
  for (const Section& section : body.sections) {
    if (section.y.size() < enough) {
      continue;
    }
    std::vector<double> s{0.0};
    for (std::size_t i = 1; i < section.y.size(); ++i) {
      s.push_back(s.back() + std::hypot(section.y[i] - section.y[i - 1], section.z[i] - section.z[i - 1]));
    }
    const double scattered = std::max(scatter(s, section.y, span), scatter(s, section.z, span));
    if (std::isfinite(scattered)) { // not where points repeat, which the fit refuses, or lie too far apart
      found.push_back(scattered);
    }
  }
  if (found.size() < sections) {
    return std::nullopt;
  }
  return median(found);
}

double noise_of(std::optional<double> scattered, double stated) {
  return scattered && *scattered < far_less * stated ? *scattered : stated;
}

bool noise_understated(std::optional<double> scattered, double stated) {
  return scattered && *scattered > std::max(too_noisy * stated, noticed_scatter);
}

} // namespace wingnose::layout
