#include "catch.hpp"

#include "wingnose/contact/patch_search.hpp"
#include "wingnose/layout/path.hpp"
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
const WheelTable wheel(s1002, 0.46);

GapLine search(const WheelTable& w, const BodyTable& body, const WheelPlace& place) {
  GapLine line;
  gap_line(w, body, place, line);
  return line;
}

BodyTable rail_60e1() { return BodyTable(profile::rail_head("60E1", std::atan(1.0 / 40.0))); }

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

TEST_CASE("The quick search finds the wheel at the height that trying every place of wing and nose finds") {
  const auto c = layout::generate({});
  for (const layout::Body& body : c.bodies) {
    const BodyTable table(body, -1.2, 1.2);
    for (const double yaw : {0.0, 0.008}) {
      for (const double x : body.name == "wing" ? std::vector{-1.1, -0.66, -0.5, -0.2, 0.1, 0.4}
                                                : std::vector{0.25, 0.4, 0.55, 0.75, 1.1}) {
        const WheelPlace place{.station = x, .lateral = taping_line_y + 0.001, .yaw = yaw};
        CAPTURE(body.name, yaw, x);
        // Half a micrometre: the table's cubics where the curvature jumps at the end of an edge's arc.
        CHECK(std::abs(search(wheel, table, place).level - touch_by_trial(body, place)) < 0.5e-6);
      }
    }
  }
}

TEST_CASE("The search agrees with the rolled path of the wheel over the crossing") {
  const auto c = layout::generate({});
  const auto path = layout::roll(c, s1002, {.from = -1.0, .to = 1.0, .pitch = 0.02});
  for (std::size_t b = 0; b < 2; ++b) {
    const BodyTable table(c.bodies[b], -1.0, 1.0);
    const layout::BodyPath& rolled = path.bodies[b];
    for (std::size_t i = 0; i < path.station.size(); i += 7) {
      const double top = std::max(path.bodies[0].height[i], path.bodies[1].height[i]);
      if (!(rolled.height[i] > top - 0.002)) {
        continue;
      }
      const GapLine line = search(wheel, table, {.station = path.station[i], .lateral = taping_line_y});
      const Patches found = find_patches(line, line.level - 1e-6);
      const ContactPatch& p = *std::max_element(found.patch.begin(), found.patch.begin() + found.count,
                                                [](auto& m, auto& n) { return m.approach < n.approach; });
      CAPTURE(rolled.name, path.station[i]);
      CHECK(std::abs(line.level - rolled.height[i]) < 0.5e-6);
      CHECK(std::abs(p.dx - rolled.contact_dx[i]) < 0.2e-3);
      CHECK(std::abs(std::tan(p.angle) - std::tan(rolled.angle[i])) < 2e-3);
      // Where the gap is wide open the place is ill-defined, but never by more than the gap allows.
      CHECK(std::abs(p.y - rolled.contact_y[i]) < 0.5e-3);
    }
  }
}

TEST_CASE("A yawed wheel touches ahead of its axle by radius times yaw times the slope of the contact") {
  const BodyTable rail = rail_60e1();
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
  const BodyTable rail = rail_60e1();
  const WheelTable steep(profile::cone(1.0 / 20.0), 0.46), flat(profile::cone(1.0 / 40.0), 0.46);
  const GapLine a = search(steep, rail, {.lateral = taping_line_y, .roll = -1.0 / 40.0});
  const GapLine b = search(flat, rail, {.lateral = taping_line_y});
  const ContactPatch p = find_patches(a, a.level - 1e-5).patch[0], q = find_patches(b, b.level - 1e-5).patch[0];
  CHECK(p.angle == Approx(q.angle).margin(2e-4)); // second order: roll * conicity^2
  CHECK(p.y == Approx(q.y).margin(1e-4));
  CHECK(a.level == Approx(b.level).margin(2e-6));
}

TEST_CASE("On plain rail the curvatures found are those of wheel and rail at the touching point") {
  const BodyTable rail = rail_60e1();
  const auto plain = layout::plain_contact(s1002, profile::rail_head("60E1", std::atan(1.0 / 40.0)), 0.46);
  const GapLine line = search(wheel, rail, {.lateral = taping_line_y});
  const ContactPatch p = find_patches(line, line.level - 1e-6).patch[0];
  CHECK(p.curvature_x == Approx(plain.curvature_x).epsilon(1e-4));
  CHECK(p.curvature_y == Approx(plain.curvature_y).epsilon(0.02)); // columns are a quarter of a millimetre apart
  CHECK(p.angle == Approx(plain.angle).margin(1e-4));
}

TEST_CASE("A hollow wheel pressed on a rail shows a patch on either side of its hollow") {
  const auto worn = profile::hollow_worn(s1002, {.depth = 0.002, .width = 0.030, .centre = 0.003});
  const WheelTable hollow(worn, 0.46);
  const BodyTable rail = rail_60e1();
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
    line.curvature_x[k] = line.curvature_y[k] = 2.0;
  }
  const Patches found = find_patches(line, -10e-6);
  CHECK_FALSE(found.complete);
  REQUIRE(found.count == static_cast<int>(Patches::capacity));
  CHECK(found.patch.front().y == Approx(100 * column_spacing).margin(column_spacing)); // the first two are left out
  CHECK(found.patch.back().y == Approx(380 * column_spacing).margin(column_spacing));
}

TEST_CASE("A wheel clear of a body or beyond it has no patch and no height of touch") {
  const auto c = layout::generate({});
  const BodyTable nose(c.bodies[1], 0.2, 1.0);
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
  const BodyTable rail = rail_60e1();
  GapLine line;
  CHECK_THROWS_AS(gap_line(wheel, rail, {.lateral = taping_line_y, .yaw = 0.2}, line), InputError);
  CHECK_THROWS_AS(gap_line(wheel, rail, {.lateral = taping_line_y, .roll = -0.3}, line), InputError);
  CHECK_THROWS_AS(gap_line(wheel, rail, {.lateral = std::nan("")}, line), InputError);
  CHECK(refusal([&] {
          gap_line(WheelTable(s1002, 0.46, 0.0005), rail, {.lateral = taping_line_y}, line);
        }).find("one spacing") != std::string::npos);
  CHECK(refusal([&] { const WheelTable w(s1002, 0.92e3); }).find("radius") != std::string::npos);
  CHECK_THROWS_AS(WheelTable(s1002, 0.46, 0.0), InputError);
  CHECK(refusal([&] { const WheelTable w(s1002, 0.46, 5e-5); }).find("columns") != std::string::npos);
  const auto c = layout::generate({});
  CHECK(refusal([&] { const BodyTable b(c.bodies[1], -3.0, -2.0); }).find("stations on the body") != std::string::npos);
  CHECK_THROWS_AS(BodyTable(c.bodies[1], 1.0, 0.5), InputError);
  CHECK_THROWS_AS(BodyTable(c.bodies[1], 0.2, 1.0, column_spacing, 0.1), InputError);
}
