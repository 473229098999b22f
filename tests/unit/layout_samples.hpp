// Crossings and readings shared by the tests of the room layout.
#pragma once

#include "wingnose/layout/path.hpp"
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
            const double x = low + (high - low) * i / n, width = b.width(x);
            Section section{x, {}, {}};
            for (int j = 0; j <= points; ++j) {
              const double eta = 0.5 * width * (1.0 - std::cos(std::numbers::pi * j / points));
              section.y.push_back(b.edge(x) + eta);
              section.z.push_back(b.height(x, eta));
            }
            out.sections.push_back(section);
          }
        },
        body.surface);
    s.bodies.push_back(out);
  }
  return s;
}

inline const BodyPath& named(const WheelPath& path, const char* name) {
  return *std::find_if(path.bodies.begin(), path.bodies.end(), [&](const BodyPath& b) { return b.name == name; });
}

inline double read(const WheelPath& path, const std::vector<double>& column, double x) {
  const auto next = std::upper_bound(path.station.begin() + 1, path.station.end() - 1, x);
  const auto i = static_cast<std::size_t>(next - path.station.begin());
  const double u = (x - path.station[i - 1]) / (path.station[i] - path.station[i - 1]);
  return column[i - 1] + u * (column[i] - column[i - 1]);
}

inline std::vector<double> combined(const WheelPath& path) {
  std::vector<double> top(path.station.size(), -std::numeric_limits<double>::infinity());
  for (const BodyPath& b : path.bodies) {
    for (std::size_t i = 0; i < top.size(); ++i) {
      top[i] = std::max(top[i], b.height[i]);
    }
  }
  return top;
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

inline PathOptions around_transfer() { return {.from = -1.4, .to = 1.9}; }

} // namespace samples
