#include "wingnose/layout/turnout/bodies.hpp"

#include <algorithm>
#include <utility>

namespace wingnose::layout::turnout {

Laid lay(const Turnout& turnout, Way way, CrossingShape shape, const profile::RailHead& rail) {
  const Geometry g = geometry(turnout);
  const Faces faces = found(turnout, way);
  shape.rate = g.rate_at_nose;
  shape.gauge = faces.gauge;
  shape.flangeway = faces.crossing_flangeway();
  Body stock = plain_rail(rail);
  stock.side = Side::opposite;
  Laid laid{route(g, way), {std::move(stock)}, check_rail(turnout, faces)};
  for (Body& body : generate(shape).bodies) {
    laid.bodies.push_back(std::move(body));
  }
  return laid;
}

std::vector<Lying> lying(const Laid& laid) {
  std::vector<Lying> list;
  for (const Body& body : laid.bodies) {
    const auto [from, to] = std::visit([](const auto& s) { return std::pair{s.x_begin(), s.x_end()}; }, body.surface);
    list.push_back(
        {body.name, body.role, body.side, std::max(from, laid.route.begin()), std::min(to, laid.route.end())});
  }
  const CheckFace& face = laid.guide.face;
  list.push_back({laid.guide.name, laid.guide.role, laid.guide.side, face.begin(), face.end()});
  return list;
}

} // namespace wingnose::layout::turnout
