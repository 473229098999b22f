// What a comparison refuses, and the case of each wheel on each crossing.
#include "compare_parts.hpp"

#include "wingnose/words/error.hpp"

#include <set>

namespace wingnose::study {
namespace {

void within(const char* what, double value, double least, double most, const char* unit, double per_si,
            const char* advice) {
  if (!(value >= least && value <= most)) {
    throw InputError(what, number(value * per_si) + unit,
                     number(least * per_si) + " to " + number(most * per_si) + unit, advice);
  }
}

} // namespace

void check(const CompareOptions& o) {
  within("thickness below which a nose is thin", o.thin_nose, 1e-4, 0.2, " mm", 1e3, "20 mm is common practice.");
  within("confidence of the intervals", o.confidence, 0.5, 0.999, "", 1.0, "0.95 is usual.");
  within("number of resamples", static_cast<double>(o.resamples), 100, 100'000, "", 1.0,
         "2000 settle a 95 % interval.");
  within("station step of the envelopes", o.envelope_step, 1e-3, 1.0, " mm", 1e3, "10 mm keeps all peaks apart.");
  within("first station of the envelopes", o.envelope_from, -50.0, 50.0, " m", 1.0, "0 is the theoretical point.");
  within("last station of the envelopes", o.envelope_to, o.envelope_from + o.envelope_step, 50.0, " m", 1.0,
         "It lies behind the first one.");
  within("step of nose thickness", o.thickness_step, 1e-4, 0.05, " mm", 1e3, "2 mm is about 30 mm of track at 1:15.");
  within("greatest nose thickness", o.thickness_to, o.thickness_step, 0.5, " mm", 1e3, "80 mm holds every transfer.");
  within("threads", o.threads, 0, 4096, "", 1.0, "0 takes one per core.");
}

namespace {

const io::CaseDocument& wheel_document(std::span<const ComparedCrossing> crossings, const WheelClass& c) {
  return c.wheel ? *c.wheel : crossings.front().document;
}

} // namespace

void check(std::span<const ComparedCrossing> crossings, const Population& population) {
  if (crossings.size() < 2) {
    throw InputError("a comparison needs at least two crossings; it has " + std::to_string(crossings.size()));
  }
  std::set<std::string> names;
  for (const auto& c : crossings) {
    if (c.name.empty() || !names.insert(c.name).second) {
      throw InputError(c.name.empty() ? "a crossing of the comparison has no name"
                                      : "two crossings are called \"" + c.name + "\"; give each its own name");
    }
    const auto& excitation = c.document.base().excitation;
    if (!std::holds_alternative<layout::CrossingShape>(excitation) &&
        !std::holds_alternative<layout::SectionedShape>(excitation)) {
      throw InputError("\"" + c.name +
                       "\" runs over a joint or a given path; a comparison needs crossings, of the kind "
                       "\"generated\" or \"sections\"");
    }
  }
  check(population);
  std::set<std::pair<std::size_t, std::string>> profile_keys;
  std::set<std::string> keys;
  for (const auto& member : population.members) {
    for (const auto& value : member.values) {
      if (io::shapes_wheel(value.key)) {
        profile_keys.emplace(member.wheel_class, value.key);
      } else {
        keys.insert(value.key);
      }
    }
  }
  for (const auto& [wheel_class, key] : profile_keys) {
    const WheelClass& c = population.classes[wheel_class];
    try {
      (void)io::key_info(wheel_document(crossings, c), key);
    } catch (const InputError& error) {
      throw InputError("wheel class \"" + c.name + "\": " + error.what());
    }
  }
  for (const auto& key : keys) {
    for (const auto& c : crossings) {
      try {
        (void)io::key_info(c.document, key);
      } catch (const InputError& error) {
        throw InputError("crossing \"" + c.name + "\": " + error.what());
      }
    }
  }
}

Wheel wheel_of(std::span<const ComparedCrossing> crossings, const Population& population, std::size_t m) {
  const Member& member = population.members[m];
  const WheelClass& c = population.classes[member.wheel_class];
  const io::CaseDocument& document = wheel_document(crossings, c);
  Wheel wheel;
  std::vector<io::Override> of_wheel;
  for (const auto& value : member.values) {
    (io::shapes_wheel(value.key) ? of_wheel : wheel.values).push_back(value);
  }
  try {
    wheel.profile = of_wheel.empty() ? document.base().wheel : io::vary(document, of_wheel).wheel;
    wheel.inputs = c.wheel ? document.base().inputs : std::vector<InputFile>{};
  } catch (const InputError& error) {
    wheel.failure = error.what();
  }
  return wheel;
}

Case put_on(const ComparedCrossing& crossing, const Wheel& wheel, const std::string& name) {
  if (!wheel.profile) {
    throw InputError(wheel.failure);
  }
  Case c = io::vary(crossing.document, wheel.values);
  c.wheel = *wheel.profile;
  c.name = crossing.name + ", " + name;
  c.inputs.insert(c.inputs.end(), wheel.inputs.begin(), wheel.inputs.end());
  return c;
}

std::vector<InputFile> inputs_of(std::span<const ComparedCrossing> crossings, const Population& population,
                                 const CompareOptions& options) {
  std::vector<InputFile> files = options.inputs;
  const auto add = [&](const std::string& of, const std::vector<InputFile>& inputs) {
    for (const InputFile& input : inputs) {
      if (input.path.rfind("wheel of class", 0) != 0) { // a table of the comparison file itself
        files.push_back({of + ": " + input.role, input.path, input.sha256});
      }
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

Case case_of(std::span<const ComparedCrossing> crossings, std::size_t crossing, const Population& population,
             std::size_t member) {
  if (crossing >= crossings.size() || member >= population.members.size()) {
    throw InputError("there is no crossing " + std::to_string(crossing) + " or no wheel " + std::to_string(member) +
                     "; both are counted from 0");
  }
  return put_on(crossings[crossing], wheel_of(crossings, population, member), population.members[member].name);
}

} // namespace wingnose::study
