#include "commands.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/compare.hpp"

#include <CLI/CLI.hpp>

#include <memory>

namespace wingnose::cli {
namespace {

quantity::Tree answer(const Path& path, int threads) {
  auto [comparison, text, inputs] = io::read_file(path, "comparison", study::read_comparison);
  const cases::Population wheels = cases::wheels_of(comparison.wheels);
  const StopOnSignal stop;
  Progress progress(0, wheels.members.size() * comparison.crossings.size(), "passages");
  study::CompareOptions& options = comparison.options;
  options.inputs = std::move(inputs);
  options.threads = threads;
  options.cancel = &StopOnSignal::asked();
  options.progress = [&progress](std::size_t done, std::size_t) { progress.show(done); };
  const auto answer = study::compare(comparison.crossings, wheels, options);
  progress.clear();
  if (!answer) {
    throw Interrupted("stopped: the comparison was given up and nothing was stored");
  }
  return study::tell(comparison.crossings, *answer, text);
}

} // namespace

Command compare_command() {
  const auto threads = std::make_shared<int>(0);
  return {"compare", "compare.toml",
          "Several crossings under a population of wheels: distributions, ranking, differences",
          [threads](CLI::App& command) {
            command.add_option("--threads", *threads, "Threads (one per core if not given)");
          },
          [threads](const Path& file, const Path&) { return answer(file, *threads); }};
}

} // namespace wingnose::cli
