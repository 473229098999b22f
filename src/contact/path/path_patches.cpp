#include "wingnose/contact/path/path_patches.hpp"

#include "wingnose/contact/normal/strips.hpp"
#include "wingnose/contact/search/held_wheel.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <cmath>
#include <utility>

namespace wingnose::contact {
namespace {

constexpr double first_depth = 1e-4;        // m
constexpr double deepest_searched = 0.6e-3; // m: columns further apart are not searched
constexpr double share_near_enough = 0.005; // of the force; what is left is shared out by Hertz's powers
constexpr int most_rounds_of_depth = 8;

} // namespace

struct PathPatches::Parts {
  HeldWheel wheel;
  Elastic material;
  std::vector<double> depth; // m, where the search begins, per body
  GapLine line;
  StripOutline outline;

  Parts(HeldWheel held, const Elastic& steel)
      : wheel(std::move(held)), material(steel), depth(wheel.bodies().size(), first_depth) {}
};

PathPatches::PathPatches(const WheelPath& path, const layout::Crossing& crossing, const profile::WheelProfile& wheel,
                         double from, double to, const Elastic& material)
    : parts_(std::make_unique<Parts>(HeldWheel(wheel, crossing.bodies, attitude_of(path), {from, to}), material)) {}

PathPatches::PathPatches(const profile::RailHead& rail, const profile::WheelProfile& wheel, double radius,
                         const Elastic& material)
    : parts_(std::make_unique<Parts>(HeldWheel(wheel, {layout::plain_rail(rail)}, {.wheel_radius = radius}, {0.0, 0.0}),
                                     material)) {}

PathPatches::PathPatches(PathPatches&&) noexcept = default;
PathPatches& PathPatches::operator=(PathPatches&&) noexcept = default;
PathPatches::~PathPatches() = default;

std::size_t PathPatches::bodies() const { return parts_->wheel.bodies().size(); }

std::vector<PatchSummary> PathPatches::at(std::size_t body, double x, double vertical) {
  if (body >= bodies()) {
    throw InputError("body of a path", std::to_string(body), "0 to " + std::to_string(bodies() - 1),
                     "Bodies are counted from 0.");
  }
  if (!(std::isfinite(vertical) && vertical > 0.0)) {
    throw InputError("contact force", number(vertical * 1e-3) + " kN", "greater than 0", "Give the load of the body.");
  }
  Parts& p = *parts_;
  p.wheel.look(body, x, p.line);
  if (p.line.count == 0) {
    return {};
  }
  // F goes about with depth^1.5; the law of strips is continuous and grows, so the steps close in quickly.
  double depth = p.depth[body];
  NormalContact found;
  for (int round = 0; round < most_rounds_of_depth; ++round) {
    found = strips(p.line, depth, p.material, &p.outline);
    if (!(found.vertical > 0.0)) { // touches where the columns end: deeper
      if (depth >= deepest_searched) {
        return {};
      }
      depth = std::min(2.0 * depth, deepest_searched);
      continue;
    }
    const double share = vertical / found.vertical;
    if (std::abs(share - 1.0) < share_near_enough || (depth >= deepest_searched && share > 1.0)) {
      break;
    }
    depth = std::min(depth * std::clamp(std::pow(share, 2.0 / 3.0), 0.25, 4.0), deepest_searched);
  }
  if (!(found.vertical > 0.0)) {
    return {};
  }
  p.depth[body] = depth;
  auto patches = patches_of(p.wheel.bodies()[body].name, p.line, p.line.level - depth, p.outline.list());
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
