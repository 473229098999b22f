#include "../tell.hpp"

#include "findings.hpp"

#include "wingnose/study/turnout.hpp"

#include <cmath>

namespace wingnose::study {
namespace {

namespace plan = layout::turnout;
using plan::Lying, plan::Place, plan::Route, plan::Way;
using S = const TurnoutStudy&;

std::string words(const plan::Standard& s) { return std::string(name(s.trust)); }

void add_about(Tree& tree, const Case& c, S s) {
  tree.attributes.emplace_back("name", c.name);
  Filler f(tree, "turnout", c.name + ": turnout " + s.turnout.name, Layout::rows);
  f.text({"hand", "hand", "side to which the diverging route turns in a facing move"},
         std::string(name(s.turnout.hand)));
  f.text({"way", "way taken", "route the vehicle takes"}, std::string(name(s.way)));
  f.number({"speed_km_h", "speed", "speed along it", 1}, s.speed);
  const bool drawn = s.turnout.curvature.empty();
  f.number({"curve_radius_m", "radius", "radius of the diverging route's centre line", 1},
           drawn ? std::optional(s.turnout.radius) : std::nullopt);
  f.number({"curve_rate", "rate 1:N", "N at the end of the curve", 2},
           drawn ? std::optional(s.turnout.rate) : std::nullopt);
  f.number({"transition_m", "transition", "length over which the curvature begins", 2, told}, s.turnout.transition);
  f.number({"widening_mm", "widening", "gauge widening of the diverging route", 1}, s.turnout.widening);
  f.number({"cant_mm", "cant", "cant, positive where it helps the diverging route", 1}, s.turnout.cant);
  for (const plan::Preset& preset : plan::presets()) {
    if (preset.name == s.turnout.name) {
      f.text({"speed_of_the_trade", "diverging speed", "speed the turnout is known for, and the trust in that"},
             in_km_h(preset.diverging_speed) + " (" + std::string(name(preset.speed_trust)) + ")");
      f.text({"note", "note", "what else is known of it", told}, std::string(preset.note));
    }
  }
}

void add_route(Tree& tree, S s) {
  const plan::Geometry& g = s.geometry;
  Filler f(tree, "route", "Where the routes lie", Layout::rows);
  f.number({"angle_deg", "angle behind the curve", "angle between the routes behind the curve", 4}, g.angle);
  f.number({"tangent_length_m", "tangent", "start of the turnout to the meeting of the tangents", 3}, g.tangent_length);
  f.number({"two_tangents_m", "both tangents", "start of the turnout to the end of the curve, along the tangents", 3},
           g.two_tangents);
  f.number({"overall_length_m", "overall length", "start to end of the turnout, along the tangents", 3},
           g.overall_length)
      .told_if_none = true;
  f.number({"nose_from_start_m", "start to nose", "start of the turnout to the meeting of the gauge lines", 3},
           g.nose_from_start);
  f.text({"nose_lies", "the nose lies", "in the curve of the diverging route or behind it"},
         g.nose_in_curve ? "in the curve" : "in the straight behind the curve");
  f.number({"angle_at_nose_deg", "angle at the nose", "angle between the gauge lines there", 4}, g.angle_at_nose);
  f.number({"rate_at_nose", "rails cross at 1:N", "rate of that angle", 3}, g.rate_at_nose);
  f.number({"flange_contact_m", "flange meets its rail after",
            "way of the nominal wheelset from the step of curvature until its flange meets the outer rail", 3},
           s.entry ? std::optional(s.entry->distance) : std::nullopt);
  f.number({"attack_mrad", "at an angle of", "angle between wheelset and rail there", 2},
           s.entry ? std::optional(s.entry->attack) : std::nullopt);
  Columns(Filler(tree, "bodies", "What lies along the way taken (stations from the meeting of the gauge lines)",
                 Layout::columns),
          "body", s.lying)
      .text({"body", "body", "name of the body"}, &Lying::name)
      .text({"role", "role", "what it is to a wheel"}, [](const Lying& l) { return std::string(name(l.role)); })
      .text({"side", "side", "whose wheel meets it"}, [](const Lying& l) { return std::string(name(l.side)); })
      .number({"from_m", "from", "where it begins", 3}, &Lying::begin)
      .number({"to_m", "to", "where it ends", 3}, &Lying::end);
}

// Both routes every half metre, for drawings.
void add_course(Tree& tree, S s) {
  constexpr double pitch = 0.5; // m
  for (const Way way : {Way::through, Way::diverging}) {
    const Route& route = plan::route(s.geometry, way);
    const int steps = static_cast<int>(std::ceil((route.end() - route.begin()) / pitch));
    std::vector<double> station;
    for (int i = 0; i <= steps; ++i) {
      station.push_back(i == steps ? route.end() : route.begin() + pitch * i);
    }
    const std::string of(name(way)), dim = of + "_point";
    Columns(Filler(tree, of), dim, station)
        .number({"s_m", "s", "arc length from the meeting of the gauge lines", 3, stored}, std::identity{})
        .number({"x_m", "x", "along the through route from the start of the turnout", 4, stored},
                [&](double at) { return route.at(at).x; })
        .number({"y_m", "y", "to the left of the through route", 4, stored}, [&](double at) { return route.at(at).y; })
        .number({"heading_mrad", "heading", "from the through route, to the left", 3, stored},
                [&](double at) { return route.at(at).heading; })
        .number({"curvature_1_m", "curvature", "positive to the left", 6, stored},
                [&](double at) { return route.curvature(at); })
        .number({"cant_mm", "cant", "positive where it helps a curve to the left", 1, stored},
                [&](double at) { return route.cant(at); });
  }
}

void add_dimensions(Tree& tree, S s) {
  using D = const plan::Dimension&;
  const auto standard = [](auto of) { return [of](D d) { return d.standard ? of(d) : none; }; };
  Columns(Filler(tree, "dimensions", "Functional dimensions of the way taken, 14 mm below the running surface",
                 Layout::columns),
          "dimension", plan::dimensions())
      .text({"key", "", "short name of the dimension", told}, [](D d) { return std::string(d.key); })
      .text({"dimension", "dimension", "what is measured"}, [](D d) { return std::string(d.name); })
      .number({"drawn_mm", "drawn", "as drawn, nothing worn", 1}, [&](D d) { return d.of(s.drawn); })
      .number({"found_mm", "found", "with wear, or as read on site", 1}, [&](D d) { return d.of(s.found); })
      .number({"standard_mm", "standard", "value of the standard", 1}, standard([](D d) { return d.standard->value; }))
      .text({"kind", "kind", "whether that is the least or the most allowed"},
            [](D d) { return d.standard ? std::string(name(d.standard->kind)) : ""; })
      .number({"margin_mm", "margin", "what is left to it of the value found; negative: beyond", 1},
              standard([&](D d) { return d.standard->margin(d.of(s.found)); }))
      .text({"trust", "trust", "what the standard's value is worth"},
            [](D d) { return d.standard ? words(*d.standard) : ""; })
      .text({"source", "source", "where it stands"},
            [](D d) { return d.standard ? std::string(d.standard->source) : ""; });
}

struct WheelsetRow {
  std::string who;
  plan::Wheelset of;
};

void add_wheelsets(Tree& tree, S s) {
  using W = const WheelsetRow&;
  const std::vector<WheelsetRow> rows{{"nominal", s.nominal},
                                      {"widest allowed", plan::widest(s.limits)},
                                      {"narrowest allowed", plan::narrowest(s.limits)}};
  Columns(Filler(tree, "wheelsets", "Wheelsets held against the crossing", Layout::columns), "wheelset", rows)
      .text({"wheelset", "wheelset", "which one"}, &WheelsetRow::who)
      .number({"back_to_back_mm", "back to back", "distance of the wheel backs", 1},
              [](W w) { return w.of.back_to_back; })
      .number({"flange_thickness_mm", "flange", "thickness of a flange", 1}, [](W w) { return w.of.flange_thickness; })
      .number({"front_to_front_mm", "front to front", "over both flanges", 1},
              [](W w) { return w.of.front_to_front(); })
      .number({"back_to_flange_mm", "back to flange", "back of one wheel to the front of the other's flange", 1},
              [](W w) { return w.of.back_to_flange(); });
}

struct LimitRow {
  const char* what;
  Range range;
  double nominal;
};

void add_limits(Tree& tree, S s) {
  const std::vector<LimitRow> rows{{"back to back", s.limits.back_to_back, s.nominal.back_to_back},
                                   {"front to front", s.limits.front_to_front, s.nominal.front_to_front()},
                                   {"thickness of a flange", s.limits.flange_thickness, s.nominal.flange_thickness}};
  const std::string trust(name(s.limits.trust)), source(s.limits.source);
  Columns(Filler(tree, "wheelset_limits",
                 "Limits of wheelsets with wheels of this size (" + source + "; " + trust + ")", Layout::columns),
          "wheelset_limit", rows)
      .text({"limit", "dimension", "what is limited"}, [](const LimitRow& r) { return std::string(r.what); })
      .number({"least_mm", "least", "least allowed", 1}, [](const LimitRow& r) { return r.range.least; })
      .number({"nominal_mm", "nominal", "of the nominal wheelset", 1}, &LimitRow::nominal)
      .number({"most_mm", "most", "most allowed", 1}, [](const LimitRow& r) { return r.range.most; })
      .text({"trust", "", "what the limit is worth", told}, [&](const LimitRow&) { return std::string(trust); })
      .text({"source", "", "where it stands", told}, [&](const LimitRow&) { return std::string(source); });
}

struct MarginRow {
  const char* what;
  double nominal, worst, drawn_nominal, drawn_worst;
};

void add_margins(Tree& tree, S s) {
  using M = double plan::Margins::*;
  const plan::Margins drawn = plan::margins(s.drawn, s.nominal, s.flange_height);
  const plan::Margins drawn_worst = plan::least_margins(s.drawn, s.limits);
  const auto row = [&](const char* what, M of) {
    return MarginRow{what, s.nominal_margins.*of, s.least_margins.*of, drawn.*of, drawn_worst.*of};
  };
  const std::vector<MarginRow> rows{
      row("flange to the nose, other wheel's back on the check rail", &plan::Margins::at_nose),
      row("wheel backs past check and wing rail at the nose", &plan::Margins::between_guides),
      row("wheel back past the end of the check rail", &plan::Margins::at_check_entry),
      row("flange tip over the floor of the flangeway", &plan::Margins::over_floor)};
  Columns(Filler(tree, "margins", "What is left for a wheelset (rigid; negative: it runs against it)", Layout::columns),
          "margin", rows)
      .text({"margin", "where", "what comes near what"}, [](const MarginRow& r) { return std::string(r.what); })
      .number({"drawn_nominal_mm", "drawn: nominal", "as drawn, for the nominal wheelset", 1},
              &MarginRow::drawn_nominal)
      .number(
          {"drawn_worst_mm", "worst allowed", "as drawn, for the worst of the wheelsets allowed, each row its own", 1},
          &MarginRow::drawn_worst)
      .number({"nominal_mm", "found: nominal", "with wear, or as read, for the nominal wheelset", 1},
              &MarginRow::nominal)
      .number({"worst_mm", "worst allowed", "with wear, or as read, for the worst of the wheelsets allowed", 1},
              &MarginRow::worst);
}

struct TouchRow {
  const char* what;
  double nominal, widest;
};

void add_touches(Tree& tree, S s) {
  const plan::Touches &n = s.nominal_touches, &w = s.widest_touches;
  const std::vector<TouchRow> rows{
      {"towards the crossing: back of the other wheel on the check rail", n.check, w.check},
      {"towards the crossing: flange on the nose", n.nose, w.nose},
      {"away from it: flange of the other wheel on its rail", n.stock, w.stock},
      {"away from it: back of the crossing's wheel on the wing rail", n.wing, w.wing}};
  Columns(
      Filler(tree, "touches", "Shift from the middle of the track at which a wheelset first meets", Layout::columns),
      "touch", rows)
      .text({"touch", "what", "what meets what"}, [](const TouchRow& r) { return std::string(r.what); })
      .number({"nominal_mm", "nominal", "for the nominal wheelset", 1}, &TouchRow::nominal)
      .number({"widest_mm", "widest allowed", "for the widest wheelset allowed", 1}, &TouchRow::widest);
  Filler f(tree, "nose", "Is the nose safe from flanges?", Layout::rows);
  const auto answer = [](const plan::Touches& t) { return std::string(t.guarded() ? "yes" : "no"); };
  f.text({"nominal_held", "nominal wheelset held off", "does the check rail hold it before its flange meets the nose"},
         answer(n));
  f.number({"nominal_left_mm", "left to the nose", "negative: the flange is there first", 1},
           s.nominal_margins.at_nose);
  f.text({"worst_held", "worst allowed held off", "the same of the widest wheelset allowed"}, answer(w));
  f.number({"worst_left_mm", "left to the nose", "the same of the widest wheelset allowed", 1},
           s.least_margins.at_nose);
  f.text({"first_back", "wheel back that touches first", "of the nominal wheelset, whichever way it moves"},
         n.check <= n.wing ? "the other wheel's, on the check rail, at " + in_mm(n.check)
                           : "the crossing wheel's, on the wing rail, at " + in_mm(n.wing));
}

void add_speed(Tree& tree, S s) {
  const plan::Kinematics& k = s.kinematics;
  Columns(Filler(tree, "speed", "What the speed asks of the way taken", Layout::columns), "demand", s.held)
      .text({"demand", "what", "what the speed asks for"}, &Held::what)
      .text({"demand_unit", "unit", "its unit"}, &Held::unit)
      .number(Named("value", "value", "that, in its unit", 3),
              [](const Held& h) { return h.value * unit(h.unit).per_si; })
      .number(Named("standard", "standard", "value of the standard, in its unit", 3),
              [](const Held& h) { return h.standard.value * unit(h.unit).per_si; })
      .text({"kind", "kind", "whether that is the least or the most"},
            [](const Held& h) { return std::string(name(h.standard.kind)); })
      .number(Named("margin", "margin", "what is left to it, in its unit; negative: beyond", 3),
              [](const Held& h) { return h.standard.margin(h.value) * unit(h.unit).per_si; })
      .text({"trust", "trust", "what the standard's value is worth"}, [](const Held& h) { return words(h.standard); })
      .text({"source", "source", "where it stands"}, [](const Held& h) { return std::string(h.standard.source); });
  Filler f(tree, "kinematics", "And besides", Layout::rows);
  f.number({"unbalanced_acceleration_m_s2", "unbalanced acceleration", "largest in the plane of the track", 3, told},
           k.acceleration);
  f.number({"cant_deficiency_mm", "cant deficiency", "largest, an excess without its sign", 1, told},
           k.cant_deficiency);
  f.number({"abrupt_change_mm", "abrupt change", "largest step of the cant deficiency", 1, told}, k.abrupt_change);
  f.number({"abrupt_at_m", "abrupt change at", "its station from the meeting of the gauge lines", 3}, k.abrupt_at);
  f.number({"virtual_rate_mm_s", "rate over 12.2 m",
            "that step over the distance of a coach's bogies, 12.2 m (from memory)", 0},
           k.virtual_rate);
  f.number({"rate_mm_s", "rate along the transition", "largest rate of change of the cant deficiency", 0},
           k.rate > 0.0 ? std::optional(k.rate) : std::nullopt);
  f.number({"speed_for_100_mm_km_h", "speed for 100 mm",
            "on the diverging route: at a cant deficiency of 100 mm, the design basis", 1},
           s.speed_for_design);
}

void add_guide(Tree& tree, S s) {
  Filler f(tree, "check_rail", "Check rail: a wheel back, the other flange on its rail, meets it", Layout::rows);
  f.number({"met_at_mm", "at station", "of the face, from the meeting of the gauge lines; nominal wheelset", 0},
           s.met ? std::optional(s.met->where) : std::nullopt)
      .told_if_none = true;
  f.number({"axle_then_mm", "axle then at", "station of the axle at that moment", 0},
           s.met ? std::optional(s.met->axle) : std::nullopt)
      .told_if_none = true;
  f.number({"top_mm", "top", "of the check rail over the running surface", 1, told}, s.face.top);
  f.list({"face_station_mm", "station", "corners of the face in plan", 1, told}, "corner", s.face.x);
  f.list({"face_flangeway_mm", "flangeway", "width of the flangeway there", 1, told}, "corner", s.face.width);
}

} // namespace

Tree tell(const Case& c, S s) {
  Tree tree("turnout");
  add_about(tree, c, s);
  add_route(tree, s);
  add_course(tree, s);
  add_dimensions(tree, s);
  add_limits(tree, s);
  add_wheelsets(tree, s);
  add_margins(tree, s);
  add_touches(tree, s);
  add_guide(tree, s);
  add_speed(tree, s);
  add_end(tree, s.findings, c);
  return tree;
}

} // namespace wingnose::study
