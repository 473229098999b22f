// Where wheelsets stand in a steady curve on linear creep, and how the coach leans there.
#include "published/scoreboard.hpp"
#include "vehicle_space_samples.hpp"
#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <string>

using namespace wingnose;
using namespace space_samples;

namespace {

std::string with(const std::string& what, double value) { return what + " " + scoreboard::number(value); }

// Towards the outer rail of a curve to +y (mm), and the angle by which a wheelset runs at it (mrad).
double outward(const CurveRun& run, int wheelset) { return -1e3 * run.displacement(index(wheelset, Motion::y)); }
double attack(const CurveRun& run, int wheelset) { return -1e3 * run.displacement(index(wheelset, Motion::yaw)); }

} // namespace

TEST_CASE("A free wheelset runs outward until its rolling radii fit the curve") {
  SpatialVehicle vehicle;
  vehicle.wheelsets = {lone_wheelset()};
  const SpatialModel model = assemble(vehicle);
  struct Row {
    double radius, outward, worn;
  };
  for (const Row& row : {Row{190, 18.1579, 10.3997}, Row{300, 11.5, 6.58648}, Row{500, 6.9, 3.95189},
                         Row{760, 4.53947, 2.59993}, Row{1200, 2.875, 1.64662}, Row{2500, 1.38, 0.790378}}) {
    const Source source{Trust::worked, "r l / (conicity R)"};
    score(with("free wheelset, outward mm, conicity 0.1, R", row.radius),
          outward(steady_curve(model, {.conicity = 0.1}, 1.0 / row.radius), 0), row.outward, 1e-4, source);
    score(with("free wheelset, outward mm, conicity 0.1746, R", row.radius),
          outward(steady_curve(model, {.conicity = 0.1746}, 1.0 / row.radius), 0), row.worn, 1e-4, source);
  }
}

TEST_CASE("A rigid bogie runs further outward, its wheelsets across the curve") {
  const SpatialModel model = assemble(bare_bogie(2e10, 2e10));
  struct Row {
    double radius, outward, attack;
  };
  const Source source{Trust::worked, "r (l^2 + a^2 f22 / f11) / (conicity l R); a / R; half wheelbase 1.28 m"};
  for (const Row& row : {Row{190, 71.0466, 6.73684}, Row{300, 44.9962, 4.26667}, Row{500, 26.9977, 2.56},
                         Row{760, 17.7616, 1.68421}, Row{1200, 11.249, 1.06667}, Row{2500, 5.39954, 0.512}}) {
    const CurveRun run = steady_curve(model, {.conicity = 0.1}, 1.0 / row.radius, 0.0, bare);
    score(with("rigid bogie, leading wheelset outward mm, R", row.radius), outward(run, 0), row.outward, 1e-3, source);
    score(with("rigid bogie, trailing wheelset outward mm, R", row.radius), outward(run, 1), row.outward, 1e-3, source);
    score(with("rigid bogie, attack of the leading wheelset mrad, R", row.radius), attack(run, 0), row.attack, 1e-3,
          source);
    score(with("rigid bogie, attack of the trailing wheelset mrad, R", row.radius), attack(run, 1), -row.attack, 1e-3,
          source);
  }
}

TEST_CASE("The bogie of the coach steers as far as its springs let it") {
  struct Row {
    double conicity, radius, yaw, leading, trailing, attack;
  };
  constexpr double coach = 62.782e6;
  const Row rows[] = {{0.1, 1200, coach, 12.7266, 8.7058, 0.9988},   {0.1, 2500, coach, 6.1088, 4.1788, 0.4794},
                      {0.1, 5000, coach, 3.0544, 2.0894, 0.2397},    {0.1746, 1200, coach, 7.8533, 4.0148, 0.9535},
                      {0.1746, 2500, coach, 3.7696, 1.9271, 0.4577}, {0.1746, 5000, coach, 1.8848, 0.9636, 0.2288},
                      {0.1746, 1200, 2e6, 2.4004, 1.2959, 0.0448},   {0.1746, 1200, 5e6, 3.7100, 1.3623, 0.1978},
                      {0.1746, 1200, 1e7, 5.3238, 1.9536, 0.4430},   {0.1746, 1200, 2e7, 6.7684, 2.8911, 0.7079}};
  const Source source{Trust::worked, "six linear equations worked apart; f11 = f22 = 6.5 MN, no spin, lateral springs "
                                     "7.768 MN/m"};
  for (const Row& row : rows) {
    const CurveRun run =
        steady_curve(assemble(bare_bogie(row.yaw)), {.conicity = row.conicity, .f11 = 6.5e6, .f22 = 6.5e6},
                     1.0 / row.radius, 0.0, bare);
    const std::string what =
        with(with(with("bogie, conicity", row.conicity) + ", yaw MN m", row.yaw / 1e6) + ", R", row.radius);
    score(what + ", leading outward mm", outward(run, 0), row.leading, 1e-3, source);
    score(what + ", trailing outward mm", outward(run, 1), row.trailing, 1e-3, source);
    // Tolerance: half a unit of the last digit, or 1e-3.
    score_abs(what + ", attack mrad", attack(run, 0), row.attack, std::max(0.51e-4, 1e-3 * row.attack), source);
    score_abs(what + ", attack of the trailing mrad", attack(run, 1), -row.attack, std::max(0.51e-4, 1e-3 * row.attack),
              source);
  }
}

TEST_CASE("The coach leans outward under a cant deficiency as far as worked") {
  const Source source{Trust::worked, "K u = m a worked apart, wheelsets held; 1500 mm between rails"};
  const SpatialModel coach = assemble(preset("coach_1998"));
  const int body = coach.part("body");
  struct Row {
    double deficiency, rigid, shift, roll, shifted;
  };
  for (const Row& row : {Row{0.05, 0.06402, 21.435, 4.2807, 0.084675}, Row{0.10, 0.12804, 42.869, 8.5613, 0.16935},
                         Row{0.15, 0.19206, 64.304, 12.8420, 0.254025}}) {
    const double acceleration = gravity * row.deficiency / 1.5;
    const Lean run = lean(coach, acceleration, bare);
    double load = 0.0, rest = 0.0, swayed = 0.0; // on the wheels at +y; moment of the swayed bodies
    for (std::size_t i = 0; i < run.wheel_load.size(); ++i) {
      load += run.wheel_load[i][0];
      rest += coach.wheel_load[i][0];
    }
    for (int part = coach.wheelsets(); part < coach.parts(); ++part) {
      swayed -= coach.weight(index(part, Motion::z)) * run.displacement(index(part, Motion::y));
    }
    const std::string what = with("coach, deficiency mm", row.deficiency * 1e3);
    score(what + ", wheel unloading without sway", 1.0 - load / rest, row.rigid, 1e-4, source);
    score(what + ", body outward mm", -1e3 * run.displacement(index(body, Motion::y)), row.shift, 1e-4, source);
    score(what + ", body roll mrad", 1e3 * run.displacement(index(body, Motion::roll)), row.roll, 1e-4, source);
    score(what + ", wheel unloading with the sway found without it", 1.0 - load / rest + swayed / 1.5 / rest,
          row.shifted, 1e-4, source);
  }
}
