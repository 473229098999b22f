#include "commands.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/speeds.hpp"

#include <CLI/CLI.hpp>

#include <memory>
#include <optional>

namespace wingnose::cli {
namespace {

struct Request {
  double from_km_h = 0.0, to_km_h = 0.0, step_km_h = 5.0;
  std::optional<double> today_km_h, proposed_km_h;
  std::vector<std::string> limits, sources;
  std::string order; // 'l' and 's' as limits and sources came
  bool steel = false;
  int threads = 0;
};

void add_options(CLI::App& command, Request& r) {
  command.add_option("--from", r.from_km_h, "Lowest speed, km/h")->required();
  command.add_option("--to", r.to_km_h, "Highest speed, km/h")->required();
  command.add_option("--step", r.step_km_h, "Step of the scan, km/h (5 if not given)");
  command.add_option("--today", r.today_km_h, "Today's speed, km/h, to compare with --proposed");
  command.add_option("--proposed", r.proposed_km_h, "Proposed speed, km/h");
  auto* limit = command.add_option("--limit", r.limits, "Limit such as p2_kN=200; may be given several times")
                    ->allow_extra_args(false);
  auto* source =
      command.add_option("--source", r.sources, "Where the limit before it comes from")->allow_extra_args(false);
  command.add_flag("--steel", r.steel, "Tell what the landings do to the steel, too; a limit on it asks for that");
  command.add_option("--threads", r.threads, "Threads (one per core if not given)");
  command.callback([&command, &r, limit, source] {
    for (const CLI::Option* option : command.parse_order()) {
      if (option == limit || option == source) {
        r.order += option == limit ? 'l' : 's';
      }
    }
  });
}

// Limits and their sources come as separate options; which source belongs to which limit is told by their order.
std::vector<study::Limit> limits_of(const Request& r) {
  std::vector<study::Limit> limits;
  std::size_t limit = 0, source = 0;
  bool named = true; // nothing to name yet
  for (const char kind : r.order) {
    if (kind == 'l') {
      limits.push_back(study::parse_limit(r.limits.at(limit++), {}));
      named = false;
    } else if (named) {
      throw InputError("--source", "\"" + r.sources.at(source) + "\"", "one after each --limit",
                       "Name the source right after the limit it belongs to.");
    } else {
      limits.back().source = r.sources.at(source++);
      named = true;
    }
  }
  return limits;
}

} // namespace

Command speeds_command() {
  const auto request = std::make_shared<Request>();
  return {"speeds", "case.toml", "Forces over a range of speeds, and the highest speed that keeps given limits",
          [request](CLI::App& command) { add_options(command, *request); },
          [request](const Path& file, const Path&) {
            const Request& r = *request;
            const std::vector<study::Limit> limits = limits_of(r);
            if (r.today_km_h.has_value() != r.proposed_km_h.has_value()) {
              throw InputError("--today and --proposed belong together: give both, or none for a plain scan");
            }
            const cases::Case c = io::read_case(file);
            const auto si = [](std::optional<double> speed) {
              return speed ? std::optional(*speed / 3.6) : std::nullopt;
            };
            return naming(file, [&] {
              study::SpeedOptions options;
              options.today = si(r.today_km_h);
              options.proposed = si(r.proposed_km_h);
              options.threads = r.threads;
              options.steel = r.steel;
              return study::tell(
                  c, study::study_speeds(c, {r.from_km_h / 3.6, r.to_km_h / 3.6, r.step_km_h / 3.6}, limits, options));
            });
          }};
}

} // namespace wingnose::cli
