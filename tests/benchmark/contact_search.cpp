// How long a search for contact takes (gap across a nose and its patches) and how long the strips take on plain rail;
// tables, gap and results are written as JSON for the same algorithms in NumPy (contact_search.py).
#include "stopwatch.hpp"

#include "wingnose/contact/normal_law.hpp"
#include "wingnose/contact/patch_search.hpp"
#include "wingnose/layout/path.hpp"
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
constexpr std::size_t margin = 2;                             // columns of a body table beside its metal

json list(const std::array<double, GapLine::capacity>& column, int count) {
  return std::vector<double>(column.begin(), column.begin() + count);
}

// Rows of a body table as they are kept: read where the interpolation has nothing to do.
json table(const BodyTable& body, double y0) {
  const auto cells = std::lround(std::ceil((body.x_end() - body.x_begin()) / row_spacing - 1e-9));
  const double row = (body.x_end() - body.x_begin()) / static_cast<double>(cells);
  json rows = json::array();
  for (long k = 0; k <= cells; ++k) {
    const double x = body.x_begin() + row * static_cast<double>(k);
    const double edge = y0 - body.place(x, y0).offset * body.spacing();
    const BodyTable::Place place = body.place(x, edge);
    const int columns = static_cast<int>(std::ceil(place.width / body.spacing())) + 1;
    std::array<double, GapLine::capacity> z{};
    body.heights(place, 0, columns, z.data());
    std::vector<double> curvature;
    curvature.reserve(static_cast<std::size_t>(columns));
    for (int i = 0; i < columns; ++i) {
      curvature.push_back(body.curvature(place, i));
    }
    rows.push_back({{"edge", edge}, {"width", place.width}, {"z", list(z, columns)}, {"curvature", curvature}});
  }
  return {{"begin", body.x_begin()}, {"row", row}, {"rows", rows}};
}

json patches_of(const Patches& found) {
  json all = json::array();
  for (const ContactPatch& p : found.list()) {
    all.push_back(
        {p.y, p.dx, p.wheel_y, p.angle, p.approach, p.curvature_x, p.curvature_y, p.from, p.to, p.change_of_angle});
  }
  return all;
}

json search(const WheelTable& wheel) {
  const auto crossing = layout::generate({});
  const auto nose = std::find_if(crossing.bodies.begin(), crossing.bodies.end(),
                                 [](const layout::Body& body) { return body.name == "nose"; });
  const BodyTable body(*nose, station - row_spacing, station + row_spacing);
  GapLine line;
  WheelPlace place{.station = station, .lateral = taping_line_y, .roll = 0.001, .yaw = 0.002};
  gap_line(wheel, body, place, line);
  const double height = line.level - indent;
  const Patches found = find_patches(line, height);
  const json gap = list(line.gap, line.count);
  double keep = 0.0; // used, so that the compiler cannot drop the searches
  constexpr int searches = 2000;
  const auto timing = benchmark::repeated(
      15,
      [&] {
        for (int i = 0; i < searches; ++i) {
          place.station = station + 1e-9 * i;
          gap_line(wheel, body, place, line);
          keep += find_patches(line, height).patch[0].approach;
        }
      },
      searches);
  return {{"station", station},
          {"y0", taping_line_y + wheel.front()},
          {"roll", place.roll},
          {"yaw", place.yaw},
          {"height", height},
          {"margin", margin},
          {"wheel",
           {{"front", wheel.front()},
            {"spacing", wheel.spacing()},
            {"height", wheel.height()},
            {"slope", wheel.slope()},
            {"curvature", wheel.curvature()},
            {"second", wheel.second()},
            {"cosine", wheel.cosine()},
            {"circle", wheel.circle_curvature()}}},
          {"body", table(body, taping_line_y + wheel.front())},
          {"gap", gap},
          {"level", height + indent},
          {"patches", patches_of(found)},
          {"cpu_us", 1e6 * timing.processor_median},
          {"sum", keep}};
}

json strips_on_rail(const WheelTable& wheel, double shift) {
  const BodyTable rail(profile::rail_head("60E1", 0.025));
  GapLine line;
  gap_line(wheel, rail, {.lateral = taping_line_y + shift}, line);
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
  const WheelTable wheel(profile::s1002(), 0.46);
  json laws = json::array();
  for (const double shift : {0.0, 3e-3, -4e-3}) {
    laws.push_back(strips_on_rail(wheel, shift));
  }
  std::cout << json{{"search", search(wheel)}, {"strips", laws}, {"combined_modulus_Pa", Elastic{}.combined()}} << '\n';
}
