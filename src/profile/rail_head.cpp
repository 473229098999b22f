#include "wingnose/profile/rail.hpp"

#include "wingnose/words/constants.hpp"
#include "wingnose/words/error.hpp"

#include <Eigen/Core>
#include <Eigen/Geometry>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace wingnose::profile {
namespace {

using Point = Eigen::Vector2d; // y, z in mm, upright head, top-centre at the origin

constexpr double side_slope = 1.0 / 20.0; // of the side faces, outward per unit of depth
constexpr double side_depth = 30.0;       // mm below the top; the vertical part of all these heads reaches further
constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

// As printed on the drawings of EN 13674-1 (recalled): radii, half-widths of the breaks between arcs where known, and
// the head width measured at a depth below the top.
struct Drawing {
  std::string_view name;
  double crown, shoulder, corner;   // mm, radii
  double crown_half, shoulder_half; // mm, half-widths where crown and shoulder end; NaN: not known
  double width, depth;              // mm, head width at this depth
  std::string_view status;
};

constexpr std::array drawings{
    Drawing{"60E1", 300.0, 80.0, 13.0, 20.456 / 2.0, 52.053 / 2.0, 72.0, 14.3, "verified"},
    Drawing{"54E1", 300.0, 80.0, 13.0, 20.024 / 2.0, 49.727 / 2.0, 70.0, 14.1, "verified"},
    Drawing{"60E2", 200.0, 70.0, 13.0, 20.456 / 2.0, unknown, 72.0, 14.3,
            "from memory: radii and crown width recalled, shoulder width from the head width"},
    Drawing{"56E1", 12.0 * 25.4, 3.125 * 25.4, 0.5 * 25.4, unknown, unknown, 2.75 * 25.4, 14.0,
            "from memory: radii and head width recalled, break points from tangency"},
    Drawing{"49E1", 300.0, 80.0, 13.0, unknown, unknown, 67.0, 14.0,
            "from memory: radii and head width recalled, break points from tangency"},
};

// Where circles of radius ra about a and rb about b cross, on the left of the way from a to b.
Point crossing_left(const Point& a, double ra, const Point& b, double rb, std::string_view name) {
  const Point ab = b - a;
  const double d = ab.norm(), along = (d * d + ra * ra - rb * rb) / (2.0 * d), h2 = ra * ra - along * along;
  if (!(h2 >= 0.0)) {
    throw ComputeError("the arcs of rail head " + std::string(name) + " do not meet; its radii and widths disagree.");
  }
  const Point left(-ab.y(), ab.x());
  return a + (along * ab + std::sqrt(h2) * left) / d;
}

// Right half of the head, from the top outwards: tangent arcs share a tangent where they meet, so the centre of the
// next arc lies on the line from the meeting point to the centre of the arc before.
struct Half {
  std::array<Point, 3> centre; // crown, shoulder, corner
  std::array<double, 3> radius;
  std::array<Point, 4> end; // end of crown, shoulder, corner (tangent to the side face), side face
};

Half construct(const Drawing& d) {
  Half half;
  half.radius = {d.crown, d.shoulder, d.corner};
  const auto on_arc = [&](std::size_t k, double y) {
    const double dy = y - half.centre[k].x();
    return Point(y, half.centre[k].y() + std::sqrt(half.radius[k] * half.radius[k] - dy * dy));
  };
  const auto next_centre = [&](std::size_t k) { // from the end of arc k towards its centre, by the next radius
    return Point(half.end[k] + (half.centre[k] - half.end[k]) * (half.radius[k + 1] / half.radius[k]));
  };
  const auto meeting = [&](std::size_t k) { // where arc k and its follower touch
    return Point(half.centre[k] + (half.centre[k + 1] - half.centre[k]).normalized() * half.radius[k]);
  };
  const Point side_normal = Point(1.0, side_slope).normalized();
  const Point width_point(d.width / 2.0, -d.depth);

  half.centre[0] = Point(0.0, -d.crown);
  if (std::isnan(d.crown_half)) { // the corner ends, tangent to the side face, exactly at the published width
    half.centre[2] = width_point - d.corner * side_normal;
    half.centre[1] = crossing_left(half.centre[0], d.crown - d.shoulder, half.centre[2], d.shoulder - d.corner, d.name);
    half.end[0] = meeting(0);
    half.end[1] = meeting(1);
  } else {
    half.end[0] = on_arc(0, d.crown_half);
    half.centre[1] = next_centre(0);
    if (std::isnan(d.shoulder_half)) { // the corner arc passes through the published width
      half.centre[2] = crossing_left(half.centre[1], d.shoulder - d.corner, width_point, d.corner, d.name);
      half.end[1] = meeting(1);
    } else {
      half.end[1] = on_arc(1, d.shoulder_half);
      half.centre[2] = next_centre(1);
    }
  }
  half.end[2] = half.centre[2] + d.corner * side_normal;
  half.end[3] = half.end[2] + (side_depth + half.end[2].y()) * Point(side_slope, -1.0);
  return half;
}

struct Stroke { // from left to right
  Point from, to, centre;
  double radius; // 0: straight
};

std::vector<Stroke> outline(const Half& half) {
  const auto mirror = [](const Point& p) { return Point(-p.x(), p.y()); };
  std::vector<Stroke> strokes;
  strokes.push_back({mirror(half.end[3]), mirror(half.end[2]), Point::Zero(), 0.0});
  for (std::size_t k = 2; k > 0; --k) {
    strokes.push_back({mirror(half.end[k]), mirror(half.end[k - 1]), mirror(half.centre[k]), half.radius[k]});
  }
  strokes.push_back({mirror(half.end[0]), half.end[0], half.centre[0], half.radius[0]});
  for (std::size_t k = 1; k < 3; ++k) {
    strokes.push_back({half.end[k - 1], half.end[k], half.centre[k], half.radius[k]});
  }
  strokes.push_back({half.end[2], half.end[3], Point::Zero(), 0.0});
  return strokes;
}

void turn(Stroke& s, const Eigen::Rotation2Dd& rotation) {
  s.from = rotation * s.from;
  s.to = rotation * s.to;
  s.centre = rotation * s.centre;
  if (s.radius > 0.0) { // an arc that has come to overhang is kept up to its vertical tangent
    if (s.from.y() < s.centre.y()) {
      s.from = s.centre - Point(s.radius, 0.0);
    }
    if (s.to.y() < s.centre.y()) {
      s.to = s.centre + Point(s.radius, 0.0);
    }
  }
}

double highest(const Stroke& s) {
  if (s.radius > 0.0 && s.from.x() <= s.centre.x() && s.centre.x() <= s.to.x()) {
    return s.centre.y() + s.radius;
  }
  return std::max(s.from.y(), s.to.y());
}

Piece piece(const Stroke& s, double shift) { // mm to m
  const double from = s.from.x() / 1000.0, to = s.to.x() / 1000.0;
  if (s.radius > 0.0) {
    return {
        from, to, Piece::Kind::arc_upper, {s.centre.x() / 1000.0, (s.centre.y() + shift) / 1000.0, s.radius / 1000.0}};
  }
  const double slope = (s.to.y() - s.from.y()) / (s.to.x() - s.from.x());
  return {from, to, Piece::Kind::polynomial, {(s.from.y() + shift) / 1000.0, slope}, from};
}

} // namespace

RailHead rail_head(std::string_view name, double inclination) {
  const auto drawing = std::find_if(drawings.begin(), drawings.end(), [&](const Drawing& d) { return d.name == name; });
  if (drawing == drawings.end()) {
    std::string known;
    for (const std::string& head : rail_head_names()) {
      known += (known.empty() ? "" : ", ") + head;
    }
    throw InputError("rail head", "\"" + std::string(name) + "\"", known, "Choose one of these.");
  }
  if (!std::isfinite(inclination) || std::abs(inclination) > 0.2) {
    throw InputError("inclination of rail head " + std::string(name), number(inclination) + " rad",
                     "-0.2 to 0.2 rad, for example 0.025 for 1:40",
                     "Give the angle by which the rail leans towards the track centre.");
  }

  std::vector<Stroke> strokes = outline(construct(*drawing));
  double top = -std::numeric_limits<double>::infinity();
  for (Stroke& s : strokes) {
    if (inclination != 0.0) {
      turn(s, Eigen::Rotation2Dd(inclination)); // counter-clockwise: the top goes to -y, the track centre
    }
    top = std::max(top, highest(s));
  }
  std::vector<Piece> pieces;
  for (const Stroke& s : strokes) { // a face that is vertical or overhangs is no function of y
    if (s.to.x() - s.from.x() > std::abs(s.to.y() - s.from.y()) / steepest_slope) {
      pieces.push_back(piece(s, -top));
    }
  }
  return {std::string(name), Curve(std::move(pieces)), std::string(drawing->status), inclination, -top / 1000.0};
}

std::vector<std::string> rail_head_names() {
  std::vector<std::string> names;
  names.reserve(drawings.size());
  for (const Drawing& d : drawings) {
    names.emplace_back(d.name);
  }
  return names;
}

double gauge_point(const RailHead& head) {
  const Curve& curve = head.curve;
  const double deep = -gauge_depth; // the highest point is 0
  constexpr int samples = 4000;
  double low = curve.front(), high = low;
  for (int i = 0; i <= samples; ++i) {
    high = curve.front() + (curve.back() - curve.front()) * i / samples;
    if (curve.value(high) >= deep) {
      break;
    }
    low = high;
  }
  for (int k = 0; k < 50 && high - low > 1e-12; ++k) {
    const double mid = 0.5 * (low + high);
    (curve.value(mid) < deep ? low : high) = mid;
  }
  return high;
}

} // namespace wingnose::profile
