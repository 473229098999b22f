// Commands that need nothing but a case.
#include "commands.hpp"

#include "wingnose/study/run.hpp"
#include "wingnose/study/track_response.hpp"

namespace wingnose::cli {

std::vector<Command> case_commands() {
  using cases::Case;
  const auto command = [](std::string name, std::string meaning, auto tell) -> Command {
    return {std::move(name), "case.toml", std::move(meaning), {}, [tell](const Path& file, const Path&) {
              return of_case(file, tell);
            }};
  };
  return {command("run", "Simulate the passage and print its measures",
                  [](const Case& c) { return study::tell(c, study::run(c)); }),
          command("geometry", "Roll the wheel over the crossing: transfer, dip, angles",
                  [](const Case& c) { return study::tell(c, study::geometry(c)); }),
          command("estimate", "Closed forms for P1 and P2",
                  [](const Case& c) { return study::tell_estimates(c, study::geometry(c)); }),
          command("track", "Static deflection and receptance of the track",
                  [](const Case& c) { return study::tell(c, study::track_response(c)); })};
}

} // namespace wingnose::cli
