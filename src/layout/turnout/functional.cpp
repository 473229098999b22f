#include "wingnose/layout/turnout/functional.hpp"

#include "drawn_units.hpp"

#include <algorithm>
#include <cmath>

namespace wingnose::layout::turnout {
namespace {

using enum Worth;
using enum Demand;
constexpr std::string_view tsi = "TSI Infrastructure 1299/2014, 4.2.5, 4.2.8.6 (text not seen)";

constexpr Standard at(Demand kind, double value) { return {value, kind, well_remembered, tsi}; }

constexpr std::array dimensions_told{
    Dimension{"nose protection", "nose_protection", [](const Faces& f) { return f.nose_protection(); },
              at(at_least, 1392 * mm), "shim the check rail away from its stock rail, or bring the gauge back"},
    Dimension{"free wheel passage at the nose", "passage_at_nose", [](const Faces& f) { return f.passage_at_nose(); },
              at(at_most, 1356 * mm), "widen the flangeway of check or wing rail"},
    Dimension{"free wheel passage at check-rail entry", "passage_at_check_entry",
              [](const Faces& f) { return f.passage_at_check_entry(); }, at(at_most, 1380 * mm),
              "open the flare of the check rail further"},
    Dimension{"free wheel passage at wing-rail entry", "passage_at_wing_entry",
              [](const Faces& f) { return f.passage_at_wing_entry(); }, at(at_most, 1380 * mm),
              "open the flare of the wing rail further"},
    Dimension{"flangeway at the check rail", "check_flangeway", [](const Faces& f) { return f.check; },
              at(at_least, 38 * mm), "move the check rail away from its stock rail, if the nose protection allows"},
    Dimension{"flangeway at the crossing", "crossing_flangeway", [](const Faces& f) { return f.crossing_flangeway(); },
              at(at_least, 38 * mm), "grind lips off wing and nose, or replace the crossing"},
    Dimension{"depth of the flangeway", "flangeway_depth", [](const Faces& f) { return f.depth; },
              at(at_least, 40 * mm), "clear or grind the floor of the flangeway"},
    Dimension{"check rail over the running surface", "check_height", [](const Faces& f) { return f.height; },
              at(at_most, 70 * mm), "lower the check rail"},
    Dimension{"gauge", "gauge", [](const Faces& f) { return f.gauge; }, std::nullopt, ""}};

// How far flares open a flangeway.
double opening(const CheckRail& c) {
  return c.flare_length * std::tan(c.flare) + c.end_flare_length * std::tan(c.end_flare);
}

Faces faces(const Turnout& t, double gauge, double check, double nose, double crossing_flangeway) {
  const double wing_opening = t.crossing.wing_flare_length * std::tan(t.crossing.wing_flare);
  return {gauge,
          check,
          nose,
          nose - crossing_flangeway,
          check + opening(t.check_rail),
          gauge - nose + crossing_flangeway + wing_opening,
          t.crossing.flangeway_depth,
          t.check_rail.height};
}

} // namespace

Faces drawn(const Turnout& t, Way way) {
  const double gauge = gauge_of(t, way);
  return faces(t, gauge, check_flangeway_of(t, way), gauge, crossing_flangeway_of(t, way));
}

Faces found(const Turnout& t, Way way) {
  const Readings& r = t.readings;
  const double gauge = r.gauge.value_or(gauge_of(t, way));
  double nose = gauge + t.crossing.nose_wear;
  double check = check_flangeway_of(t, way) + t.check_rail.wear; // it stands on the chairs of its stock rail
  if (r.nose_protection && r.check_flangeway) {
    check = *r.check_flangeway;
    nose = check + *r.nose_protection;
  } else if (r.nose_protection) {
    check = nose - *r.nose_protection;
  } else if (r.check_flangeway) {
    check = *r.check_flangeway;
  }
  const double worn = crossing_flangeway_of(t, way) + t.crossing.wing_wear + t.crossing.nose_wear;
  return faces(t, gauge, check, nose, r.crossing_flangeway.value_or(worn));
}

GaugeLimits gauge_limits(double speed) {
  const double v = speed * 3.6 - 1e-9; // km/h
  const bool slow = v <= 160.0;
  const double least = v <= 120.0 ? 1426 : slow ? 1427 : v <= 230.0 ? 1428 : 1430, most = slow ? 1470 : 1463;
  constexpr std::string_view source = "TSI Infrastructure 4.2.8.4, immediate action";
  return {{least * mm, at_least, remembered, source}, {most * mm, at_most, remembered, source}};
}

std::span<const Dimension> dimensions() { return dimensions_told; }

Margins margins(const Faces& f, const Wheelset& w, double flange_height) {
  return {f.nose_protection() - w.back_to_flange(), w.back_to_back - f.passage_at_nose(),
          w.back_to_flange() - f.passage_at_check_entry(), f.depth - flange_height};
}

Margins least_margins(const Faces& f, const WheelsetLimits& limits) {
  const Margins wide = margins(f, widest(limits), limits.highest_flange);
  const Margins narrow = margins(f, narrowest(limits), limits.highest_flange);
  return {wide.at_nose, narrow.between_guides, narrow.at_check_entry, wide.over_floor};
}

Touches touches(const Faces& f, const Wheelset& w) {
  const double middle = 0.5 * f.gauge, half_back = 0.5 * w.back_to_back;
  return {f.check - (middle - half_back), f.nose - (middle + half_back + w.flange_thickness),
          middle - half_back - w.flange_thickness, middle + half_back - f.wing};
}

MetFlares met_flares(const Turnout& t, const Faces& f, const WheelsetLimits& limits) {
  const CheckRail& c = t.check_rail;
  const double farthest = f.gauge - narrowest(limits).back_to_flange(); // y of a back, the other flange on its rail
  const bool gentle = f.check + c.flare_length * std::tan(c.flare) >= farthest;
  const double end = c.end_flare_length > 0.0 ? c.end_flare : 0.0, flare = c.flare_length > 0.0 ? c.flare : 0.0;
  return {gentle ? flare : std::max(flare, end), t.crossing.wing_flare_length > 0.0 ? t.crossing.wing_flare : 0.0};
}

} // namespace wingnose::layout::turnout
