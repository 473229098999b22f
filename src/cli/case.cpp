// Commands that need nothing but a case.
#include "commands.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/run.hpp"
#include "wingnose/study/track_response.hpp"

namespace wingnose::cli {
namespace {

template <class Tell> Command of_case(std::string name, std::string meaning, Tell tell) {
  return {std::move(name), "case.toml", std::move(meaning), {}, [tell](const Path& file, const Path&) {
            const cases::Case c = io::read_case(file);
            return naming(file, [&] { return tell(c); });
          }};
}

} // namespace

std::vector<Command> case_commands() {
  using cases::Case;
  return {of_case("run", "Simulate the passage and print its measures",
                  [](const Case& c) { return study::tell(c, study::run(c)); }),
          of_case("geometry", "Roll the wheel over the crossing: transfer, dip, angles",
                  [](const Case& c) { return study::tell(c, study::geometry(c)); }),
          of_case("estimate", "Closed forms for P1 and P2",
                  [](const Case& c) { return study::tell_estimates(c, study::geometry(c)); }),
          of_case("track", "Static deflection and receptance of the track",
                  [](const Case& c) { return study::tell(c, study::track_response(c)); })};
}

} // namespace wingnose::cli
