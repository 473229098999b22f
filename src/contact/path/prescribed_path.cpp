// Paths given rather than rolled: dipped joint and polyline.
#include "wingnose/contact/path/wheel_path.hpp"

#include "stations.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/number.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wingnose::contact {
namespace {

constexpr double around_given_kink = 0.002; // m

template <class Height>
WheelPath prescribed(std::vector<double> x, Height height, const PlainContact& contact, const PathOptions& o,
                     std::string excitation, std::optional<double> landing) {
  const std::size_t n = x.size();
  BodyPath body;
  body.name = "path";
  body.height.reserve(n);
  for (const double at : x) {
    body.height.push_back(height(at));
  }
  body.contact_y.assign(n, taping_line_y + o.lateral_offset);
  body.contact_dx.assign(n, 0.0);
  body.wheel_y.assign(n, 0.0);
  body.angle.assign(n, contact.angle);
  body.curvature_x.assign(n, contact.curvature_x);
  body.curvature_y.assign(n, contact.curvature_y);
  return {std::move(x), {std::move(body)}, std::move(excitation), landing, o.wheel_radius};
}

void check(const PlainContact& c) {
  if (!(c.curvature_x > 0.0 && c.curvature_y > 0.0 && std::isfinite(c.curvature_x + c.curvature_y + c.angle))) {
    throw InputError("plain-line contact", number(c.curvature_x) + " and " + number(c.curvature_y),
                     "curvature sums above 0 1/m", "Take them from plain_contact() for a wheel and a rail.");
  }
}

// Depth of a dip; u: from its end (0) to the joint (1), scale: its slope at the joint times its half length.
double depth_of(layout::DippedJoint::Shape shape, double scale, double u) {
  using enum layout::DippedJoint::Shape;
  switch (shape) {
  case kink:
    return scale * u;
  case quadratic:
    return 0.5 * scale * u * u;
  case sine:
    return 2.0 / std::numbers::pi * scale * (1.0 - std::cos(0.5 * std::numbers::pi * u));
  }
  return 0.0; // every shape has its line above, or the compiler warns
}

} // namespace

WheelPath dipped_joint(const layout::DippedJoint& joint, const PlainContact& contact, const PathOptions& options) {
  check(options);
  check(contact);
  if (!(joint.dip_angle > 0.0 && joint.dip_angle <= 0.2)) {
    throw InputError("total dip angle (rad)", number(joint.dip_angle), "above 0 and up to 0.2 rad",
                     "Give the sum of both ramps, e.g. 0.02 rad.");
  }
  if (!(joint.half_length > 0.0 && std::isfinite(joint.half_length) && std::isfinite(joint.at))) {
    throw InputError("half length of the dip (m)", number(joint.half_length), "a number above 0 m",
                     "Give the ramp length each side of the joint.");
  }
  const double alpha = 0.5 * joint.dip_angle, half = joint.half_length;
  std::vector<double> x = finer_stations(regular_stations(stretch_of(options)),
                                         std::vector<double>{joint.at - half, joint.at, joint.at + half},
                                         around_given_kink, stretch_of(options));
  const auto height = [&](double at) {
    return -depth_of(joint.shape, alpha * half, std::max(0.0, 1.0 - std::abs(at - joint.at) / half));
  };
  return prescribed(std::move(x), height, contact, options, std::string(name(joint.shape)), joint.at);
}

WheelPath given_path(const layout::GivenPath& given, const PlainContact& contact, const PathOptions& options) {
  check(options);
  check(contact);
  const std::size_t n = given.station.size();
  if (n < 2 || given.height.size() != n) {
    throw InputError("given path",
                     std::to_string(n) + " stations and " + std::to_string(given.height.size()) + " heights",
                     "at least 2 of each, as many heights as stations", "Add the missing values.");
  }
  for (std::size_t i = 0; i < n; ++i) {
    if (!std::isfinite(given.station[i]) || !std::isfinite(given.height[i])) {
      throw InputError("given path, point " + std::to_string(i + 1), "not a finite number", "finite station and height",
                       "Remove or repair the point.");
    }
    if (i > 0 && !(given.station[i] > given.station[i - 1])) {
      throw InputError("given path, station of point " + std::to_string(i + 1), number(given.station[i]),
                       "above the station before", "Sort the points by station and remove duplicates.");
    }
    if (std::abs(given.height[i]) > 0.2) {
      throw InputError("given path, height of point " + std::to_string(i + 1), number(given.height[i]), "-0.2 to 0.2 m",
                       "Check the unit of the heights.");
    }
  }
  std::optional<double> landing;
  double largest = 0.0;
  for (std::size_t i = 1; i + 1 < n; ++i) {
    const auto slope = [&](std::size_t k) {
      return (given.height[k + 1] - given.height[k]) / (given.station[k + 1] - given.station[k]);
    };
    const double change = std::abs(slope(i) - slope(i - 1));
    const bool inside = given.station[i] > options.from && given.station[i] < options.to;
    if (inside && change > largest * (1.0 + 1e-9) && change > 1e-9) {
      largest = change;
      landing = given.station[i];
    }
  }
  // The corners themselves are stations; finer spacing only helps around the landing.
  std::vector<double> x =
      finer_stations(regular_stations(stretch_of(options)), given.station, 0.0, stretch_of(options));
  if (landing) {
    x = finer_stations(std::move(x), std::vector<double>{*landing}, around_given_kink, stretch_of(options));
  }
  const auto height = [&](double at) { // level beyond the ends
    const auto next = std::upper_bound(given.station.begin(), given.station.end(), at);
    if (next == given.station.begin()) {
      return given.height.front();
    }
    if (next == given.station.end()) {
      return given.height.back();
    }
    const auto i = static_cast<std::size_t>(next - given.station.begin());
    const double u = (at - given.station[i - 1]) / (given.station[i] - given.station[i - 1]);
    return given.height[i - 1] + u * (given.height[i] - given.height[i - 1]);
  };
  WheelPath path = prescribed(std::move(x), height, contact, options, "given path", landing);
  path.given_from = given.station.front();
  path.given_to = given.station.back();
  return path;
}

} // namespace wingnose::contact
