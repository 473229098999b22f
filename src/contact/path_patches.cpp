#include "wingnose/contact/path_patches.hpp"

#include "wingnose/contact/normal_law.hpp"
#include "wingnose/contact/path_law.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <cmath>
#include <optional>

namespace wingnose::contact {
namespace {

constexpr double first_depth = 1e-4;  // m
constexpr double deepest = 0.6e-3;    // m: columns further apart are not searched
constexpr double near_enough = 0.005; // of the force; what is left is shared out by Hertz's powers
constexpr int most_rounds = 8;

} // namespace

struct PathPatches::Parts {
  WheelTable wheel;
  Elastic material;
  WheelPlace place; // at the station asked for last
  std::vector<std::string> names;
  std::vector<std::optional<BodyTable>> tables; // nullopt: the body does not reach into the stretch
  std::vector<double> depth;                    // m, where the search begins
  GapLine line;
  StripOutline outline;
};

PathPatches::PathPatches(const layout::WheelPath& path, const layout::Crossing& crossing,
                         const profile::WheelProfile& wheel, double from, double to, const Elastic& material)
    : parts_(std::make_unique<Parts>(
          Parts{WheelTable(wheel, path.wheel_radius), material, place_on(path, from), {}, {}, {}, {}, {}})) {
  parts_->tables = tables_along(crossing, from, to);
  parts_->depth.assign(parts_->tables.size(), first_depth);
  parts_->names.reserve(crossing.bodies.size());
  for (const layout::Body& body : crossing.bodies) {
    parts_->names.push_back(body.name);
  }
}

PathPatches::PathPatches(const profile::RailHead& rail, const profile::WheelProfile& wheel, double radius,
                         const Elastic& material)
    : parts_(std::make_unique<Parts>(
          Parts{WheelTable(wheel, radius), material, {.lateral = taping_line_y}, {rail.name}, {}, {}, {}, {}})) {
  parts_->tables.emplace_back(BodyTable(rail));
  parts_->depth.push_back(first_depth);
}

PathPatches::PathPatches(PathPatches&&) noexcept = default;
PathPatches& PathPatches::operator=(PathPatches&&) noexcept = default;
PathPatches::~PathPatches() = default;

std::size_t PathPatches::bodies() const { return parts_->tables.size(); }

std::vector<PatchSummary> PathPatches::at(std::size_t body, double x, double vertical) {
  if (body >= bodies()) {
    throw InputError("body of a path", std::to_string(body), "0 to " + std::to_string(bodies() - 1),
                     "Bodies are counted from 0.");
  }
  if (!(std::isfinite(vertical) && vertical > 0.0)) {
    throw InputError("contact force", number(vertical * 1e-3) + " kN", "greater than 0", "Give the load of the body.");
  }
  Parts& p = *parts_;
  if (!p.tables[body]) {
    return {};
  }
  p.place.station = x;
  gap_line(p.wheel, *p.tables[body], p.place, p.line);
  if (p.line.count < 3) {
    return {};
  }
  // F goes about with depth^1.5; the law of strips is continuous and grows, so the steps close in quickly.
  double depth = p.depth[body];
  NormalContact found;
  for (int round = 0; round < most_rounds; ++round) {
    found = strips(p.line, depth, p.material, &p.outline);
    if (!(found.vertical > 0.0)) { // touches where the columns end: deeper
      if (depth >= deepest) {
        return {};
      }
      depth = std::min(2.0 * depth, deepest);
      continue;
    }
    const double share = vertical / found.vertical;
    if (std::abs(share - 1.0) < near_enough || (depth >= deepest && share > 1.0)) {
      break;
    }
    depth = std::min(depth * std::clamp(std::pow(share, 2.0 / 3.0), 0.25, 4.0), deepest);
  }
  if (!(found.vertical > 0.0)) {
    return {};
  }
  p.depth[body] = depth;
  auto patches = patches_of(p.names[body], p.line, p.line.level - depth, p.outline.list());
  const double share = vertical / found.vertical, root = std::cbrt(share);
  for (PatchSummary& patch : patches) {
    patch.force *= share;
    patch.peak_pressure *= root;
    patch.half_length *= root;
    patch.half_width *= root;
    patch.area *= root * root;
    patch.approach *= root * root;
  }
  return patches;
}

} // namespace wingnose::contact
