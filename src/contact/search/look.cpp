#include "wingnose/contact/search/look.hpp"

#include "gap_across.hpp"
#include "rolling_envelope.hpp"

#include "wingnose/words/constants.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <string>
#include <utility>

namespace wingnose::contact {
namespace {

constexpr double largest_angle = 0.1;   // rad, roll and yaw
constexpr double serves_within = 0.006; // m: sections read for a touching point this near serve it
constexpr int most_places = 4;

void check(const WheelPlace& place) {
  for (const auto& [name, angle] : {std::pair{"roll", place.roll}, std::pair{"yaw", place.yaw}}) {
    if (!(std::abs(angle) <= largest_angle)) {
      throw InputError(std::string(name) + " of the wheel (rad)", number(angle), "-0.1 to 0.1 rad",
                       "The search is for small angles.");
    }
  }
  for (const auto& [name, at] : {std::pair{"station", place.station}, std::pair{"lateral place", place.lateral}}) {
    if (!std::isfinite(at)) {
      throw InputError(std::string(name) + " of the wheel (m)", number(at), "finite values",
                       "Give the frame of wingnose/words/frame.hpp.");
    }
  }
}

// Counted outward, as the surface of the body is.
WheelPlace outward(WheelPlace place, layout::Side side) {
  if (side == layout::Side::opposite) {
    place.lateral = -place.lateral;
    place.roll = -place.roll;
    place.yaw = -place.yaw;
  }
  return place;
}

} // namespace

void look(const WheelSurface& wheel, const layout::Body& body, const WheelPlace& given, GapLine& gap) {
  check(given);
  const WheelPlace place = outward(given, body.side);
  const SampledWheel placed(PlacedWheel(wheel, place.lateral, place.roll));
  read_gap_at(RollingEnvelope(body.surface, placed, place.yaw, {place.station, place.station}), place.station, gap);
}

void look(const WheelSurface& wheel, const layout::Body& body, const WheelPlace& place, Look& found) {
  look(wheel, body, place, found.gap);
  found.patches = find_patches(found.gap, place.height);
  found.regions = find_regions(found.gap, place.height);
}

void look_near(const WheelSurface& wheel, const layout::Body& body, const WheelPlace& given, double ahead,
               GapLine& gap) {
  check(given);
  const WheelPlace place = outward(given, body.side);
  const PlacedWheel placed(wheel, place.lateral, place.roll);
  for (int round = 0; round < most_places; ++round) {
    read_gap(body.surface, placed, place.yaw, place.station, ahead, place.height, gap);
    if (gap.count == 0) {
      return;
    }
    const double found = gap.dx[gap.top];
    if (std::abs(found - ahead) < serves_within) {
      break;
    }
    ahead = found;
  }
}

} // namespace wingnose::contact
