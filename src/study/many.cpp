#include "wingnose/study/many.hpp"

#include "many_parts.hpp"

#include "wingnose/passage/exponential_stepper.hpp"
#include "wingnose/passage/simulate.hpp"
#include "wingnose/study/steel.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <map>
#include <thread>
#include <tuple>

namespace wingnose::study {
namespace {

using State = Outcome::State;
constexpr std::size_t lanes = passage::BatchState::lanes;

// Calls work and turns its refusal into an outcome; anything but our own errors is not the case's fault and goes on.
template <class Work> bool attempt(Outcome& outcome, const Work& work) {
  try {
    work();
    return true;
  } catch (const InputError& error) {
    outcome = {State::bad_input, std::nullopt, std::nullopt, error.what()};
  } catch (const ComputeError& error) {
    outcome = {State::could_not_compute, std::nullopt, std::nullopt, error.what()};
  }
  return false;
}

// Cases that one thread takes at once: alone, or up to eight that advance together.
struct Unit {
  std::vector<std::size_t> cases;
  bool batch = false;
};

// The work in the order it is taken: tracks a little ahead of the units that need them.
struct Item {
  enum class Kind { track, unit } kind;
  std::size_t index; // of a case on that track, or of a unit
};

struct Schedule {
  std::vector<Places> at;
  std::vector<Unit> units;
  std::vector<Item> items;
};

class Many {
public:
  Many(std::span<const Case> cases, const ManyOptions& options, SharedParts& parts)
      : cases_(cases), options_(options), pools_(parts.pools()), outcomes_(cases.size()) {}

  std::vector<Outcome> run() {
    const auto wanted = options_.threads > 0 ? static_cast<unsigned>(options_.threads)
                                             : std::max(1U, std::thread::hardware_concurrency());
    schedule(wanted);
    {
      std::vector<std::jthread> others;
      for (std::size_t i = 1; i < std::min<std::size_t>(wanted, schedule_.items.size()); ++i) {
        others.emplace_back([this] { work(); });
      }
      work();
    }
    if (unexpected_) {
      std::rethrow_exception(unexpected_);
    }
    return std::move(outcomes_);
  }

private:
  // Eight at a time only where the stepper allows it; a window of a few steps is left to `simulate` to refuse.
  [[nodiscard]] bool batches(const Case& c) const {
    const cases::Passage& s = c.passage;
    return !options_.probes && cases::wheels_of(c.vehicle) == 1 && s.method == passage::Method::modal_exponential &&
           c.contact.search == contact::SearchAt::path && s.speed > 0.0 && s.step > 0.0 &&
           (s.to - s.from) / (s.speed * s.step) > 20.0;
  }

  void schedule(std::size_t threads) {
    schedule_.at.resize(cases_.size());
    using Alike = std::tuple<std::size_t, double, double, double, int>; // track with step, speed, window, direction
    std::map<Alike, std::vector<std::size_t>> groups;
    for (std::size_t i = 0; i < cases_.size(); ++i) {
      const Case& c = cases_[i];
      if (!attempt(outcomes_[i], [&] { schedule_.at[i] = places(pools_, c); })) {
        ++done_;
      } else if (batches(c)) {
        const cases::Passage& s = c.passage;
        groups[{schedule_.at[i].table, s.speed, s.from, s.to, static_cast<int>(s.direction)}].push_back(i);
      } else {
        schedule_.units.push_back({{i}, false});
      }
    }
    for (auto& [alike, members] : groups) {
      std::stable_sort(members.begin(), members.end(), [&](std::size_t a, std::size_t b) {
        return schedule_.at[a].geometry < schedule_.at[b].geometry;
      });
      for (std::size_t begin = 0; begin < members.size(); begin += lanes) {
        const auto first = members.begin() + static_cast<std::ptrdiff_t>(begin);
        const auto end = members.begin() + static_cast<std::ptrdiff_t>(std::min(begin + lanes, members.size()));
        schedule_.units.push_back({{first, end}, true});
      }
    }
    // Units on the same track and paths follow each other, so that few of these are held at a time.
    std::stable_sort(schedule_.units.begin(), schedule_.units.end(), [&](const Unit& a, const Unit& b) {
      const Places &p = schedule_.at[a.cases.front()], &q = schedule_.at[b.cases.front()];
      return std::tie(p.table, p.geometry) < std::tie(q.table, q.geometry);
    });
    pools_.tracks.forget_unused();
    pools_.tables.forget_unused();
    pools_.geometries.forget_unused();

    std::vector<std::size_t> on_new_track; // first unit on each track
    for (std::size_t u = 0; u < schedule_.units.size(); ++u) {
      if (u == 0 || table(u) != table(u - 1)) {
        on_new_track.push_back(u);
      }
    }
    std::size_t ahead = 0;
    for (std::size_t t = 0; t < on_new_track.size(); ++t) {
      for (; ahead < std::min(t + threads, on_new_track.size()); ++ahead) {
        schedule_.items.push_back({Item::Kind::track, schedule_.units[on_new_track[ahead]].cases.front()});
      }
      const std::size_t end = t + 1 < on_new_track.size() ? on_new_track[t + 1] : schedule_.units.size();
      for (std::size_t u = on_new_track[t]; u < end; ++u) {
        schedule_.items.push_back({Item::Kind::unit, u});
      }
    }
  }

  [[nodiscard]] std::size_t table(std::size_t unit) const {
    return schedule_.at[schedule_.units[unit].cases.front()].table;
  }

  [[nodiscard]] bool ended() const {
    return ended_ || (options_.cancel != nullptr && options_.cancel->load(std::memory_order_relaxed));
  }

  void work() {
    try {
      for (std::size_t i = next_++; i < schedule_.items.size() && !ended(); i = next_++) {
        const Item& item = schedule_.items[i];
        if (item.kind == Item::Kind::track) {
          Outcome ignored; // the cases on it will be told
          (void)attempt(ignored, [&] { (void)table_of(pools_, schedule_.at[item.index]); });
        } else {
          answer(schedule_.units[item.index]);
          report(schedule_.units[item.index].cases.size());
        }
      }
    } catch (...) {
      const std::scoped_lock lock(report_);
      ended_ = true;
      if (!unexpected_) {
        unexpected_ = std::current_exception();
      }
    }
  }

  void answer(const Unit& unit) {
    // Two threads that need the same paths make different ones of them first.
    for (const std::size_t i : unit.cases) {
      help_geometry(pools_, schedule_.at[i]);
    }
    std::vector<std::size_t> ready;
    std::vector<std::shared_ptr<const PlanOnPath>> plans;
    std::vector<passage::Passage> passages;
    for (const std::size_t i : unit.cases) {
      (void)attempt(outcomes_[i], [&] {
        auto plan = plan_of(pools_, schedule_.at[i], cases_[i]);
        passages.push_back(passage_of(cases_[i], *plan));
        plans.push_back(std::move(plan));
        ready.push_back(i);
      });
    }
    std::vector<passage::History> together;
    Outcome ignored;
    const bool all_well = unit.batch && attempt(ignored, [&] { together = passage::simulate_batch(passages); });
    for (std::size_t k = 0; k < ready.size(); ++k) {
      const std::size_t i = ready[k];
      (void)attempt(outcomes_[i], [&] {
        if (all_well) {
          finish(i, plans[k]->geometry, std::move(together[k]));
        } else if (unit.batch) { // one of them failed: each by itself, in the same way
          finish(i, plans[k]->geometry, std::move(passage::simulate_batch(std::span(passages).subspan(k, 1)).front()));
        } else {
          finish(i, plans[k]->geometry, passage::simulate(passages[k]));
        }
      });
    }
    for (const std::size_t i : unit.cases) {
      release(pools_, schedule_.at[i]);
    }
  }

  [[nodiscard]] passage::Passage passage_of(const Case& c, const PlanOnPath& shared) const {
    passage::Run run = run_of(c, *shared.geometry);
    run.probes = options_.probes && c.passage.probes;
    return passage::make_passage(shared.plan, run);
  }

  void finish(std::size_t i, const std::shared_ptr<const Geometry>& shape, passage::History history) {
    const Case& c = cases_[i];
    Result result;
    result.assessment = assessment(c, *shape, history);
    if (options_.steel) {
      add_steel(result.assessment, c, *shape, history);
    }
    if (options_.keep_history || options_.look) {
      result.geometry = *shape;
      result.history = std::move(history);
    }
    if (options_.look) {
      options_.look(i, c, result);
    }
    Outcome outcome{State::done, std::move(result.assessment), std::nullopt, {}};
    if (options_.keep_history) {
      outcome.kept = Outcome::Kept{std::move(result.geometry), std::move(result.history)};
    }
    outcomes_[i] = std::move(outcome);
  }

  void report(std::size_t more) {
    const std::scoped_lock lock(report_);
    done_ += more;
    if (options_.progress && !ended_) {
      options_.progress(done_, cases_.size());
    }
  }

  std::span<const Case> cases_;
  const ManyOptions& options_;
  SharedParts::Pools& pools_;
  Schedule schedule_;
  std::vector<Outcome> outcomes_; // each written by one thread
  std::atomic<std::size_t> next_{0};
  std::mutex report_; // guards done_, unexpected_ and the calls of progress
  std::size_t done_ = 0;
  std::atomic<bool> ended_{false};
  std::exception_ptr unexpected_;
};

// Leaves the shared parts fit for the next call, whatever happens in this one.
class Leaving {
public:
  explicit Leaving(SharedParts::Pools& pools) : pools_(pools) {}
  Leaving(const Leaving&) = delete;
  Leaving(Leaving&&) = delete;
  Leaving& operator=(const Leaving&) = delete;
  Leaving& operator=(Leaving&&) = delete;
  ~Leaving() {
    try {
      pools_.tracks.keep_for_next_call();
      pools_.tables.keep_for_next_call();
      pools_.geometries.keep_for_next_call();
      pools_.plans.keep_for_next_call();
    } catch (...) { // no memory to keep anything
      pools_.tracks.clear();
      pools_.tables.clear();
      pools_.geometries.clear();
      pools_.plans.clear();
    }
  }

private:
  SharedParts::Pools& pools_;
};

} // namespace

SharedParts::SharedParts() : pools_(std::make_unique<Pools>()) {}
SharedParts::SharedParts(SharedParts&&) noexcept = default;
SharedParts& SharedParts::operator=(SharedParts&&) noexcept = default;
SharedParts::~SharedParts() = default;

std::vector<Outcome> run_many(std::span<const Case> cases, const ManyOptions& options, SharedParts* parts) {
  if (options.threads < 0 || options.threads > 4096) {
    throw InputError("number of threads", std::to_string(options.threads), "0 (one per core) to 4096",
                     "More threads than cores gain nothing.");
  }
  SharedParts own;
  SharedParts& shared = parts != nullptr ? *parts : own;
  const Leaving leaving(shared.pools());
  return Many(cases, options, shared).run();
}

} // namespace wingnose::study
