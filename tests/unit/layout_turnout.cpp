// Turnouts from their drawing: routes, readings, wear, and drawings that cannot be built.
#include "catch.hpp"
#include "said.hpp"

#include "wingnose/layout/turnout/bodies.hpp"
#include "wingnose/layout/turnout/functional.hpp"
#include "wingnose/layout/turnout/geometry.hpp"
#include "wingnose/layout/turnout/kinematics.hpp"

#include <cmath>
#include <functional>
#include <string>

using namespace wingnose;
using namespace wingnose::layout;
using namespace wingnose::layout::turnout;
using said::has;

namespace {

constexpr double mm = 1e-3;

std::string refusal(const std::function<void(Turnout&)>& change) {
  Turnout t;
  change(t);
  return said::refusal<InputError>([&] { check(t); });
}

} // namespace

TEST_CASE("A turnout that cannot be built is refused with one message that says why") {
  CHECK(refusal([](Turnout&) {}).empty());
  CHECK(has(refusal([](Turnout& t) { t.radius = 20; }),
            "turnout curve_radius: 20 m is not allowed; allowed: 100 to 20000 m"));
  CHECK(has(refusal([](Turnout& t) { t.transition = 80; }), "along its transition alone"));
  CHECK(has(refusal([](Turnout& t) { t.end_length = 10; }), "must reach beyond the curve"));
  CHECK(has(refusal([](Turnout& t) {
              t.radius = 190;
              t.end_length = 11;
            }),
            "ahead of its nose"));
  CHECK(has(refusal([](Turnout& t) {
              t.gauge = 1.430;
              t.check_rail.nose_protection = 1.410;
            }),
            "No flange passes"));
  CHECK(has(refusal([](Turnout& t) {
              t.check_rail.nose_protection = 1.394;
              t.check_rail.flangeway = 0.041;
            }),
            "give one of the two"));
  CHECK(has(refusal([](Turnout& t) { t.readings.gauge = 1.5; }), "gauge_reading: 1500 mm is not allowed"));
  CHECK(has(refusal([](Turnout& t) { t.curvature = {{0, 0.003, 0}}; }), "two stations"));
  CHECK(has(refusal([](Turnout& t) { t.curvature = {{0, 0.003, 0}, {-1, 0.003, 0}}; }), "Order the points"));
  CHECK(has(refusal([](Turnout& t) { t.curvature = {{0, 0.003, 0}, {1, 0.003, 0}}; }), "turns between 1:60 and 1:4"));
  CHECK(has(said::refusal<InputError>([] { (void)preset("R300-1:8"); }), "R300-1:9"));
}

TEST_CASE("Curvature given point by point is the arc it describes, and the transition it describes") {
  Turnout arc = preset("R500-1:12"), given = arc;
  const double angle = std::atan(1.0 / 12.0);
  given.curvature = {{0, 1.0 / 500, 0}, {500 * angle, 1.0 / 500, 0}};
  CHECK(geometry(given).nose_from_start == Approx(geometry(arc).nose_from_start).epsilon(1e-13));
  CHECK(*geometry(given).overall_length == Approx(*geometry(arc).overall_length).epsilon(1e-13));
  arc.transition = 10.0;
  given.curvature = {{0, 0, 0}, {10, 1.0 / 500, 0}, {500 * angle + 5, 1.0 / 500, 0}};
  CHECK(geometry(given).nose_from_start == Approx(geometry(arc).nose_from_start).epsilon(1e-13));
  // A later beginning of the curve takes the nose further from the start, and the change is no longer abrupt there.
  CHECK(geometry(arc).nose_from_start > geometry(preset("R500-1:12")).nose_from_start + 4.0);
  const Kinematics k = kinematics(geometry(arc).diverging, 20.0);
  CHECK(k.abrupt_at > 0.0); // only where the arc ends
  CHECK(k.rate == Approx(deficiency_factor * 400.0 / 500.0 * 20.0 / 10.0));
}

TEST_CASE("Cant that helps the diverging route hinders the through route") {
  Turnout t;
  t.cant = 0.030;
  for (const Hand hand : {Hand::left, Hand::right}) {
    t.hand = hand;
    const Geometry g = geometry(t);
    const double v = 50 / 3.6;
    CHECK(std::abs(cant_deficiency(g.diverging, -1.0, v)) * 1e3 == Approx(11.8 * 2500 / 300 - 30));
    CHECK(kinematics(g.diverging, v).cant_deficiency * 1e3 == Approx(11.8 * 2500 / 300 - 30));
    CHECK(kinematics(g.through, v).cant_deficiency * 1e3 == Approx(30.0));
    CHECK(speed_of_deficiency(g.diverging, 0.1) * 3.6 == Approx(std::sqrt(130.0 * 300 / 11.8)));
  }
}

TEST_CASE("Widening moves the inner rail: the nose stays, both flangeways of the diverging route open") {
  const Turnout t = preset("R190-1:7.5");
  Turnout plain = t;
  plain.widening = 0.0;
  CHECK(geometry(t).nose_from_start == geometry(plain).nose_from_start);
  const Faces through = drawn(t, Way::through), diverging = drawn(t, Way::diverging);
  CHECK(diverging.gauge == Approx(1.441));
  CHECK(diverging.nose_protection() == Approx(through.nose_protection()));
  CHECK(diverging.check - through.check == Approx(0.006));
  CHECK(diverging.crossing_flangeway() - through.crossing_flangeway() == Approx(0.006));
}

TEST_CASE("Worn faces of check rail and nose change the protection by their wear, in opposite senses") {
  Turnout t;
  t.check_rail.wear = 0.003;
  t.crossing.nose_wear = 0.001;
  t.crossing.wing_wear = 0.002;
  const Faces as_new = drawn(t, Way::through), worn = found(t, Way::through);
  CHECK((worn.nose_protection() - as_new.nose_protection()) / mm == Approx(-2.0));
  CHECK((worn.check - as_new.check) / mm == Approx(3.0));
  CHECK((worn.crossing_flangeway() - as_new.crossing_flangeway()) / mm == Approx(3.0));
  CHECK((worn.passage_at_nose() - as_new.passage_at_nose()) / mm == Approx(-5.0));
  CHECK((worn.passage_at_check_entry() - as_new.passage_at_check_entry()) / mm == Approx(-3.0));
}

TEST_CASE(
    "Read 1391 mm of nose protection and 1438 mm of gauge: the flange meets the nose before a wheel back is held") {
  Turnout t;
  t.readings.nose_protection = 1.391;
  t.readings.gauge = 1.438;
  const Faces f = found(t, Way::through);
  CHECK(dimensions()[0].standard->margin(f.nose_protection()) / mm == Approx(-1.0));
  CHECK(f.check / mm == Approx(47.0));
  CHECK(margins(f, {}, 0.028).at_nose / mm == Approx(-1.5));
  CHECK(least_margins(f, limits_of(0.92)).at_nose / mm == Approx(-3.5));
  const Touches touch = touches(f, {});
  CHECK_FALSE(touch.guarded());
  CHECK(touch.nose / mm == Approx(6.5));
  CHECK(touch.check / mm == Approx(8.0));
  CHECK(touch.wing / mm == Approx(5.0)); // the other way it is the back of the crossing's wheel, on the wing rail
  CHECK(touch.check - touch.nose == Approx(-margins(f, {}, 0.028).at_nose));
}

TEST_CASE("Gauge, protection and flangeway read together say where the nose stands") {
  Turnout t;
  t.readings = {.gauge = 1.436, .nose_protection = 1.395, .check_flangeway = 0.043, .crossing_flangeway = 0.046};
  const Faces f = found(t, Way::through);
  CHECK(f.nose / mm == Approx(1438.0));
  CHECK(f.nose_protection() / mm == Approx(1395.0));
  CHECK(f.crossing_flangeway() / mm == Approx(46.0));
}

TEST_CASE("No legal wheelset goes beyond the widest and the narrowest") {
  for (const WheelsetLimits& limits : wheelset_limits()) {
    CHECK(allows(limits, widest(limits)));
    CHECK(allows(limits, narrowest(limits)));
    double most = 0.0, least = 9.0;
    for (int b = 13560; b <= 13640; ++b) { // tenths of a millimetre
      for (int e = 200; e <= 340; ++e) {
        const Wheelset w{b * 1e-4, e * 1e-4};
        if (allows({{},
                    limits.back_to_back,
                    {limits.front_to_front.least - 1e-9, limits.front_to_front.most + 1e-9},
                    limits.flange_thickness,
                    0,
                    limits.trust,
                    ""},
                   w)) {
          most = std::max(most, w.back_to_flange());
          least = std::min(least, w.back_to_flange());
        }
      }
    }
    CHECK(widest(limits).back_to_flange() == Approx(most));
    CHECK(narrowest(limits).back_to_flange() == Approx(least));
  }
}

TEST_CASE("The end of a flare counts only where a wheel back can meet it") {
  Turnout t;
  const WheelsetLimits& large = limits_of(0.92);
  CHECK(met_flares(t, drawn(t, Way::through), large).check == t.check_rail.flare); // 15 mm open before the end begins
  t.check_rail.flare_length = 0.5;                                                 // 7.5 mm
  CHECK(met_flares(t, drawn(t, Way::through), large).check == t.check_rail.end_flare);
}

TEST_CASE("Along a way lie stock rail, wing, nose and check rail, the crossing as flat as the rails cross there") {
  const Turnout t = preset("R300-1:9");
  const Laid laid = lay(t, Way::diverging, {}, profile::rail_head("60E1", 0.025));
  const auto list = lying(laid);
  REQUIRE(list.size() == 4);
  CHECK(list[0].role == Role::stock);
  CHECK(list[0].side == Side::opposite);
  CHECK(list[1].role == Role::wing);
  CHECK(list[2].role == Role::nose);
  CHECK(list[3].role == Role::check);
  CHECK(list[3].side == Side::opposite);
  CHECK(list[0].begin == Approx(laid.route.begin()));
  // The nose is as thick a metre behind the theoretical point as its true rate makes it.
  const Edge wing = running_edge(laid.bodies[1], -1.0, -0.2);
  CHECK(wing.y.size() > 10);
  CHECK(geometry(t).rate_at_nose == Approx(10.2).margin(0.01));
}
