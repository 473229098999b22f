// Two crossings of the demo on a short track under a few wheels, so that a comparison costs little.
#pragma once

#include "folder.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/study/compare.hpp"

#include <string>
#include <vector>

namespace compare_cases {

using namespace wingnose;

inline study::ComparedCrossing demo_crossing(const std::string& name, const std::string& base,
                                             const std::string& more = "") {
  const std::string text = "base = \"" + base + "\"\n[passage]\nfrom_m = -1.5\nto_m = 2\n" + more;
  return {name, io::parse_case(text, name, profiles)};
}
inline std::vector<study::ComparedCrossing> designed_and_worn() {
  return {demo_crossing("designed", "demo.toml"), demo_crossing("worn", "worn.toml")};
}

// New and hollow wheels in turn, of rising weight.
inline cases::Population wheels(const std::vector<double>& offsets) {
  cases::Population population;
  population.classes.emplace_back().name = "new";
  population.classes.emplace_back().name = "hollow";
  for (std::size_t i = 0; i < offsets.size(); ++i) {
    cases::Member member{"wheel " + std::to_string(i + 1), i % 2, 1.0 + static_cast<double>(i), {}};
    member.values.push_back({"wheel.lateral_offset_mm", offsets[i]});
    if (i % 2 == 1) {
      member.values.push_back({"wheel.hollow_depth_mm", 1.0});
    }
    population.members.push_back(std::move(member));
  }
  return population;
}

inline study::CompareOptions few(int threads = 1) {
  study::CompareOptions options;
  options.resamples = 200;
  options.threads = threads;
  options.paths = false;
  return options;
}

inline study::Comparison compared(const std::vector<study::ComparedCrossing>& crossings,
                                  const cases::Population& population, const study::CompareOptions& options = few()) {
  return study::compare(crossings, population, options).value();
}

} // namespace compare_cases
