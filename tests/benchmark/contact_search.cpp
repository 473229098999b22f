// How long a search for contact takes (gap across a nose and its patches) and how long the strips take on plain rail;
// tables, gap and results are written as JSON for the same algorithms in NumPy (contact_search.py).
#include "stopwatch.hpp"

#include "wingnose/contact/normal/normal_law.hpp"
#include "wingnose/contact/search/look.hpp"
#include "wingnose/layout/surface.hpp"
#include "wingnose/words/frame.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <iostream>
#include <vector>

using namespace wingnose;
using namespace wingnose::contact;
using nlohmann::json;

namespace {

constexpr double station = 0.9, indent = 120e-6, load = 90e3; // m, m, N

json list(const std::array<double, GapLine::capacity>& column, int count) {
  return std::vector<double>(column.begin(), column.begin() + count);
}

// What the section of a generated nose is made from.
json nose_of(const layout::CrossingShape& s) {
  return {{"rate", s.rate},
          {"gauge", s.gauge},
          {"point_thickness", s.nose_point_thickness},
          {"start_depth", s.nose_start_depth},
          {"ramp_start_thickness", s.nose_ramp_start_thickness},
          {"ramp_end_thickness", s.nose_ramp_end_thickness},
          {"ramp_end_depth", s.nose_ramp_end_depth},
          {"full_thickness", s.nose_full_thickness},
          {"ramp_rounding", s.nose_ramp_rounding},
          {"setback", s.nose_setback},
          {"shoulder_radius", s.nose_shoulder_radius},
          {"crown_radius", s.nose_crown_radius},
          {"crown_place", s.crown_place},
          {"head_width", s.head_width},
          {"length", s.nose_length}};
}

json patches_of(const Patches& found) {
  json all = json::array();
  for (const ContactPatch& p : found.list()) {
    all.push_back({p.y, p.dx, p.wheel_y, p.angle, p.approach, p.curvature_x, p.from, p.to, p.change_of_angle});
  }
  return all;
}

json search(const WheelSurface& wheel) {
  const layout::CrossingShape shape;
  const auto crossing = layout::generate(shape);
  const auto nose = std::find_if(crossing.bodies.begin(), crossing.bodies.end(),
                                 [](const layout::Body& body) { return body.role == layout::Role::nose; });
  GapLine line;
  WheelPlace place{.station = station, .lateral = taping_line_y, .roll = 0.001, .yaw = 0.002};
  look(wheel, *nose, place, line);
  const double ahead = line.dx[static_cast<std::size_t>(line.top)]; // as the step before has left it
  look_near(wheel, *nose, place, ahead, line);
  const double level = line.level, height = level - indent;
  const Patches found = find_patches(line, height);
  const json gap = list(line.gap, line.count);
  double keep = 0.0; // used, so that the compiler cannot drop the searches
  const auto time = [&](int searches, const auto& find) {
    return benchmark::repeated(
        15,
        [&] {
          for (int i = 0; i < searches; ++i) {
            place.station = station + 1e-9 * i;
            find();
            keep += find_patches(line, height).patch[0].approach;
          }
        },
        searches);
  };
  const auto near = time(2000, [&] { look_near(wheel, *nose, place, ahead, line); });
  const auto all = time(40, [&] { look(wheel, *nose, place, line); });
  return {{"station", station},
          {"lateral", place.lateral},
          {"roll", place.roll},
          {"yaw", place.yaw},
          {"ahead", ahead},
          {"height", height},
          {"wheel",
           {{"radius", wheel.radius()},
            {"front", wheel.front()},
            {"spacing", wheel.spacing()},
            {"height", wheel.height()},
            {"slope", wheel.slope()},
            {"second", wheel.second()}}},
          {"nose", nose_of(shape)},
          {"gap", gap},
          {"level", level},
          {"patches", patches_of(found)},
          {"cpu_us", 1e6 * near.processor_median},
          {"everywhere_cpu_us", 1e6 * all.processor_median},
          {"sum", keep}};
}

json strips_on_rail(const WheelSurface& wheel, double shift) {
  const layout::Body rail = layout::plain_rail(profile::rail_head("60E1", 0.025));
  GapLine line;
  look(wheel, rail, {.lateral = taping_line_y + shift}, line);
  const double depth = depth_for_force(Strips{}, line, load);
  const NormalContact c = strips(line, depth);
  double keep = 0.0;
  constexpr int evaluations = 500;
  const auto timing = benchmark::repeated(
      15,
      [&] {
        for (int i = 0; i < evaluations; ++i) {
          keep += strips(line, depth + 1e-12 * i).force;
        }
      },
      evaluations);
  return {{"shift_mm", shift * 1e3},
          {"gap", list(line.gap, line.count)},
          {"dx", list(line.dx, line.count)},
          {"slope", list(line.slope, line.count)},
          {"curvature_x", list(line.curvature_x, line.count)},
          {"first_y", line.first_y},
          {"spacing", line.spacing},
          {"level", line.level},
          {"top", line.top},
          {"depth", depth},
          {"answer", {c.force, c.vertical, c.approach, c.peak_pressure, c.area, c.half_length, c.y}},
          {"cpu_us", 1e6 * timing.processor_median},
          {"sum", keep}};
}

} // namespace

int main() {
  const WheelSurface wheel(profile::s1002(), 0.46);
  json laws = json::array();
  for (const double shift : {0.0, 3e-3, -4e-3}) {
    laws.push_back(strips_on_rail(wheel, shift));
  }
  std::cout << json{{"search", search(wheel)}, {"strips", laws}, {"combined_modulus_Pa", Elastic{}.combined()}} << '\n';
}
