// What a comparison refuses, and the case of each wheel on each crossing.
#include "compare_parts.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/text.hpp"

#include <algorithm>
#include <limits>
#include <set>

namespace wingnose::study {

void check(const CompareOptions& o) {
  demand_ranges(o, "comparison");
  demand_ranges(o.grid, "comparison");
  demand_within("comparison resamples", static_cast<double>(o.resamples), resamples_allowed, "", 1.0,
                "2000 settle a 95 % interval.");
  assess::check(o.grid);
}

namespace {

const cases::Document& wheel_document(std::span<const ComparedCrossing> crossings, const cases::WheelClass& c) {
  return c.wheel ? *c.wheel : crossings.front().document;
}

} // namespace

void check(std::span<const ComparedCrossing> crossings, const cases::Population& population) {
  if (crossings.size() < 2) {
    throw InputError("a comparison needs at least two crossings; it has " + std::to_string(crossings.size()));
  }
  std::set<std::string> names;
  for (const auto& c : crossings) {
    if (c.name.empty() || !names.insert(c.name).second) {
      throw InputError(c.name.empty() ? "a crossing of the comparison has no name"
                                      : "two crossings are called \"" + c.name + "\"; give each its own name");
    }
    if (!layout::is_crossing(c.document.base().excitation)) {
      throw InputError("\"" + c.name +
                       "\" runs over a joint or a given path; a comparison needs crossings, of the kind \"generated\" "
                       "or \"sections\"");
    }
  }
  cases::check(population);
  // Keys that shape the wheel are those of the class's wheel, all others those of every crossing.
  constexpr auto no_class = std::numeric_limits<std::size_t>::max();
  std::set<std::pair<std::size_t, std::string>> keys;
  for (const auto& member : population.members) {
    for (const auto& value : member.values) {
      keys.emplace(cases::shapes_wheel(value.key) ? member.wheel_class : no_class, value.key);
    }
  }
  const auto check_key = [](const std::string& of, const cases::Document& document, const std::string& key) {
    (void)with_place(of + '"', [&] { return cases::key_info(document, key); });
  };
  for (const auto& [wheel_class, key] : keys) {
    if (wheel_class != no_class) {
      const cases::WheelClass& c = population.classes[wheel_class];
      check_key("wheel class \"" + c.name, wheel_document(crossings, c), key);
      continue;
    }
    for (const auto& c : crossings) {
      check_key("crossing \"" + c.name, c.document, key);
    }
  }
}

Wheel wheel_of(std::span<const ComparedCrossing> crossings, const cases::Population& population, std::size_t m) {
  const cases::Member& member = population.members[m];
  const cases::WheelClass& c = population.classes[member.wheel_class];
  const cases::Document& document = wheel_document(crossings, c);
  Wheel wheel;
  std::vector<cases::Override> of_wheel;
  for (const auto& value : member.values) {
    (cases::shapes_wheel(value.key) ? of_wheel : wheel.values).push_back(value);
  }
  try {
    wheel.shape = of_wheel.empty() ? document.base().wheel : cases::vary(document, of_wheel).wheel;
    wheel.inputs = c.wheel ? document.base().inputs : std::vector<cases::InputFile>{};
  } catch (const InputError& error) {
    wheel.failure = error.what();
  }
  return wheel;
}

Case put_on(const ComparedCrossing& crossing, const Wheel& wheel, const std::string& name) {
  if (!wheel.shape) {
    throw InputError(wheel.failure);
  }
  Case c = cases::vary(crossing.document, wheel.values);
  c.wheel.shape = wheel.shape->shape;
  c.wheel.hollow = wheel.shape->hollow;
  c.name = crossing.name + ", " + name;
  c.inputs.insert(c.inputs.end(), wheel.inputs.begin(), wheel.inputs.end());
  return c;
}

std::vector<cases::InputFile> inputs_of(std::span<const ComparedCrossing> crossings,
                                        const cases::Population& population, const CompareOptions& options) {
  std::vector<cases::InputFile> files = options.inputs;
  const auto add = [&](const std::string& of, const std::vector<cases::InputFile>& inputs) {
    for (const cases::InputFile& input : inputs) {
      files.push_back({of + ": " + input.role, input.path, input.sha256});
    }
  };
  for (const auto& c : crossings) {
    add("crossing " + c.name, c.document.base().inputs);
  }
  for (const auto& c : population.classes) {
    if (c.wheel) {
      add("wheel class " + c.name, c.wheel->base().inputs);
    }
  }
  return files;
}

Findings found_of_cases(std::span<const ComparedCrossing> crossings, const cases::Population& population,
                        const CompareOptions& options) {
  const auto varies = [&](const std::string& key) {
    return std::all_of(population.members.begin(), population.members.end(), [&](const cases::Member& m) {
      return std::any_of(m.values.begin(), m.values.end(), [&](const cases::Override& v) { return v.key == key; });
    });
  };
  const auto& meant = options.differs_on_purpose;
  Findings findings;
  for (std::size_t i = 1; i < crossings.size(); ++i) {
    std::vector<std::string> unlike, on_purpose;
    for (const auto& key : cases::differing_keys(crossings.front().document.base(), crossings[i].document.base())) {
      const bool of_crossing = key.starts_with("crossing.") || key == "case.name";
      const bool of_wheel = cases::shapes_wheel(key); // the classes bring theirs
      const bool of_steel = key.starts_with("damage.") && !options.steel;
      if (!of_crossing && !of_wheel && !of_steel && !varies(key)) {
        (std::find(meant.begin(), meant.end(), key) == meant.end() ? unlike : on_purpose).push_back(key);
      }
    }
    const std::string pair = '"' + crossings[i].name + "\" differs from \"" + crossings.front().name + "\" ";
    if (!on_purpose.empty()) {
      findings.push_back({FindingKind::reading, pair + "on purpose in " + listed(on_purpose)});
    }
    if (!unlike.empty()) {
      findings.push_back({FindingKind::unlike_cases, pair + "also in " + listed(unlike)});
    }
  }
  return findings;
}

Findings found_of_steel(const cases::Population& population) {
  const bool varies = std::any_of(population.members.begin(), population.members.end(), [](const auto& m) {
    return std::any_of(m.values.begin(), m.values.end(),
                       [](const cases::Override& v) { return v.key.starts_with("damage."); });
  });
  return varies ? Findings{{FindingKind::reading, "keys of the damage vary over the wheels; steel and friction told of "
                                                  "a crossing are those of its own case"}}
                : Findings{};
}

Case case_of(std::span<const ComparedCrossing> crossings, std::size_t crossing, const cases::Population& population,
             std::size_t member) {
  if (crossing >= crossings.size() || member >= population.members.size()) {
    throw InputError("there is no crossing " + std::to_string(crossing) + " or no wheel " + std::to_string(member) +
                     "; both are counted from 0");
  }
  return put_on(crossings[crossing], wheel_of(crossings, population, member), population.members[member].name);
}

} // namespace wingnose::study
