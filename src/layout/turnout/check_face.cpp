#include "wingnose/layout/turnout/check_face.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::layout::turnout {
namespace {

// y of the disc at a station.
double disc_at(const BackDisc& disc, double axle, double x) { return disc.y + disc.yaw * (x - axle); }

// A move in -x is one in +x over the mirrored face.
CheckFace turned(const CheckFace& face) {
  CheckFace other{{}, {face.width.rbegin(), face.width.rend()}, face.top};
  std::transform(face.x.rbegin(), face.x.rend(), std::back_inserter(other.x), [](double x) { return -x; });
  return other;
}

class Earliest {
public:
  void take(double axle, double where) {
    if (!found_ || axle < found_->axle) {
      found_ = Meeting{axle, where};
    }
  }
  [[nodiscard]] const std::optional<Meeting>& found() const { return found_; }

private:
  std::optional<Meeting> found_;
};

// An end of the chord keeps its y: it comes into the face where that has narrowed to it. ahead: of the axle.
void meet_with_end(const CheckFace& face, double y, double ahead, Earliest& earliest) {
  if (y >= face.width.front()) {
    earliest.take(face.begin() - ahead, face.begin());
    return;
  }
  for (std::size_t i = 1; i < face.x.size(); ++i) {
    if (y >= face.width[i]) {
      const double share = (face.width[i - 1] - y) / (face.width[i - 1] - face.width[i]);
      const double where = face.x[i - 1] + share * (face.x[i] - face.x[i - 1]);
      earliest.take(where - ahead, where);
      return;
    }
  }
}

// A corner of the face is reached from inside the chord where the disc comes nearer as it moves on: with its rear end
// towards the face.
void meet_with_corners(const CheckFace& face, const BackDisc& disc, Earliest& earliest) {
  if (disc.yaw >= 0.0) {
    return;
  }
  for (std::size_t i = 0; i < face.x.size(); ++i) {
    const double behind = (disc.y - face.width[i]) / disc.yaw; // of the axle to the corner
    if (std::abs(behind) <= disc.half_chord) {
      earliest.take(face.x[i] + behind, face.x[i]);
    }
  }
}

} // namespace

double CheckFace::at(double station) const {
  if (station < begin() || station > end()) {
    return std::numeric_limits<double>::infinity();
  }
  const auto right = std::max(std::upper_bound(x.begin(), x.end() - 1, station), x.begin() + 1);
  const std::size_t i = static_cast<std::size_t>(right - x.begin());
  return width[i - 1] + (width[i] - width[i - 1]) * (station - x[i - 1]) / (x[i] - x[i - 1]);
}

CheckFace check_face(const CheckRail& rail, double width) {
  const double flared = width + rail.flare_length * std::tan(rail.flare);
  const double open = flared + rail.end_flare_length * std::tan(rail.end_flare);
  const double begin = rail.begin, end = rail.begin + rail.length;
  CheckFace face{{}, {}, rail.height};
  const auto add = [&](double x, double w) {
    if (face.x.empty() || x > face.x.back()) { // a flare of no length adds no corner
      face.x.push_back(x);
      face.width.push_back(w);
    }
  };
  add(begin - rail.flare_length - rail.end_flare_length, open);
  add(begin - rail.flare_length, flared);
  add(begin, width);
  add(end, width);
  add(end + rail.flare_length, flared);
  add(end + rail.flare_length + rail.end_flare_length, open);
  return face;
}

Guide check_rail(const Turnout& turnout, const Faces& faces) {
  return {"check rail", Role::check, Side::opposite, check_face(turnout.check_rail, faces.check)};
}

double half_chord(double rolling, double tip, double height) {
  const double down = rolling - height; // below the axle
  return down < tip ? std::sqrt(tip * tip - down * down) : 0.0;
}

std::optional<Depth> depth(const CheckFace& face, const BackDisc& disc, double axle) {
  const double from = std::max(face.begin(), axle - disc.half_chord), to = std::min(face.end(), axle + disc.half_chord);
  if (from > to) {
    return std::nullopt;
  }
  Depth deepest{-std::numeric_limits<double>::infinity(), from};
  const auto look = [&](double x) {
    const double d = disc_at(disc, axle, x) - face.at(x);
    if (d > deepest.depth) {
      deepest = {d, x};
    }
  };
  look(from);
  look(to);
  for (const double corner : face.x) {
    if (corner > from && corner < to) {
      look(corner);
    }
  }
  return deepest;
}

std::optional<Meeting> first_contact(const CheckFace& face, const BackDisc& disc, Direction direction) {
  if (direction == Direction::trailing) {
    auto met = first_contact(turned(face), {disc.y, -disc.yaw, disc.half_chord}, Direction::facing);
    return met ? std::optional(Meeting{-met->axle, -met->where}) : std::nullopt;
  }
  Earliest earliest;
  meet_with_end(face, disc.y + disc.yaw * disc.half_chord, disc.half_chord, earliest);
  meet_with_end(face, disc.y - disc.yaw * disc.half_chord, -disc.half_chord, earliest);
  meet_with_corners(face, disc, earliest);
  return earliest.found();
}

} // namespace wingnose::layout::turnout
