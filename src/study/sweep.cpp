#include "wingnose/study/sweep.hpp"

#include "wingnose/words/error.hpp"

namespace wingnose::study {

std::optional<io::SweepRows> answer_cases(const io::Sweep& sweep, std::size_t begin, std::size_t end,
                                          const SweepOptions& options, SharedParts* parts) {
  if (begin > end || end > sweep.count()) {
    throw InputError("cases", std::to_string(begin) + " to " + std::to_string(end),
                     "0 to " + std::to_string(sweep.count()), "The end is not included.");
  }
  std::vector<Case> cases; // impossible ones are stood for by the base case
  std::vector<Outcome> outcomes(end - begin);
  std::vector<Case> valid;
  std::vector<std::size_t> places;
  for (std::size_t i = begin; i < end; ++i) {
    try {
      cases.push_back(sweep.make(i));
      valid.push_back(cases.back());
      places.push_back(i - begin);
    } catch (const InputError& error) {
      cases.push_back(sweep.document().base());
      outcomes[i - begin].state = Outcome::State::bad_input;
      outcomes[i - begin].failure = error.what();
    }
  }
  ManyOptions many;
  many.threads = options.threads;
  many.probes = sweep.probes();
  many.keep_history = sweep.history_every() > 0;
  many.cancel = options.cancel;
  if (options.progress) {
    const std::size_t impossible = outcomes.size() - valid.size(), total = outcomes.size();
    many.progress = [&options, impossible, total](std::size_t done, std::size_t) {
      options.progress(impossible + done, total);
    };
  }
  auto answers = run_many(valid, many, parts);
  for (std::size_t k = 0; k < answers.size(); ++k) {
    if (answers[k].state == Outcome::State::not_run) {
      return std::nullopt;
    }
    outcomes[places[k]] = std::move(answers[k]);
  }
  return io::sweep_rows(sweep, begin, cases, outcomes);
}

SweepProgress run_sweep(const io::Sweep& sweep, io::SweepFile& file, const SweepOptions& options) {
  SweepProgress progress;
  progress.before = progress.done = file.cases_complete();
  SharedParts parts;
  SweepOptions of_chunk = options;
  if (options.progress) {
    of_chunk.progress = [&](std::size_t done, std::size_t) { options.progress(progress.done + done, sweep.count()); };
  }
  for (const auto& chunk : file.missing()) {
    const bool stop = options.cancel != nullptr && options.cancel->load();
    const auto rows = stop ? std::nullopt : answer_cases(sweep, chunk.begin, chunk.end, of_chunk, &parts);
    if (!rows) {
      return progress;
    }
    file.write(chunk, *rows);
    progress.done += chunk.end - chunk.begin;
    if (options.progress) {
      options.progress(progress.done, sweep.count());
    }
  }
  progress.finished = true;
  return progress;
}

} // namespace wingnose::study
