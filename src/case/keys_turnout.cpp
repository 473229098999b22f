// Keys of [turnout]: the drawing the crossing belongs to, and what was read on site.
#include "keys.hpp"

#include "wingnose/words/text.hpp"

namespace wingnose::cases {
namespace {

namespace of = layout::turnout;

Turnout& turnout(Case& c) { return c.turnout; }
of::Turnout& drawing(Case& c) { return c.turnout.drawing; }
of::CheckRail& check_rail(Case& c) { return c.turnout.drawing.check_rail; }
of::Crossing& crossing(Case& c) { return c.turnout.drawing.crossing; }
of::Readings& readings(Case& c) { return c.turnout.drawing.readings; }
of::Wheelset& wheelset(Case& c) { return c.turnout.wheelset; }

std::string curvature_csv(Case& c) { return c.turnout.curvature_csv; }

std::vector<std::string> preset_names() {
  std::vector<std::string> names;
  for (const of::Preset& preset : of::presets()) {
    names.emplace_back(preset.name);
  }
  return names;
}

std::vector<Key> route_keys() {
  using T = of::Turnout;
  const std::string drawn = "drawing";
  return {
      selecting(key<turnout, &Turnout::geometry>(
          "geometry", "where the turnout is from: none; its drawing's numbers; one of the trade; the curvature of its "
                      "diverging route, point by point")),
      required(
          key<turnout, &Turnout::preset>("preset", "turnout of the trade: radius and rate", "preset", preset_names())),
      key<drawing, &T::hand>("hand", "side to which the diverging route turns in a facing move"),
      key<turnout, &Turnout::way>("way", "the one the vehicle takes, at passage.speed_km_h"),
      required(key<drawing, &T::radius>("curve_radius_m", "radius of the diverging route's centre line", drawn)),
      required(key<drawing, &T::rate>("curve_rate", "N of 1:N at the end of the curve", drawn)),
      key<drawing, &T::transition>("transition_m", "length over which the curvature begins; 0: a step", drawn),
      key<drawing, &T::end_length, &of::end_length_range>(
          "end_length_m", "meeting of the tangents to the end; absent: as far as to the end of the curve",
          "drawing|curvature"),
      required(file("curvature_csv",
                    "curvature of the diverging route: CSV with station_m (from the start of the turnout), "
                    "curvature_1_m (positive to its hand) and, if canted, cant_mm; a station twice is a step",
                    {curvature_csv, read_curvature}, "curvature")),
      key<turnout, &Turnout::gauge, &of::gauge_range>("gauge_mm", "track gauge; absent: the crossing's"),
      key<turnout, &Turnout::widening, &T::widening>(
          "widening_mm", "gauge widening of the diverging route, at its inner rail; absent: the geometry's own"),
      key<drawing, &T::cant>("cant_mm", "cant of both routes, positive where it helps the diverging one"),
  };
}

std::vector<Key> check_keys() {
  using C = of::CheckRail;
  return {
      key<check_rail, &C::nose_protection, &of::nose_protection_range>(
          "nose_protection_mm", "face of the check rail to the nose; absent: 1394, or what check_flangeway_mm leaves"),
      key<check_rail, &C::flangeway, &of::check_flangeway_range>(
          "check_flangeway_mm", "width between stock rail and check rail, instead of nose_protection_mm"),
      key<check_rail, &C::height>("check_height_mm", "top of the check rail over the running surface"),
      key<check_rail, &C::begin>("check_begin_mm",
                                 "station from the theoretical intersection where its parallel part begins"),
      key<check_rail, &C::length>("check_length_mm", "length of its parallel part"),
      key<check_rail, &C::flare_length>("check_flare_length_mm", "length of the flare at either end"),
      key<check_rail, &C::flare>("check_flare_mrad", "angle of the flare to the running rail"),
      key<check_rail, &C::end_flare_length>("check_end_flare_length_mm", "length of the steeper end of each flare"),
      key<check_rail, &C::end_flare>("check_end_flare_mrad", "angle of that end"),
      key<check_rail, &C::wear>("check_wear_mm", "wear of its face"),
  };
}

std::vector<Key> crossing_keys() {
  using C = of::Crossing;
  return {
      key<turnout, &Turnout::crossing_flangeway, &of::crossing_flangeway_range>(
          "crossing_flangeway_mm", "width between nose and wing rail; absent: the crossing's"),
      key<crossing, &C::flangeway_depth>("flangeway_depth_mm", "floor of the flangeway below the running surface"),
      key<crossing, &C::wing_flare_length>("wing_flare_length_mm", "length of the flare at the end of the wing rail"),
      key<crossing, &C::wing_flare>("wing_flare_mrad", "angle of that flare"),
      key<crossing, &C::wing_wear>("wing_wear_mm", "wear of the face of the wing rail that guides wheel backs"),
      key<crossing, &C::nose_wear>("nose_wear_mm", "wear of the nose's face at the gauge point"),
  };
}

std::vector<Key> reading_keys() {
  using R = of::Readings;
  using W = of::Wheelset;
  return {
      key<readings, &R::gauge, &of::gauge_range>("gauge_reading_mm",
                                                 "gauge as read on site; readings count before drawing and wear"),
      key<readings, &R::nose_protection, &of::nose_protection_range>("nose_protection_reading_mm",
                                                                     "nose protection as read on site"),
      key<readings, &R::check_flangeway, &of::check_flangeway_range>("check_flangeway_reading_mm",
                                                                     "flangeway of the check rail as read on site"),
      key<readings, &R::crossing_flangeway, &of::crossing_flangeway_range>("crossing_flangeway_reading_mm",
                                                                           "flangeway of the crossing as read on site"),
      key<wheelset, &W::back_to_back>("back_to_back_mm", "nominal wheelset: distance of the wheel backs"),
      key<wheelset, &W::flange_thickness>("flange_thickness_mm", "nominal wheelset: thickness of the flanges"),
  };
}

} // namespace

void add_turnout_keys(Schema& schema) {
  const std::string all = "drawing|preset|curvature"; // but "none"
  bool first = true;
  for (auto keys : {route_keys(), check_keys(), crossing_keys(), reading_keys()}) {
    for (Key& key : keys) {
      key.only = key.selector || !key.only.empty() ? key.only : all;
    }
    add(schema, "turnout", first ? "the turnout the crossing belongs to (wingnose turnout)" : "", std::move(keys));
    first = false;
  }
}

} // namespace wingnose::cases
