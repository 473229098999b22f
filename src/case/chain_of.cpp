// The track of a case as a chain of bays: which bearers lie where, and what is on and under them.
#include "wingnose/case/case.hpp"

#include "wingnose/numeric/overloaded.hpp"
#include "wingnose/track/assembly.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace wingnose::cases {
namespace {

namespace chain = track::chain;
constexpr double rounding = 1e-9; // m

// A bearer that will be built, with what it is made of.
struct Lying {
  double x;
  Bearer shape;
  track::Seat seat;
  std::optional<double> gap = std::nullopt; // m, under all of it
};

template <class Bearers> auto nearest(Bearers& bearers, double station) {
  return std::min_element(bearers.begin(), bearers.end(), [&](const auto& a, const auto& b) {
    return std::abs(a.x - station) < std::abs(b.x - station);
  });
}

// A bearer a key speaks of by its station.
template <class T> T& meant(std::vector<T>& bearers, double station, double spacing, const std::string& key) {
  T& found = *nearest(bearers, station);
  if (std::abs(found.x - station) > 0.5 * spacing + rounding) {
    throw InputError(key, number(station) + " m",
                     "on the track, " + number(bearers.front().x) + " to " + number(bearers.back().x) + " m",
                     "Name a station of the modelled track, or add bays.");
  }
  return found;
}

// Bearers of a list take the place of the even ones as far as the list reaches; beyond, even spacing goes on from its
// ends.
std::vector<Lying> listed(const Track& t, const std::vector<Lying>& even) {
  const std::vector<PlacedBearer>& list = t.bearers.placed;
  const double first = list.front().station, last = list.back().station;
  const double begin = even.front().x, end = even.back().x;
  if (last < begin || first > end) {
    throw InputError("track.bearers.csv", "bearers from " + number(first) + " to " + number(last) + " m",
                     "some on the modelled track, " + number(begin) + " to " + number(end) + " m",
                     "Stations count from the theoretical intersection, in mm.");
  }
  std::vector<Lying> found;
  const auto copy_at = [&](double x) {
    Lying one = *nearest(even, x);
    one.x = x;
    return one;
  };
  for (double x = first - t.spacing; x > begin - 0.5 * t.spacing; x -= t.spacing) {
    found.insert(found.begin(), copy_at(x));
  }
  for (const PlacedBearer& p : list) {
    if (p.station < begin - 0.5 * t.spacing || p.station > end + 0.5 * t.spacing) {
      continue; // of a list that reaches further than the track that is modelled
    }
    Lying& one = found.emplace_back(copy_at(p.station));
    one.shape.length = p.length.value_or(one.shape.length);
    one.shape.offset = p.offset.value_or(one.shape.offset);
    one.seat.pad_stiffness = p.pad_stiffness.value_or(one.seat.pad_stiffness);
    one.seat.ballast_stiffness = p.ballast_stiffness.value_or(one.seat.ballast_stiffness);
    one.seat.bearer_mass = p.mass.value_or(one.seat.bearer_mass);
    one.gap = p.gap;
  }
  for (double x = last + t.spacing; x < end + 0.5 * t.spacing; x += t.spacing) {
    found.push_back(copy_at(x));
  }
  return found;
}

std::vector<Lying> lying(const Track& t, const track::Track& laid) {
  const track::Assembly a = track::laid_out(laid);
  std::vector<Lying> bearers;
  for (std::size_t j = 0; j < a.seat.size(); ++j) {
    bearers.push_back({a.seat_station[j], t.bearers.all, a.seat[j]});
  }
  for (const OtherBearer& other : t.bearers.other) {
    meant(bearers, other.station, t.spacing, "track.bearer.station_m").shape = other.bearer;
  }
  return t.bearers.placed.empty() ? bearers : listed(t, bearers);
}

chain::Pad pad_of(const Lying& b) {
  return {.stiffness = b.seat.pad_stiffness,
          .damping = b.seat.pad_damping,
          .loss = b.seat.pad_loss,
          .knee = b.shape.pad_knee,
          .stiffness_beyond = b.shape.pad_beyond,
          .clip_load = b.shape.clip_load};
}

// spread: 1/m, of a seat's share over the metres it stands for; 1 under a lumped bearer.
chain::Ballast ballast_of(const Lying& b, double spread) {
  return {.stiffness = spread * b.seat.ballast_stiffness,
          .damping = spread * b.seat.ballast_damping,
          .loss = b.seat.ballast_loss,
          .knee = b.shape.ballast_knee,
          .stiffness_beyond = spread * b.shape.ballast_beyond,
          .unilateral = b.shape.unilateral};
}

chain::Bearer built(const Track& t, const Lying& b) {
  const bool bending = t.bearers.kind == BearerKind::bending;
  const double half = 0.5 * t.bearers.all.length; // m, what the values of a seat stand for
  const double spread = bending ? 1.0 / half : 1.0;
  chain::Bearer bearer;
  bearer.x = b.x;
  bearer.width = b.shape.width;
  if (bending) {
    bearer.body = chain::BeamBearer{.from = b.shape.offset - 0.5 * b.shape.length,
                                    .to = b.shape.offset + 0.5 * b.shape.length,
                                    .mass_per_m = spread * b.seat.bearer_mass,
                                    .EI = b.shape.EI,
                                    .depth = b.shape.depth};
  } else {
    bearer.body = chain::LumpedBearer{b.seat.bearer_mass, half};
  }
  bearer.seat.push_back({0.5 * t.rail_distance, pad_of(b)});
  if (has_two_rails(t)) {
    bearer.seat.push_back({-0.5 * t.rail_distance, pad_of(b)});
  } else {
    bearer.seat.front().y = 0.0;
  }
  bearer.ballast = ballast_of(b, spread);
  if (b.shape.under_sleeper_pad) {
    const double area = b.shape.width * (bending ? 1.0 : half); // m2 per metre of bearer, or under a seat
    bearer.under_sleeper_pad =
        chain::UnderSleeperPad{*b.shape.under_sleeper_pad * area, b.shape.under_sleeper_damping * area};
  }
  if (b.gap && *b.gap > 0.0) {
    bearer.voids = {{b.shape.offset - b.shape.length, b.shape.offset + b.shape.length, *b.gap}};
  }
  return bearer;
}

void add_voids(chain::Model& model, const Track& t) {
  for (const VoidBelow& v : t.voids) {
    chain::Bearer& bearer = meant(model.bearers, v.station, t.spacing, "track.void.station_m");
    const auto* beam = std::get_if<chain::BeamBearer>(&bearer.body);
    const chain::Void added{v.from.value_or(beam ? beam->from : -1.0), v.to.value_or(beam ? beam->to : 1.0), v.gap};
    const bool overlaps = std::any_of(bearer.voids.begin(), bearer.voids.end(),
                                      [&](const chain::Void& o) { return o.from < added.to && added.from < o.to; });
    if (overlaps) {
      throw InputError("track.void.station_m", number(v.station) + " m", "one void under a place of a bearer",
                       "The bearer at " + number(bearer.x) + " m has one there already; remove one of them.");
    }
    bearer.voids.push_back(added);
  }
}

} // namespace

track::Track laid(const Track& t, double from, double to) {
  track::Track track = track::covering(track_of(t), from, to);
  if (t.variation.ballast == 0.0 && t.variation.pad == 0.0) {
    return track;
  }
  const track::Assembly a = track::laid_out(track);
  track.overrides.clear();
  for (std::size_t j = 0; j < a.seat.size(); ++j) {
    const Factors f = drawn(t.variation, a.seat_station[j], t.first_seat, t.spacing);
    track::Seat seat = a.seat[j];
    seat.pad_stiffness *= f.pad;
    seat.pad_damping *= f.pad;
    seat.ballast_stiffness *= f.ballast;
    seat.ballast_damping *= f.ballast;
    track.overrides.push_back({a.seat_station[j], seat});
  }
  return track;
}

chain::Model chain_of(const Track& t, double from, double to) {
  const track::Track track = laid(t, from, to);
  chain::Model model;
  model.rails.push_back({track.rail, track.zones});
  if (has_two_rails(t)) {
    model.rails.push_back({track.rail, {}}); // castings belong to the crossing
  }
  model.rail_loss = track.rail_loss;
  for (const Lying& bearer : lying(t, track)) {
    model.bearers.push_back(built(t, bearer));
  }
  add_voids(model, t);
  return model;
}

} // namespace wingnose::cases
