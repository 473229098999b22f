#include "wingnose/words/range.hpp"

#include <cmath>
#include <utility>

namespace wingnose {
namespace {

std::string allowed(const Range& r, const std::string& unit, double per_si) {
  const auto shown = [per_si](double value) { return number(value * per_si, digits_of_a_key); };
  if (std::isinf(r.most)) {
    return std::isinf(r.least) ? "a number" + unit : shown(r.least) + " or more" + unit;
  }
  return (std::isinf(r.least) ? "up to " : shown(r.least) + " to ") + shown(r.most) + unit;
}

} // namespace

void demand_within(std::string_view what, double value, const Range& range, std::string_view unit, double per_si,
                   std::string_view advice) {
  if (!within(value, range) || !std::isfinite(value)) {
    const std::string of = unit.empty() || unit == "-" ? "" : " " + std::string(unit);
    throw InputError(what, number(value * per_si, digits_of_a_key) + of, allowed(range, of, per_si),
                     advice.empty() ? "Check the value and its unit." : advice);
  }
}

Contradiction::Contradiction(std::string of, double is, Bound must_be, double limit, std::string against,
                             std::string hint)
    : InputError(of, number(is),
                 std::string(name(must_be)) + " " + number(limit) + (against.empty() ? "" : ", because of " + against),
                 hint),
      member(std::move(of)), other(std::move(against)), advice(std::move(hint)), value(is), bound(limit),
      kind(must_be) {}

} // namespace wingnose
