// What a comparison tells of the steel under the landings.
#include "compare_parts.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::study {

SteelAnswer steel_of(const Case& c, const Result& result) {
  try {
    return {steel_measures(c, result), {}};
  } catch (const std::runtime_error& error) { // the wheel is compared all the same
    return {std::nullopt, error.what()};
  }
}

double share_above(const Sample& sample, std::size_t crossing, Observed of, double limit) {
  double above = 0.0, known = 0.0;
  const auto& values = sample.values[crossing][static_cast<std::size_t>(of)];
  for (std::size_t i = 0; i < values.size(); ++i) {
    known += std::isnan(values[i]) ? 0.0 : sample.weights[i];
    above += values[i] > limit ? sample.weights[i] : 0.0;
  }
  return known > 0.0 ? above / known : std::numeric_limits<double>::quiet_NaN();
}

void note_steel(Comparison& c) {
  if (!c.options.steel) {
    return;
  }
  c.steel_assumptions = steel_assumptions();
  const bool varies = std::any_of(c.population.members.begin(), c.population.members.end(), [](const Member& m) {
    return std::any_of(m.values.begin(), m.values.end(),
                       [](const io::Override& v) { return v.key.rfind("damage.", 0) == 0; });
  });
  if (varies) {
    c.notes.emplace_back("keys of the damage vary over the wheels; steel and friction told of a crossing are those of "
                         "its own case");
  }
  std::string beyond;
  for (const auto& crossing : c.crossings) {
    if (crossing.beyond_shakedown > 0.0) {
      beyond += (beyond.empty() ? "" : ", ") + number(std::round(1000.0 * crossing.beyond_shakedown) / 10.0) +
                " % of the wheels on \"" + crossing.name + "\"";
    }
  }
  if (!beyond.empty()) {
    c.notes.push_back("beyond elastic shakedown lie " + beyond +
                      ": the shapes as given flow under them, and real pressures settle below these. Peak pressure and "
                      "shakedown exceedance then tell how sharp a shape is where wheels land; friction energy and wear "
                      "volume rest less on that");
  }
  for (const auto& crossing : c.crossings) {
    std::size_t unknown = 0, stretched = 0, first = 0;
    double most = 0.0;
    for (std::size_t m = 0; m < c.compared.size(); ++m) {
      const MemberAnswer& answer = crossing.members[m];
      if (!c.compared[m]) {
        continue;
      }
      first = answer.steel_failure.empty() || unknown > 0 ? first : m;
      unknown += answer.steel_failure.empty() ? 0 : 1;
      stretched += answer.change_of_angle > stretched_angle ? 1 : 0;
      most = std::max(most, answer.change_of_angle);
    }
    const std::string on = "on \"" + crossing.name + "\" ";
    if (unknown > 0) {
      c.notes.push_back(on + "nothing is known of the steel under " + std::to_string(unknown) +
                        (unknown == 1 ? " wheel (" : " wheels (first ") + c.population.members[first].name +
                        "): " + crossing.members[first].steel_failure);
    }
    if (stretched > 0) {
      c.notes.push_back(on + "the half-space is stretched under " + std::to_string(stretched) +
                        (stretched == 1 ? " wheel" : " wheels") + ": the contact angle changes by up to " +
                        number(std::round(100.0 * most) / 100.0) + " rad inside a patch (limit " +
                        number(stretched_angle) + "); pressures there are rough estimates");
    }
  }
}

} // namespace wingnose::study
