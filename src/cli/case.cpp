// Commands that need nothing but a case.
#include "commands.hpp"

#include "wingnose/io/sensor_file.hpp"
#include "wingnose/study/run.hpp"
#include "wingnose/study/track_response.hpp"
#include "wingnose/study/turnout.hpp"
#include "wingnose/study/turnout_ride.hpp"

#include <CLI/CLI.hpp>

#include <memory>
#include <optional>

namespace wingnose::cli {
namespace {

using cases::Case;

// A passage; records of its sensors into a folder, where one is named.
quantity::Tree passage(const Case& c, const std::optional<std::string>& folder) {
  if (!folder) {
    return study::run_told(c);
  }
  study::demand_vertical(c, "--sensors");
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

// Its geometry; or, with --run, a vehicle through it.
struct TurnoutOptions {
  bool run = false;
  std::optional<std::string> vehicle;
  std::optional<double> check_stiffness, step; // as given
};
quantity::Tree turnout(const Case& c, const TurnoutOptions& given) {
  if (!given.run) {
    if (given.vehicle || given.check_stiffness || given.step) {
      throw InputError("--vehicle, --check-stiffness-MN-m, --step-us", "given", "beside --run only",
                       "Add --run to send a vehicle through the turnout.");
    }
    return study::tell(c, study::study_turnout(c));
  }
  Case ride = c;
  ride.rung = cases::Rung::spatial;
  if (given.vehicle) {
    ride.spatial.table.reset();
    ride.spatial.preset = *given.vehicle;
  }
  ride.spatial.check_stiffness = in_si(given.check_stiffness, "MN/m").value_or(c.spatial.check_stiffness);
  ride.spatial.step = in_si(given.step, "us").value_or(c.spatial.step);
  return study::tell(ride, study::ride_through(ride));
}

Command turnout_command() {
  const auto given = std::make_shared<TurnoutOptions>();
  return {"turnout", "case.toml", "Where a turnout's routes lie, functional dimensions, what the speed asks for",
          [given](CLI::App& command) {
            command.add_flag("--run", given->run,
                             "Send a vehicle in space through it, as run does with case.rung = \"spatial\"");
            command.add_option("--vehicle", given->vehicle,
                               "Vehicle in space instead of that of the case: wheelset, bogie, coach_1998");
            command.add_option("--check-stiffness-MN-m", given->check_stiffness, "Stiffness of the check rail");
            command.add_option("--step-us", given->step, "Time step");
          },
          [given](const Path& file, const Path&) {
            return of_case(file, [&](const Case& c) { return turnout(c, *given); });
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
          turnout_command()};
}

} // namespace wingnose::cli
