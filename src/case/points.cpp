// Points that files give: sections, paths, wheels, vehicles.
#include "keys.hpp"

#include <algorithm>
#include <array>
#include <unordered_set>

namespace wingnose::cases {
namespace {

constexpr double mm = 1e-3;

// Rows of one station stand together; a station that comes back later is a sorting accident that would silently split
// a section in two.
layout::SectionedBody sectioned_body(const Rows& rows, const std::string& name) {
  const auto columns = rows.numbers({"station_mm", "y_mm", "z_mm"});
  const auto &station = columns[0], &y = columns[1], &z = columns[2];
  layout::SectionedBody body{name, {}};
  std::unordered_set<double> seen; // stations
  for (std::size_t i = 0; i < station.size(); ++i) {
    const double x = mm * station[i];
    if (body.sections.empty() || body.sections.back().station != x) {
      if (!seen.insert(x).second) {
        throw InputError(rows.where(i) + ": station_mm " + number(station[i], digits_of_a_key) +
                         " appeared earlier; keep the points of one section together");
      }
      body.sections.push_back({x, {}, {}});
    }
    body.sections.back().y.push_back(mm * y[i]);
    body.sections.back().z.push_back(mm * z[i]);
  }
  std::stable_sort(body.sections.begin(), body.sections.end(),
                   [](const layout::Section& a, const layout::Section& b) { return a.station < b.station; });
  return body;
}

std::vector<double> in_metres(std::vector<double> values) {
  for (double& value : values) {
    value *= mm;
  }
  return values;
}

} // namespace

void read_wing(Case& c, const Path& file, const std::string& where, Files& files) {
  auto& bodies = std::get<layout::SectionedShape>(c.excitation).bodies;
  bodies.insert(bodies.begin(), sectioned_body(files.rows(file, where, "wing sections"), "wing"));
}

void read_nose(Case& c, const Path& file, const std::string& where, Files& files) {
  std::get<layout::SectionedShape>(c.excitation)
      .bodies.push_back(sectioned_body(files.rows(file, where, "nose sections"), "nose"));
}

void read_path(Case& c, const Path& file, const std::string& where, Files& files) {
  const Rows rows = files.rows(file, where, "wheel path");
  const auto columns = rows.numbers({"station_mm", "height_mm"});
  if (columns[0].size() < 2) {
    throw InputError(rows.name + ": one point is no path; give at least two");
  }
  for (std::size_t i = 1; i < columns[0].size(); ++i) {
    if (columns[0][i] <= columns[0][i - 1]) {
      throw InputError(rows.where(i), "station_mm " + number(columns[0][i], digits_of_a_key),
                       "more than the station before (" + number(columns[0][i - 1], digits_of_a_key) + ")",
                       "Order the points by station and remove duplicates.");
    }
  }
  auto& path = std::get<layout::GivenPath>(c.excitation);
  path.station = in_metres(columns[0]);
  path.height = in_metres(columns[1]);
}

void read_curvature(Case& c, const Path& file, const std::string& where, Files& files) {
  const Rows rows = files.rows(file, where, "curvature of the diverging route");
  const bool canted = std::find(rows.header.begin(), rows.header.end(), "cant_mm") != rows.header.end();
  const auto columns =
      canted ? rows.numbers({"station_m", "curvature_1_m", "cant_mm"}) : rows.numbers({"station_m", "curvature_1_m"});
  c.turnout.curvature_csv = rows.name;
  auto& points = c.turnout.drawing.curvature;
  points.clear();
  for (std::size_t i = 0; i < columns[0].size(); ++i) {
    if (i > 0 && columns[0][i] < columns[0][i - 1]) {
      throw InputError(rows.where(i), "station_m " + number(columns[0][i], digits_of_a_key),
                       "not less than the station before (" + number(columns[0][i - 1], digits_of_a_key) + ")",
                       "Order the points by station; give a station twice where the curvature steps.");
    }
    points.push_back({columns[0][i], columns[1][i], canted ? mm * columns[2][i] : 0.0});
  }
}

void read_irregularity(Case& c, const Path& file, const std::string& where, Files& files) {
  const Rows rows = files.rows(file, where, "track irregularity");
  const auto columns =
      rows.numbers({"station_m", "left_height_mm", "right_height_mm", "left_lateral_mm", "right_lateral_mm"});
  std::vector<layout::IrregularityPoint> points;
  for (std::size_t i = 0; i < columns[0].size(); ++i) {
    points.push_back({columns[0][i], mm * columns[1][i], mm * columns[2][i], mm * columns[3][i], mm * columns[4][i]});
  }
  if (const auto fault = layout::fault_of(points)) {
    throw InputError((fault->point ? rows.where(*fault->point) : rows.name) + ": " + fault->what, fault->value,
                     fault->allowed, fault->advice);
  }
  c.spatial.irregularity_csv = rows.name;
  c.spatial.irregularity = std::move(points);
}

void read_points(Case& c, const Path& file, const std::string& where, Files& files) {
  const Rows rows = files.rows(file, where, "wheel profile");
  const auto columns = rows.numbers({"y_mm", "height_mm"});
  auto& wheel = std::get<MeasuredWheel>(c.wheel.shape);
  wheel.csv = rows.name;
  wheel.y = in_metres(columns[0]);
  wheel.height = in_metres(columns[1]);
}

// Each bearer by its station; the columns that are there replace values of the track.
void read_bearers(Case& c, const Path& file, const std::string& where, Files& files) {
  const Rows rows = files.rows(file, where, "bearers");
  using Member = std::optional<double> PlacedBearer::*;
  struct Column {
    std::string_view name;
    Member member;
    Range range;
  };
  using B = Bearer;
  using S = track::Seat;
  const std::array columns{
      Column{"length_mm", &PlacedBearer::length, range_of<&B::length>()},
      Column{"offset_mm", &PlacedBearer::offset, range_of<&B::offset>()},
      Column{"bearer_mass_kg", &PlacedBearer::mass, range_of<&S::bearer_mass>()},
      Column{"pad_stiffness_MN_m", &PlacedBearer::pad_stiffness, range_of<&S::pad_stiffness>()},
      Column{"ballast_stiffness_MN_m", &PlacedBearer::ballast_stiffness, range_of<&S::ballast_stiffness>()},
      Column{"gap_mm", &PlacedBearer::gap, range_of<&VoidBelow::gap>()}};
  const std::vector<double> station = rows.numbers({"station_mm"})[0];
  std::vector<PlacedBearer> placed(station.size());
  for (std::size_t i = 0; i < station.size(); ++i) {
    placed[i].station = mm * station[i];
    if (i > 0 && placed[i].station <= placed[i - 1].station) {
      throw InputError(rows.where(i), "station_mm " + number(station[i], digits_of_a_key),
                       "more than the station before (" + number(station[i - 1], digits_of_a_key) + ")",
                       "Order the bearers by station, each once.");
    }
  }
  for (const std::string& head : rows.header) {
    const auto column =
        std::find_if(columns.begin(), columns.end(), [&](const Column& one) { return one.name == head; });
    if (column == columns.end()) {
      if (head != "station_mm") {
        throw InputError(rows.name + ":" + std::to_string(rows.header_line), "column \"" + head + "\"",
                         "station_mm, length_mm, offset_mm, bearer_mass_kg, pad_stiffness_MN_m, "
                         "ballast_stiffness_MN_m, gap_mm",
                         "Rename or remove it.");
      }
      continue;
    }
    const std::vector<double> values = rows.numbers({head})[0];
    const Unit unit = unit_of(head);
    for (std::size_t i = 0; i < values.size(); ++i) {
      const double value = unit.to_si * values[i];
      demand_within(rows.where(i) + ": " + head, value, column->range, unit.name, unit.per_si);
      placed[i].*(column->member) = value;
    }
  }
  c.track.bearers.csv = rows.name;
  c.track.bearers.placed = std::move(placed);
}

void read_vehicle(Case& c, const Path& file, const std::string& where, Files& files) {
  const Sheet sheet = files.sheet(file, where, "vehicle");
  VehicleFile read;
  read.vehicle.name = file.stem().string();
  fill(vehicle_schema(), sheet, &read, files);
  vehicle::Vehicle& v = read.vehicle;
  if (v.wheels.empty()) {
    throw InputError(sheet.file() + ": the vehicle has no wheel; add a [[wheel]] table for each");
  }
  if (read.given_for == "both rails") {
    v = vehicle::one_side_of(std::move(v));
  }
  try {
    (void)vehicle::assemble(v); // names, supports, order of wheels: told with the file's name
  } catch (const InputError& error) {
    tell_by_keys(error, vehicle_schema(), &read, &sheet);
  }
  c.vehicle.table = VehicleTable{sheet.file(), std::move(v)};
}

} // namespace wingnose::cases
