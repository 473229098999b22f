// Command line of wingnose: arguments in, text or JSON out. Exit codes: 0 done, 1 could not compute, 2 bad input,
// 130 stopped by Ctrl-C.
#include "commands.hpp"
#include "print.hpp"

#include "wingnose/io/tree_file.hpp"
#include "wingnose/study/sweep.hpp"
#include "wingnose/version.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/text.hpp"
#include "wingnose/words/visible.hpp"

#include <CLI/CLI.hpp>

#include <csignal>
#include <exception>
#include <filesystem>
#include <functional>
#include <iostream>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace {

using namespace wingnose;

constexpr int could_not_compute = 1, bad_input = 2, stopped = 130;

int tell(const std::string& message, int code) {
  std::cerr << "wingnose: error: " << visible(message) << '\n';
  return code;
}

std::vector<cli::Command> commands() {
  std::vector<cli::Command> list = cli::case_commands();
  for (auto make :
       {cli::contact_command, cli::damage_command, cli::speeds_command, cli::compare_command, cli::sweep_command}) {
    list.push_back(make());
  }
  using Output = cli::Command::Output;
  list.push_back({"show", "result.h5", "Print a stored answer of any kind", {}, {}, Output::none});
  list.push_back({"keys", "", "Reference of all keys, numbers, findings and result files", {}, {}, Output::none});
  return list;
}

// What the command says, on the terminal and, where asked for, in a file.
void act(const cli::Command& command, const cli::Path& file, const std::optional<std::string>& named, bool json) {
  if (command.name == "keys") {
    cli::print_keys(json, std::cout);
    return;
  }
  if (named && named->empty()) {
    throw InputError("--output", "\"\"", "the name of a file", "Give one such as result.h5, or leave the option out.");
  }
  const cli::Path output = named.value_or("");
  const bool stores = command.output == cli::Command::Output::may_be_stored && named;
  if (named) {
    io::check_target(output);
  }
  const bool show = command.name == "show";
  const quantity::Tree tree = show ? io::read_tree(file, quantity::Detail::told) : command.answer(file, output);
  if (stores) {
    io::write_tree(output, tree);
  }
  if (json) {
    std::cout << io::json(tree) << '\n';
    return;
  }
  if (show) {
    cli::print_stored(std::cout, file, tree, tree.kind() == "sweep" ? study::summary(tree) : tree);
  } else {
    cli::print(std::cout, tree);
  }
  if (!output.empty()) {
    std::cout << "Stored in " << visible(output.generic_string()) << '\n';
  }
  std::cout << io::caution << '\n';
}

// CLI11 reports an unknown command as a surplus argument; a suggestion helps more.
void refuse_unknown_command(const std::vector<cli::Command>& known, int argc, const char* const* argv) {
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
  std::string file;
  std::optional<std::string> output;
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
    if (command.output == cli::Command::Output::may_be_stored) {
      sub->add_option("-o,--output", output, "Store the answer with its histories in this HDF5 file");
    } else if (command.output == cli::Command::Output::stores_itself) {
      sub->add_option("-o,--output", output, "HDF5 file of the results; an unfinished one is gone on with")->required();
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
      act(command, file, output, json);
    }
  }
  std::cout.flush();
  return std::cout ? 0 : tell("the output could not be written", could_not_compute);
}

} // namespace

int main(int argc, char** argv) {
  std::signal(SIGXFSZ, SIG_IGN); // a file as large as is allowed is told as a full disk is
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
