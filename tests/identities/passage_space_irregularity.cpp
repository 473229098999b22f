// A vehicle in space on rails that lie off where they are drawn.
#include "space_on_bays.hpp"

#include "catch.hpp"
#include "wingnose/passage/courses.hpp"
#include "wingnose/passage/simulate.hpp"

using namespace wingnose;
using namespace space_on_bays;
using Points = std::vector<layout::IrregularityPoint>;

namespace {

constexpr double pi = 3.14159265358979323846;

double largest(const Eigen::MatrixXd& m) { return m.cwiseAbs().maxCoeff(); }

// Rises over `ramp` from `begin`, stays until `end`, falls as it rose; m.
double plateau(double x, double begin, double end, double ramp) {
  const double on = std::clamp(std::min(x - begin, end - x) / ramp, 0.0, 1.0);
  return 0.5 * (1.0 - std::cos(pi * on));
}
// form(x) to either rail, every `pitch` m between the stations.
template <class Form> Points points(double begin, double end, double pitch, const Form& form) {
  Points out;
  const auto rows = static_cast<int>(std::lround((end - begin) / pitch));
  for (int i = 0; i <= rows; ++i) {
    const double x = begin + pitch * i;
    out.push_back(form(x));
    out.back().station = x;
  }
  out.front() = {begin, 0, 0, 0, 0};
  out.back() = {end, 0, 0, 0, 0};
  return out;
}
std::shared_ptr<const layout::Irregularity> rails(Points points) {
  return std::make_shared<const layout::Irregularity>(std::move(points));
}

} // namespace

TEST_CASE("Where both rails lie aside a coach follows them by as much") {
  Ground ground = plain_60e1();
  constexpr double aside = 4e-3; // m
  ground.irregularity = rails(points(10.0, 300.0, 1.0, [&](double x) {
    const double y = aside * plateau(x, 10.0, 300.0, 20.0);
    return layout::IrregularityPoint{x, 0, 0, y, y};
  }));
  const SpaceHistory run =
      simulate(coach(), ground, {.speed = 20.0, .begin = 0.0, .length = 200.0, .step = 4e-4, .stride = 50});
  CHECK(largest((run.shift.row(last(run)).array() - aside).matrix()) < 0.01 * aside);
  const double load = 44482.0 * gravity / 8.0;
  CHECK(largest(run.Y.row(last(run)) + run.Y.row(0)) < 1e3);
  CHECK(largest((run.Q.row(last(run)).array() - load).matrix()) < 2e-3 * load);
}

TEST_CASE("Where both rails lie higher a coach rides higher by as much, and one rail alone rolls it like cant") {
  constexpr double up = 6e-3; // m
  const Ride ride{.speed = 20.0, .begin = 0.0, .length = 160.0, .step = 4e-4, .stride = 50};
  Ground ground = plain_60e1();
  ground.irregularity = rails(points(10.0, 300.0, 1.0, [&](double x) {
    const double z = up * plateau(x, 10.0, 300.0, 20.0);
    return layout::IrregularityPoint{x, z, z, 0, 0};
  }));
  const SpaceHistory both = simulate(coach(), ground, ride);
  CHECK(both.height(last(both), 0) - both.height(0, 0) == Approx(up).epsilon(1e-3));
  CHECK(largest(both.shift) < 1e-8);

  ground.irregularity = rails(points(10.0, 300.0, 1.0, [&](double x) {
    return layout::IrregularityPoint{x, up * plateau(x, 10.0, 300.0, 20.0), 0, 0, 0};
  }));
  const SpaceHistory one = simulate(coach(), ground, ride);
  // Cant of a track that leans to -y, over tape lines 1.5 m apart.
  const SpaceHistory canted = simulate(coach(), curve(0.0, -up, 20.0), ride);
  const Eigen::Index end = last(one);
  for (Eigen::Index wheel = 0; wheel < one.Q.cols(); ++wheel) {
    CHECK(one.Q(end, wheel) == Approx(canted.Q(end, wheel)).epsilon(2e-3));
  }
  CHECK(one.Q(end, 1) > one.Q(end, 0) + 300.0); // N
}

TEST_CASE("A dip in both rails gives a wheelset held but for its heave the forces of the vertical passage") {
  constexpr double speed = 30.0, from = -4.0, to = 3.0, step = 4e-5, depth = 2e-3; // m/s, m, m, s, m
  const auto height = [](double x) { return -0.5 * depth * (1.0 + std::cos(pi * std::clamp(x, -1.0, 1.0))); };
  Ground ground = plain_60e1();
  ground.bends = bays(apart(from - 3.0, to + 3.0));
  ground.rail.lateral = {1e5, 1e11, 1e6};
  ground.irregularity = rails(points(-1.0, 1.0, 0.05, [&](double x) {
    return layout::IrregularityPoint{x, height(x), height(x), 0, 0};
  }));
  const SpaceHistory space = simulate(rolled(wheelset(true)), ground,
                                      {.speed = speed, .begin = from, .length = to - from, .step = step, .stride = 1});

  layout::GivenPath path;
  for (double x = from - 0.5; x < to + 0.5; x += 0.01) {
    path.station.push_back(x);
    path.height.push_back(height(x));
  }
  const passage::Rolling given{.excitation = path,
                               .rail = "60E1",
                               .inclination = std::atan(1.0 / 40.0),
                               .wheel = profile::s1002(),
                               .lateral_offset = 0.0,
                               .roll = 0.0,
                               .yaw = 0.0,
                               .law = contact::Ellipse{},
                               .search = contact::SearchAt::path,
                               .span = {from - 0.1, to + 0.1}};
  const std::vector<double> radius{0.46};
  const passage::Geometry geometry = passage::geometry(given, radius, 0, {});
  const auto plan = passage::make_plan(
      {.courses = geometry.courses,
       .track = nullptr,
       .vehicle = wingnose::vehicle::assemble(wingnose::vehicle::space::vertical_half(wheelset(false))),
       .from = from,
       .to = to,
       .step = step,
       .chain = ground.bends,
       .rail = 1});
  const passage::History plane = passage::simulate(plan, passage::Run{.speed = speed, .probes = false});
  const Eigen::VectorXd Q = space.Q.col(0);
  const auto [least, most] = std::minmax_element(plane.force.begin(), plane.force.end());
  CAPTURE(*least, *most);
  CHECK(*most > 1.05 * plane.static_load);
  CHECK(Q.maxCoeff() == Approx(*most).epsilon(2e-3));
  CHECK(Q.minCoeff() == Approx(*least).epsilon(2e-3));
}

TEST_CASE("Rails that lie off give the mirrored answer seen from the other side, and an energy balance") {
  const auto uneven = rails(points(5.0, 55.0, 0.5, [](double x) {
    const double on = plateau(x, 5.0, 55.0, 10.0);
    return layout::IrregularityPoint{x, 3e-3 * on * std::sin(0.9 * x), 2e-3 * on * std::sin(1.3 * x),
                                     2e-3 * on * std::sin(0.5 * x), 3e-3 * on * std::sin(0.4 * x)};
  }));
  const Ride ride{.speed = 30.0, .begin = 0.0, .length = 60.0, .step = 2e-4, .stride = 1, .energy = true};
  Ground ground = plain_60e1();
  ground.irregularity = uneven;
  const SpaceHistory left = simulate(coach(), ground, ride);
  ground.irregularity = rails(uneven->mirrored().points());
  const SpaceHistory right = simulate(coach(), ground, ride);
  CHECK(largest(left.shift) > 1e-3);
  CHECK(largest(left.shift + right.shift) < 1e-9 * largest(left.shift));
  CHECK(largest(left.Q.col(0) - right.Q.col(1)) < 1e-9 * largest(left.Q));
  const EnergyBalance sum = energy_balance(left);
  CAPTURE(sum.drive, sum.creep, sum.damping, sum.stored);
  CHECK(std::abs(sum.residual()) < 0.01 * (sum.creep + sum.damping));
}
