#include "commands.hpp"
#include "print.hpp"

#include "wingnose/error.hpp"
#include "wingnose/io/sweep_file.hpp"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <unistd.h>

#include <atomic>
#include <chrono>
#include <csignal>
#include <iostream>
#include <ostream>

namespace wingnose::cli {
namespace {

using Clock = std::chrono::steady_clock;

// A signal handler can reach nothing else.
std::atomic<bool> stop_asked{false};
static_assert(std::atomic<bool>::is_always_lock_free);
extern "C" void wingnose_ask_to_stop(int) { stop_asked = true; }

// The first Ctrl-C ends the sweep in order, the second at once.
class StopOnSignal {
public:
  StopOnSignal() {
    stop_asked = false;
    struct sigaction action {};
    action.sa_handler = wingnose_ask_to_stop;
    action.sa_flags = static_cast<int>(SA_RESETHAND);
    sigaction(SIGINT, &action, &before_);
  }
  StopOnSignal(const StopOnSignal&) = delete;
  StopOnSignal(StopOnSignal&&) = delete;
  StopOnSignal& operator=(const StopOnSignal&) = delete;
  StopOnSignal& operator=(StopOnSignal&&) = delete;
  ~StopOnSignal() { sigaction(SIGINT, &before_, nullptr); }

private:
  struct sigaction before_ {};
};

double seconds_since(Clock::time_point start) { return std::chrono::duration<double>(Clock::now() - start).count(); }

// One line that is written over, on a terminal only.
class Progress {
public:
  Progress(std::size_t before, std::size_t total) : before_(before), total_(total) {}
  void show(std::size_t done) {
    const double time = seconds_since(start_);
    if (!terminal_ || time - shown_ < 0.2) {
      return;
    }
    shown_ = time;
    const double rate = static_cast<double>(done - before_) / time;
    std::cerr << "\r\033[K" << done << " of " << total_ << " cases, " << fixed(rate, 1) << " cases/s";
    if (rate > 0.0) {
      std::cerr << ", " << fixed(static_cast<double>(total_ - done) / rate, 0) << " s left";
    }
    std::cerr << std::flush;
  }
  void clear() const {
    if (terminal_) {
      std::cerr << "\r\033[K" << std::flush;
    }
  }

private:
  std::size_t before_, total_;
  bool terminal_ = ::isatty(STDERR_FILENO) == 1;
  Clock::time_point start_ = Clock::now();
  double shown_ = 0.0;
};

struct Answers {
  std::vector<study::Case> cases;
  std::vector<study::Outcome> outcomes;
};

// Nothing when the sweep was stopped meanwhile: a chunk is stored whole or not at all.
std::optional<Answers> answer(const io::Sweep& sweep, const io::SweepFile::Chunk& chunk,
                              const study::ManyOptions& options, study::SharedParts& parts) {
  using State = study::Outcome::State;
  Answers all;
  std::vector<study::Case> valid;
  std::vector<std::size_t> places;
  all.outcomes.resize(chunk.end - chunk.begin);
  for (std::size_t i = chunk.begin; i < chunk.end; ++i) {
    try {
      all.cases.push_back(sweep.make(i));
      valid.push_back(all.cases.back());
      places.push_back(i - chunk.begin);
    } catch (const InputError& error) {
      all.cases.push_back(sweep.document().base());
      all.outcomes[i - chunk.begin].state = State::bad_input;
      all.outcomes[i - chunk.begin].failure = error.what();
    }
  }
  auto outcomes = study::run_many(valid, options, &parts);
  for (std::size_t k = 0; k < outcomes.size(); ++k) {
    if (outcomes[k].state == State::not_run) {
      return std::nullopt;
    }
    all.outcomes[places[k]] = std::move(outcomes[k]);
  }
  return all;
}

void report(const io::Sweep& sweep, const std::filesystem::path& output, std::size_t computed, double time, bool json,
            std::ostream& out) {
  const io::StoredSweep stored = io::read_sweep_file(output);
  const double rate = time > 0.0 ? static_cast<double>(computed) / time : 0.0;
  if (json) {
    nlohmann::ordered_json object{{"cases", stored.count()},  {"failed", stored.failures.size()},
                                  {"computed_now", computed}, {"time_s", time},
                                  {"cases_per_s", rate},      {"first_failed_case", nullptr},
                                  {"first_failure", nullptr}, {"file", output.generic_string()},
                                  {"caution", io::caution}};
    if (!stored.failures.empty()) {
      object["first_failed_case"] = stored.failures.begin()->first;
      object["first_failure"] = stored.failures.begin()->second;
    }
    out << object.dump(2) << '\n';
    return;
  }
  print_rows(out, "Sweep of " + sweep.document().base().name,
             {{"cases", std::to_string(stored.count()), ""},
              {"failed", std::to_string(stored.failures.size()), ""},
              {"computed now", std::to_string(computed), ""},
              {"time", fixed(time, 1), "s"},
              {"rate", fixed(rate, 1), "cases/s"}});
  if (!stored.failures.empty()) {
    const auto& [number, reason] = *stored.failures.begin();
    print_notes(out, "First failure", {"case " + std::to_string(number) + " (counted from 0): " + reason});
  }
  out << "Stored in " << output.generic_string() << '\n';
  print_caution(out);
}

} // namespace

void sweep_options(CLI::App& command, SweepRequest& request) {
  command.add_option("-o,--output", request.output, "HDF5 file of the results; an unfinished one is gone on with")
      ->required();
  command.add_option("--threads", request.threads, "Threads (one per core if not given)");
  command.add_option("--chunk", request.chunk, "Cases stored at once in a new file (256 if not given)")
      ->check(CLI::Range(1, 1'000'000));
}

void sweep(const std::filesystem::path& sweep_file, const SweepRequest& request, bool json, std::ostream& out) {
  const io::Sweep sweep = io::read_sweep(sweep_file);
  if (request.threads < 0) {
    throw InputError("--threads", std::to_string(request.threads), "0 or more", "0 takes one per core.");
  }
  const StopOnSignal stop;
  io::SweepFile file(request.output, sweep, request.chunk);
  const std::size_t before = file.cases_complete();
  const auto start = Clock::now();
  Progress progress(before, sweep.count());
  study::SharedParts parts;
  std::size_t done = before;
  study::ManyOptions options;
  options.threads = request.threads;
  options.probes = sweep.probes();
  options.cancel = &stop_asked;
  options.progress = [&](std::size_t of_chunk, std::size_t) { progress.show(done + of_chunk); };
  for (const auto& chunk : file.missing()) {
    const auto answers = stop_asked ? std::nullopt : answer(sweep, chunk, options, parts);
    if (!answers) {
      progress.clear();
      throw Interrupted("stopped: " + std::to_string(done) + " of " + std::to_string(sweep.count()) +
                        " cases are stored in \"" + request.output +
                        "\". Give the same command again to go on from there");
    }
    file.write(chunk, answers->cases, answers->outcomes);
    done += chunk.end - chunk.begin;
    progress.show(done);
  }
  progress.clear();
  report(sweep, request.output, done - before, seconds_since(start), json, out);
}

} // namespace wingnose::cli
