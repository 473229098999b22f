#include "wingnose/layout/surface.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <sstream>
#include <string>

namespace wingnose::layout {
namespace {

std::string text(double value) {
  std::ostringstream out;
  out << value;
  return out.str();
}

void within(const char* what, double value, double low, double high, const char* advice) {
  if (!(value >= low && value <= high)) {
    throw InputError(what, text(value), text(low) + " to " + text(high), advice);
  }
}

void check_wing(const CrossingShape& s) {
  within("flangeway (m)", s.flangeway, 0.020, 0.120, "Usual flangeways are 0.040 to 0.080 m.");
  within("wing knuckle radius (m)", s.wing_knuckle_radius, 0.01, 200.0, "A bent or cast knuckle has some 5 to 20 m.");
  if (s.wing_run != 0.0) {
    within("wing run (m)", s.wing_run, 0.1, 20.0, "Let the wing reach beyond the transfer.");
  }
  within("wing edge radius (m)", s.wing_edge_radius, 0.001, 0.030, "A rail corner has about 0.013 m.");
  within("edge radius of the run-in (m)", s.wing_run_in_edge_radius, 0.001, 0.030, "A rail corner has about 0.013 m.");
  within("wing cross slope", s.wing_cross_slope, -0.2, 0.2, "Inclined rails have 0.025 to 0.05.");
  within("wing inclination (rad)", s.wing_inclination, -0.1, 0.1, "Inclined rails have 0.025 to 0.05 rad.");
  within("wing lift (m)", s.wing_lift, -0.02, 0.02, "Wing rails are lifted by a few millimetres at most.");
  within("length of the wing lift (m)", s.wing_lift_run, 0.02, 10.0, "Reach the lift over some decimetres.");
  within("head width (m)", s.head_width, 0.030, 0.120, "Rail heads are about 0.072 m wide.");
  within("place of the crown (m)", s.crown_place, s.nose_setback + 0.005, s.head_width, "Keep it on the head.");
  within("run-out at which the wing head is flat (m)", s.wing_flat_offset, 0.005, 0.2, "Some 0.040 m is usual.");
  if (s.wing_crown_radius != 0.0) {
    within("wing crown radius (m)", s.wing_crown_radius, 0.050, 100.0, "Rail heads have 0.300 m; 0 stands for flat.");
  }
  const double knuckle = -s.flangeway * s.rate;
  const double reach = s.wing_knuckle_radius / (2.0 * s.rate);
  if (!(s.wing_begin <= knuckle - reach)) {
    throw InputError("begin of the wing (m)", text(s.wing_begin), "up to " + text(knuckle - reach),
                     "The modelled run-in must begin before the rounded knuckle.");
  }
  if (s.wing_run != 0.0 && !(reach <= s.wing_run)) {
    throw InputError("wing knuckle radius (m)", text(s.wing_knuckle_radius), "up to " + text(2.0 * s.rate * s.wing_run),
                     "The rounding must end on the wing.");
  }
}

void check_nose(const CrossingShape& s) {
  within("setback of the nose faces (m)", s.nose_setback, 0.0, 0.010, "A few millimetres are usual.");
  within("nose thickness at the point (m)", s.nose_point_thickness, 2.0 * s.nose_setback + 0.001, 0.1,
         "Between the two set-back faces at least 1 mm of metal must be left.");
  within("nose thickness at the start of the ramp (m)", s.nose_ramp_start_thickness, 0.0, 0.1,
         "Some 0.010 m is usual.");
  within("nose thickness at the end of the ramp (m)", s.nose_ramp_end_thickness, s.nose_ramp_start_thickness + 0.001,
         0.3, "The ramp must rise over some length: end it where the nose is thicker than at its start.");
  within("nose start depth (m)", s.nose_start_depth, 0.0, 0.030, "Noses begin some 3 to 10 mm below the top of rail.");
  within("nose depth at the end of the ramp (m)", s.nose_ramp_end_depth, 0.0, s.nose_start_depth,
         "The ramp rises from its start depth to this depth; 0 stands for full height.");
  within("nose thickness of full height (m)", s.nose_full_thickness, s.nose_ramp_end_thickness + 0.001, 0.5,
         "The rest of the height is reached behind the ramp.");
  within("rounding of the nose ramp (m)", s.nose_ramp_rounding, 0.001, 5.0, "Some 0.1 to 0.2 m is usual.");
  within("nose shoulder radius (m)", s.nose_shoulder_radius, 0.002, 0.030, "Castings have 0.010 to 0.016 m.");
  within("nose crown radius (m)", s.nose_crown_radius, 0.050, 100.0, "Rail heads have 0.300 m.");
  within("modelled length of the nose (m)", s.nose_length, s.nose_full_thickness * s.rate, 100.0,
         "Model the nose at least up to its full height.");
}

void check_modifiers(const CrossingShape& s) {
  std::size_t wing = 0, nose = 0;
  for (const Modifier& m : s.modifiers) {
    if (m.body != "wing" && m.body != "nose") {
      throw InputError("body of a modifier", "\"" + m.body + "\"", "\"wing\" or \"nose\"",
                       "Name the body it works on.");
    }
    (m.body == "wing" ? wing : nose) += 1;
    within("length of a modifier (m)", m.length, 0.010, 20.0, "Wear and welds fade out over centimetres at least.");
    within("depth of a modifier (m)", m.depth, -0.020, 0.020, "Positive removes metal, negative adds it.");
    within("width of a modifier (m)", m.width, 0.0, 0.5, "0 stands for the whole width.");
    within("station of a modifier (m)", m.station, -100.0, 100.0, "Give its centre in metres.");
    within("place across of a modifier (m)", m.eta, 0.0, 0.3, "Give its distance from the running edge.");
  }
  if (wing > max_modifiers || nose > max_modifiers) {
    throw InputError("number of modifiers per body", std::to_string(std::max(wing, nose)),
                     "up to " + std::to_string(max_modifiers), "Merge neighbouring ones.");
  }
}

} // namespace

Crossing generate(const CrossingShape& s) {
  within("crossing rate N of 1:N", s.rate, 4.0, 60.0, "Give N of the right-angle method, e.g. 15.");
  within("gauge (m)", s.gauge, 1.425, 1.470, "The wheels are those of standard gauge.");
  check_wing(s);
  check_nose(s);
  check_modifiers(s);
  return {
      s.name,
      s.rate,
      s.gauge,
      {{"wing", Role::wing, Side::crossing, GeneratedWing(s)}, {"nose", Role::nose, Side::crossing, GeneratedNose(s)}}};
}

} // namespace wingnose::layout
