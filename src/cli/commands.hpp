// The commands: each turns a file into an answer; how it is printed, stored and told as JSON is the same for all.
#pragma once

#include "progress.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/quantity/tree.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/unit.hpp"

#include <filesystem>
#include <functional>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace CLI {
class App;
}

namespace wingnose::cli {

using Path = std::filesystem::path;

struct Command {
  std::string name, argument, meaning; // argument: "case.toml", "Case file (TOML)" in the help; empty: none
  // Its own options beside those all have; what they fill is kept by the two functions.
  std::function<void(CLI::App&)> options = {};
  // output: empty where nothing is stored. Throws Interrupted on Ctrl-C.
  std::function<quantity::Tree(const Path& file, const Path& output)> answer = {};
  enum class Output { may_be_stored, stores_itself, none } output = Output::may_be_stored;
};

[[nodiscard]] std::vector<Command> case_commands(); // run, geometry, estimate, track, turnout
[[nodiscard]] Command contact_command();
[[nodiscard]] Command damage_command();
[[nodiscard]] Command speeds_command();
[[nodiscard]] Command compare_command();
[[nodiscard]] Command sweep_command();
void print_keys(bool json, std::ostream& out);

// The user stopped the work; what was done is kept.
struct Interrupted : std::runtime_error {
  using std::runtime_error::runtime_error;
};

// An error that only comes up in the computation is told with the name of the file, as those of the reader are.
template <class Work> auto naming(const Path& file, Work work) {
  try {
    return work();
  } catch (const InputError& error) {
    throw InputError(file.generic_string() + ": " + error.what());
  } catch (const ComputeError& error) {
    throw ComputeError(file.generic_string() + ": " + error.what());
  }
}

// An answer to the case of a file.
template <class Answer> quantity::Tree of_case(const Path& file, Answer answer) {
  const cases::Case c = io::read_case(file);
  return naming(file, [&] { return answer(c); });
}

// Of an option in the unit it is given in.
[[nodiscard]] inline std::optional<double> in_si(std::optional<double> value, std::string_view in) {
  return value ? std::optional(*value * unit(in).to_si) : std::nullopt;
}

} // namespace wingnose::cli
