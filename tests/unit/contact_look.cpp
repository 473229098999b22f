#include "catch.hpp"

#include "wingnose/contact/path/wheel_path.hpp"
#include "wingnose/contact/search/held_wheel.hpp"
#include "wingnose/contact/search/look.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <string>
#include <type_traits>
#include <vector>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

const profile::WheelProfile s1002 = profile::s1002();
const WheelSurface wheel(s1002, 0.46);

GapLine search(const WheelSurface& w, const layout::Body& body, const WheelPlace& place) {
  GapLine line;
  look(w, body, place, line);
  return line;
}

layout::Body rail_60e1() { return layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0))); }

// Least gap, between columns by the parabola through three.
double least_gap(const GapLine& line) {
  const auto k = static_cast<std::size_t>(line.top);
  if (k == 0 || line.top + 1 == line.count) {
    return line.gap[k];
  }
  const double bend = line.gap[k - 1] - 2.0 * line.gap[k] + line.gap[k + 1], rise = line.gap[k + 1] - line.gap[k - 1];
  return line.gap[k] - 0.125 * rise * rise / bend;
}

// First touch found the slow way, by trying every place of the true surfaces: height of the taping circle's bottom.
double touch_by_trial(const layout::Body& body, const WheelPlace& at) {
  double top = -std::numeric_limits<double>::infinity();
  std::visit(
      [&](const auto& b) {
        const auto height = [&](double xi, double y) {
          const double x = at.station + xi, eta = y - b.edge(x);
          const double along = xi + at.yaw * (y - at.lateral), s = y - at.lateral - at.yaw * xi;
          if (x < b.x_begin() || x > b.x_end() || eta < 0.0 || eta > b.width(x)) {
            return -1.0;
          }
          const double R = wheel.radius() + s1002.height(s);
          return b.height(x, eta) + s1002.height(s) + std::sqrt(R * R - along * along) - R;
        };
        double best_xi = 0.0, best_y = 0.0, step = 0.0005;
        for (double xi = -0.03; xi <= 0.03; xi += 0.001) {
          for (double y = at.lateral - 0.030; y <= at.lateral + 0.060; y += step) {
            if (const double z = height(xi, y); z > top) {
              top = z;
              best_xi = xi;
              best_y = y;
            }
          }
        }
        for (; step > 1e-7; step *= 0.7) { // climb to the top from there
          for (const double dx : {-step, 0.0, step}) {
            for (const double dy : {-step, 0.0, step}) {
              if (const double z = height(best_xi + dx, best_y + dy); z > top) {
                top = z;
                best_xi += dx;
                best_y += dy;
              }
            }
          }
        }
      },
      body.surface);
  return top;
}

std::string refusal(const std::function<void()>& work) {
  try {
    work();
  } catch (const InputError& error) {
    return error.what();
  }
  return "";
}

} // namespace

TEST_CASE("The search finds the wheel at the height that trying every place of wing and nose finds") {
  const auto c = layout::generate({});
  for (const layout::Body& body : c.bodies) {
    for (const double yaw : {0.0, 0.008}) {
      for (const double x : body.role == layout::Role::wing ? std::vector{-1.1, -0.66, -0.5, -0.2, 0.1, 0.4}
                                                            : std::vector{0.25, 0.4, 0.55, 0.75, 1.1}) {
        const WheelPlace place{.station = x, .lateral = taping_line_y + 0.001, .yaw = yaw};
        const GapLine line = search(wheel, body, place);
        CAPTURE(body.name, yaw, x);
        CHECK(std::abs(line.level - touch_by_trial(body, place)) < 1e-8);
        CHECK(std::abs(least_gap(line) + line.level) < 1e-7); // columns a quarter of a millimetre apart
      }
    }
  }
}

TEST_CASE("At every column the gap is the least over the wheel's circle, over wing and nose and at the nose's begin") {
  const auto c = layout::generate({});
  for (const double x : {-0.66, 0.12, 0.2, 0.42, 0.9}) {
    for (const layout::Body& body : c.bodies) {
      const GapLine line = search(wheel, body, {.station = x, .lateral = taping_line_y});
      for (int i = 0; i < line.count; i += 3) {
        const auto k = static_cast<std::size_t>(i);
        const double clear = line.gap[k] + line.level; // m, over first touch
        if (clear > 4e-4) {
          continue;
        }
        const double s = line.wheel_first + line.spacing * i, R = 0.46 + s1002.height(s), y = line.y(i);
        double least = std::numeric_limits<double>::infinity();
        std::visit(
            [&](const auto& b) {
              for (double xi = -0.057; xi <= 0.057; xi += 1e-5) {
                if (x + xi >= b.x_begin() && x + xi <= b.x_end()) {
                  const double z = b.height(x + xi, y - b.edge(x + xi));
                  least = std::min(least, R - std::sqrt(R * R - xi * xi) - s1002.height(s) - z);
                }
              }
            },
            body.surface);
        CAPTURE(body.name, x, y, line.dx[k]);
        // The trial misses its least by up to 1e-10 m; a parabola through a centimetre of a skew edge by more the
        // farther the place lies from where the wheel touches.
        CHECK(std::abs(line.gap[k] - least) < (clear < 1e-4 ? 1.5e-7 : 1e-6));
      }
    }
  }
}

TEST_CASE("Looking only near the last touching point finds what looking everywhere finds") {
  const auto c = layout::generate({});
  for (const layout::Body& body : c.bodies) {
    for (const auto& [roll, yaw] : {std::pair{0.0, 0.0}, std::pair{0.002, 0.006}, std::pair{-0.003, -0.004}}) {
      for (const double x :
           body.role == layout::Role::wing ? std::vector{-1.1, -0.5, 0.1, 0.4} : std::vector{0.25, 0.4, 0.75, 1.1}) {
        const WheelPlace place{.station = x, .lateral = taping_line_y + 0.001, .roll = roll, .yaw = yaw};
        const GapLine all = search(wheel, body, place);
        for (const double off : {0.0, 0.003, -0.006}) {
          GapLine near;
          look_near(wheel, body, place, all.dx[static_cast<std::size_t>(all.top)] + off, near);
          CAPTURE(body.name, x, roll, yaw, off);
          REQUIRE(near.count > 0);
          CHECK(std::abs(near.level - all.level) < 1.5e-7);
          CHECK(std::abs(near.y(near.top) - all.y(all.top)) < 1.5 * all.spacing);
        }
      }
    }
  }
}

TEST_CASE("The other wheel of a wheelset meets a mirrored body as this wheel meets its own") {
  const auto c = layout::generate({});
  layout::Body other = c.bodies[1];
  other.side = layout::Side::opposite;
  const double shift = 0.002, roll = 0.001, yaw = 0.004;
  const GapLine here =
      search(wheel, c.bodies[1], {.station = 0.6, .lateral = taping_line_y + shift, .roll = roll, .yaw = yaw});
  const GapLine there =
      search(wheel, other, {.station = 0.6, .lateral = -(taping_line_y + shift), .roll = -roll, .yaw = -yaw});
  REQUIRE(here.count > 0);
  CHECK(there.level == here.level);
  CHECK(there.count == here.count);
  CHECK(there.gap[static_cast<std::size_t>(there.top)] == here.gap[static_cast<std::size_t>(here.top)]);
  const HeldWheel held(s1002, {c.bodies[1], other}, {.lateral_offset = shift}, {0.5, 0.7});
  const HeldWheel mirrored(s1002, {c.bodies[1], other}, {.lateral_offset = -shift}, {0.5, 0.7});
  CHECK(held.touch(0, 0.6).height == mirrored.touch(1, 0.6).height);
  CHECK(held.touch(1, 0.6).height == mirrored.touch(0, 0.6).height);
  CHECK(held.touch(0, 0.6).height != held.touch(1, 0.6).height);
}

TEST_CASE("A path of the wheel is the search tabulated") {
  const auto c = layout::generate({});
  const auto path = contact::roll(c, s1002, {.from = -1.0, .to = 1.0, .pitch = 0.02});
  for (std::size_t b = 0; b < 2; ++b) {
    const contact::BodyPath& rolled = path.bodies[b];
    for (std::size_t i = 0; i < path.station.size(); i += 7) {
      const double top = std::max(path.bodies[0].height[i], path.bodies[1].height[i]);
      if (!(rolled.height[i] > top - 0.002)) {
        continue;
      }
      const GapLine line = search(wheel, c.bodies[b], {.station = path.station[i], .lateral = taping_line_y});
      const Patches found = find_patches(line, line.level - 1e-6);
      const ContactPatch& p = *std::max_element(found.patch.begin(), found.patch.begin() + found.count,
                                                [](auto& m, auto& n) { return m.approach < n.approach; });
      CAPTURE(rolled.name, path.station[i]);
      CHECK(std::abs(line.level - rolled.height[i]) < 1e-9);
      CHECK(std::abs(p.dx - rolled.contact_dx[i]) < 0.2e-3);
      CHECK(std::abs(std::tan(p.angle) - std::tan(rolled.angle[i])) < 2e-3);
      // Where the gap is wide open the place is ill-defined, but never by more than the gap allows.
      CHECK(std::abs(p.y - rolled.contact_y[i]) < 0.5e-3);
    }
  }
}

TEST_CASE("A yawed wheel touches ahead of its axle by radius times yaw times the slope of the contact") {
  const layout::Body rail = rail_60e1();
  for (const double lateral : {-0.003, 0.004, 0.006}) {
    for (const double yaw : {-0.01, 0.01}) {
      const GapLine line = search(wheel, rail, {.lateral = taping_line_y + lateral, .yaw = yaw});
      const ContactPatch p = find_patches(line, line.level - 1e-6).patch[0];
      // The wheel's slope rises away from the rail's side; xi = -R yaw dh/dy - yaw s.
      const double R = 0.46 + s1002.height(p.wheel_y);
      const double expected = yaw * (R * std::tan(p.angle) - p.wheel_y);
      CAPTURE(lateral, yaw);
      CHECK(p.dx == Approx(expected).epsilon(0.02));
    }
  }
}

TEST_CASE("Rolling a cone by the difference of two conicities makes it touch as the other cone does") {
  const layout::Body rail = rail_60e1();
  const WheelSurface steep(profile::cone(1.0 / 20.0), 0.46), flat(profile::cone(1.0 / 40.0), 0.46);
  const GapLine a = search(steep, rail, {.lateral = taping_line_y, .roll = -1.0 / 40.0});
  const GapLine b = search(flat, rail, {.lateral = taping_line_y});
  const ContactPatch p = find_patches(a, a.level - 1e-5).patch[0], q = find_patches(b, b.level - 1e-5).patch[0];
  CHECK(p.angle == Approx(q.angle).margin(2e-4)); // second order: roll * conicity^2
  CHECK(p.y == Approx(q.y).margin(1e-4));
  CHECK(a.level == Approx(b.level).margin(2e-6));
}

TEST_CASE("On plain rail the curvatures found are those of wheel and rail at the touching point") {
  const layout::Body rail = rail_60e1();
  const auto plain = contact::plain_contact(s1002, profile::rail_head("60E1", std::atan(1.0 / 40.0)), 0.46);
  const GapLine line = search(wheel, rail, {.lateral = taping_line_y});
  const ContactPatch p = find_patches(line, line.level - 1e-6).patch[0];
  CHECK(p.curvature_x == Approx(plain.curvature_x).epsilon(1e-4));
  CHECK(p.angle == Approx(plain.angle).margin(1e-4));
  const Touch touch = HeldWheel(s1002, {rail}, {}, {0.0, 0.0}).touch(0, 0.0);
  CHECK(touch.local_curvature_y == Approx(plain.curvature_y).epsilon(1e-9));
  CHECK(touch.curvature_x == Approx(plain.curvature_x).epsilon(1e-9));
  CHECK(touch.angle == Approx(plain.angle).epsilon(1e-9));
}

TEST_CASE("A hollow wheel pressed on a rail shows a patch on either side of its hollow") {
  const auto worn = profile::hollow_worn(s1002, {.depth = 0.002, .width = 0.030, .centre = 0.003});
  const WheelSurface hollow(worn, 0.46);
  const layout::Body rail = rail_60e1();
  // Somewhere in the shifts of a wheelset both rims of the hollow bear at once.
  int most = 0;
  for (double shift = -0.004; shift <= 0.004; shift += 0.00025) {
    const GapLine line = search(hollow, rail, {.lateral = taping_line_y + shift});
    const Patches found = find_patches(line, line.level - 150e-6);
    most = std::max(most, found.count);
    CHECK(found.complete);
    for (int i = 0; i + 1 < found.count; ++i) {
      CHECK(found.patch[static_cast<std::size_t>(i)].to < found.patch[static_cast<std::size_t>(i) + 1].from);
    }
    for (const ContactPatch& p : found.list()) {
      CHECK(p.approach > 0.0);
      CHECK(p.from < p.y);
      CHECK(p.y < p.to);
    }
  }
  CHECK(most == 2);
}

TEST_CASE("When more patches are found than can be told, the deepest are kept and it is said") {
  GapLine line;
  line.count = 400;
  line.spacing = column_spacing;
  line.level = 0.0;
  for (int i = 0; i < line.count; ++i) { // ten dips, each deeper than the one before
    const auto k = static_cast<std::size_t>(i);
    line.gap[k] = 50e-6 * (1.0 + std::cos(2.0 * std::numbers::pi * i / 40.0)) - 1e-8 * i;
    line.dx[k] = line.slope[k] = 0.0;
    line.curvature_x[k] = 2.0;
    line.radius[k] = 0.46;
  }
  const Patches found = find_patches(line, -10e-6);
  CHECK_FALSE(found.complete);
  REQUIRE(found.count == static_cast<int>(Patches::capacity));
  CHECK(found.patch.front().y == Approx(100 * column_spacing).margin(column_spacing)); // the first two are left out
  CHECK(found.patch.back().y == Approx(380 * column_spacing).margin(column_spacing));
}

TEST_CASE("A wheel clear of a body or beyond it has no patch and no height of touch") {
  const auto c = layout::generate({});
  const layout::Body& nose = c.bodies[1];
  const GapLine far = search(wheel, nose, {.station = -0.5, .lateral = taping_line_y});
  CHECK(far.count == 0);
  CHECK(far.level == -std::numeric_limits<double>::infinity());
  CHECK(find_patches(far, 0.0).count == 0);
  const GapLine over = search(wheel, nose, {.station = 0.6, .lateral = taping_line_y});
  CHECK(find_patches(over, over.level + 1e-9).count == 0);
  CHECK(find_patches(over, over.level - 1e-5).count == 1);
  static_assert(std::is_trivially_copyable_v<GapLine> && std::is_trivially_copyable_v<Patches>);
}

TEST_CASE("A search that cannot be meant is refused with the value and the range") {
  const layout::Body rail = rail_60e1();
  GapLine line;
  CHECK_THROWS_AS(look(wheel, rail, {.lateral = taping_line_y, .yaw = 0.2}, line), InputError);
  CHECK_THROWS_AS(look(wheel, rail, {.lateral = taping_line_y, .roll = -0.3}, line), InputError);
  CHECK_THROWS_AS(look(wheel, rail, {.lateral = std::nan("")}, line), InputError);
  CHECK(refusal([&] { const WheelSurface w(s1002, 0.92e3); }).find("radius") != std::string::npos);
  CHECK_THROWS_AS(WheelSurface(s1002, 0.46, 0.0), InputError);
  CHECK(refusal([&] { const WheelSurface w(s1002, 0.46, 5e-5); }).find("columns") != std::string::npos);
}
