#include "own_planes.hpp"

#include <algorithm>
#include <numeric>

namespace wingnose::contact {

std::vector<OwnPlane> own_planes(std::span<const double> pressure, std::size_t nx, std::span<const double> cosine,
                                 std::span<const double> angle, std::span<const double> y) {
  std::vector<double> force;
  for (std::size_t j = 0; j < y.size(); ++j) {
    const auto row = pressure.subspan(j * nx, nx);
    force.push_back(std::accumulate(row.begin(), row.end(), 0.0));
  }
  std::vector<OwnPlane> planes;
  std::size_t behind = 0; // the patch before
  for (std::size_t from = 0; from < y.size();) {
    if (!(force[from] > 0.0)) {
      ++from;
      continue;
    }
    std::size_t to = from;
    double sum = 0.0;
    OwnPlane plane{y.size(), 0.0, 0.0, angle[from], angle[from], y[from], y[from]};
    for (; to < y.size() && force[to] > 0.0; ++to) {
      sum += force[to];
      plane.cosine += force[to] * cosine[to];
      plane.angle += force[to] * angle[to];
      plane.least = std::min(plane.least, angle[to]);
      plane.most = std::max(plane.most, angle[to]);
      plane.y_last = y[to];
    }
    plane.cosine /= sum;
    plane.angle = std::clamp(plane.angle / sum, plane.least, plane.most); // a mean of equal angles is that angle
    if (!planes.empty()) {
      planes.back().end = (behind + from) / 2;
    }
    planes.push_back(plane);
    behind = from = to;
  }
  return planes;
}

} // namespace wingnose::contact
