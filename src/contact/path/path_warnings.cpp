#include "path_warnings.hpp"

#include "path_reading.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

namespace wingnose::contact {
namespace {

constexpr double flange_place = -0.035;   // m from the taping line, where the flange begins
constexpr double steep = 0.5;             // rad
constexpr double sharp_curvature = 200.0; // 1/m, a radius of 5 mm
constexpr double curvature_floor = 0.5;   // 1/m, as applied by roll()

template <class... Values> std::string sentence(const char* format, Values... values) {
  char text[400];
  std::snprintf(text, sizeof text, format, values...);
  return text;
}

// Extent and worst value of a condition along the carrying path.
struct Spot {
  double from = std::numeric_limits<double>::infinity(), to = -from, worst = 0.0;
  std::string body;
  [[nodiscard]] bool seen() const { return from <= to; }
  void add(double x, double value, const std::string& name) {
    from = std::min(from, x);
    to = std::max(to, x);
    if (body.empty() || std::abs(value) > std::abs(worst)) {
      worst = value;
      body = name;
    }
  }
};

} // namespace

std::vector<std::string> path_warnings(const WheelPath& path, const profile::WheelProfile& wheel,
                                       const KinematicsOptions& o, std::span<const double> transfers) {
  const std::vector<int> carrying = carrying_body(path);
  const bool rolled = path.excitation == "crossing";
  Spot rim, flange, flank, none, sharp, flat;
  for (std::size_t i = 0; i < carrying.size(); ++i) {
    const double x = path.station[i];
    if (carrying[i] < 0) {
      none.add(x, 0.0, "no body");
      continue;
    }
    const BodyPath& b = path.bodies[static_cast<std::size_t>(carrying[i])];
    if (!rolled) {
      continue;
    }
    if (b.wheel_y[i] > wheel.y_max() - o.rim_margin) {
      rim.add(x, b.wheel_y[i], b.name);
    }
    if (b.wheel_y[i] < flange_place) {
      flange.add(x, b.wheel_y[i], b.name);
    } else if (std::abs(b.angle[i]) > steep) {
      flank.add(x, b.angle[i], b.name);
    }
    if (b.curvature_y[i] > sharp_curvature) {
      sharp.add(x, b.curvature_y[i], b.name);
    }
    if (b.curvature_y[i] <= curvature_floor) {
      flat.add(x, b.curvature_y[i], b.name);
    }
  }
  std::vector<std::string> w;
  constexpr double mm = 1000.0;
  if (rim.seen()) {
    w.push_back(sentence("rim contact: the %s carries the wheel up to %.1f mm outside the taping line (rim at %.1f mm) "
                         "between stations %.0f and %.0f mm",
                         rim.body.c_str(), rim.worst * mm, wheel.y_max() * mm, rim.from * mm, rim.to * mm));
  }
  if (flange.seen()) {
    w.push_back(sentence("flange contact: the %s carries the wheel %.1f mm inside the taping line between stations "
                         "%.0f and %.0f mm",
                         flange.body.c_str(), -flange.worst * mm, flange.from * mm, flange.to * mm));
  }
  if (flank.seen()) {
    w.push_back(sentence("steep contact: contact angle of %.2f rad on the %s between stations %.0f and %.0f mm",
                         flank.worst, flank.body.c_str(), flank.from * mm, flank.to * mm));
  }
  if (none.seen()) {
    w.push_back(sentence("unsupported wheel: no body is touched at stations between %.0f and %.0f mm", none.from * mm,
                         none.to * mm));
  }
  if (transfers.size() > 1) {
    w.push_back(sentence("several transfers: %zu between stations %.0f and %.0f mm, the last in the sense of travel is "
                         "reported",
                         transfers.size(), std::min(transfers.front(), transfers.back()) * mm,
                         std::max(transfers.front(), transfers.back()) * mm));
  }
  if (path.bodies.size() == 2 && transfers.empty()) {
    w.push_back(sentence("no transfer: the wheel does not change between %s and %s within stations %.0f to %.0f mm",
                         path.bodies[0].name.c_str(), path.bodies[1].name.c_str(), path.station.front() * mm,
                         path.station.back() * mm));
  }
  if (sharp.seen()) {
    w.push_back(sentence("sharp edge: relative lateral radius of %.1f mm on the %s between stations %.0f and %.0f mm; "
                         "contact stress there is beyond elastic theory",
                         mm / sharp.worst, sharp.body.c_str(), sharp.from * mm, sharp.to * mm));
  }
  if (flat.seen()) {
    w.push_back(sentence("conformal contact: lateral curvature limited to %.1f 1/m on the %s between stations %.0f and "
                         "%.0f mm",
                         curvature_floor, flat.body.c_str(), flat.from * mm, flat.to * mm));
  }
  return w;
}

} // namespace wingnose::contact
