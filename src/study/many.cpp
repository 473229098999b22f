#include "wingnose/study/many.hpp"

#include "many_parts.hpp"

#include "wingnose/numeric/workers.hpp"
#include "wingnose/passage/simulate.hpp"
#include "wingnose/passage/together.hpp"
#include "wingnose/study/steel.hpp"
#include "wingnose/words/error.hpp"

namespace wingnose::study {
namespace {

using State = Outcome::State;
using passage::Together;

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

// The work in the order it is taken: tracks a little ahead of the passages that need them.
struct Item {
  enum class Kind { track, passages } kind;
  std::size_t index; // of a case on that track, or of passages together
};

class Many {
public:
  Many(std::size_t count, const std::function<Case(std::size_t)>& make, const ManyOptions& options,
       SharedParts::Pools& pools)
      : options_(options), pools_(pools), cases_(count), at_(count), outcomes_(count) {
    std::vector<std::optional<passage::Alike>> alike(count);
    for (std::size_t i = 0; i < count; ++i) {
      const bool possible = attempt(outcomes_[i], [&] {
        cases_[i] = make(i);
        at_[i] = pools_.find(cases_[i]);
        const cases::Passage& s = cases_[i].passage;
        alike[i] = {at_[i].table, at_[i].geometry, s.speed, s.from, s.to, s.direction, !batches(cases_[i])};
      });
      impossible_ += possible ? 0 : 1;
    }
    together_ = passage::together(alike);
    pools_.forget_unused();
    schedule(threads_of(options.threads));
  }

  std::vector<Outcome> run() {
    work_off(items_.size(), {options_.threads, impossible_, cases_.size(), options_.progress, options_.cancel},
             [this](std::size_t i) -> std::size_t {
               const auto& [kind, index] = items_[i];
               if (kind == Item::Kind::track) {
                 Outcome ignored; // the cases on it will be told
                 (void)attempt(ignored, [&] { (void)pools_.table_of(at_[index]); });
                 return 0;
               }
               answer(together_[index]);
               return together_[index].passages.size();
             });
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
    const auto table = [&](std::size_t t) { return at_[together_[t].passages.front()].table; };
    std::vector<std::size_t> on_new_track; // first passages on each track
    for (std::size_t t = 0; t < together_.size(); ++t) {
      if (t == 0 || table(t) != table(t - 1)) {
        on_new_track.push_back(t);
      }
    }
    std::size_t ahead = 0;
    for (std::size_t k = 0; k < on_new_track.size(); ++k) {
      for (; ahead < std::min(k + threads, on_new_track.size()); ++ahead) {
        items_.push_back({Item::Kind::track, together_[on_new_track[ahead]].passages.front()});
      }
      const std::size_t end = k + 1 < on_new_track.size() ? on_new_track[k + 1] : together_.size();
      for (std::size_t t = on_new_track[k]; t < end; ++t) {
        items_.push_back({Item::Kind::passages, t});
      }
    }
  }

  void answer(const Together& group) {
    // Two threads that need the same paths make different ones of them first.
    for (const std::size_t i : group.passages) {
      pools_.help_geometry(at_[i]);
    }
    std::vector<std::size_t> ready;
    std::vector<std::shared_ptr<const PlanOnPath>> plans;
    std::vector<passage::Passage> passages;
    for (const std::size_t i : group.passages) {
      (void)attempt(outcomes_[i], [&] {
        auto plan = pools_.plan_of(at_[i], cases_[i]);
        passage::Run run = run_of(cases_[i], *plan->geometry);
        run.probes = options_.probes && cases_[i].passage.probes;
        passages.push_back(passage::make_passage(plan->plan, run));
        plans.push_back(std::move(plan));
        ready.push_back(i);
      });
    }
    std::vector<passage::History> histories;
    Outcome ignored;
    const bool all_well = group.batch && attempt(ignored, [&] { histories = passage::simulate_batch(passages); });
    for (std::size_t k = 0; k < ready.size(); ++k) {
      (void)attempt(outcomes_[ready[k]], [&] {
        // Where one of a batch failed, each goes by itself, in the same way.
        finish(ready[k], *plans[k]->geometry,
               all_well      ? std::move(histories[k])
               : group.batch ? std::move(passage::simulate_batch(std::span(passages).subspan(k, 1)).front())
                             : passage::simulate(passages[k]));
      });
    }
    for (const std::size_t i : group.passages) {
      pools_.release(at_[i]);
    }
  }

  void finish(std::size_t i, const Geometry& shape, passage::History history) {
    const Case& c = cases_[i];
    Result result;
    result.assessment = assessment(c, shape, history);
    if (options_.steel) {
      add_steel(result.assessment, c, shape, history);
    }
    if (options_.keep_history || options_.look) {
      result.geometry = shape;
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

  const ManyOptions& options_;
  SharedParts::Pools& pools_;
  std::vector<Case> cases_;
  std::vector<Places> at_;
  std::size_t impossible_ = 0; // cases refused before the work begins
  std::vector<Together> together_;
  std::vector<Item> items_;
  std::vector<Outcome> outcomes_; // each written by one thread
};

// Leaves the shared parts fit for the next call, whatever happens in this one.
struct KeepForNextCall {
  void operator()(SharedParts::Pools* pools) const noexcept { pools->keep_for_next_call(); }
};

} // namespace

std::vector<Outcome> run_many(std::size_t count, const std::function<Case(std::size_t)>& make,
                              const ManyOptions& options, SharedParts* parts) {
  SharedParts own;
  SharedParts::Pools& pools = (parts != nullptr ? *parts : own).pools();
  const std::unique_ptr<SharedParts::Pools, KeepForNextCall> leaving(&pools);
  return Many(count, make, options, pools).run();
}

std::vector<Outcome> run_many(std::span<const Case> cases, const ManyOptions& options, SharedParts* parts) {
  return run_many(
      cases.size(), [cases](std::size_t i) { return cases[i]; }, options, parts);
}

} // namespace wingnose::study
