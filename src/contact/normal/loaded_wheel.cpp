#include "wingnose/contact/normal/loaded_wheel.hpp"

#include "wingnose/contact/path/path_patches.hpp"

#include "wingnose/words/constants.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/number.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wingnose::contact {
namespace {

// Loaded rows of a pressure field in the manner of strips.
std::vector<Strip> rows_of(const PressureField& f) {
  std::vector<Strip> rows;
  const std::size_t nx = f.x.size();
  const double dx = f.x[1] - f.x[0];
  for (std::size_t j = 0; j < f.y.size(); ++j) {
    const double width = std::abs(j + 1 < f.y.size() ? f.y[j + 1] - f.y[j] : f.y[j] - f.y[j - 1]);
    Strip row{f.y[j], width, 0.0, 0.0, 0.0, 0.0};
    double line = 0.0, moment = 0.0;
    for (std::size_t i = 0; i < nx; ++i) {
      const double p = f.pressure[j * nx + i];
      row.half_length += p > 0.0 ? 0.5 * dx : 0.0;
      row.pressure = std::max(row.pressure, p);
      line += p * dx;
      moment += p * dx * f.x[i];
    }
    if (line > 0.0) {
      row.dx = moment / line;
      row.force = line * width / std::cos(f.angle[j]);
      rows.push_back(row);
    }
  }
  return rows;
}

// Change of the contact angle over what carries.
double turn_of(const GapLine& line, std::span<const Strip> strips) {
  double least = std::numbers::pi, most = -std::numbers::pi;
  for (const Strip& s : strips) {
    const auto k = static_cast<std::size_t>(std::clamp((s.y - line.first_y) / line.spacing, 0.0, line.count - 1.0));
    least = std::min(least, std::atan(line.slope[k]));
    most = std::max(most, std::atan(line.slope[k]));
  }
  return strips.empty() ? 0.0 : most - least;
}

void tell_stretched(const std::string& body, double turn, Findings& findings) {
  if (turn > stretched_angle) {
    findings.push_back({FindingKind::theory_stretched,
                        "the contact angle changes by " + fixed(turn, 2) + " rad inside the contact (above " +
                            number(stretched_angle) + " rad)",
                        body});
  }
}

// The half-space solution presses every patch along its own normal: it is stretched inside a patch, or between two.
void tell_stretched(std::span<const PatchSummary> patches, Findings& findings) {
  for (const PatchSummary& p : patches) {
    if (p.turn > stretched_angle) {
      findings.push_back({FindingKind::theory_stretched,
                          "the contact angle changes by " + fixed(p.turn, 2) + " rad inside the patch (above " +
                              number(stretched_angle) + " rad)",
                          p.body + ", y = " + fixed(1e3 * p.y, 0) + " mm"});
    }
  }
  const auto [least, most] = std::minmax_element(
      patches.begin(), patches.end(), [](const PatchSummary& a, const PatchSummary& b) { return a.angle < b.angle; });
  if (most->angle - least->angle > stretched_angle) {
    findings.push_back({FindingKind::theory_stretched,
                        "its patches lie on planes " + fixed(most->angle - least->angle, 2) +
                            " rad apart: each is pressed along its own normal, but what one presses the other away is "
                            "taken from one half-space",
                        least->body + ", y = " + fixed(1e3 * std::min(least->y, most->y), 0) + " and " +
                            fixed(1e3 * std::max(least->y, most->y), 0) + " mm"});
  }
}

// How what a wheel carries is found.
struct Theory {
  const NormalLaw law; // by which bodies share the load
  const Elastic& material;
  const StationOptions& options;
};

StationContact empty_contact(const WheelPlace& place, const Theory& theory) {
  StationContact result;
  result.station = place.station;
  result.lateral = place.lateral;
  result.roll = place.roll;
  result.yaw = place.yaw;
  result.law = theory.options.half_space ? "half-space" : std::string(wingnose::name(theory.law));
  return result;
}

// Adds what `name` carries when the taping circle's bottom lies at `height`, unless that is less than `least` (N).
void add_body(const Theory& theory, const std::string& name, const GapLine& line, double height, double least,
              StationContact& result) {
  StripOutline outline;
  const NormalContact c = normal_contact(theory.law, line, line.level - height, theory.material, &outline);
  if (!(c.vertical > least)) {
    return;
  }
  BodyContact body{name, c.vertical, height, {outline.list().begin(), outline.list().end()}, std::nullopt};
  double seen = height;
  if (theory.options.half_space || theory.options.fields) {
    body.field = half_space_field(line, c.vertical, theory.material, theory.options.cells);
  }
  if (theory.options.half_space) {
    body.strips = rows_of(*body.field);
    const double slope = line.slope[static_cast<std::size_t>(line.top)];
    seen = line.level - body.field->approach * std::sqrt(1.0 + slope * slope);
  }
  const auto patches = patches_of(body.body, line, seen, body.strips);
  if (theory.options.half_space) {
    tell_stretched(patches, result.findings);
  } else {
    tell_stretched(body.body, body.field ? body.field->turn.turn : turn_of(line, body.strips), result.findings);
  }
  result.patches.insert(result.patches.end(), patches.begin(), patches.end());
  result.bodies.push_back(std::move(body));
}

NormalLaw sharing_law(const StationOptions& options) { return options.half_space ? NormalLaw{Strips{}} : options.law; }

} // namespace

std::vector<PatchSummary> patches_of(const std::string& body, const GapLine& line, double height,
                                     std::span<const Strip> strips) {
  std::vector<PatchSummary> patches;
  const Patches overlaps = find_patches(line, height);
  for (std::size_t from = 0; from < strips.size();) {
    std::size_t to = from + 1;
    while (to < strips.size() && strips[to].y - strips[to - 1].y < 0.75 * (strips[to].width + strips[to - 1].width)) {
      ++to;
    }
    PatchSummary p;
    p.body = body;
    double ahead = 0.0;
    for (std::size_t i = from; i < to; ++i) {
      const Strip& s = strips[i];
      p.force += s.force;
      p.y += s.force * s.y;
      ahead += s.force * s.dx;
      p.half_length = std::max(p.half_length, s.half_length);
      p.peak_pressure = std::max(p.peak_pressure, s.pressure);
    }
    p.y /= p.force;
    p.dx = ahead / p.force;
    p.wheel_y = p.y - line.first_y + line.wheel_first;
    const auto slope_at = [&](double y) {
      const double column = (y - line.first_y) / line.spacing;
      return line.slope[static_cast<std::size_t>(std::clamp(column + 0.5, 0.0, line.count - 1.0))];
    };
    p.angle = std::atan(slope_at(p.y));
    for (std::size_t i = from; i < to; ++i) {
      const double slope = slope_at(strips[i].y), cosine = 1.0 / std::sqrt(1.0 + slope * slope);
      p.area += 2.0 * strips[i].half_length * strips[i].width / cosine;
      p.half_width += 0.5 * strips[i].width / cosine;
    }
    // The overlap this patch lies in, or the nearest.
    double nearest = std::numeric_limits<double>::infinity();
    for (const ContactPatch& overlap : overlaps.list()) {
      const double away = std::max({0.0, overlap.from - p.y, p.y - overlap.to});
      if (away < nearest) {
        nearest = away;
        p.approach = overlap.approach;
      }
    }
    p.turn = turn_of(line, strips.subspan(from, to - from));
    patches.push_back(p);
    from = to;
  }
  return patches;
}

StationContact contact_at(const WheelSurface& wheel, std::span<const layout::Body> bodies, const WheelPlace& place,
                          double vertical, const Elastic& material, const StationOptions& options) {
  if (!(std::isfinite(vertical) && vertical > 0.0)) {
    throw InputError("contact force", number(vertical * 1e-3) + " kN", "greater than 0", "Give the load on the wheel.");
  }
  const Theory theory{sharing_law(options), material, options};
  std::vector<GapLine> lines(bodies.size());
  for (std::size_t b = 0; b < bodies.size(); ++b) {
    look(wheel, bodies[b], place, lines[b]);
  }
  if (std::none_of(lines.begin(), lines.end(), [](const GapLine& line) { return std::isfinite(line.level); })) {
    throw ComputeError("at station " + fixed(place.station * 1e3, 0) +
                       " mm the wheel is not over any body; check the station and the lateral place");
  }
  StationContact result = empty_contact(place, theory);
  result.vertical = vertical;
  result.height = height_for_force(theory.law, lines, vertical, material);
  for (std::size_t b = 0; b < bodies.size(); ++b) {
    add_body(theory, bodies[b].name, lines[b], result.height, 1e-6 * vertical, result);
  }
  return result;
}

StationContact contact_under(const WheelSurface& wheel, std::span<const layout::Body> bodies, const WheelPlace& place,
                             std::span<const BodyLoad> loads, const Elastic& material, const StationOptions& options) {
  const Theory theory{sharing_law(options), material, options};
  StationContact result = empty_contact(place, theory);
  GapLine line;
  double most = 0.0;
  for (const BodyLoad& load : loads) {
    if (!(std::isfinite(load.vertical) && load.vertical >= 0.0)) {
      throw InputError("force on the " + load.body, number(load.vertical * 1e-3) + " kN", "0 or more",
                       "Wheel and rail can only press on each other.");
    }
    const auto body =
        std::find_if(bodies.begin(), bodies.end(), [&](const layout::Body& b) { return b.name == load.body; });
    if (body == bodies.end()) {
      throw InputError("body under the wheel", "\"" + load.body + "\"", "a body in reach of the wheel",
                       "Take the crossing and the station the force belongs to.");
    }
    if (load.vertical == 0.0) {
      continue;
    }
    look(wheel, *body, place, line);
    const double height = line.level - depth_for_force(theory.law, line, load.vertical, material);
    result.vertical += load.vertical;
    if (load.vertical > most) {
      most = load.vertical;
      result.height = height;
    }
    add_body(theory, load.body, line, height, 0.0, result);
  }
  if (result.bodies.empty()) {
    throw ComputeError("no body carries the wheel at station " + number(place.station * 1e3) + " mm");
  }
  return result;
}

} // namespace wingnose::contact
