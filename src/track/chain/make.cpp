#include "legendre.hpp"
#include "parts.hpp"

#include "wingnose/track/assembly.hpp"
#include "wingnose/track/chain/statics.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

namespace wingnose::track::chain {
namespace {

// Section of a line at x.
RailProperties section_at(const Rail& rail, double x, Plane plane) {
  RailProperties section = rail.section;
  for (const RailZone& zone : rail.zones) {
    section = x >= zone.begin && x <= zone.end ? zone.rail : section;
  }
  if (plane == Plane::vertical) {
    return section;
  }
  LateralRail lateral = *rail.lateral;
  for (const LateralRailZone& zone : rail.lateral_zones) {
    lateral = x >= zone.begin && x <= zone.end ? zone.rail : lateral;
  }
  return {lateral.EI, lateral.kappa_GA, section.rho_A, lateral.rho_I};
}

// Sections of a bay: cut wherever a zone begins or ends.
std::vector<detail::Stretch> stretches(const Rail& rail, double begin, double end, Plane plane) {
  constexpr double least = 1e-6; // m, shorter ones belong to their neighbour
  std::vector<double> cut{begin, end};
  const auto add_cuts = [&](const auto& zones) {
    for (const auto& zone : zones) {
      for (const double x : {zone.begin, zone.end}) {
        if (x > begin + least && x < end - least) {
          cut.push_back(x);
        }
      }
    }
  };
  add_cuts(rail.zones);
  if (plane == Plane::lateral) {
    add_cuts(rail.lateral_zones);
  }
  std::sort(cut.begin(), cut.end());
  std::vector<detail::Stretch> found;
  for (std::size_t i = 1; i < cut.size(); ++i) {
    if (cut[i] - cut[i - 1] < least) {
      continue;
    }
    const RailProperties section = section_at(rail, 0.5 * (cut[i - 1] + cut[i]), plane);
    if (!found.empty() && found.back().section == section) {
      found.back().length += cut[i] - cut[i - 1];
    } else {
      found.push_back({cut[i] - cut[i - 1], section});
    }
  }
  return found;
}

bool alike(const RailBay& bay, const std::vector<detail::Stretch>& s) {
  constexpr double same_length = 1e-12; // m; stations are sums, whose rounding makes no other bay
  return std::equal(bay.piece.begin(), bay.piece.end(), s.begin(), s.end(),
                    [](const BayPiece& piece, const detail::Stretch& stretch) {
                      return std::abs(piece.length - stretch.length) < same_length && piece.section == stretch.section;
                    });
}

void add_bays(Chain& chain) {
  const Model& m = chain.model;
  for (int b = 0; b < chain.bays(); ++b) {
    for (int line = 0; line < chain.lines; ++line) {
      const Plane plane = line < chain.rails ? Plane::vertical : Plane::lateral;
      const auto section = stretches(m.rails[line % chain.rails], chain.seat[b], chain.seat[b + 1], plane);
      const auto known = std::find_if(chain.bay_kind.rbegin(), chain.bay_kind.rend(),
                                      [&](const RailBay& kind) { return alike(kind, section); });
      if (known == chain.bay_kind.rend()) {
        chain.bay.push_back(static_cast<int>(chain.bay_kind.size()));
        chain.bay_kind.push_back(detail::make_bay(section, m.modes_per_bay));
      } else {
        chain.bay.push_back(static_cast<int>(chain.bay_kind.rend() - known) - 1);
      }
    }
  }
}

void add_bearers(Chain& chain) {
  std::vector<const Bearer*> made;
  const auto alike = [](const Bearer& a, const Bearer& b) {
    return a.width == b.width && a.body == b.body && a.seat == b.seat && a.ballast == b.ballast && a.zones == b.zones &&
           a.under_sleeper_pad == b.under_sleeper_pad && a.voids == b.voids && a.lateral == b.lateral;
  };
  chain.coordinate.push_back(0);
  chain.link.push_back(0);
  for (const Bearer& bearer : chain.model.bearers) {
    const auto known = std::find_if(made.begin(), made.end(), [&](const Bearer* b) { return alike(*b, bearer); });
    const auto kind = static_cast<int>(known - made.begin());
    if (known == made.end()) {
      made.push_back(&bearer);
      chain.bearer_kind.push_back(detail::make_bearer(bearer));
    }
    chain.bearer.push_back(kind);
    chain.coordinate.push_back(chain.coordinate.back() + chain.bearer_kind[kind].n);
    chain.link.push_back(chain.link.back() + static_cast<int>(chain.bearer_kind[kind].links.size()));
  }
}

} // namespace

std::shared_ptr<const Chain> make_chain(const Model& model) {
  check(model);
  auto chain = std::make_shared<Chain>();
  chain->model = model;
  chain->rails = static_cast<int>(model.rails.size());
  chain->lines = is_lateral(model) ? 2 * chain->rails : chain->rails;
  chain->seat.reserve(model.bearers.size());
  for (const Bearer& bearer : model.bearers) {
    chain->seat.push_back(bearer.x);
  }
  add_bays(*chain);
  add_bearers(*chain);
  chain->dead_shortening.assign(chain->links(), 0.0);
  chain->dead_force.assign(chain->links(), 0.0);
  if (chain->links() > 0 && model.gravity > 0.0) {
    detail::settle(*chain);
  }
  return chain;
}

int detail::line_of(const Chain& chain, int rail, Plane plane) {
  if (plane == Plane::vertical) {
    return rail;
  }
  if (chain.lines == chain.rails) {
    throw InputError("lateral motion of the track", "asked for", "a track that is described laterally",
                     "Give rails, seats and bearers their lateral values.");
  }
  return chain.rails + rail;
}

RailPoint rail_point(const Chain& chain, int rail, double x, Plane plane) {
  if (rail < 0 || rail >= chain.rails) {
    throw InputError("rail", std::to_string(rail + 1), "1 to " + std::to_string(chain.rails), "Count rails from 1.");
  }
  if (!(x >= chain.begin() && x <= chain.end())) {
    throw InputError("station on the track", number(x) + " m",
                     number(chain.begin()) + " to " + number(chain.end()) + " m", "Lengthen the track or stay on it.");
  }
  RailPoint p;
  p.rail = rail;
  p.line = detail::line_of(chain, rail, plane);
  p.x = x;
  p.bay = static_cast<int>(std::upper_bound(chain.seat.begin() + 1, chain.seat.end() - 1, x) - chain.seat.begin()) - 1;
  p.inside = x - chain.seat[p.bay];
  const RailBay& bay = chain.bay_of(p.bay, p.line);
  const std::vector<BayPiece>& pieces = bay.piece;
  std::size_t i = 0;
  while (i + 1 < pieces.size() && p.inside >= pieces[i + 1].begin) {
    ++i;
  }
  const BayPiece& piece = pieces[i];
  const double at = std::clamp(2.0 * (p.inside - piece.begin) / piece.length - 1.0, -1.0, 1.0);
  const Eigen::Matrix<double, 4 + most_modes, 1> shape = piece.w.transpose() * detail::functions<BayPiece::degree>(at);
  p.boundary = shape.head<4>();
  p.modal = shape.tail<most_modes>();
  double held = piece.held[6];
  for (int power = 5; power >= 0; --power) {
    held = held * at + piece.held[power];
  }
  for (int j = 0; j < bay.modes; ++j) {
    held -= p.modal[j] * p.modal[j] / bay.stiffness[j];
  }
  p.residual = std::max(held, 0.0);
  return p;
}

Model one_rail(const Track& track) {
  const Assembly a = laid_out(track);
  Model m;
  m.rails.push_back({track.rail, track.zones});
  m.rail_loss = track.rail_loss;
  for (std::size_t j = 0; j < a.seat.size(); ++j) {
    const Seat& seat = a.seat[j];
    Bearer bearer;
    bearer.x = a.seat_station[j];
    bearer.width = std::min(bearer.width, track.spacing);
    bearer.body = LumpedBearer{seat.bearer_mass};
    bearer.seat.push_back({0.0, {seat.pad_stiffness, seat.pad_damping, seat.pad_loss}});
    bearer.ballast = {seat.ballast_stiffness, seat.ballast_damping, seat.ballast_loss};
    m.bearers.push_back(std::move(bearer));
  }
  return m;
}

} // namespace wingnose::track::chain
