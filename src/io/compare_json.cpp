#include "wingnose/words/text.hpp"

#include "wingnose/io/compare_output.hpp"
#include "wingnose/version.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdlib>

namespace wingnose::io {
namespace {

using Json = nlohmann::ordered_json;

Json value(double number) {
  return std::isfinite(number) ? Json(std::strtod(plain(number).c_str(), nullptr)) : Json(nullptr);
}

Json distribution_json(const study::Distribution& d, double per_si) {
  Json json{{"wheels", d.count},
            {"share", value(d.share)},
            {"mean", value(d.mean * per_si)},
            {"standard_deviation", value(d.deviation * per_si)},
            {"least", value(d.least * per_si)},
            {"greatest", value(d.greatest * per_si)}};
  for (std::size_t q = 0; q < study::quantile_levels.size(); ++q) {
    const std::string level = plain(std::round(100.0 * study::quantile_levels[q]));
    json[(level.size() < 2 ? "q0" : "q") + level] = value(d.quantiles[q] * per_si);
  }
  return json;
}

Json crossing_json(const study::Comparison& c, const study::CrossingAnswer& a) {
  Json json{{"name", a.name},
            {"failed_share", value(a.failed)},
            {"no_transfer_share", value(a.no_transfer)},
            {"lost_contact_share", value(a.loses_contact)},
            {"early_share", value(a.early)}};
  if (c.options.steel) {
    json["beyond_shakedown_share"] = value(a.beyond_shakedown);
    json["beyond_surface_flow_share"] = value(a.beyond_surface_flow);
    json["steel"] = a.steel;
    json["friction"] = value(a.friction);
  }
  for (const auto& quantity : compared_quantities(c.options.steel)) {
    json["distributions"][quantity.key] =
        distribution_json(a.distributions[static_cast<std::size_t>(quantity.of)], quantity.per_si);
  }
  json["early_wheels"] = Json::array();
  for (const std::size_t m : a.early_members) {
    const double thickness = a.members[m].observed[static_cast<std::size_t>(study::Observed::nose_thickness)];
    json["early_wheels"].push_back({{"name", c.population.members[m].name},
                                    {"class", c.population.classes[c.population.members[m].wheel_class].name},
                                    {"nose_thickness_at_transfer_mm", value(1e3 * thickness)}});
  }
  json["nose_load"] = Json::array();
  for (std::size_t i = 0; i < a.nose_load.from.size(); ++i) {
    json["nose_load"].push_back({{"thickness_from_mm", value(1e3 * a.nose_load.from[i])},
                                 {"thickness_to_mm", value(1e3 * a.nose_load.to[i])},
                                 {"mean_kN", value(1e-3 * a.nose_load.mean[i])},
                                 {"q95_kN", value(1e-3 * a.nose_load.high[i])},
                                 {"bearing_share", value(a.nose_load.bearing[i])}});
  }
  return json;
}

Json rankings_json(const study::Comparison& c, const std::vector<study::Ranking>& rankings) {
  Json list = Json::array();
  for (const auto& r : rankings) {
    const NamedStatistic n = named(r.criterion);
    const auto& place = r.places;
    Json one{{"criterion", n.key}, {"unit", n.unit}, {"better", r.criterion.higher_is_better ? "higher" : "lower"}};
    one["best_first"] = Json::array();
    for (std::size_t i = 0; i < r.order.size(); ++i) {
      const std::size_t crossing = r.order[i];
      one["best_first"].push_back({{"crossing", c.crossings[crossing].name},
                                   {"place", place[crossing]},
                                   {"value", value(r.values[crossing] * n.per_si)},
                                   {"apart_from_next", i < r.apart.size() ? Json(bool(r.apart[i])) : Json(nullptr)}});
    }
    list.push_back(std::move(one));
  }
  return list;
}

} // namespace

std::string comparison_json(const study::Comparison& c) {
  Json json;
  json["reference"] = c.crossings.front().name;
  json["wheels"] = c.population.members.size();
  json["wheels_compared"] = std::count(c.compared.begin(), c.compared.end(), true);
  json["dropped_share"] = value(c.dropped);
  json["effective_wheels"] = value(c.effective_count);
  json["thin_nose_mm"] = value(1e3 * c.options.thin_nose);
  json["confidence"] = value(c.options.confidence);
  json["resamples"] = c.options.resamples;
  json["seed"] = c.options.seed;
  json["crossings"] = Json::array();
  for (const auto& crossing : c.crossings) {
    json["crossings"].push_back(crossing_json(c, crossing));
  }
  json["rankings"] = rankings_json(c, c.rankings);
  json["differences"] = Json::array();
  for (const auto& d : c.differences) {
    const NamedStatistic n = named(d.statistic);
    json["differences"].push_back({{"crossing", c.crossings[d.crossing].name},
                                   {"statistic", n.key},
                                   {"unit", n.unit},
                                   {"difference", value(d.value * n.per_si)},
                                   {"low", value(d.low * n.per_si)},
                                   {"high", value(d.high * n.per_si)},
                                   {"higher_share", value(d.higher)}});
  }
  json["groups"] = Json::array();
  for (const auto& group : c.groups) {
    json["groups"].push_back({{"name", group.name},
                              {"wheels", group.members.size()},
                              {"share", value(group.share)},
                              {"rankings", rankings_json(c, group.rankings)}});
  }
  json["dependence"] = c.dependence;
  json["warnings"] = c.warnings;
  json["notes"] = c.notes;
  if (c.options.steel) {
    json["steel_assumptions"] = c.steel_assumptions;
  }
  json["inputs"] = Json::array();
  for (const auto& input : c.inputs) {
    json["inputs"].push_back({{"role", input.role}, {"path", input.path}, {"sha256", input.sha256}});
  }
  json["version"] = version;
  json["commit"] = commit;
  json["caution"] = caution;
  // Names come from users: text that is not UTF-8 is shown with a replacement mark, not refused.
  return json.dump(2, ' ', false, Json::error_handler_t::replace);
}

} // namespace wingnose::io
