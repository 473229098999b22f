// Command line of wingnose: arguments in, text or JSON out. Exit codes: 0 done, 1 could not compute, 2 bad input,
// 130 stopped by Ctrl-C.
#include "commands.hpp"

#include "wingnose/version.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/suggestion.hpp"

#include <CLI/CLI.hpp>

#include <exception>
#include <filesystem>
#include <functional>
#include <iostream>
#include <memory>
#include <string>
#include <vector>

namespace {

using namespace wingnose;

constexpr int could_not_compute = 1, bad_input = 2, stopped = 130;

int tell(const std::string& message, int code) {
  std::cerr << "wingnose: error: " << message << '\n';
  return code;
}

struct Command {
  std::string name, argument, meaning;
  std::function<void(const std::filesystem::path&, const std::filesystem::path&, bool)> act;
  std::function<void(CLI::App&)> options = {}; // its own, beside those all have
};

std::vector<Command> commands() {
  using Path = std::filesystem::path;
  const auto speeds = std::make_shared<cli::SpeedsRequest>();
  const auto sweep = std::make_shared<cli::SweepRequest>();
  const auto contact = std::make_shared<cli::ContactRequest>();
  const auto compare = std::make_shared<cli::CompareRequest>();
  const auto damage = std::make_shared<cli::DamageRequest>();
  return {
      {"run", "case.toml", "Simulate the passage and print its measures",
       [](const Path& file, const Path& output, bool json) { cli::run(file, output, json, std::cout); }},
      {"geometry", "case.toml", "Roll the wheel over the crossing: transfer, dip, angles",
       [](const Path& file, const Path&, bool json) { cli::geometry(file, json, std::cout); }},
      {"estimate", "case.toml", "Closed forms for P1 and P2",
       [](const Path& file, const Path&, bool json) { cli::estimate(file, json, std::cout); }},
      {"track", "case.toml", "Static deflection and receptance of the track",
       [](const Path& file, const Path&, bool json) { cli::track(file, json, std::cout); }},
      {"contact", "case.toml", "Where a wheel touches at one station under a load: patches, pressures",
       [contact](const Path& file, const Path& output, bool json) {
         cli::contact(file, output, *contact, json, std::cout);
       },
       [contact](CLI::App& command) { cli::contact_options(command, *contact); }},
      {"damage", "case.toml", "What the landing does to the steel: shakedown, surface fatigue, wear, maps",
       [damage](const Path& file, const Path& output, bool json) {
         cli::damage(file, output, *damage, json, std::cout);
       },
       [damage](CLI::App& command) { cli::damage_options(command, *damage); }},
      {"speeds", "case.toml", "Forces over a range of speeds, and the highest speed that keeps given limits",
       [speeds](const Path& file, const Path& output, bool json) {
         cli::speeds(file, output, *speeds, json, std::cout);
       },
       [speeds](CLI::App& command) { cli::speeds_options(command, *speeds); }},
      {"compare", "compare.toml", "Several crossings under a population of wheels: distributions, ranking, differences",
       [compare](const Path& file, const Path& output, bool json) {
         cli::compare(file, output, *compare, json, std::cout);
       },
       [compare](CLI::App& command) { cli::compare_options(command, *compare); }},
      {"sweep", "sweep.toml", "Many cases at once into one file; goes on where it was stopped",
       [sweep](const Path& file, const Path&, bool json) { cli::sweep(file, *sweep, json, std::cout); },
       [sweep](CLI::App& command) { cli::sweep_options(command, *sweep); }},
      {"show", "result.h5", "Print a stored result",
       [](const Path& file, const Path&, bool json) { cli::show(file, json, std::cout); }},
      {"keys", "", "Reference of all keys of case files and of what result files hold",
       [](const Path&, const Path&, bool json) { cli::keys(json, std::cout); }},
  };
}

// CLI11 reports an unknown command as a surplus argument; a suggestion helps more.
void refuse_unknown_command(const std::vector<Command>& known, int argc, const char* const* argv) {
  if (argc < 2 || argv[1][0] == '-') {
    return;
  }
  std::vector<std::string> names;
  for (const auto& command : known) {
    names.push_back(command.name);
    if (command.name == argv[1]) {
      return;
    }
  }
  throw InputError("unknown command \"" + std::string(argv[1]) + "\". " + suggestion(argv[1], names));
}

int work(int argc, const char* const* argv) {
  const auto known = commands();
  refuse_unknown_command(known, argc, argv);

  CLI::App app("wingnose: from a railway crossing's shape to the impact of a wheel on its nose.", "wingnose");
  app.set_version_flag("--version", std::string("wingnose ") + version + " (commit " + commit + ")");
  app.require_subcommand(1);
  app.footer("Start with: wingnose run profiles/demo.toml\nExit codes: 0 done, 1 could not compute, 2 bad input, 130 "
             "stopped by Ctrl-C.");
  std::string file, output;
  bool json = false;
  for (const auto& command : known) {
    auto* sub = app.add_subcommand(command.name, command.meaning);
    sub->add_flag("--json", json, "Print one JSON object instead of tables");
    if (!command.argument.empty()) {
      const std::string kind = command.argument.substr(0, command.argument.find('.'));
      sub->add_option(kind, file,
                      kind == "result"    ? "Result file (HDF5)"
                      : kind == "sweep"   ? "Sweep file (TOML)"
                      : kind == "compare" ? "Comparison file (TOML)"
                                          : "Case file (TOML)")
          ->required();
    }
    if (command.options) {
      command.options(*sub);
    }
    if (command.name == "run" || command.name == "speeds" || command.name == "compare" || command.name == "contact" ||
        command.name == "damage") {
      sub->add_option("-o,--output", output,
                      command.name == "run" ? "Store histories and measures in this HDF5 file"
                                            : "Store the study in this HDF5 file");
    }
  }
  try {
    app.parse(argc, argv);
  } catch (const CLI::Success& done) {
    return app.exit(done); // help and version
  } catch (const CLI::ParseError& error) {
    return tell(std::string(error.what()) +
                    ". \"wingnose --help\" lists the commands, \"wingnose run --help\" the options of one.",
                bad_input);
  }
  for (const auto& command : known) {
    if (app.got_subcommand(command.name)) {
      command.act(file, output, json);
    }
  }
  std::cout.flush();
  return std::cout ? 0 : tell("the output could not be written", could_not_compute);
}

} // namespace

int main(int argc, char** argv) {
  try {
    return work(argc, argv);
  } catch (const InputError& error) {
    return tell(error.what(), bad_input);
  } catch (const ComputeError& error) {
    return tell(error.what(), could_not_compute);
  } catch (const cli::Interrupted& stop) {
    std::cerr << "wingnose: " << stop.what() << '\n';
    return stopped;
  } catch (const std::bad_alloc&) {
    return tell("not enough memory; a coarser pitch, fewer bays or a lower cut-off need less", could_not_compute);
  } catch (const std::exception& error) {
    return tell(std::string("unexpected: ") + error.what(), could_not_compute);
  }
}
