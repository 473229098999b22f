// What every normal law must obey: no tension, growth with the approach, no jumps, Hertz for an elliptic gap.
#include "catch.hpp"

#include "wingnose/contact/normal/normal_law.hpp"
#include "wingnose/contact/search/look.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

// Gap of two bodies with constant curvatures (1/m), touching at y = 0, where the surfaces are level.
GapLine parabola(double curvature_x, double curvature_y, double spacing = column_spacing) {
  GapLine line;
  line.count = 401;
  line.spacing = spacing;
  line.first_y = -200.3 * spacing;
  line.wheel_first = line.first_y;
  line.level = 0.0;
  line.top = 200;
  for (int i = 0; i < line.count; ++i) {
    const auto k = static_cast<std::size_t>(i);
    line.gap[k] = 0.5 * curvature_y * line.y(i) * line.y(i);
    line.dx[k] = line.slope[k] = 0.0;
    line.curvature_x[k] = curvature_x;
    line.radius[k] = 0.46;
  }
  return line;
}

NormalLaw law_number(int i) { return i == 0 ? NormalLaw{Ellipse{}} : NormalLaw{Strips{}}; }

// Largest change of f between neighbours when its range is walked in steps of h.
double largest_step(const std::function<double(double)>& f, double from, double to, double h) {
  double largest = 0.0, before = f(from);
  for (double x = from + h; x < to + 0.5 * h; x += h) {
    const double here = f(x);
    largest = std::max(largest, std::abs(here - before));
    before = here;
  }
  return largest;
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

TEST_CASE("An elliptic gap gives Hertz's force, pressure and axes whatever the ratio of the curvatures") {
  const double along = 1.0 / 0.46;
  for (const double across : {1.0, 1.0 / 0.46, 5.0, 1.0 / 0.08, 1.0 / 0.02}) {
    const GapLine line = parabola(along, across);
    for (const double force : {40e3, 90e3, 250e3}) {
      const HertzPatch hertz = hertz_patch(force, along, across);
      for (const int i : {0, 1}) {
        const NormalLaw law = law_number(i);
        const NormalContact c = normal_contact(law, line, depth_for_force(law, line, force));
        CAPTURE(name(law), across, force);
        CHECK(c.force == Approx(force).epsilon(1e-6));
        CHECK(c.vertical == c.force);
        CHECK(c.approach == Approx(hertz.approach).epsilon(0.01));
        CHECK(c.peak_pressure == Approx(hertz.peak_pressure).epsilon(0.015));
        CHECK(c.half_length == Approx(hertz.a_x).epsilon(0.01));
        // The last strip on either side carries or does not.
        CHECK(c.half_width == Approx(hertz.a_y).epsilon(0.015).margin(0.25 * column_spacing));
        CHECK(c.y == Approx(0.0).margin(0.3e-3));
        CHECK(c.stiffness == Approx(1.5 * force / hertz.approach).epsilon(0.015));
      }
    }
  }
}

TEST_CASE("No law pulls, and each presses harder the deeper the wheel goes in") {
  const WheelSurface wheel(profile::hollow_worn(profile::s1002(), {.depth = 0.001, .width = 0.05}), 0.46);
  const layout::Body rail = layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0)));
  const NormalLaw law = law_number(GENERATE(0, 1));
  GapLine line;
  for (double shift = -0.006; shift <= 0.006; shift += 0.0015) {
    look(wheel, rail, {.lateral = taping_line_y + shift}, line);
    CHECK(normal_contact(law, line, 0.0).force == 0.0);
    CHECK(normal_contact(law, line, -1e-4).force == 0.0);
    double before = 0.0;
    for (double depth = 1e-7; depth < 5e-4; depth *= 1.15) {
      const NormalContact c = normal_contact(law, line, depth);
      CAPTURE(name(law), shift, depth);
      CHECK(c.force > before);
      CHECK(c.vertical <= c.force);
      CHECK(c.peak_pressure > 0.0);
      CHECK(c.area > 0.0);
      before = c.force;
    }
  }
}

TEST_CASE("The stiffness a law reports is the slope of its force") {
  const WheelSurface wheel(profile::s1002(), 0.46);
  const layout::Body rail = layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0)));
  const NormalLaw law = law_number(GENERATE(0, 1));
  GapLine line;
  for (const double shift : {-0.004, 0.0, 0.002}) {
    look(wheel, rail, {.lateral = taping_line_y + shift}, line);
    const double depth = 90e-6, h = 2e-6;
    const NormalContact less = normal_contact(law, line, depth - h), more = normal_contact(law, line, depth + h);
    CHECK(normal_contact(law, line, depth).stiffness ==
          Approx((more.force - less.force) / (more.approach - less.approach)).epsilon(0.01));
  }
}

TEST_CASE("Strips add up to the force, and no strip lies outside the overlap of the shapes") {
  const WheelSurface wheel(profile::s1002(), 0.46);
  const layout::Body rail = layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0)));
  const NormalLaw law = law_number(GENERATE(0, 1));
  GapLine line;
  StripOutline outline;
  for (const double shift : {-0.004, 0.0, 0.0055}) {
    look(wheel, rail, {.lateral = taping_line_y + shift}, line);
    const NormalContact c = normal_contact(law, line, 100e-6, {}, &outline);
    double sum = 0.0, largest = 0.0;
    for (const Strip& s : outline.list()) {
      sum += s.force;
      largest = std::max(largest, s.pressure);
      CHECK(s.half_length <= c.half_length * 1.0001);
    }
    CHECK(sum == Approx(c.force).epsilon(0.005)); // forty strips of an ellipse
    CHECK(largest == Approx(c.peak_pressure).epsilon(0.01));
  }
}

TEST_CASE("Force does not jump while a wheel is shifted across a rail, over every change of the touching point") {
  // A continuous force changes half as much over half the distance.
  const auto worn = GENERATE(false, true);
  const auto profile = worn ? profile::hollow_worn(profile::s1002(), {.depth = 0.001, .width = 0.04, .centre = 0.002})
                            : profile::s1002();
  const WheelSurface wheel(profile, 0.46);
  const layout::Body rail = layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0)));
  const NormalLaw law = law_number(GENERATE(0, 1));
  GapLine line;
  const auto force = [&](double shift) {
    look(wheel, rail, {.lateral = taping_line_y + shift}, line);
    return normal_contact(law, line, 100e-6).force;
  };
  const double coarse = largest_step(force, -0.005, 0.005, 1e-4), fine = largest_step(force, -0.005, 0.005, 0.5e-4);
  CAPTURE(worn, name(law), coarse, fine);
  CHECK(coarse < 15e3);
  CHECK(fine < 0.75 * coarse);
}

TEST_CASE("Over shifts of a few micrometres a wheel's contact force stays within 0.3 per cent") {
  const WheelSurface wheel(profile::s1002(), 0.46);
  const layout::Body rail = layout::plain_rail(profile::rail_head("60E1", std::atan(1.0 / 40.0)));
  const NormalLaw law = law_number(GENERATE(0, 1));
  GapLine line;
  const auto force = [&](double shift) {
    look(wheel, rail, {.lateral = taping_line_y + shift}, line);
    return normal_contact(law, line, 100e-6).force;
  };
  // From the crown of 300 mm over the step to 80 mm, where patches merge; 0.1 % is what the shapes themselves change.
  for (double shift = -0.001; shift < 0.002; shift += 1e-4) {
    CAPTURE(name(law), shift);
    CHECK(largest_step(force, shift, shift + 2e-5, 2.5e-6) < 0.003 * force(shift));
  }
}

TEST_CASE("Total force does not jump while a wheel moves from the wing to the nose") {
  const auto c = layout::generate({});
  const WheelSurface wheel(profile::s1002(), 0.46);
  const layout::Body &wing = c.bodies[0], &nose = c.bodies[1];
  const NormalLaw law = law_number(GENERATE(0, 1));
  GapLine a, b;
  const auto force = [&](double x) {
    look(wheel, wing, {.station = x, .lateral = taping_line_y}, a);
    look(wheel, nose, {.station = x, .lateral = taping_line_y}, b);
    const double height = std::max(a.level, b.level) - 100e-6; // 100 um into whatever carries
    return normal_contact(law, a, a.level - height).vertical + normal_contact(law, b, b.level - height).vertical;
  };
  const double coarse = largest_step(force, -0.7, 0.9, 2e-3), fine = largest_step(force, -0.7, 0.9, 1e-3);
  CAPTURE(name(law), coarse, fine);
  CHECK(coarse < 15e3);
  CHECK(fine < 0.75 * coarse);
}

TEST_CASE("A load finds its height whether one body carries it or two share it") {
  const auto c = layout::generate({});
  const WheelSurface wheel(profile::s1002(), 0.46);
  const layout::Body &wing = c.bodies[0], &nose = c.bodies[1];
  const NormalLaw law = law_number(GENERATE(0, 1));
  for (const double x : {-0.2, 0.45, 0.5, 0.6, 1.0}) {
    std::array<GapLine, 2> lines;
    look(wheel, wing, {.station = x, .lateral = taping_line_y}, lines[0]);
    look(wheel, nose, {.station = x, .lateral = taping_line_y}, lines[1]);
    const double height = height_for_force(law, lines, 90e3);
    double sum = 0.0;
    for (const GapLine& line : lines) {
      sum += normal_contact(law, line, line.level - height).vertical;
    }
    CHECK(sum == Approx(90e3).epsilon(1e-6));
  }
}

TEST_CASE("Laws refuse forces that cannot be and wheels that stand on nothing") {
  const GapLine line = parabola(2.0, 3.0);
  CHECK_THROWS_AS(depth_for_force(Strips{}, line, -1.0), InputError);
  CHECK_THROWS_AS(depth_for_force(Ellipse{}, line, std::nan("")), InputError);
  CHECK_THROWS_AS(depth_for_force(Ellipse{}, GapLine{}, 1e3), ComputeError);
  CHECK_THROWS_AS(depth_for_force(Ellipse{}, line, 1e9), ComputeError);
  CHECK(depth_for_force(Strips{}, line, 0.0) == 0.0);
  CHECK(refusal([&] { (void)named<NormalLaw>("spring", "contact law"); }).find("strips") != std::string::npos);
  for (const std::string& law : names_of<NormalLaw>()) {
    CHECK(name(named<NormalLaw>(law, "contact law")) == law);
  }
}
