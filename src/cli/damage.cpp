#include "commands.hpp"

#include "wingnose/study/damage.hpp"

#include <CLI/CLI.hpp>

#include <memory>
#include <optional>

namespace wingnose::cli {
namespace {

struct Request {
  std::optional<std::string> steel; // otherwise the case's own
  std::optional<double> friction, tonnage_MGT;
  std::string wheels; // file of those that roll; empty: wheels like the case's own
  study::TrafficOptions traffic;
};

void add_options(CLI::App& command, Request& request) {
  std::string known;
  for (const std::string& name : assess::steel_names()) {
    known += (known.empty() ? "" : ", ") + name;
  }
  command.add_option("--steel", request.steel,
                     "Steel of wing and nose (default: the case's, otherwise R350HT): " + known);
  command.add_option("--friction", request.friction,
                     "Coefficient of friction, 0 to 1 (default: the case's, otherwise 0.3)");
  command.add_option("--tonnage-MGT", request.tonnage_MGT,
                     "Add up the damage of so many million gross tonnes of such wheels");
  command.add_option("--stages", request.traffic.stages,
                     "Stages of that traffic between which the steel hardens (default 10)");
  command.add_option("--traffic", request.wheels,
                     "File of the wheels that roll (TOML, as profiles/traffic.toml), instead of the case's own alone");
  command.add_option("--threads", request.traffic.threads, "Threads for such a traffic (one per core if not given)");
}

quantity::Tree answer(const Path& file, const Request& request) {
  study::TrafficOptions options = request.traffic;
  options.tonnage = in_si(request.tonnage_MGT, "MGT").value_or(options.tonnage);
  study::check(options); // told before anything is simulated
  if (!request.wheels.empty() && !request.tonnage_MGT) {
    throw InputError("--traffic needs --tonnage-MGT: how many million gross tonnes of such wheels roll");
  }
  io::FromFile<cases::Wheels> wheels;
  if (!request.wheels.empty()) {
    wheels = io::read_file(request.wheels, "traffic", cases::read_population);
  }
  return of_case(file, [&](cases::Case c) {
    // Options of the command line go before keys of the case.
    if (request.steel) {
      (void)assess::steel(*request.steel);
      c.steel = *request.steel;
    }
    c.damage.friction = request.friction.value_or(c.damage.friction);
    cases::check(c);
    const std::optional<cases::Population> population =
        request.wheels.empty() ? std::nullopt : std::optional(cases::wheels_of(wheels.value));
    const StopOnSignal stop;
    Progress progress(0, 2 * (population ? population->members.size() : 1), "passes"); // rolled and assessed
    options.cancel = &StopOnSignal::asked();
    options.progress = [&progress](std::size_t done, std::size_t) { progress.show(done); };
    const auto study = study::study_damage(cases::Document(c), request.tonnage_MGT ? &options : nullptr,
                                           population ? &*population : nullptr);
    progress.clear();
    if (!study) {
      throw Interrupted("stopped: the traffic was given up and nothing was stored");
    }
    return study::tell(c, *study, wheels.text, wheels.inputs);
  });
}

} // namespace

Command damage_command() {
  const auto request = std::make_shared<Request>();
  return {"damage", "case.toml", "What the landing does to the steel: shakedown, surface fatigue, wear, maps",
          [request](CLI::App& command) { add_options(command, *request); },
          [request](const Path& file, const Path&) { return answer(file, *request); }};
}

} // namespace wingnose::cli
