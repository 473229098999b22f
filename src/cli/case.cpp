// Commands that need nothing but a case.
#include "commands.hpp"

#include "wingnose/io/sensor_file.hpp"
#include "wingnose/study/run.hpp"
#include "wingnose/study/track_response.hpp"
#include "wingnose/study/turnout.hpp"

#include <CLI/CLI.hpp>

#include <memory>
#include <optional>

namespace wingnose::cli {
namespace {

using cases::Case;

// A passage; records of its sensors into a folder, where one is named.
quantity::Tree passage(const Case& c, const std::optional<std::string>& folder) {
  if (!folder) {
    return study::tell(c, study::run(c));
  }
  if (c.sensors.empty()) {
    throw InputError("--sensors", "\"" + *folder + "\"", "a case with sensors",
                     "Describe one under [[sensor]] in the case file.");
  }
  std::vector<std::string> names;
  for (const assess::Sensor& sensor : c.sensors) {
    names.push_back(sensor.name);
  }
  io::check_sensor_folder(*folder, names);
  quantity::Tree tree = study::tell(c, study::run(c));
  io::write_sensors(*folder, tree);
  return tree;
}

Command run_command() {
  const auto folder = std::make_shared<std::optional<std::string>>();
  return {"run", "case.toml", "Simulate the passage and print its measures",
          [folder](CLI::App& command) {
            command.add_option("--sensors", *folder, "Write the record of every [[sensor]] into this folder, as CSV");
          },
          [folder](const Path& file, const Path&) {
            return of_case(file, [&](const Case& c) { return passage(c, *folder); });
          }};
}

} // namespace

std::vector<Command> case_commands() {
  const auto command = [](std::string name, std::string meaning, auto tell) -> Command {
    return {std::move(name), "case.toml", std::move(meaning), {}, [tell](const Path& file, const Path&) {
              return of_case(file, tell);
            }};
  };
  return {run_command(),
          command("geometry", "Roll the wheel over the crossing: transfer, dip, angles",
                  [](const Case& c) { return study::tell(c, study::geometry(c)); }),
          command("estimate", "Closed forms for P1 and P2",
                  [](const Case& c) { return study::tell_estimates(c, study::geometry(c)); }),
          command("track", "Static deflection and receptance of the track",
                  [](const Case& c) { return study::tell(c, study::track_response(c)); }),
          command("turnout", "Where a turnout's routes lie, functional dimensions, what the speed asks for",
                  [](const Case& c) { return study::tell(c, study::study_turnout(c)); })};
}

} // namespace wingnose::cli
