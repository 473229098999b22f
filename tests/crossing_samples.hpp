// Crossings shared by tests.
#pragma once

#include "wingnose/layout/surface.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace samples {

using namespace wingnose;
using namespace wingnose::layout;

inline double z_of(const Body& body, double x, double y) { // -infinity where the body has no metal
  return std::visit(
      [&](const auto& b) {
        const double eta = y - b.edge(x);
        const bool metal = x >= b.x_begin() && x <= b.x_end() && eta >= 0.0 && eta <= b.width(x);
        return metal ? b.height(x, eta) : -std::numeric_limits<double>::infinity();
      },
      body.surface);
}

// The section of a body at station x, points crowded towards the faces.
inline Section section_of(const Body& body, double x, int points) {
  Section section{x, {}, {}};
  std::visit(
      [&](const auto& b) {
        const double width = b.width(x);
        for (int j = 0; j <= points; ++j) {
          const double eta = 0.5 * width * (1.0 - std::cos(std::numbers::pi * j / points));
          section.y.push_back(b.edge(x) + eta);
          section.z.push_back(b.height(x, eta));
        }
      },
      body.surface);
  return section;
}

// Sections of a crossing every `spacing`, points crowded towards the faces; the thinnest part of the nose is left out.
inline SectionedShape sectioned(const Crossing& c, double spacing, int points, double from, double to) {
  SectionedShape s;
  s.rate = c.rate;
  s.noise = 0.0;
  for (const Body& body : c.bodies) {
    SectionedBody out{body.name, {}};
    std::visit(
        [&](const auto& b) {
          const double low = std::max(b.x_begin(), from), high = std::min(b.x_end(), to);
          const int n = static_cast<int>(std::ceil((high - low) / spacing));
          for (int i = 0; i <= n; ++i) {
            out.sections.push_back(section_of(body, low + (high - low) * i / n, points));
          }
        },
        body.surface);
    s.bodies.push_back(out);
  }
  return s;
}

// A strip of rail with a rounded edge of 13 mm, level across, running out at 1:N and rising at `slope`.
inline Section strip(double x, double edge, double slope, double width, int points) {
  Section s{x, {}, {}};
  for (int j = 0; j <= points; ++j) {
    const double eta = 0.5 * width * (1.0 - std::cos(std::numbers::pi * j / points)), a = std::max(0.0, 0.013 - eta);
    s.y.push_back(edge + eta);
    s.z.push_back(slope * x - 0.013 + std::sqrt(0.013 * 0.013 - a * a));
  }
  return s;
}

inline SectionedShape two_strips(double slope, int wing_points = 80) {
  SectionedShape s;
  s.noise = 0.0;
  s.bodies = {{"wing", {}}, {"nose", {}}};
  for (const double x : {-0.2, 0.0, 0.07, 0.2, 0.31, 0.5}) {
    s.bodies[0].sections.push_back(strip(x, 0.762 + x / 15.0, slope, 0.040, wing_points));
    s.bodies[1].sections.push_back(strip(x, 0.7205, -0.004 + slope * x, 0.020, 60));
  }
  return s;
}

// "Worn" and "repaired" variants of the default crossing: one file with modifiers.
inline CrossingShape worn(CrossingShape s = {}) {
  s.name = "worn";
  s.modifiers = {{"nose", 0.42, 0.50, 0.0012}, {"wing", 0.45, 0.90, 0.0006}};
  return s;
}
inline CrossingShape repaired() { // half of the wear built up again
  CrossingShape s = worn();
  s.name = "repaired";
  s.modifiers.push_back({"nose", 0.42, 0.50, -0.0008});
  s.modifiers.push_back({"wing", 0.45, 0.90, -0.0004});
  return s;
}

} // namespace samples
