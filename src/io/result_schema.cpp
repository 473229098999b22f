#include "result_schema.hpp"

#include "wingnose/io/case_file.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::io {

namespace {

using study::Result;
using Values = std::vector<double>;

Values scaled(Values values, double scale) {
  for (double& value : values) {
    // No body, no height: -infinity inside, "not a number" in files.
    value = std::isfinite(value) ? value * scale : std::numeric_limits<double>::quiet_NaN();
  }
  return values;
}

Column history(std::string name, std::string unit, double scale, Values passage::History::*member,
               std::string description, bool optional = false) {
  return {"history/" + std::move(name), std::move(unit), std::move(description),
          [member, scale](const Result& r, std::size_t) { return scaled(r.history.*member, scale); }, optional};
}

Column body_path(std::string name, std::string unit, double scale, Values contact::BodyPath::*member,
                 std::string description) {
  return {"path/{body}/" + std::move(name), std::move(unit), std::move(description),
          [member, scale](const Result& r, std::size_t body) {
            return scaled(r.geometry.path->bodies[body].*member, scale);
          }};
}

Column event(std::string name, std::string unit, double scale, double passage::Event::*member,
             std::string description) {
  return {"events/" + std::move(name), std::move(unit), std::move(description),
          [member, scale](const Result& r, std::size_t) {
            Values values;
            for (const auto& each : r.history.events) {
              values.push_back(each.*member * scale);
            }
            return values;
          }};
}

Values combined_height(const Result& r, std::size_t) {
  const auto& bodies = r.geometry.path->bodies;
  Values height(r.geometry.path->station.size(), -std::numeric_limits<double>::infinity());
  for (const auto& body : bodies) {
    std::transform(height.begin(), height.end(), body.height.begin(), height.begin(),
                   [](double a, double b) { return std::max(a, b); });
  }
  return scaled(height, 1e3);
}

std::vector<std::string> input_lines(const study::Case& c, const Result&) {
  std::vector<std::string> lines;
  for (const auto& input : c.inputs) {
    lines.push_back(input.role + "\t" + input.path + "\t" + input.sha256);
  }
  return lines;
}

std::vector<std::string> event_texts(const Result& r, bool bodies) {
  std::vector<std::string> texts;
  for (const auto& event : r.history.events) {
    texts.push_back(bodies ? event.body : std::string(name(event.kind)));
  }
  return texts;
}

} // namespace

std::vector<Column> result_columns() {
  using passage::Event;
  using passage::History;
  using Body = contact::BodyPath;
  return {
      history("time_s", "s", 1, &History::time, "time since the start, uniform"),
      history("station_mm", "mm", 1e3, &History::station, "station of the reported wheel's axle"),
      history("force_N", "N", 1, &History::force, "total contact force, not filtered"),
      {"history/force_{body}_N", "N", "contact force on this body, not filtered",
       [](const Result& r, std::size_t body) { return r.history.body_force[body]; }},
      history("wheel_height_mm", "mm", 1e3, &History::wheel_height,
              "height of the wheel, up, from static equilibrium over an undeflected track"),
      history("wheel_acceleration_m_s2", "m/s2", 1, &History::wheel_acceleration, "acceleration of the wheel, up"),
      history("rail_deflection_mm", "mm", 1e3, &History::rail_deflection, "rail under the wheel, downward"),
      history("rail_acceleration_m_s2", "m/s2", 1, &History::rail_acceleration,
              "rail at the fixed probe near the landing, downward", true),
      history("bearer_acceleration_m_s2", "m/s2", 1, &History::bearer_acceleration,
              "bearer at the fixed probe near the landing, downward", true),
      event("time_s", "s", 1, &Event::time, "time of the event"),
      event("station_mm", "mm", 1e3, &Event::station, "station of the axle at the event"),
      {"wheels/peak_force_N", "N", "largest contact force of every wheel, leading first",
       [](const Result& r, std::size_t) { return r.history.wheel_peaks; }, true},
      {"path/station_mm", "mm", "station of the axle",
       [](const Result& r, std::size_t) { return scaled(r.geometry.path->station, 1e3); }},
      {"path/height_mm", "mm", "wheel over all bodies: taping-circle bottom over rail level", combined_height},
      body_path("height_mm", "mm", 1e3, &Body::height,
                "wheel on this body alone: taping-circle bottom over rail level"),
      body_path("contact_y_mm", "mm", 1e3, &Body::contact_y, "contact from the track centre line"),
      body_path("contact_dx_mm", "mm", 1e3, &Body::contact_dx, "contact ahead (+x) of the axle"),
      body_path("wheel_y_mm", "mm", 1e3, &Body::wheel_y, "contact on the wheel from its taping line"),
      body_path("angle_mrad", "mrad", 1e3, &Body::angle, "contact angle in the cross-section"),
      body_path("curvature_x_1_m", "1/m", 1, &Body::curvature_x, "sum of curvatures along the track"),
      body_path("curvature_y_1_m", "1/m", 1, &Body::curvature_y, "sum of curvatures across the track"),
  };
}

std::vector<TextColumn> result_texts() {
  return {
      {"case/text", "the case file as read, with its bases as comments",
       [](const study::Case& c, const Result&) { return std::vector<std::string>{c.source_text}; }},
      {"case/keys", "every value the case rests on, given or default",
       [](const study::Case& c, const Result&) { return case_keys(c); }},
      {"case/inputs", "files the case came from: role, name, SHA-256, separated by tabs", input_lines},
      {"events/kind", "touch, lift-off or transfer",
       [](const study::Case&, const Result& r) { return event_texts(r, false); }},
      {"events/body", "the body touched or left; for a transfer the one that now carries more",
       [](const study::Case&, const Result& r) { return event_texts(r, true); }},
      {"notes/warnings", "what the wheel path warns of",
       [](const study::Case&, const Result& r) { return contact::sentences(r.geometry.kinematics.findings); }},
      {"notes/measures", "remarks on the measures",
       [](const study::Case&, const Result& r) { return r.measures.notes; }},
      {"notes/landing_body", "body landed on",
       [](const study::Case&, const Result& r) { return std::vector<std::string>{r.measures.landing_body}; }},
  };
}

std::string with_body(std::string path, const std::string& body) {
  const auto at = path.find("{body}");
  return at == std::string::npos ? path : path.replace(at, 6, body);
}

} // namespace wingnose::io
