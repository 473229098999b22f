#include "wingnose/study/many.hpp"

#include "many_parts.hpp"

#include "wingnose/passage/many.hpp"
#include "wingnose/study/steel.hpp"
#include "wingnose/study/turnout_ride.hpp"
#include "wingnose/words/error.hpp"

namespace wingnose::study {
namespace {

using OutcomeState = Outcome::State;

class Many : public passage::PassagesAsked {
public:
  Many(std::size_t count, const std::function<const Case&(std::size_t)>& case_of, const ManyOptions& options,
       SharedParts::Pools& pools)
      : options_(options), pools_(pools), cases_(count), at_(count), plans_(count), alike_(count), outcomes_(count) {
    (void)threads_of(options.threads);
    for (std::size_t i = 0; i < count; ++i) {
      try {
        const Case& c = case_of(i);
        cases_[i] = &c;
        if (c.rung == cases::Rung::spatial) {
          rides_.push_back(i);
          continue;
        }
        at_[i] = pools_.find(c);
        const cases::Passage& s = c.passage;
        alike_[i] = {at_[i].table, at_[i].geometry, s.speed, s.from, s.to, s.direction, !batches(c)};
      } catch (const InputError& error) {
        refuse(i, error);
      } catch (const ComputeError& error) {
        refuse(i, error);
      }
      impossible_ += alike_[i] ? 0 : 1;
    }
    pools_.forget_unused();
  }

  std::vector<Outcome> run() {
    passage::simulate_many(alike_, *this,
                           {options_.threads, impossible_, cases_.size(), options_.progress, options_.cancel});
    work_off(rides_.size(),
             {options_.threads, cases_.size() - rides_.size(), cases_.size(), options_.progress, options_.cancel},
             [&](std::size_t k) {
               ride(rides_[k]);
               return std::size_t{1};
             });
    return std::move(outcomes_);
  }

  // A vehicle in space shares nothing.
  void ride(std::size_t i) {
    try {
      outcomes_[i] = {OutcomeState::done, ride_through(*cases_[i]).assessment, std::nullopt, {}};
    } catch (const InputError& error) {
      refuse(i, error);
    } catch (const ComputeError& error) {
      refuse(i, error);
    }
  }

  void prepare_track(std::size_t i) override { (void)pools_.table_of(at_[i]); }
  void prepare_path(std::size_t i) override { pools_.help_geometry(at_[i]); }
  [[nodiscard]] passage::Passage make(std::size_t i, const passage::Passage* before) override {
    plans_[i] = pools_.plan_of(at_[i], *cases_[i]);
    passage::Run run = run_of(*cases_[i], *plans_[i]->geometry);
    run.probes = options_.probes && cases_[i]->passage.probes;
    return passage::make_passage(plans_[i]->plan, run, before);
  }
  void finish(std::size_t i, passage::History history) override {
    const Case& c = *cases_[i];
    const Geometry& shape = *plans_[i]->geometry;
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
    for (assess::SensorReading& reading : result.assessment.sensors) { // of many cases the numbers are kept
      reading.forget_records();
    }
    Outcome outcome{OutcomeState::done, std::move(result.assessment), std::nullopt, {}};
    if (options_.keep_history) {
      outcome.kept = Outcome::Kept{std::move(result.geometry), std::move(result.history)};
    }
    outcomes_[i] = std::move(outcome);
  }
  void refuse(std::size_t i, const InputError& error) override {
    outcomes_[i] = {OutcomeState::bad_input, std::nullopt, std::nullopt, error.what()};
  }
  void refuse(std::size_t i, const ComputeError& error) override {
    outcomes_[i] = {OutcomeState::could_not_compute, std::nullopt, std::nullopt, error.what()};
  }
  void release(std::size_t i) override {
    plans_[i].reset();
    pools_.release(at_[i]);
  }

private:
  // Eight at a time only where the stepper allows it; a window of a few steps is left to `simulate` to refuse.
  [[nodiscard]] bool batches(const Case& c) const {
    const cases::Passage& s = c.passage;
    return !options_.probes && cases::wheels_of(c.vehicle) == 1 && s.method == passage::Method::modal_exponential &&
           c.contact.search == contact::SearchAt::path && c.track.method == cases::TrackMethod::modes &&
           s.speed > 0.0 && s.step > 0.0 && (s.to - s.from) / (s.speed * s.step) > 20.0;
  }

  const ManyOptions& options_;
  SharedParts::Pools& pools_;
  std::vector<const Case*> cases_;
  std::vector<Places> at_;
  std::vector<std::shared_ptr<const PlanOnPath>> plans_; // of passages under way
  std::vector<std::optional<passage::Alike>> alike_;     // of cases that are possible
  std::vector<std::size_t> rides_;                       // cases of vehicles in space
  std::size_t impossible_ = 0;
  std::vector<Outcome> outcomes_; // each written by one thread
};

// Leaves the shared parts fit for the next call, whatever happens in this one.
struct KeepForNextCall {
  void operator()(SharedParts::Pools* pools) const noexcept { pools->keep_for_next_call(); }
};

std::vector<Outcome> run_all(std::size_t count, const std::function<const Case&(std::size_t)>& case_of,
                             const ManyOptions& options, SharedParts* parts) {
  SharedParts own;
  SharedParts::Pools& pools = (parts != nullptr ? *parts : own).pools();
  const std::unique_ptr<SharedParts::Pools, KeepForNextCall> leaving(&pools);
  return Many(count, case_of, options, pools).run();
}

} // namespace

SharedParts::SharedParts() : pools_(std::make_unique<Pools>()) {}
SharedParts::SharedParts(SharedParts&&) noexcept = default;
SharedParts& SharedParts::operator=(SharedParts&&) noexcept = default;
SharedParts::~SharedParts() = default;

std::vector<Outcome> run_many(std::size_t count, const std::function<Case(std::size_t)>& make,
                              const ManyOptions& options, SharedParts* parts) {
  std::vector<Case> made(count);
  return run_all(
      count, [&](std::size_t i) -> const Case& { return made[i] = make(i); }, options, parts);
}

std::vector<Outcome> run_many(std::span<const Case> cases, const ManyOptions& options, SharedParts* parts) {
  return run_all(
      cases.size(), [&](std::size_t i) -> const Case& { return cases[i]; }, options, parts);
}

} // namespace wingnose::study
