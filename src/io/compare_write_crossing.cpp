// What a comparison stores of one crossing.
#include "compare_layout.hpp"

#include "wingnose/words/error.hpp"

#include <cmath>
#include <limits>

namespace wingnose::io {
namespace {

using compare::collect;
using compare::Group;
constexpr double none = std::numeric_limits<double>::quiet_NaN();

void write_wheels(const Group& group, const study::CrossingAnswer& a, bool steel) {
  for (const auto& quantity : compared_quantities(steel)) {
    const auto place = static_cast<std::size_t>(quantity.of);
    group.numbers("members/" + quantity.key, collect(a.members, [place](const auto& m) { return m.observed[place]; }),
                  quantity.unit, quantity.description + "; one value per wheel", quantity.per_si);
  }
  group.numbers("members/status", collect(a.members, [](const auto& m) { return static_cast<double>(m.state); }), "-",
                "0 done, 1 no transfer, 2 bad input, 3 could not compute");
  group.texts("members/failure", collect(a.members, [](const auto& m) { return m.failure; }),
              "why there is no result; empty where there is one");
  if (steel) {
    group.texts("members/steel_failure", collect(a.members, [](const auto& m) { return m.steel_failure; }),
                "why nothing is known of the steel although there is a result; empty where it is");
    group.numbers("members/change_of_contact_angle_rad",
                  collect(a.members, [](const auto& m) { return m.change_of_angle; }), "rad",
                  "largest change of the contact angle inside a patch; above 0.15 the half-space is stretched");
  }
  group.numbers("early/member", collect(a.early_members, [](std::size_t m) { return static_cast<double>(m); }), "-",
                "numbers of the wheels, counted from 0, that transfer onto a thin nose, earliest first");
}

void write_statistics(const Group& group, const study::CrossingAnswer& a, bool steel) {
  const auto list = compared_quantities(steel);
  const auto one = [&](const std::string& name, const std::string& description, auto get, bool scaled) {
    group.numbers("statistics/" + name,
                  collect(list,
                          [&](const ComparedQuantity& q) {
                            return get(a.distributions[static_cast<std::size_t>(q.of)]) * (scaled ? q.per_si : 1.0);
                          }),
                  scaled ? "see quantities/unit" : "-", description + ", per quantity");
  };
  using D = study::Distribution;
  one(
      "count", "wheels with a value", [](const D& d) { return static_cast<double>(d.count); }, false);
  one(
      "share", "share of the weight of the wheels with a value", [](const D& d) { return d.share; }, false);
  one(
      "mean", "weighted mean", [](const D& d) { return d.mean; }, true);
  one(
      "standard_deviation", "weighted standard deviation", [](const D& d) { return d.deviation; }, true);
  one(
      "least", "least value", [](const D& d) { return d.least; }, true);
  one(
      "greatest", "greatest value", [](const D& d) { return d.greatest; }, true);
  for (std::size_t q = 0; q < study::quantile_levels.size(); ++q) {
    const std::string level = number(std::round(100.0 * study::quantile_levels[q]));
    one((level.size() < 2 ? "q0" : "q") + level, "weighted quantile of " + level + " %",
        [q](const D& d) { return d.quantiles[q]; }, true);
  }
  for (const auto& quantity : list) {
    const auto& d = a.distributions[static_cast<std::size_t>(quantity.of)];
    group.numbers("cumulative/" + quantity.key, d.values, quantity.unit, quantity.description + "; rising",
                  quantity.per_si);
    group.numbers("cumulative/" + quantity.key + "_share", d.cumulative, "-", "share of weight at or below each value");
  }
}

void write_course(const Group& group, const study::CrossingAnswer& a) {
  const auto& e = a.envelope;
  const std::string of = " of the wheels' largest total force within the step";
  group.numbers("envelope/station_mm", e.station, "mm", "middle of each step, of the axle", 1e3);
  group.numbers("envelope/q05_kN", e.low, "kN", "5 % quantile" + of, 1e-3);
  group.numbers("envelope/q50_kN", e.middle, "kN", "median" + of, 1e-3);
  group.numbers("envelope/q95_kN", e.high, "kN", "95 % quantile" + of, 1e-3);
  group.numbers("envelope/most_kN", e.most, "kN", "largest over all wheels" + of, 1e-3);
  const auto& n = a.nose_load;
  group.numbers("nose_load/thickness_from_mm", n.from, "mm", "nose thickness under the axle, from", 1e3);
  group.numbers("nose_load/thickness_to_mm", n.to, "mm", "nose thickness under the axle, to", 1e3);
  group.numbers("nose_load/mean_kN", n.mean, "kN", "weighted mean over wheels of the mean force on the nose there",
                1e-3);
  group.numbers("nose_load/q95_kN", n.high, "kN", "95 % quantile over wheels of the largest force on the nose there",
                1e-3);
  group.numbers("nose_load/bearing_share", n.bearing, "-", "share of wheels whose nose bears at all there");
}

std::vector<double> height_of(const contact::WheelPath& path, const std::string& body) {
  std::vector<double> height(path.station.size(), none);
  for (const auto& b : path.bodies) {
    if (!body.empty() && b.name != body) {
      continue;
    }
    for (std::size_t i = 0; i < height.size(); ++i) { // where a wheel cannot touch a body its height is -infinity
      if (std::isfinite(b.height[i])) {
        height[i] = std::isnan(height[i]) ? b.height[i] : std::max(height[i], b.height[i]);
      }
    }
  }
  return height;
}

} // namespace

std::pair<std::string, std::string> compared_key(std::span<const study::ComparedCrossing> crossings,
                                                 const study::Population& population, const std::string& key) {
  std::vector<const CaseDocument*> documents;
  for (const auto& c : crossings) {
    documents.push_back(&c.document);
  }
  for (const auto& c : population.classes) {
    if (c.wheel) {
      documents.push_back(&*c.wheel);
    }
  }
  for (const auto* document : documents) {
    try {
      const KeyInfo info = key_info(*document, key);
      return {info.unit, info.description};
    } catch (const InputError&) { // not a key of this case
      continue;
    }
  }
  return {"-", "value of a case key"};
}

void write_crossing(hid_t file, const study::Comparison& c, std::size_t crossing) {
  const auto& a = c.crossings[crossing];
  const std::string path = "crossing/" + std::to_string(crossing) + "/";
  const Group group(file, path);
  write_wheels(group, a, c.options.steel);
  write_statistics(group, a, c.options.steel);
  write_course(group, a);
  for (std::size_t k = 0; k < a.paths.size(); ++k) {
    const Group one(file, path + "path/" + std::to_string(k) + "/");
    one.numbers("station_mm", a.paths[k].path->station, "mm", "station of the axle", 1e3);
    one.numbers("height_mm", height_of(*a.paths[k].path, ""), "mm", "height of the wheel, on the higher body", 1e3);
    one.numbers("height_wing_mm", height_of(*a.paths[k].path, "wing"), "mm", "height of the wheel on the wing", 1e3);
    one.numbers("height_nose_mm", height_of(*a.paths[k].path, "nose"), "mm", "height of the wheel on the nose", 1e3);
  }
  if (crossing == 0) {
    const Group paths(file, "paths/");
    paths.numbers("member", collect(a.paths, [](const auto& p) { return static_cast<double>(p.member); }), "-",
                  "wheel, counted from 0, of each path stored");
    paths.texts("reason", collect(a.paths, [](const auto& p) { return p.reason; }), "why its path is stored");
  }
}

} // namespace wingnose::io
