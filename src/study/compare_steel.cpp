// What a comparison finds of the steel under the landings.
#include "compare_parts.hpp"

#include "wingnose/study/steel.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::study {

double share_above(const Sample& sample, std::size_t crossing, std::size_t observed, double limit) {
  double above = 0.0, known = 0.0;
  const auto& values = sample.values[crossing][observed];
  for (std::size_t i = 0; i < values.size(); ++i) {
    known += std::isnan(values[i]) ? 0.0 : sample.weights[i];
    above += values[i] > limit ? sample.weights[i] : 0.0;
  }
  return known > 0.0 ? above / known : std::numeric_limits<double>::quiet_NaN();
}

void find_of_steel(Comparison& c) {
  if (!c.options.steel) {
    return;
  }
  const bool varies = std::any_of(c.population.members.begin(), c.population.members.end(), [](const auto& m) {
    return std::any_of(m.values.begin(), m.values.end(),
                       [](const cases::Override& v) { return v.key.starts_with("damage."); });
  });
  if (varies) {
    c.findings.push_back({FindingKind::reading, "keys of the damage vary over the wheels; steel and friction told of a "
                                                "crossing are those of its own case"});
  }
  std::string beyond;
  for (const auto& crossing : c.crossings) {
    if (crossing.beyond_shakedown > 0.0) {
      beyond += (beyond.empty() ? "" : ", ") + number(std::round(1000.0 * crossing.beyond_shakedown) / 10.0) +
                " % of the wheels on \"" + crossing.name + "\"";
    }
  }
  if (!beyond.empty()) {
    c.findings.push_back({FindingKind::reading,
                          "beyond elastic shakedown lie " + beyond +
                              ": the shapes as given flow under them, and real pressures settle below these. Peak "
                              "pressure and shakedown exceedance then tell how sharp a shape is where wheels land; "
                              "friction energy and wear volume rest less on that"});
  }
}

} // namespace wingnose::study
