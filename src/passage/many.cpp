#include "wingnose/passage/many.hpp"

#include "wingnose/passage/exponential_stepper.hpp"
#include "wingnose/passage/simulate.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace wingnose::passage {
namespace {

// Tells a refusal of the work; anything but our own errors goes on.
template <class Work> bool attempt(PassagesAsked& asked, std::size_t i, const Work& work) {
  try {
    work();
    return true;
  } catch (const InputError& error) {
    asked.refuse(i, error);
  } catch (const ComputeError& error) {
    asked.refuse(i, error);
  }
  return false;
}
template <class Work> bool succeeds(const Work& work) {
  try {
    work();
    return true;
  } catch (const InputError&) {
    return false;
  } catch (const ComputeError&) {
    return false;
  }
}

void simulate_together(const Together& group, PassagesAsked& asked) {
  // Two threads that need the same paths make different ones of them first.
  for (const std::size_t i : group.passages) {
    asked.prepare_path(i);
  }
  std::vector<std::size_t> ready;
  std::vector<Passage> passages;
  for (const std::size_t i : group.passages) {
    (void)attempt(asked, i, [&] {
      passages.push_back(asked.make(i, passages.empty() ? nullptr : &passages.back()));
      ready.push_back(i);
    });
  }
  std::vector<History> histories;
  const bool all_well = group.batch && succeeds([&] { histories = simulate_batch(passages); });
  for (std::size_t k = 0; k < ready.size(); ++k) {
    (void)attempt(asked, ready[k], [&] {
      // Where one of a batch failed, each goes by itself, in the same way.
      asked.finish(ready[k], all_well      ? std::move(histories[k])
                             : group.batch ? std::move(simulate_batch(std::span(passages).subspan(k, 1)).front())
                                           : simulate(passages[k]));
    });
  }
  for (const std::size_t i : group.passages) {
    asked.release(i);
  }
}

// The work in the order it is taken: tracks a little ahead of the passages that need them.
struct Item {
  enum class Kind { track, passages } kind;
  std::size_t group; // the first on that track, or the one to simulate
};

std::vector<Item> items_of(const std::vector<Together>& groups, std::span<const std::optional<Alike>> passages,
                           std::size_t threads) {
  const auto track = [&](std::size_t g) { return passages[groups[g].passages.front()]->track; };
  std::vector<std::size_t> on_new_track; // first group on each track
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (g == 0 || track(g) != track(g - 1)) {
      on_new_track.push_back(g);
    }
  }
  std::vector<Item> items;
  std::size_t ahead = 0;
  for (std::size_t t = 0; t < on_new_track.size(); ++t) {
    for (; ahead < std::min(t + threads, on_new_track.size()); ++ahead) {
      items.push_back({Item::Kind::track, on_new_track[ahead]});
    }
    const std::size_t end = t + 1 < on_new_track.size() ? on_new_track[t + 1] : groups.size();
    for (std::size_t g = on_new_track[t]; g < end; ++g) {
      items.push_back({Item::Kind::passages, g});
    }
  }
  return items;
}

} // namespace

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

void simulate_many(std::span<const std::optional<Alike>> passages, PassagesAsked& asked, const WorkOptions& options) {
  const std::vector<Together> groups = together(passages);
  const std::vector<Item> items = items_of(groups, passages, threads_of(options.threads));
  work_off(items.size(), options, [&](std::size_t i) -> std::size_t {
    const Together& group = groups[items[i].group];
    if (items[i].kind == Item::Kind::track) {
      (void)succeeds([&] { asked.prepare_track(group.passages.front()); });
      return 0;
    }
    simulate_together(group, asked);
    return group.passages.size();
  });
}

} // namespace wingnose::passage
