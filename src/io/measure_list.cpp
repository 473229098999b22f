// The scalars a result is reported by.
#include "result_schema.hpp"

namespace wingnose::io {

namespace {

using Maybe = std::optional<double>;

Maybe scaled(Maybe value, double scale) { return value ? Maybe(*value * scale) : std::nullopt; }

GeometryMeasure geometry(std::string key, std::string unit, double scale, Maybe contact::Kinematics::*member,
                         std::string label, std::string description, int decimals) {
  return {{std::move(key), std::move(unit), std::move(label), std::move(description), decimals},
          [member, scale](const study::Geometry& g) { return scaled(g.kinematics.*member, scale); }};
}
GeometryMeasure geometry(std::string key, std::string unit, double scale, double contact::Kinematics::*member,
                         std::string label, std::string description, int decimals) {
  return {{std::move(key), std::move(unit), std::move(label), std::move(description), decimals},
          [member, scale](const study::Geometry& g) { return Maybe(g.kinematics.*member * scale); }};
}

template <class Member>
PassageMeasure passage(std::string key, std::string unit, double scale, Member assess::Measures::*member,
                       std::string label, std::string description, int decimals) {
  return {
      {std::move(key), std::move(unit), std::move(label), std::move(description), decimals},
      [member, scale](const study::Case&, const study::Result& r) { return scaled(Maybe(r.measures.*member), scale); }};
}

} // namespace

std::vector<GeometryMeasure> geometry_measures() {
  using K = contact::Kinematics;
  return {
      geometry("transfer_station_mm", "mm", 1e3, &K::transfer_station, "transfer station",
               "station of the axle where the wheel's heights on wing and nose cross", 1),
      geometry("nose_thickness_at_transfer_mm", "mm", 1e3, &K::nose_thickness, "nose thickness at transfer",
               "distance of the gauge lines at the transfer station", 2),
      geometry("contact_y_wing_mm", "mm", 1e3, &K::contact_y_wing, "contact on wing, from track centre",
               "lateral position of the contact on the wing at transfer", 1),
      geometry("contact_y_nose_mm", "mm", 1e3, &K::contact_y_nose, "contact on nose, from track centre",
               "lateral position of the contact on the nose at transfer", 1),
      geometry("transfer_zone_begin_mm", "mm", 1e3, &K::zone_begin, "transfer zone begins",
               "heights on wing and nose are within the zone tolerance from here", 1),
      geometry("transfer_zone_end_mm", "mm", 1e3, &K::zone_end, "transfer zone ends", "... to here", 1),
      geometry("dip_depth_mm", "mm", 1e3, &K::dip_depth, "dip depth",
               "height of the wheel ahead of the crossing less its lowest height", 3),
      geometry("slope_before_mrad", "mrad", 1e3, &K::slope_before, "slope before",
               "slope of the wheel path just before transfer, in the sense of travel", 2),
      geometry("slope_after_mrad", "mrad", 1e3, &K::slope_after, "slope after",
               "slope of the wheel path just after transfer, in the sense of travel", 2),
      geometry("dip_angle_mrad", "mrad", 1e3, &K::dip_angle, "dip angle", "sum of the sizes of both slopes", 2),
  };
}

std::vector<PassageMeasure> passage_measures() {
  using M = assess::Measures;
  return {
      {{"speed_km_h", "km/h", "speed", "speed of the vehicle", 1},
       [](const study::Case& c, const study::Result&) { return Maybe(c.passage.speed * 3.6); }},
      passage("static_load_kN", "kN", 1e-3, &M::static_load, "static wheel load", "load of the reported wheel at rest",
              2),
      passage("landing_station_mm", "mm", 1e3, &M::landing_station, "landing station",
              "first touch of the body landed on, or the kink of a prescribed path", 1),
      passage("landing_time_ms", "ms", 1e3, &M::landing_time, "landing time", "time of the landing since the start", 2),
      passage("force_before_landing_kN", "kN", 1e-3, &M::force_before_landing, "force just before landing",
              "total contact force just before the landing", 2),
      passage("first_peak_kN", "kN", 1e-3, &M::first_peak, "first peak (P1)",
              "first local maximum of the total force after the landing that stands out", 2),
      passage("first_peak_delay_ms", "ms", 1e3, &M::first_peak_delay, "first peak, after landing",
              "time of the first peak after the landing", 3),
      passage("p2_kN", "kN", 1e-3, &M::p2, "P2", "largest low-passed total force after the landing", 2),
      passage("p2_delay_ms", "ms", 1e3, &M::p2_delay, "P2, after landing", "time of P2 after the landing", 2),
      passage("p2_cutoff_hz", "Hz", 1, &M::p2_cut_off, "P2 filter cut-off",
              "cut-off of the Butterworth low-pass run forward and back", 0),
      passage("peak_total_kN", "kN", 1e-3, &M::peak_total, "largest total force", "largest total contact force", 2),
      passage("peak_total_station_mm", "mm", 1e3, &M::peak_total_station, "... at station",
              "station of the axle at the largest total force", 1),
      passage("peak_nose_kN", "kN", 1e-3, &M::peak_nose, "largest force on nose", "largest contact force on the nose",
              2),
      passage("peak_wing_kN", "kN", 1e-3, &M::peak_wing, "largest force on wing",
              "largest contact force on the wing around the landing", 2),
      passage("dynamic_transfer_station_mm", "mm", 1e3, &M::dynamic_transfer_station, "load transfer station",
              "where the body landed on first carries more than the other", 1),
      passage("overlap_mm", "mm", 1e3, &M::overlap_length, "both bodies loaded over",
              "length over which wing and nose are loaded at once", 1),
      passage("lost_contact_ms", "ms", 1e3, &M::lost_contact, "contact lost for", "total time without any contact", 2),
      passage("minimum_force_kN", "kN", 1e-3, &M::minimum_force, "least total force", "lowest total contact force", 2),
      passage("impulse_Ns", "N s", 1, &M::impulse, "impulse over static",
              "integral of the force above the static load after the landing", 1),
      passage("dynamic_factor", "-", 1, &M::dynamic_factor, "dynamic factor, total",
              "largest total force over static load", 3),
      passage("p2_dynamic_factor", "-", 1, &M::p2_dynamic_factor, "dynamic factor, P2", "P2 over static load", 3),
      passage("rail_acceleration_m_s2", "m/s2", 1, &M::rail_acceleration, "rail acceleration",
              "largest rail acceleration at the probe, low-passed", 0),
      passage("bearer_acceleration_m_s2", "m/s2", 1, &M::bearer_acceleration, "bearer acceleration",
              "largest bearer acceleration at the probe, low-passed", 1),
  };
}

std::string result_reference() {
  std::string page =
      "# What a result file holds\n\nHDF5; every dataset has the attributes `unit` and `description`; the file has "
      "`version`, `commit`, `schema_version`, `created` (UTC) and `name`. `{body}` is `wing`, `nose`, or `path` for "
      "prescribed paths. Where a value does not exist it is NaN.\n\n| dataset | unit | meaning |\n| --- | --- | --- "
      "|\n";
  const auto row = [&page](const std::string& path, const std::string& unit, const std::string& text) {
    page += "| `" + path + "` | " + unit + " | " + text + " |\n";
  };
  for (const auto& column : result_columns()) {
    row(column.path, column.unit, column.description);
  }
  for (const auto& measure : geometry_measures()) {
    row("measures/" + measure.key, measure.unit, measure.description);
  }
  for (const auto& measure : passage_measures()) {
    row("measures/" + measure.key, measure.unit, measure.description);
  }
  for (const auto& text : result_texts()) {
    row(text.path, "text", text.description);
  }
  return page;
}

} // namespace wingnose::io
