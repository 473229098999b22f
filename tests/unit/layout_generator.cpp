// The generated crossing: what a drawing states is what the surface shows.
#include "catch.hpp"
#include "crossing_samples.hpp"

using namespace samples;

namespace {

const GeneratedWing& wing_of(const Crossing& c) { return std::get<GeneratedWing>(c.bodies[0].surface); }
const GeneratedNose& nose_of(const Crossing& c) { return std::get<GeneratedNose>(c.bodies[1].surface); }

} // namespace

TEST_CASE(
    "The wing leaves the gauge line at the knuckle and runs parallel to the other gauge line at flangeway width") {
  const Crossing c = generate({});
  const GeneratedWing& w = wing_of(c);
  CHECK(w.edge(-3.0) == Approx(0.7175).epsilon(1e-12));
  for (const double x : {0.0, 0.3, 0.9}) {
    CHECK(w.edge(x) == Approx(0.7175 + 0.044 + x / 15.0).epsilon(1e-12));
  }
  // Knuckle: radius in plan from three points of the rounding, about -flangeway N.
  const double h = 0.05, at = -0.66;
  const double second = (w.edge(at - h) - 2.0 * w.edge(at) + w.edge(at + h)) / (h * h);
  CHECK(1.0 / second == Approx(8.0).epsilon(1e-9));
}

TEST_CASE("The nose is as thick as its gauge lines allow, less the setback of both faces") {
  const Crossing c = generate({});
  const GeneratedNose& n = nose_of(c);
  CHECK(n.x_begin() == Approx(0.150).epsilon(1e-12));
  CHECK(n.edge(0.5) == Approx(0.7175 + 0.003).epsilon(1e-12));
  CHECK(n.width(0.45) == Approx(0.030 - 0.006).epsilon(1e-12));
  CHECK(n.width(5.0) == Approx(0.072).epsilon(1e-12));
}

TEST_CASE("The highest point of the nose lies on its ramp line") {
  const Crossing c = generate({});
  const GeneratedNose& n = nose_of(c);
  for (const double x : {0.16, 0.3, 0.45, 0.7, 1.0, 1.4}) {
    double top = -1.0;
    for (int i = 0; i <= 4000; ++i) {
      top = std::max(top, n.height(x, n.width(x) * i / 4000.0));
    }
    CAPTURE(x);
    CHECK(top == Approx(n.top(x)).margin(3e-6));
  }
  CHECK(n.top(0.0) == Approx(-0.006).epsilon(1e-12));
  CHECK(n.top(2.0) == Approx(0.0).margin(1e-12));
  // Middle of the ramp, clear of its rounded ends: the straight line between start and end depth.
  CHECK(n.top(0.4125) == Approx(-0.0035).margin(1e-9));
}

TEST_CASE("Slopes and curvatures of both bodies are the derivatives of their heights") {
  CrossingShape shape = worn();
  shape.wing_cross_slope = -0.02;
  shape.modifiers.push_back({"nose", 0.5, 0.4, 0.001, 0.010, 0.020});
  const std::string head = GENERATE("flat", "60E1");
  shape.wing_head = head;
  const Crossing c = generate(shape);
  for (const Body& body : c.bodies) {
    std::visit(
        [&](const auto& b) {
          for (const double x : {-0.5, 0.2, 0.45, 0.6}) {
            if (x < b.x_begin()) {
              continue;
            }
            for (const double share : {0.15, 0.3, 0.5, 0.62, 0.8}) {
              const double eta = share * b.width(x), h = 1e-5;
              const SurfacePoint p = b.at(x, eta);
              const double low = b.height(x, eta - h), mid = b.height(x, eta), high = b.height(x, eta + h);
              CAPTURE(body.name, head, x, eta);
              CHECK(p.z == mid);
              CHECK(p.slope_y == Approx((high - low) / (2.0 * h)).margin(2e-5));
              const double second = (high - 2.0 * mid + low) / (h * h);
              CHECK(p.curvature_y == Approx(signed_curvature(p.slope_y, second)).epsilon(2e-3).margin(0.05));
            }
          }
        },
        body.surface);
  }
}

TEST_CASE("Wear lowers, repair raises, and both fade out smoothly at their ends") {
  CrossingShape s;
  s.modifiers = {{"nose", 0.5, 0.4, 0.002}};
  const Crossing plain = generate({}), modified = generate(s);
  const auto gone = [&](double x) { return nose_of(plain).height(x, 0.008) - nose_of(modified).height(x, 0.008); };
  CHECK(gone(0.5) == Approx(0.002).epsilon(1e-12));
  CHECK(gone(0.3) == 0.0);
  CHECK(gone(0.7) == 0.0);
  CHECK(gone(0.303) < 1e-7); // C2: the start grows with the third power
  s.modifiers.push_back({"nose", 0.5, 0.4, -0.002});
  CHECK(nose_of(generate(s)).height(0.45, 0.008) == Approx(nose_of(plain).height(0.45, 0.008)).epsilon(1e-14));
}

TEST_CASE("A lifted wing reaches its lift after its run and rises in between on a straight ramp") {
  CrossingShape s;
  s.wing_lift = 0.002;
  s.wing_lift_begin = 0.0;
  s.wing_lift_run = 0.5;
  const Crossing lifted = generate(s), level = generate({});
  const auto lift = [&](double x) { return wing_of(lifted).height(x, 0.03) - wing_of(level).height(x, 0.03); };
  CHECK(lift(-0.2) == Approx(0.0).margin(1e-15));
  CHECK(lift(0.25) == Approx(0.001).epsilon(1e-9));
  CHECK(lift(0.8) == Approx(0.002).epsilon(1e-9));
}

TEST_CASE("Impossible crossings are refused, naming the quantity") {
  const auto refused = [](auto change, const char* word) {
    CrossingShape s;
    change(s);
    try {
      (void)generate(s);
    } catch (const InputError& e) {
      return std::string(e.what()).find(word) != std::string::npos;
    }
    return false;
  };
  using S = CrossingShape;
  CHECK(refused([](S& s) { s.rate = 2.0; }, "rate"));
  CHECK(refused([](S& s) { s.gauge = 1435.0; }, "gauge"));
  CHECK(refused([](S& s) { s.flangeway = 0.0; }, "flangeway"));
  CHECK(refused([](S& s) { s.nose_setback = 0.008; }, "nose_point_thickness"));
  CHECK(refused([](S& s) { s.nose_ramp_end_thickness = 0.005; }, "ramp"));
  CHECK(refused([](S& s) { s.nose_start_depth = std::nan(""); }, "depth"));
  CHECK(refused([](S& s) { s.wing_begin = 0.0; }, "wing"));
  CHECK(refused([](S& s) { s.modifiers = {{"check", 0.0, 1.0, 0.001}}; }, "modifier"));
  CHECK(refused([](S& s) { s.modifiers = {{"nose", 0.0, 0.0, 0.001}}; }, "modifier"));
  CHECK(refused([](S& s) { s.wing_head = "square"; }, "square"));
}

TEST_CASE("A wing with a rail head stands at gauge where gauge is measured: 14 mm below its top") {
  for (const double inclination : {0.0, std::atan(1.0 / 40.0), std::atan(1.0 / 20.0)}) {
    for (const std::string head : {"60E1", "54E1"}) {
      CrossingShape s;
      s.wing_head = head;
      s.wing_inclination = inclination;
      const GeneratedWing w = wing_of(generate(s));
      double top = -1.0;
      for (double eta = 0.0; eta <= w.width(-3.0); eta += 1e-5) {
        top = std::max(top, w.height(-3.0, eta));
      }
      double gauge_point = w.edge(-3.0); // the innermost place that is no deeper than 14 mm
      for (double eta = 0.0; w.height(-3.0, eta) < top - 0.014; eta += 1e-6) {
        gauge_point = w.edge(-3.0) + eta;
      }
      CAPTURE(head, inclination);
      CHECK(gauge_point == Approx(0.7175).margin(5e-6));
    }
  }
}
