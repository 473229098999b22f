#include "wingnose/passage/together.hpp"

#include "wingnose/passage/exponential_stepper.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace wingnose::passage {

std::vector<Together> together(std::span<const std::optional<Alike>> passages) {
  std::vector<Together> all;
  std::map<std::tuple<std::size_t, double, double, double, Direction>, std::vector<std::size_t>> groups;
  for (std::size_t i = 0; i < passages.size(); ++i) {
    if (passages[i] && passages[i]->alone) {
      all.push_back({{i}, false});
    } else if (passages[i]) {
      const Alike& p = *passages[i];
      groups[{p.track, p.speed, p.from, p.to, p.direction}].push_back(i);
    }
  }
  for (auto& [alike, members] : groups) {
    std::stable_sort(members.begin(), members.end(),
                     [&](std::size_t a, std::size_t b) { return passages[a]->path < passages[b]->path; });
    for (auto first = members.begin(); first != members.end();) {
      const auto end = first + std::min<std::ptrdiff_t>(BatchState::lanes, members.end() - first);
      all.push_back({{first, end}, true});
      first = end;
    }
  }
  std::stable_sort(all.begin(), all.end(), [&](const Together& a, const Together& b) {
    const Alike &p = *passages[a.passages.front()], &q = *passages[b.passages.front()];
    return std::tie(p.track, p.path) < std::tie(q.track, q.path);
  });
  return all;
}

} // namespace wingnose::passage
