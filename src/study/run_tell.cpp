// A passage, a wheel path and closed forms as trees.
#include "tell.hpp"

#include <algorithm>

namespace wingnose::study {
namespace {

using quantity::add_measures;
using quantity::Section;

void add_history(Tree& tree, const passage::History& h) {
  Filler filler(tree, "history");
  const std::string dim = "time_s";
  add_lists(filler, dim, h, passage::history_columns);
  for (std::size_t b = 0; b < h.bodies.size(); ++b) {
    filler.list({"force_" + h.bodies[b] + "_N", "force on " + h.bodies[b], "contact force on this body, not filtered",
                 0, stored},
                dim, h.body_force[b]);
  }
  add_lists(filler, dim, h, passage::motion_columns);
  if (!h.rail_acceleration.empty()) {
    add_lists(filler, dim, h, passage::probe_columns);
  }
  using E = passage::Event;
  Filler events(tree, "events");
  add_columns(events, "event", h.events, passage::event_columns, stored);
  Columns(events, "event", h.events)
      .text({"kind", "kind", "touch, lift-off or transfer", stored}, [](const E& e) { return name(e.kind); })
      .text({"body", "body", "the body touched or left; for a transfer the one that now carries more", stored},
            &E::body);
  if (!h.wheel_peaks.empty()) {
    Filler(tree, "wheels")
        .list({"peak_force_N", "peak force", "largest contact force of every wheel, leading first", 0, stored}, "wheel",
              h.wheel_peaks);
  }
}

void add_path(Tree& tree, const std::shared_ptr<const contact::WheelPath>& path) {
  if (!path) {
    return;
  }
  Filler filler(tree, "path");
  const std::string dim = "station_mm";
  filler.list({"station_mm", "station", "station of the axle", 1, stored}, dim, path->station);
  filler.list({"height_mm", "height", "wheel over all bodies: taping-circle bottom over rail level", 4, stored}, dim,
              contact::upper_envelope(*path));
  for (const auto& body : path->bodies) {
    add_lists(Filler(tree, "path/" + body.name), dim, body, contact::body_path_columns);
    tree.group("path/" + body.name).arrays.front().label += " on " + body.name;
  }
}

// What bearers feel, one by one, and what sensors record.
void add_track(Tree& tree, const passage::History& h, std::span<const assess::SensorReading> sensors) {
  if (!h.track.bearers.empty()) {
    add_columns(Filler(tree, "bearers", "Bearers", Layout::hidden), "bearer", h.track.bearers, passage::bearer_columns,
                told);
  }
  if (sensors.empty()) {
    return;
  }
  using R = assess::SensorReading;
  Filler table(tree, "sensors", "Sensors: records, indicator of crossing geometry, shares of the displacement",
               Layout::columns);
  Columns(table, "sensor", sensors)
      .text({"name", "sensor", "name of the sensor"}, &R::name)
      .text({"on", "on", "what it stands on", told}, [](const R& r) { return std::string(name(r.on)); })
      .text({"chain", "chain", "what its record went through", told}, &R::chain);
  add_columns(table, "sensor", sensors, assess::reading_columns);
  for (const R& r : sensors) {
    const std::string dim = "time_s";
    Filler record(tree, "sensors/" + r.name);
    record.list({"time_s", "time", "time since the start, at the logger's samples", 5, stored}, dim, r.time);
    const auto add = [&](const R::Signal& signal, const std::string& what, const std::string& unit, auto reads) {
      if (r.quantity == assess::Sensor::Reads::all || r.quantity == reads) {
        record.list({what + "_sampled_" + unit, what + ", sampled",
                     "downward, behind the anti-alias filter, before the band", 5, stored},
                    dim, signal.sampled);
        record.list({what + "_" + unit, what, "the record, downward", 5, stored}, dim, signal.record);
      }
    };
    using enum assess::Sensor::Reads;
    add(r.acceleration, "acceleration", "m_s2", acceleration);
    add(r.velocity, "velocity", "mm_s", velocity);
    add(r.displacement, "displacement", "mm", displacement);
    if (r.quantity == all || r.quantity == displacement) {
      record.list({"quasi_static_mm", "quasi-static share", "displacement in wavelengths above 1 m", 5, stored}, dim,
                  r.quasi_static);
    }
  }
}

// Values of one rail are those of half a bearer, which is not told by any of their names.
std::string track_title(const assess::TrackMeasures& m, const cases::Track& track) {
  const std::string of =
      cases::has_two_rails(track) ? "whole bearers, under both rails" : "half bearers, under one rail";
  return m.sampling > 0.0 ? "Track (" + of + "; looked at every " + number(1e3 * m.sampling) + " ms or less)"
                          : "Track (" + of + ")";
}

std::string passage_title(const Case& c, const assess::Measures& m) {
  return "Passage (landing on: " + m.landing_body + "; P2 filter: zero-phase Butterworth, order " +
         std::to_string(c.measures.p2_order) + " forward and back)";
}

} // namespace

Tree tell(const Case& c, const Result& r) {
  const assess::Measures m = r.assessment.measures.value_or(assess::Measures{});
  Tree tree("run");
  add_heading(tree, c, move_of(c));
  tree.attributes.emplace_back("method", r.history.method);
  add_measures(tree, r.assessment, Section::wheel_path, path_title(r.geometry));
  add_measures(tree, r.assessment, Section::passage, passage_title(c, m));
  Filler measures(tree, "measures");
  measures.text({"landing_on", "", "body landed on", told}, m.landing_body);
  measures.number({"p2_filter_order", "", "order of the low-pass filter of P2 per pass", 0, told}, c.measures.p2_order);
  const assess::TrackMeasures track = r.assessment.track.value_or(assess::TrackMeasures{});
  add_measures(tree, r.assessment, Section::track, track_title(track, c.track));
  std::vector<std::string> untold = track.missing;
  if (c.track.method == cases::TrackMethod::chain && cases::has_two_rails(c.track)) {
    untold.emplace_back(
        "the other rail carries each wheel's partner abreast with its static load; what seats, rails and "
        "sensors feel is told of the rail with the crossing");
  }
  add_assumptions(tree, "What this track does not tell", "assumptions/track", untold);
  add_measures(tree, r.assessment, Section::sensor, {}, told);
  add_measures(tree, r.assessment, Section::closed_form, {}, told);
  if (r.assessment.steel) {
    add_measures(tree, r.assessment, Section::steel, "Steel under one wheel");
  }
  add_estimates(tree, r.assessment.estimates);
  add_track(tree, r.history, r.assessment.sensors);
  add_history(tree, r.history);
  add_path(tree, r.geometry.path);
  add_end(tree, r.assessment.findings, c);
  return tree;
}

Tree tell(const Case& c, const Geometry& g) {
  Tree tree("geometry");
  add_heading(tree, c, move_of(c));
  const assess::Assessment a = assessment(c, g);
  add_measures(tree, a, Section::wheel_path, path_title(g));
  add_path(tree, g.path);
  add_end(tree, a.findings, c);
  return tree;
}

Tree tell_estimates(const Case& c, const Geometry& g) {
  assess::Assessment a = assessment(c, g);
  a.estimates = estimate(c, g, &a.findings);
  return tell_estimates(c, a);
}

Tree tell_estimates(const Case& c, const assess::Assessment& a) {
  Tree tree("estimate");
  add_heading(tree, c, move_of(c));
  add_measures(tree, a, Section::wheel_path, {}, told);
  Filler filler(tree, "closed_form_input", "Input of the closed forms", Layout::rows);
  add_values(filler, a.estimates.empty() ? nullptr : &a.estimates.front().input, closedform::joint_columns);
  std::erase_if(tree.group("closed_form_input").arrays, // stands with the move
                [](const quantity::Array& input) { return input.name == "speed_km_h"; });
  add_estimates(tree, a.estimates);
  add_end(tree, a.findings, c);
  return tree;
}

} // namespace wingnose::study
