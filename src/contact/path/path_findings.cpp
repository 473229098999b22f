#include "path_findings.hpp"

#include "path_reading.hpp"

#include "wingnose/words/constants.hpp"
#include "wingnose/words/number.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <variant>

namespace wingnose::contact {
namespace {

constexpr double steep = 0.5;             // rad
constexpr double sharp_curvature = 200.0; // 1/m, a radius of 5 mm
constexpr double first_metal = 0.0005;    // m from the begin of the nose: contact there is with its end
constexpr double plain_rail = 1.0;        // m from the theoretical point: wing and nose have their full heads
constexpr double most_lift = 0.008;       // m: raised wings lift by a few millimetres
constexpr double least_climb = 20e-6;     // m: less than the approach of a wheel's load gives way

std::string mm(double metres, int decimals = 0) { return fixed(metres * 1e3, decimals); }
std::string stations(double from, double to) { return "stations " + mm(from) + " to " + mm(to) + " mm"; }

// Extent, body by body, and worst value of a condition along the carrying path.
class Spot {
public:
  double worst = 0.0;
  [[nodiscard]] bool seen() const { return !stretches_.empty(); }
  void add(double x, double value, const std::string& body) {
    auto stretch = std::find_if(stretches_.begin(), stretches_.end(), [&](const auto& s) { return s.body == body; });
    if (stretch == stretches_.end()) {
      stretch = stretches_.insert(stretch, {body, x, x});
    }
    stretch->from = std::min(stretch->from, x);
    stretch->to = std::max(stretch->to, x);
    worst = std::abs(value) > std::abs(worst) ? value : worst;
  }
  // "wing, stations -4000 to 93 mm; nose, stations 93 to 538 mm".
  [[nodiscard]] std::string where() const {
    std::string text;
    for (const Stretch& s : stretches_) {
      text += (text.empty() ? "" : "; ") + (s.body.empty() ? "" : s.body + ", ") + stations(s.from, s.to);
    }
    return text;
  }

private:
  struct Stretch {
    std::string body;
    double from, to;
  };
  std::vector<Stretch> stretches_;
};

struct Spots {
  Spot rim, flange, flank, none, sharp, flat;
};

// A prescribed path tells nothing of where wheel and rail touch.
Spots spots_of(const WheelPath& path, const profile::WheelProfile& wheel, double rim_margin) {
  const std::vector<int> carrying = carrying_body(path);
  const bool rolled = path.bodies.empty() || path.bodies.front().role != layout::Role::stock;
  Spots s;
  for (std::size_t i = 0; i < carrying.size(); ++i) {
    const double x = path.station[i];
    if (carrying[i] < 0) {
      s.none.add(x, 0.0, "");
      continue;
    }
    const BodyPath& b = path.bodies[static_cast<std::size_t>(carrying[i])];
    if (!rolled) {
      continue;
    }
    if (b.wheel_y[i] > wheel.y_max() - rim_margin) {
      s.rim.add(x, b.wheel_y[i], b.name);
    }
    if (b.wheel_y[i] < flange_begin) {
      s.flange.add(x, b.wheel_y[i], b.name);
    } else if (std::abs(b.angle[i]) > steep) {
      s.flank.add(x, b.angle[i], b.name);
    }
    if (b.curvature_y[i] > sharp_curvature) {
      s.sharp.add(x, b.curvature_y[i], b.name);
    }
    if (b.curvature_y[i] <= least_lateral_curvature) {
      s.flat.add(x, b.curvature_y[i], b.name);
    }
  }
  return s;
}

// Whether the flange carries at an end of the path that lies on plain rail: no track would hold a wheel there.
std::optional<Finding> flange_on_plain_rail(const WheelPath& path) {
  const std::vector<int> carrying = carrying_body(path);
  for (const std::size_t end : {std::size_t{0}, carrying.size() - 1}) {
    if (carrying[end] >= 0 && std::abs(path.station[end]) >= plain_rail &&
        path.bodies[static_cast<std::size_t>(carrying[end])].wheel_y[end] < flange_begin) {
      return Finding{FindingKind::flange_on_plain_rail, "the flange stands on the plain rail beside the crossing",
                     "station " + mm(path.station[end]) + " mm"};
    }
  }
  return std::nullopt;
}

// How far a facing wheel is lifted off the body before by the very end of the nose: largest height of the nose over the
// other body while the wheel touches the nose's first metal. A nose that comes up under the wheel is touched first
// behind its end, where it has risen to the wheel.
std::optional<Finding> nose_point_hit(const WheelPath& path, const layout::Crossing& crossing) {
  const auto body = std::find_if(crossing.bodies.begin(), crossing.bodies.end(),
                                 [](const layout::Body& b) { return b.role == layout::Role::nose; });
  const auto nose = std::find_if(path.bodies.begin(), path.bodies.end(),
                                 [](const BodyPath& b) { return b.role == layout::Role::nose; });
  if (body == crossing.bodies.end() || nose == path.bodies.end() || path.bodies.size() != 2) {
    return std::nullopt;
  }
  const BodyPath& other = path.bodies[nose == path.bodies.begin() ? 1 : 0];
  const double begin = std::visit([](const auto& surface) { return surface.x_begin(); }, body->surface);
  double climb = 0.0;
  for (std::size_t i = 0; i < path.station.size() && path.station[i] <= begin + first_metal; ++i) {
    if (path.station[i] + nose->contact_dx[i] < begin + first_metal) { // false where it is not touched at all
      const double over = nose->height[i] - other.height[i];
      climb = std::isfinite(over) ? std::max(climb, over) : climb;
    }
  }
  if (!(climb > least_climb)) {
    return std::nullopt;
  }
  return Finding{FindingKind::nose_point_hit,
                 "the wheel is lifted by " + mm(climb, 2) + " mm onto the nose's first metal",
                 nose->name + ", station " + mm(begin) + " mm"};
}

// Whether the wheel changes over while its axle is beyond the end of the nose: a facing wheel meets the first metal
// ahead of its axle, a trailing one leaves the last metal behind it.
std::optional<Finding> axle_ahead_of_nose(const layout::Crossing& crossing, std::span<const double> transfers,
                                          Direction direction) {
  const auto body = std::find_if(crossing.bodies.begin(), crossing.bodies.end(),
                                 [](const layout::Body& b) { return b.role == layout::Role::nose; });
  if (transfers.empty() || body == crossing.bodies.end()) {
    return std::nullopt;
  }
  const double begin = std::visit([](const auto& surface) { return surface.x_begin(); }, body->surface);
  if (!(transfers.back() < begin)) {
    return std::nullopt;
  }
  const std::string away = "at the transfer the axle is " + mm(begin - transfers.back(), 1) + " mm ";
  return Finding{FindingKind::axle_ahead_of_nose,
                 away + (direction == Direction::facing
                             ? "ahead of the nose's first metal, which the wheel meets ahead of its axle"
                             : "past the nose's last metal, which the wheel leaves behind its axle"),
                 "station " + mm(transfers.back()) + " mm"};
}

// How far the wheel is lifted above its level at either end of the path.
std::optional<Finding> lifted(const WheelPath& path) {
  const std::vector<double> height = upper_envelope(path);
  const auto top = static_cast<std::size_t>(std::max_element(height.begin(), height.end()) - height.begin());
  const double over = height[top] - std::max(height.front(), height.back());
  if (!(over > most_lift)) { // false as well where an end has no support
    return std::nullopt;
  }
  return Finding{FindingKind::wheel_lifted,
                 "the wheel is lifted by " + mm(over, 1) + " mm above its level beside the crossing",
                 "station " + mm(path.station[top]) + " mm"};
}

void tell_transfers(const WheelPath& path, std::span<const double> transfers, Findings& findings) {
  if (transfers.size() > 1) {
    findings.push_back(
        {FindingKind::several_transfers, std::to_string(transfers.size()) + " transfers",
         stations(std::min(transfers.front(), transfers.back()), std::max(transfers.front(), transfers.back()))});
  }
  if (path.bodies.size() == 2 && transfers.empty()) {
    findings.push_back({FindingKind::no_transfer,
                        "the wheel does not change between " + path.bodies[0].name + " and " + path.bodies[1].name,
                        stations(path.station.front(), path.station.back())});
  }
}

} // namespace

Findings path_findings(const WheelPath& path, const layout::Crossing* crossing, const profile::WheelProfile& wheel,
                       const KinematicsOptions& o, std::span<const double> transfers) {
  const Spots s = spots_of(path, wheel, o.rim_margin);
  Findings found = crossing != nullptr ? crossing->findings : Findings{};
  if (s.rim.seen()) {
    found.push_back({FindingKind::rim_contact,
                     "the wheel is carried up to " + mm(s.rim.worst, 1) + " mm outside its taping line (rim at " +
                         mm(wheel.y_max(), 1) + " mm)",
                     s.rim.where()});
  }
  if (s.flange.seen()) {
    found.push_back({FindingKind::flange_contact,
                     "the flange carries the wheel, " + mm(-s.flange.worst, 1) + " mm inside its taping line",
                     s.flange.where()});
  }
  if (auto flange = crossing != nullptr ? flange_on_plain_rail(path) : std::nullopt) {
    found.push_back(std::move(*flange));
  }
  if (s.flank.seen()) {
    found.push_back(
        {FindingKind::steep_contact, "contact angle of " + fixed(s.flank.worst, 2) + " rad", s.flank.where()});
  }
  if (s.none.seen()) {
    found.push_back({FindingKind::unsupported_wheel, "the wheel touches no body", s.none.where()});
  }
  if (crossing != nullptr && o.direction == Direction::facing) {
    if (auto hit = nose_point_hit(path, *crossing)) {
      found.push_back(std::move(*hit));
    }
  }
  if (auto ahead = crossing != nullptr ? axle_ahead_of_nose(*crossing, transfers, o.direction) : std::nullopt) {
    found.push_back(std::move(*ahead));
  }
  if (auto high = lifted(path)) {
    found.push_back(std::move(*high));
  }
  tell_transfers(path, transfers, found);
  if (s.sharp.seen()) {
    found.push_back({FindingKind::sharp_edge,
                     "the contact is as sharp across as a radius of " + fixed(1e3 / s.sharp.worst, 1) + " mm",
                     s.sharp.where()});
  }
  if (s.flat.seen()) {
    found.push_back({FindingKind::conformal_contact,
                     "lateral curvature taken as " + fixed(least_lateral_curvature, 1) + " 1/m", s.flat.where()});
  }
  return found;
}

Findings ends_in_window(const WheelPath& path, double from, double to) {
  Findings found;
  const auto tell = [&](double end, const std::string& where) {
    found.push_back({FindingKind::path_ends_in_window,
                     "the path given ends at station " + mm(end) + " mm; from there on the wheel runs level", where});
  };
  if (path.given_from > from) {
    tell(path.given_from, stations(from, path.given_from));
  }
  if (path.given_to < to) {
    tell(path.given_to, stations(path.given_to, to));
  }
  return found;
}

} // namespace wingnose::contact
