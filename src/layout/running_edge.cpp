#include "wingnose/layout/surface.hpp"

#include <algorithm>

namespace wingnose::layout {

Edge running_edge(const Body& body, double from, double to) {
  constexpr double pitch = 0.01; // m
  Edge edge;
  std::visit(
      [&](const auto& surface) {
        const double first = std::max(from, surface.x_begin()), last = std::min(to, surface.x_end());
        for (int i = 0; first + i * pitch <= last; ++i) {
          edge.x.push_back(first + i * pitch);
          edge.y.push_back(surface.edge(edge.x.back()));
        }
      },
      body.surface);
  return edge;
}

} // namespace wingnose::layout
