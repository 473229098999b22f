#include "wingnose/quantity/quantity.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/text.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::quantity {

const Quantity* find(std::string_view key) {
  const auto all = quantities();
  const auto found = std::find_if(all.begin(), all.end(), [key](const Quantity& q) { return q.key == key; });
  return found == all.end() ? nullptr : &*found;
}

const Quantity& limited(std::string_view key) {
  const Quantity* found = find(key);
  if (found != nullptr && found->uses.limit != Limit::none) {
    return *found;
  }
  std::vector<std::string> keys;
  for (const Quantity* q : quantities_where([](const Quantity& each) { return each.uses.limit != Limit::none; })) {
    keys.emplace_back(q->key);
  }
  throw InputError("limit: \"" + std::string(key) + "\" is no quantity that can be limited. " + suggestion(key, keys));
}

double value(const Quantity& q, const assess::Assessment& a) {
  const auto si = q.of(a);
  return si ? *si * q.unit.per_si : std::numeric_limits<double>::quiet_NaN();
}

std::vector<const Quantity*> of_section(Section section) {
  return quantities_where([section](const Quantity& q) { return q.section == section; });
}
std::vector<const Quantity*> compared(bool steel, bool track) {
  return quantities_where([steel, track](const Quantity& q) {
    return q.uses.compared && (steel || !of_steel(q)) && !in_space(q) && (track || !q.uses.may_lack);
  });
}
std::vector<const Quantity*> swept(bool steel, bool space) {
  return quantities_where(
      [steel, space](const Quantity& q) { return q.uses.swept && (steel || !of_steel(q)) && (space || !in_space(q)); });
}

std::string told(const Quantity& q, double value) {
  const std::string text = fixed(value, q.decimals);
  return std::isnan(value) || q.unit.name == "-" ? text : text + " " + std::string(q.unit.name);
}

} // namespace wingnose::quantity
