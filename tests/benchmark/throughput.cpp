#include "throughput.hpp"

#include <algorithm>
#include <atomic>
#include <span>
#include <thread>

namespace benchmark {
namespace {

constexpr int lanes = static_cast<int>(wingnose::passage::BatchState::lanes);

// Calls work(begin, end) for consecutive batches of cases; idle threads take the next one.
template <class Work> void share_out(int cases, unsigned threads, const Work& work) {
  std::atomic<int> next{0};
  std::vector<std::jthread> pool;
  for (unsigned i = 0; i < threads; ++i) {
    pool.emplace_back([&] {
      for (int begin = next.fetch_add(lanes); begin < cases; begin = next.fetch_add(lanes)) {
        work(begin, std::min(begin + lanes, cases));
      }
    });
  }
}

} // namespace

Throughput throughput(const Common& shared, int cases, unsigned threads, int repeats) {
  Throughput result;
  result.cases = cases;
  result.threads = threads;
  const std::vector<double> angles = dip_angles(cases);
  {
    const std::vector<wingnose::passage::Passage> moves = kink_passages(shared, angles);
    std::vector<double> last_force(static_cast<std::size_t>(cases));
    const auto all = [&] {
      share_out(cases, threads, [&](int begin, int end) {
        const auto histories = wingnose::passage::simulate_batch(
            std::span(moves).subspan(static_cast<std::size_t>(begin), static_cast<std::size_t>(end - begin)));
        for (int i = begin; i < end; ++i) {
          last_force[static_cast<std::size_t>(i)] = histories[static_cast<std::size_t>(i - begin)].force.back();
        }
      });
    };
    result.passages = repeated(repeats, all, 1.0, Clock::process);
  }
  result.p2.resize(static_cast<std::size_t>(cases));
  const auto all = [&] {
    share_out(cases, threads, [&](int begin, int end) {
      const auto moves = kink_passages(shared, {angles.begin() + begin, angles.begin() + end});
      const auto histories = wingnose::passage::simulate_batch(moves);
      for (int i = begin; i < end; ++i) {
        result.p2[static_cast<std::size_t>(i)] = measured(shared, histories[static_cast<std::size_t>(i - begin)]).p2;
      }
    });
  };
  result.whole = repeated(repeats, all, 1.0, Clock::process);
  return result;
}

} // namespace benchmark
