#include "wingnose/track/places.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::track {
namespace {

// Between the track's end and the outermost wheel, so that no reflection from the end returns within the window
// (checked by lengthening).
constexpr double margin = 6.0; // m

Place answer(const Assembly& a, double load, std::span<const double> frequency, std::string name, double station) {
  const std::array<double, 1> at{station};
  const double deflection = static_deflection(a, load, station, at).front();
  return {std::move(name), station, deflection, load / deflection, receptance(a, station, frequency)};
}

} // namespace

Track covering(Track t, double from, double to) {
  t.bays = std::max(t.bays, static_cast<int>(std::ceil((to - from + 2.0 * margin) / t.spacing)));
  t.centre = 0.5 * (from + to);
  return t;
}

std::vector<Place> typical_places(const Assembly& a, double load, std::span<const double> frequency) {
  const double middle = 0.5 * (a.node.front() + a.node.back());
  const double seat =
      *std::min_element(a.seat_station.begin(), a.seat_station.end(), [middle](double one, double other) {
        return std::abs(one - middle) < std::abs(other - middle);
      });
  return {answer(a, load, frequency, "over a bearer", seat),
          answer(a, load, frequency, "mid-span", seat + 0.5 * a.input.spacing)};
}

} // namespace wingnose::track
