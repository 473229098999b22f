// Running a sweep chunk by chunk, and what a stored one amounts to.
#include "wingnose/study/sweep.hpp"

#include "wingnose/words/text.hpp"

#include <algorithm>
#include <limits>
#include <map>

namespace wingnose::study {
namespace {

using quantity::StreamColumn;

constexpr double unanswered = std::numeric_limits<double>::quiet_NaN();

// One chunk under way: rows filled by the threads that answer the cases.
class ChunkRows {
public:
  ChunkRows(const Sweep& sweep, const quantity::Stream& stream, std::size_t count) : sweep_(sweep), rows_("sweep") {
    for (const StreamColumn& c : stream.columns) {
      if (c.known) {
        continue;
      }
      quantity::Array a = c.array;
      const std::size_t length = a.shape.size() > 1 ? a.shape[1] : 1;
      a.shape = a.shape.size() > 1 ? std::vector{count, length} : std::vector{count};
      (a.is_text ? a.texts.resize(count) : a.numbers.resize(count * length, unanswered));
      rows_.add(c.group, std::move(a));
    }
    for (quantity::Group& group : rows_.groups()) {
      for (quantity::Array& a : group.arrays) {
        by_path_[group.path.empty() ? a.name : group.path + "/" + a.name] = &a;
      }
    }
  }

  void keep_history(std::size_t i, const passage::History& h) {
    const auto every = static_cast<std::size_t>(sweep_.content().history_every);
    const auto put = [&](const std::string& path, const std::vector<double>& all) {
      if (quantity::Array* a = find(path)) {
        const std::size_t length = a->shape[1];
        for (std::size_t k = 0; k * every < all.size() && k < length; ++k) {
          a->numbers[i * length + k] = all[k * every];
        }
      }
    };
    put("history/force_N", h.force);
    for (std::size_t b = 0; b < h.bodies.size(); ++b) {
      put("history/force_" + h.bodies[b] + "_N", h.body_force[b]);
    }
    if (h.station.size() > 1) {
      find("history/first_station_mm")->numbers[i] = 1e3 * h.station.front();
      find("history/spacing_mm")->numbers[i] = 1e3 * (h.station[1] - h.station[0]) * static_cast<double>(every);
    }
  }

  void put(std::size_t i, const Outcome& outcome) {
    find("status")->numbers[i] = static_cast<double>(outcome.state);
    find("failure")->texts[i] = outcome.failure;
    find("gravity")->numbers[i] = 0.0;
    if (outcome.assessment) {
      for (const quantity::Quantity* q : quantity::swept(sweep_.content().steel, sweep_.in_space())) {
        find("measures/" + std::string(q->key))->numbers[i] = quantity::value(*q, *outcome.assessment);
      }
      const Findings& found = outcome.assessment->findings;
      find("findings")->texts[i] = kinds_of(found);
      find("gravity")->numbers[i] = static_cast<double>(gravest(found));
    }
  }

  [[nodiscard]] quantity::Tree told() { return std::move(rows_); }
  void count(std::size_t cases, SweepFound& found) const {
    const std::vector<double>&state = find("status")->numbers, &gravity = find("gravity")->numbers;
    for (std::size_t i = 0; i < cases; ++i) {
      found.failed += state[i] == static_cast<double>(Outcome::State::done) ? 0U : 1U;
      found.grave += gravity[i] == static_cast<double>(Gravity::grave) ? 1U : 0U;
      found.warned += gravity[i] == static_cast<double>(Gravity::warning) ? 1U : 0U;
    }
  }

private:
  [[nodiscard]] quantity::Array* find(const std::string& path) const {
    const auto found = by_path_.find(path);
    return found == by_path_.end() ? nullptr : found->second;
  }

  const Sweep& sweep_;
  quantity::Tree rows_;
  std::map<std::string, quantity::Array*> by_path_; // of the rows
};

std::optional<quantity::Tree> answer(const Sweep& sweep, const quantity::Stream& stream, std::size_t begin,
                                     std::size_t end, const SweepOptions& options, SharedParts* parts,
                                     SweepFound& found) {
  ChunkRows rows(sweep, stream, end - begin);
  ManyOptions many;
  many.threads = options.threads;
  many.probes = sweep.content().probes;
  many.steel = sweep.content().steel;
  many.cancel = options.cancel;
  if (sweep.content().history_every > 0) {
    many.look = [&](std::size_t i, const Case&, const Result& result) { rows.keep_history(i, result.history); };
  }
  if (options.progress) {
    many.progress = [&](std::size_t done, std::size_t) { options.progress(done, end - begin); };
  }
  const auto outcomes = run_many(
      end - begin, [&](std::size_t i) { return sweep.make(begin + i); }, many, parts);
  for (std::size_t i = 0; i < outcomes.size(); ++i) {
    if (outcomes[i].state == Outcome::State::not_run) {
      return std::nullopt;
    }
    rows.put(i, outcomes[i]);
  }
  rows.count(outcomes.size(), found);
  if (options.found) {
    options.found(found);
  }
  return rows.told();
}

} // namespace

std::optional<quantity::Tree> answer_cases(const Sweep& sweep, std::size_t begin, std::size_t end,
                                           const SweepOptions& options, SharedParts* parts) {
  if (begin > end || end > sweep.count()) {
    throw InputError("cases", std::to_string(begin) + " to " + std::to_string(end),
                     "0 to " + std::to_string(sweep.count()), "The end is not included.");
  }
  SweepFound found;
  return answer(sweep, sweep.stream(), begin, end, options, parts, found);
}

SweepProgress run_sweep(const Sweep& sweep, quantity::Sink& sink, const SweepOptions& options) {
  const auto missing = sink.missing();
  SweepProgress progress;
  progress.before = sweep.count();
  for (const auto& chunk : missing) {
    progress.before -= chunk.end - chunk.begin;
  }
  progress.done = progress.before;
  const quantity::Stream stream = sweep.stream();
  SharedParts parts;
  SweepFound found;
  SweepOptions of_chunk = options;
  if (options.progress) {
    of_chunk.progress = [&](std::size_t done, std::size_t) { options.progress(progress.done + done, sweep.count()); };
  }
  for (const auto& chunk : missing) {
    const bool stop = options.cancel != nullptr && options.cancel->load();
    const auto rows = stop ? std::nullopt : answer(sweep, stream, chunk.begin, chunk.end, of_chunk, &parts, found);
    if (!rows) {
      return progress;
    }
    sink.write(chunk, *rows);
    progress.done += chunk.end - chunk.begin;
    if (options.progress) {
      options.progress(progress.done, sweep.count());
    }
  }
  progress.finished = true;
  return progress;
}

namespace {
// As stored; anything else counts as not run.
Outcome::State state_of(double stored) {
  const bool known = stored >= 0.0 && stored <= static_cast<double>(Outcome::State::could_not_compute);
  return known ? static_cast<Outcome::State>(static_cast<int>(stored)) : Outcome::State::not_run;
}
} // namespace

quantity::Tree summary(const quantity::Tree& stored) {
  quantity::Tree tree("sweep");
  tree.attributes = stored.attributes;
  const auto status = stored.numbers("status");
  const auto failures = stored.texts("failure"), kinds = stored.texts("findings");
  std::size_t failed = 0, computed = 0, first_failed = status.size();
  std::map<std::string, std::pair<std::size_t, std::size_t>> found; // kind: cases, the first of them
  for (std::size_t i = 0; i < status.size(); ++i) {
    const auto state = state_of(status[i]);
    computed += state == Outcome::State::not_run ? 0U : 1U;
    if (state == Outcome::State::bad_input || state == Outcome::State::could_not_compute) {
      ++failed;
      first_failed = std::min(first_failed, i);
    }
    for (const auto& kind : i < kinds.size() ? split(kinds[i], ',') : std::vector<std::string>{}) {
      if (!trim(kind).empty()) {
        ++found.try_emplace(std::string(trim(kind)), 0, i).first->second.first;
      }
    }
  }
  quantity::Filler about(tree, "summary", "Sweep of " + stored.attribute("name"), quantity::Layout::rows);
  const auto count = [&](const char* name, const char* label, const char* meaning, std::size_t value) {
    about.number({name, label, meaning, 0}, static_cast<double>(value));
  };
  count("cases", "cases", "cases of the sweep", status.size());
  count("stored", "stored", "cases whose answer is stored", computed);
  count("failed", "failed", "cases without an answer", failed);
  Findings findings;
  if (failed > 0) {
    findings.push_back({FindingKind::not_computed,
                        first_failed < failures.size() ? failures[first_failed] : std::string("no reason is stored"),
                        std::to_string(failed) + " of " + std::to_string(status.size()) + " cases, first case " +
                            std::to_string(first_failed) + " (counted from 0)"});
  }
  for (const FindingWords& kind : finding_kinds()) {
    const auto cases = found.find(std::string(kind.key));
    if (cases != found.end()) {
      findings.push_back({kind.kind, std::string(kind.meaning),
                          std::to_string(cases->second.first) + " of " + std::to_string(status.size()) +
                              " cases, first case " + std::to_string(cases->second.second) + " (counted from 0)"});
    }
  }
  quantity::add_findings(tree, findings);
  return tree;
}

} // namespace wingnose::study
