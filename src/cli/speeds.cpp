#include "commands.hpp"

#include "wingnose/study/speeds.hpp"

#include <CLI/CLI.hpp>

#include <memory>
#include <optional>

namespace wingnose::cli {
namespace {

struct Request {
  double from_km_h = 0.0, to_km_h = 0.0, step_km_h = 5.0;
  std::optional<double> today_km_h, proposed_km_h;
  std::vector<study::Limit> limits;
  bool named = true; // a source of the last limit, or nothing to name yet
  bool steel = false;
  int threads = 0;
};

void add_options(CLI::App& command, Request& r) {
  command.add_option("--from", r.from_km_h, "Lowest speed, km/h")->required();
  command.add_option("--to", r.to_km_h, "Highest speed, km/h")->required();
  command.add_option("--step", r.step_km_h, "Step of the scan, km/h (5 if not given)");
  command.add_option("--today", r.today_km_h, "Today's speed, km/h, to compare with --proposed");
  command.add_option("--proposed", r.proposed_km_h, "Proposed speed, km/h");
  // Which source belongs to which limit is told by their order.
  const auto limit = [&r](const std::string& text) {
    r.limits.push_back(study::parse_limit(text, {}));
    r.named = false;
  };
  const auto source = [&r](const std::string& text) {
    if (r.named) {
      throw InputError("--source", "\"" + text + "\"", "one after each --limit",
                       "Name the source right after the limit it belongs to.");
    }
    r.limits.back().source = text;
    r.named = true;
  };
  command.add_option_function<std::string>("--limit", limit, "Limit such as p2_kN=200; may be given several times")
      ->trigger_on_parse();
  command.add_option_function<std::string>("--source", source, "Where the limit before it comes from")
      ->trigger_on_parse();
  command.add_flag("--steel", r.steel, "Tell what the landings do to the steel, too; a limit on it asks for that");
  command.add_option("--threads", r.threads, "Threads (one per core if not given)");
}

} // namespace

Command speeds_command() {
  const auto request = std::make_shared<Request>();
  return {"speeds", "case.toml", "Forces over a range of speeds, and the highest speed that keeps given limits",
          [request](CLI::App& command) { add_options(command, *request); },
          [request](const Path& file, const Path&) {
            const Request& r = *request;
            if (r.today_km_h.has_value() != r.proposed_km_h.has_value()) {
              throw InputError("--today and --proposed belong together: give both, or none for a plain scan");
            }
            const auto si = [](std::optional<double> km_h) { return km_h ? std::optional(*km_h / 3.6) : std::nullopt; };
            return of_case(file, [&](const cases::Case& c) {
              study::SpeedOptions options{.today = si(r.today_km_h), .proposed = si(r.proposed_km_h), .steel = r.steel};
              options.threads = r.threads;
              const StopOnSignal stop;
              Progress progress(0, 0, "speeds");
              options.cancel = &StopOnSignal::asked();
              options.progress = [&progress](std::size_t done, std::size_t total) { progress.show(done, total); };
              try {
                const auto found =
                    study::study_speeds(c, {r.from_km_h / 3.6, r.to_km_h / 3.6, r.step_km_h / 3.6}, r.limits, options);
                progress.clear();
                return study::tell(c, found);
              } catch (const study::Stopped&) {
                progress.clear();
                throw Interrupted("stopped: the study of speeds was given up and nothing was stored");
              }
            });
          }};
}

} // namespace wingnose::cli
