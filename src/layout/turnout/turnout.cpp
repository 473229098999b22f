#include "wingnose/layout/turnout/turnout.hpp"

#include "drawn_units.hpp"
#include "wingnose/layout/turnout/geometry.hpp"

#include <algorithm>

namespace wingnose::layout::turnout {
namespace {

// A nose the tightest legal wheelset's flange (TSI, from memory) just clears, 1394 mm; the flangeway is 41 mm at 1435.
constexpr double usual_nose_protection = 1.394; // m

using enum Worth;

// Turnouts of German, British and Swedish practice; the straight behind the arc of 190-1:9 and 760-1:18.5 is that of
// another turnout, whose length they share.
constexpr std::array presets_known{
    Preset{"R190-1:7.5", 190, 7.5, 0.006, std::nullopt, 40 * km_h, seen,
           "through speed at most 100 km/h (seen in print)"},
    Preset{"R190-1:9", 190, 9, 0, 16.615, 40 * km_h, seen, "straight behind the arc, as long as 300-1:9"},
    Preset{"R245-1:9.25", 245, 9.25, 0, std::nullopt, 40 * km_h, hardly_remembered, "British; its end is not known"},
    Preset{"R300-1:9", 300, 9, 0, std::nullopt, 50 * km_h, seen},
    Preset{"R500-1:12", 500, 12, 0, std::nullopt, 60 * km_h, seen},
    Preset{"R500-1:14", 500, 14, 0, std::nullopt, 60 * km_h, seen, "its end is not known"},
    Preset{"R760-1:14", 760, 14, 0, std::nullopt, 80 * km_h, seen},
    Preset{"R760-1:15", 760, 15, 0, std::nullopt, 80 * km_h, seen, "Swedish"},
    Preset{"R760-1:18.5", 760, 18.5, 0, 32.409, 80 * km_h, seen, "straight behind the arc"},
    Preset{"R1200-1:18.5", 1200, 18.5, 0, std::nullopt, 100 * km_h, seen},
    Preset{"R2500-1:26.5", 2500, 26.5, 0, std::nullopt, 130 * km_h, remembered}};

} // namespace

std::span<const Preset> presets() { return presets_known; }

Turnout preset(std::string_view wanted) {
  const auto found =
      std::find_if(presets_known.begin(), presets_known.end(), [&](const Preset& p) { return p.name == wanted; });
  if (found == presets_known.end()) {
    std::vector<std::string> known;
    known.reserve(presets_known.size());
    for (const Preset& each : presets_known) {
      known.emplace_back(each.name);
    }
    refuse_name("turnout", wanted, known);
  }
  Turnout t;
  t.name = std::string(found->name);
  t.radius = found->radius;
  t.rate = found->rate;
  t.widening = found->widening;
  t.end_length = found->end_length;
  return t;
}

void check(const Turnout& turnout) { (void)geometry(turnout); }

double gauge_of(const Turnout& t, Way way) { return t.gauge + (way == Way::diverging ? t.widening : 0.0); }

// The nose is protected alike on both routes: a widened route has a wider flangeway at its check rail.
double check_flangeway_of(const Turnout& t, Way way) {
  const double extra = way == Way::diverging ? t.widening : 0.0;
  return extra +
         t.check_rail.flangeway.value_or(t.gauge - t.check_rail.nose_protection.value_or(usual_nose_protection));
}

double crossing_flangeway_of(const Turnout& t, Way way) {
  return t.crossing.flangeway + (way == Way::diverging ? t.widening : 0.0);
}

} // namespace wingnose::layout::turnout
