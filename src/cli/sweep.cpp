#include "commands.hpp"
#include "print.hpp"
#include "progress.hpp"

#include "wingnose/study/sweep.hpp"
#include "wingnose/words/error.hpp"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <ostream>

namespace wingnose::cli {
namespace {

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
  command.add_option("--chunk", request.chunk, "Cases stored at once in a new file (1024 if not given)")
      ->check(CLI::Range(1, 1'000'000));
}

void sweep(const std::filesystem::path& sweep_file, const SweepRequest& request, bool json, std::ostream& out) {
  const io::Sweep sweep = io::read_sweep(sweep_file);
  if (request.threads < 0) {
    throw InputError("--threads", std::to_string(request.threads), "0 or more", "0 takes one per core.");
  }
  const StopOnSignal stop;
  io::SweepFile file(request.output, sweep, request.chunk);
  Progress progress(file.cases_complete(), sweep.count());
  study::SweepOptions options;
  options.threads = request.threads;
  options.cancel = &StopOnSignal::asked();
  options.progress = [&progress](std::size_t done, std::size_t) { progress.show(done); };
  const study::SweepProgress reached = study::run_sweep(sweep, file, options);
  progress.clear();
  if (!reached.finished) {
    throw Interrupted("stopped: " + std::to_string(reached.done) + " of " + std::to_string(sweep.count()) +
                      " cases are stored in \"" + request.output +
                      "\". Give the same command again to go on from there");
  }
  report(sweep, request.output, reached.done - reached.before, progress.seconds(), json, out);
}

} // namespace wingnose::cli
