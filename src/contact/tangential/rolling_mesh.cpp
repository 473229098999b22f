#include "wingnose/contact/tangential/rolling_mesh.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

namespace wingnose::contact {
namespace {

using std::numbers::pi;

void check_positive(const char* what, double value, const char* unit) {
  if (!(value > 0.0 && std::isfinite(value))) {
    throw InputError(what, number(value) + " " + unit, "above 0", "Rolling needs a patch that is pressed together.");
  }
}
void check_count(const char* what, int count, int most) {
  if (!(count >= 2 && count <= most)) {
    throw InputError(what, std::to_string(count), "2 to " + std::to_string(most), "24 are a good start.");
  }
}

// Share of a semi-ellipse (load of a two-dimensional Hertz contact) between t0 < t1 in -1 .. 1.
double semi_ellipse_share(double t0, double t1) {
  const auto primitive = [](double t) { return t * std::sqrt(std::max(0.0, 1.0 - t * t)) + std::asin(t); };
  return (primitive(t1) - primitive(t0)) / pi;
}

void add_hertz_strip(RollingMesh& mesh, double y, double width, double half_length, double force, int along) {
  const double cell = 2.0 * half_length / along;
  mesh.strips.push_back({y, width, half_length, cell, mesh.cells(), static_cast<std::size_t>(along)});
  for (int k = 0; k < along; ++k) {
    const double t1 = 1.0 - 2.0 * k / along, t0 = std::max(-1.0, 1.0 - 2.0 * (k + 1) / along);
    mesh.pressure.push_back(force * semi_ellipse_share(t0, t1) / (cell * width));
  }
}

} // namespace

RollingMesh elliptic_mesh(double a, double b, double normal_force, int along, int across) {
  check_positive("semi-axis in the rolling direction", a, "m");
  check_positive("semi-axis across", b, "m");
  check_positive("normal force", normal_force, "N");
  check_count("cells along the rolling direction", along, 200);
  check_count("strips across the patch", across, 200);
  RollingMesh mesh;
  for (int j = 0; j < across; ++j) {
    const double s0 = -1.0 + 2.0 * j / across, s1 = -1.0 + 2.0 * (j + 1) / across;
    // Half length that gives the strip the area of its slice of the ellipse, and its share of 3/4 N (1 - s^2) ds.
    const double half = a * 0.5 * pi * semi_ellipse_share(s0, std::min(s1, 1.0)) / (s1 - s0);
    const double share = 0.75 * ((s1 - s0) - (s1 * s1 * s1 - s0 * s0 * s0) / 3.0);
    add_hertz_strip(mesh, b * 0.5 * (s0 + s1), b * (s1 - s0), half, share * normal_force, along);
  }
  return mesh;
}

RollingMesh plane_mesh(double a, double force_per_width, int along) {
  check_positive("half length of the contact", a, "m");
  check_positive("normal force per width", force_per_width, "N/m");
  check_count("cells along the rolling direction", along, 2000);
  RollingMesh mesh;
  mesh.plane = true;
  add_hertz_strip(mesh, 0.0, 1.0, a, force_per_width, along);
  return mesh;
}

RollingMesh grid_mesh(std::span<const double> pressure, std::size_t along, std::size_t across, double x0, double y0,
                      double dx, double dy) {
  check_positive("grid pitch along", dx, "m");
  check_positive("grid pitch across", dy, "m");
  if (pressure.size() != along * across || pressure.empty()) {
    throw InputError("pressure field", std::to_string(pressure.size()) + " values",
                     std::to_string(along) + " x " + std::to_string(across), "One value per cell of the grid.");
  }
  for (const double p : pressure) {
    if (!(p >= 0.0 && std::isfinite(p))) {
      throw InputError("pressure field", number(p) + " Pa", "0 or more",
                       "Wheel and rail can only press on each other.");
    }
  }
  RollingMesh mesh;
  for (std::size_t j = 0; j < across; ++j) {
    const double y = y0 + static_cast<double>(j) * dy;
    bool open = false;
    for (std::size_t back = 0; back < along; ++back) { // from the leading edge
      const std::size_t i = along - 1 - back;
      const double p = pressure[i * across + j];
      if (p > 0.0) {
        if (!open) {
          mesh.strips.push_back({y, dy, x0 + (static_cast<double>(i) + 0.5) * dx, dx, mesh.cells(), 0});
        }
        ++mesh.strips.back().cells;
        mesh.pressure.push_back(p);
      }
      open = p > 0.0;
    }
  }
  if (mesh.strips.empty()) {
    throw InputError("pressure field", "zero everywhere", "a field with contact", "Press the bodies together first.");
  }
  return mesh;
}

} // namespace wingnose::contact
