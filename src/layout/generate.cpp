#include "wingnose/layout/surface.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <string>

namespace wingnose::layout {
namespace {

constexpr double shortest_wing = 0.1; // m, behind the knuckle
constexpr double least_crown = 0.050; // m, radius
constexpr double least_metal = 0.001; // m, of thickness

void check_wing(const CrossingShape& s) {
  if (s.wing_run != 0.0 && s.wing_run < shortest_wing) {
    throw Contradiction("wing_run", s.wing_run, Bound::at_least, shortest_wing, "",
                        "Let the wing reach beyond the transfer; 0 stands for as far as it is needed.");
  }
  if (s.wing_crown_radius != 0.0 && s.wing_crown_radius < least_crown) {
    throw Contradiction("wing_crown_radius", s.wing_crown_radius, Bound::at_least, least_crown, "",
                        "Rail heads have 300 mm; 0 stands for a flat head.");
  }
  if (s.crown_place < s.nose_setback + 0.005) {
    throw Contradiction("crown_place", s.crown_place, Bound::at_least, s.nose_setback + 0.005, "nose_setback",
                        "Keep it on the head.");
  }
  if (s.crown_place > s.head_width) {
    throw Contradiction("crown_place", s.crown_place, Bound::up_to, s.head_width, "head_width", "Keep it on the head.");
  }
  const double knuckle = -s.flangeway * s.rate;
  const double reach = s.wing_knuckle_radius / (2.0 * s.rate);
  if (s.wing_begin > knuckle - reach) {
    const bool far = reach > -knuckle; // which of the two it is that reaches out
    throw Contradiction("wing_begin", s.wing_begin, Bound::up_to, knuckle - reach,
                        far ? "wing_knuckle_radius" : "flangeway",
                        "The modelled run-in must begin before the rounded knuckle.");
  }
  if (s.wing_run != 0.0 && reach > s.wing_run) {
    throw Contradiction("wing_knuckle_radius", s.wing_knuckle_radius, Bound::up_to, 2.0 * s.rate * s.wing_run,
                        "wing_run", "The rounding must end on the wing.");
  }
}

void check_nose(const CrossingShape& s) {
  if (s.nose_point_thickness < 2.0 * s.nose_setback + least_metal) {
    throw Contradiction("nose_point_thickness", s.nose_point_thickness, Bound::at_least,
                        2.0 * s.nose_setback + least_metal, "nose_setback",
                        "Between the two set-back faces at least 1 mm of metal must be left.");
  }
  if (s.nose_ramp_end_thickness < s.nose_ramp_start_thickness + least_metal) {
    throw Contradiction("nose_ramp_end_thickness", s.nose_ramp_end_thickness, Bound::at_least,
                        s.nose_ramp_start_thickness + least_metal, "nose_ramp_start_thickness",
                        "The ramp must rise over some length: end it where the nose is thicker than at its start.");
  }
  if (s.nose_ramp_end_depth > s.nose_start_depth) {
    throw Contradiction("nose_ramp_end_depth", s.nose_ramp_end_depth, Bound::up_to, s.nose_start_depth,
                        "nose_start_depth",
                        "The ramp rises from its start depth to this depth; 0 stands for full height.");
  }
  if (s.nose_full_thickness < s.nose_ramp_end_thickness + least_metal) {
    throw Contradiction("nose_full_thickness", s.nose_full_thickness, Bound::at_least,
                        s.nose_ramp_end_thickness + least_metal, "nose_ramp_end_thickness",
                        "The rest of the height is reached behind the ramp.");
  }
  if (s.nose_length < s.nose_full_thickness * s.rate) {
    throw Contradiction("nose_length", s.nose_length, Bound::at_least, s.nose_full_thickness * s.rate,
                        "nose_full_thickness", "Model the nose at least up to its full height.");
  }
}

void check_modifiers(const CrossingShape& s) {
  std::size_t wing = 0, nose = 0;
  for (const Modifier& m : s.modifiers) {
    if (m.body != "wing" && m.body != "nose") {
      throw InputError("body of a modifier", "\"" + m.body + "\"", "\"wing\" or \"nose\"",
                       "Name the body it works on.");
    }
    (m.body == "wing" ? wing : nose) += 1;
    demand_ranges(m, "modifier");
  }
  if (wing > max_modifiers || nose > max_modifiers) {
    throw InputError("number of modifiers per body", std::to_string(std::max(wing, nose)),
                     "up to " + std::to_string(max_modifiers), "Merge neighbouring ones.");
  }
}

} // namespace

void check(const CrossingShape& s) {
  demand_ranges(s, "crossing");
  check_wing(s);
  check_nose(s);
  check_modifiers(s);
}

Crossing generate(const CrossingShape& s) {
  check(s);
  return {
      s.name,
      s.rate,
      s.gauge,
      {{"wing", Role::wing, Side::crossing, GeneratedWing(s)}, {"nose", Role::nose, Side::crossing, GeneratedNose(s)}}};
}

} // namespace wingnose::layout
