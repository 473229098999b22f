#include "commands.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/stream_file.hpp"
#include "wingnose/io/tree_file.hpp"
#include "wingnose/study/sweep.hpp"

#include <CLI/CLI.hpp>

#include <memory>

namespace wingnose::cli {
namespace {

struct Request {
  int threads = 0;
  std::size_t chunk = 1024; // cases
};

// "3 without an answer, 1 grave, 12 with warnings"; nothing where there are none.
std::string in_words(const study::SweepFound& found) {
  std::string words;
  const auto add = [&words](std::size_t count, const char* what) {
    if (count > 0) {
      words += (words.empty() ? "" : ", ") + std::to_string(count) + ' ' + what;
    }
  };
  add(found.failed, "without an answer");
  add(found.grave, "grave");
  add(found.warned, "with warnings");
  return words;
}

// Goes on where the output file ends.
quantity::Tree answer(const Path& path, const Path& output, const Request& request) {
  const study::Sweep sweep = io::read_file(path, "sweep", study::read_sweep).value;
  if (request.threads < 0) {
    throw InputError("--threads", std::to_string(request.threads), "0 or more", "0 takes one per core.");
  }
  const StopOnSignal stop;
  double time = 0.0;
  study::SweepProgress reached;
  {
    io::StreamFile file(output, sweep.stream(), request.chunk);
    Progress progress(file.cases_complete(), sweep.count());
    study::SweepOptions options;
    options.threads = request.threads;
    options.cancel = &StopOnSignal::asked();
    options.progress = [&progress](std::size_t done, std::size_t) { progress.show(done); };
    options.found = [&progress](const study::SweepFound& found) { progress.remark(in_words(found)); };
    reached = study::run_sweep(sweep, file, options);
    progress.clear();
    time = progress.seconds();
  }
  if (!reached.finished) {
    throw Interrupted("stopped: " + std::to_string(reached.done) + " of " + std::to_string(sweep.count()) +
                      " cases are stored in \"" + output.string() +
                      "\". Give the same command again to go on from there");
  }
  quantity::Tree summary = study::summary(io::read_tree(output, quantity::Detail::told));
  quantity::Filler rows(summary, "summary");
  const auto computed = static_cast<double>(reached.done - reached.before);
  rows.number({"computed_now", "computed now", "cases computed by this command", 0}, computed);
  rows.number({"time_s", "time", "of this command", 1}, time);
  rows.number(quantity::Named("cases_per_s", "cases per second", "of this command").without_unit(),
              time > 0.0 ? computed / time : 0.0);
  return summary;
}

} // namespace

Command sweep_command() {
  const auto request = std::make_shared<Request>();
  return {"sweep",
          "sweep.toml",
          "Many cases at once into one file; goes on where it was stopped",
          [request](CLI::App& command) {
            command.add_option("--threads", request->threads, "Threads (one per core if not given)");
            command.add_option("--chunk", request->chunk, "Cases stored at once in a new file (1024 if not given)")
                ->check(CLI::Range(1, 1'000'000));
          },
          [request](const Path& file, const Path& output) { return answer(file, output, *request); },
          Command::Output::stores_itself};
}

} // namespace wingnose::cli
