// Uses the installed library from case text to measures, as a consumer's program would, and checks that the answer is
// one: a passage over the default crossing must load the nose with more than the static load.
#include <wingnose/io/case_file.hpp>
#include <wingnose/study/run.hpp>
#include <wingnose/version.hpp>

#include <cstdio>
#include <exception>

int main() {
  try {
    const auto c = wingnose::io::parse_case("[case]\nname = \"consumer\"\n", "consumer.toml", ".");
    const auto result = wingnose::study::run(c);
    const auto& m = result.assessment.measures.value();
    std::printf("wingnose %s (%s): %s lands at %.1f mm, static load %.1f kN, P2 %.1f kN\n", wingnose::version,
                wingnose::commit, m.landing_body.c_str(), 1e3 * m.landing_station, 1e-3 * m.static_load, 1e-3 * m.p2);
    return m.p2 > m.static_load ? 0 : 1;
  } catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 1;
  }
}
