// Which steps a passage takes: long ones where the forces are smooth, the plan's own about every kink of what its
// wheels run along. It follows from the case alone, so the same case takes the same steps whatever runs beside it.
#pragma once

#include <vector>

namespace wingnose::passage {

struct Passage;

// Samples of the history are `Plan::step` apart throughout; a step of `stride` leads from one to the stride-th after.
struct Stretch {
  int begin = 0, end = 0; // samples; end - begin is a multiple of stride
  int stride = 1;
  [[nodiscard]] friend bool operator==(const Stretch&, const Stretch&) = default;
};

// Short steps wherever the path of a wheel bends by more than it feels, or both bodies are about to carry, and from
// there until the bounce has settled. Short throughout where the plan knows no long ones.
[[nodiscard]] std::vector<Stretch> step_plan(const Passage& passage);
// The same with short steps from sample `from`, the beginning of a step, to `until` or somewhat later.
[[nodiscard]] std::vector<Stretch> shortened(const std::vector<Stretch>& stretches, int from, int until);
// The same with every long step made of some of `stride`, of which it is a multiple.
[[nodiscard]] std::vector<Stretch> with_stride(std::vector<Stretch> stretches, int stride);
[[nodiscard]] int sample_count(const Passage& passage); // steps of the plan's own length + 1

} // namespace wingnose::passage
