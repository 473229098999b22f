// What any passage must satisfy whatever its numbers: static load, momentum, energy, superposition, mirror image.
#include "catch.hpp"
#include "passage_cases.hpp"

#include <array>
#include <cmath>
#include <complex>
#include <vector>

using namespace wingnose;
using Complex = std::complex<double>;

namespace {

// Samples between two stations of a facing move.
std::vector<double> between(const passage::History& h, const std::vector<double>& signal, double from, double to) {
  std::vector<double> part;
  for (std::size_t i = 0; i < signal.size(); ++i) {
    if (h.station[i] >= from && h.station[i] < to) {
      part.push_back(signal[i]);
    }
  }
  return part;
}
double mean(const std::vector<double>& v) {
  double sum = 0.0;
  for (const double x : v) {
    sum += x;
  }
  return sum / static_cast<double>(v.size());
}

// Modal coordinates from the scaled ones that the stepper carries.
std::vector<Complex> modal_coordinates(const passage::Passage& move, const passage::State& s) {
  const passage::StepTable& t = *move.plan->steps;
  std::vector<Complex> z(t.modes);
  for (int k = 0; k < t.modes; ++k) {
    z[k] = Complex(t.scale_re[k], t.scale_im[k]) * Complex(s.y_re[k], s.y_im[k]);
    for (int w = 0; w < move.wheels(); ++w) {
      z[k] += Complex(t.lag_re[k], t.lag_im[k]) * Complex(s.theta_re[w][k], s.theta_im[w][k]) * s.force[w];
    }
  }
  return z;
}

} // namespace

TEST_CASE("On a smooth level rail the wheel carries its static load, within the ripple of the sleepers") {
  // Twelve bays at 20 m/s; the first three let the start die out.
  auto s = cases::settings(20.0, -5.4, 5.4);
  s.step = 0.6 / 20.0 / 1000.0; // bays hold whole numbers of steps, so means are over whole bays
  const auto h = passage::simulate(cases::over(cases::level_path(), cases::usual_track(), s));
  const auto force = between(h, h.force, -3.6 - 1e-9, 4.8 - 1e-9);
  CHECK(h.static_load == Approx(90e3).epsilon(1e-9));
  CHECK(mean(force) == Approx(h.static_load).epsilon(1e-3));
  const auto [low, high] = std::minmax_element(force.begin(), force.end());
  CAPTURE(*low, *high);
  CHECK(*high - *low < 0.1 * h.static_load);
  CHECK(*high - *low > 1e-3 * h.static_load); // sleepers are felt
  // The same ripple in every bay.
  const auto one = between(h, h.force, 0.0 - 1e-9, 0.6 - 1e-9), next = between(h, h.force, 1.2 - 1e-9, 1.8 - 1e-9);
  REQUIRE(one.size() == 1000);
  CHECK(cases::largest_difference(one, next) < 0.05 * (*high - *low));
  // Deflection under the moving wheel: near the static one, far below any critical speed.
  const std::array<double, 1> seat{0.0}, span{0.3};
  const double at_seat = track::static_deflection(cases::usual_track()->assembly, h.static_load, 0.0, seat)[0];
  const double at_span = track::static_deflection(cases::usual_track()->assembly, h.static_load, 0.3, span)[0];
  CHECK(mean(between(h, h.rail_deflection, -3.6 - 1e-9, 4.8 - 1e-9)) ==
        Approx(0.5 * (at_seat + at_span)).epsilon(0.03));
}

TEST_CASE("The impulse of the contact forces is the change of the vehicle's momentum") {
  const char* name = GENERATE("wheel", "bogie");
  const auto v = vehicle::assemble(vehicle::preset(name));
  const auto move =
      cases::over(cases::kink_path(20e-3, 0.1), cases::usual_track(), cases::settings(45.0, -0.5, 0.8), 0.1, v);
  passage::State state = passage::initial_state(move);
  passage::ExponentialStepper stepper(move);
  const Eigen::Index m = v.M.rows();
  const auto momentum = [&] {
    double p = 0.0;
    for (Eigen::Index i = 0; i < m; ++i) {
      if (v.motion[i] != vehicle::Motion::pitch) {
        p += v.M(i, i) * state.vehicle[m + i];
      }
    }
    return p;
  };
  const auto excess = [&] {
    double sum = 0.0;
    for (int w = 0; w < v.wheels(); ++w) {
      sum += state.force[w] - v.static_load[w];
    }
    return sum;
  };
  const double start = momentum();
  double impulse = 0.0, largest = 0.0;
  for (int i = 0; i < 700; ++i) {
    const double before = excess();
    stepper.do_step(move, state, i * move.plan->steps->step, move.plan->steps->step);
    impulse += 0.5 * move.plan->steps->step * (before + excess()); // exact: forces vary linearly within a step
    largest = std::max(largest, std::abs(impulse));
    CHECK(std::abs(momentum() - start - impulse) < 1e-9 * std::max(1.0, largest));
  }
  CHECK(largest > 100.0); // N s: the kink has been felt
}

TEST_CASE("Without any damping a bouncing wheel, its track and what drives it along keep their energy") {
  // E = vehicle (kinetic, springs, static load x height) + Hertz 2/5 C d^2.5 + track modes 1/2 |lambda| |z|^2 +
  // residual 1/2 R F^2; a force that travels at v along a rail of slope w' takes the power F v w' from the track, paid
  // by what drives the wheel. Derived: a folded mode of an undamped track carries z sqrt(omega) = q' + i omega q.
  track::Track t = cases::short_track();
  t.seat.pad_damping = t.seat.ballast_damping = 0.0;
  t.cut_off = 3000.0;
  const auto track = track::modal_track(t);
  for (int k = 0; k < track->modes; ++k) {
    REQUIRE(std::abs(track->lambda_re[k]) < 1e-6 * std::abs(track->lambda_im[k]));
  }
  const auto v = vehicle::assemble(vehicle::single_wheel(90e3, 900.0, 1.2e6, 0.0, 0.46));
  const Eigen::Index m = v.M.rows();
  struct Drift {
    double largest, thrown, given_to_track;
  };
  const auto drift = [&](double speed, double step) {
    auto s = cases::settings(speed, -0.02, 1.0);
    s.step = step;
    const auto move = cases::over(cases::level_path(), track, s, 0.0, v);
    passage::State state = passage::initial_state(move);
    passage::ExponentialStepper stepper(move);
    state.vehicle[m] = -0.3; // thrown down
    struct Parts {
      double vehicle, contact, track, along; // J, the last W
      double force, residual;                // N, m/N
      [[nodiscard]] double sum() const { return vehicle + contact + track; }
    };
    double residual = track->residual_at(move.plan->from);
    const auto energy = [&] {
      const Eigen::VectorXd u = state.vehicle.head(m), rate = state.vehicle.tail(m);
      Parts e{};
      e.vehicle = 0.5 * rate.dot(v.M * rate) + 0.5 * u.dot(v.K * u) + v.static_load[0] * u[0];
      e.force = state.force[0];
      const double approach = std::pow(e.force / move.plan->courses[0].law->body[0][0].c0, 2.0 / 3.0);
      e.contact = 0.4 * e.force * approach;
      const auto z = modal_coordinates(move, state);
      const int i = track->element_at(state.station);
      const double length = track->assembly.node[i + 1] - track->assembly.node[i];
      const double r = (state.station - track->assembly.node[i]) / length;
      double slope = 0.0, modal = 0.0;
      for (int k = 0; k < track->modes; ++k) {
        e.track += 0.5 * std::hypot(track->lambda_re[k], track->lambda_im[k]) * std::norm(z[k]);
        const auto c = [&](int power) {
          const std::size_t at = static_cast<std::size_t>(i * 4 + power) * track->padded + k;
          return Complex(track->theta_re[at], track->theta_im[at]);
        };
        modal += ((((c(3) * r + c(2)) * r + c(1)) * r + c(0)) * z[k]).real();
        slope += (((3.0 * c(3) * r + 2.0 * c(2)) * r + c(1)) / length * z[k]).real();
      }
      // Residual as the steps apply it (they look it up with an error of 1e-3 of itself): what the rail gives way
      // beyond its modes where the wheel presses on it.
      residual = e.force > 1e3 ? (-u[0] - approach - modal) / e.force : residual;
      e.residual = residual;
      e.track += 0.5 * residual * e.force * e.force;
      e.along = speed * e.force * slope;
      return e;
    };
    Parts before = energy();
    const Parts start = before;
    Drift result{0.0, 0.5 * v.M(0, 0) * 0.09, 0.0};
    double along = 0.0;
    const int steps = static_cast<int>(std::lround(0.02 / step));
    for (int i = 0; i < steps; ++i) {
      stepper.do_step(move, state, i * step, step);
      const Parts now = energy();
      along += 0.5 * step * (before.along + now.along) + // and 1/2 F^2 dR
               0.25 * (before.force * before.force + now.force * now.force) * (now.residual - before.residual);
      result.largest = std::max(result.largest, std::abs(now.sum() + along - start.sum()));
      result.given_to_track = std::max(result.given_to_track, now.track - start.track);
      before = now;
    }
    return result;
  };
  for (const double speed : {0.2, 20.0}) {
    const Drift d40 = drift(speed, 40e-6), d20 = drift(speed, 20e-6), d10 = drift(speed, 10e-6);
    CAPTURE(speed, d40.largest, d20.largest, d10.largest, d40.thrown, d40.given_to_track);
    CHECK(d10.given_to_track > 0.5 * d10.thrown); // the track has really been set moving
    CHECK(d40.largest < 1e-3 * d40.thrown);
    if (speed < 1.0) { // second order; on the move the corners of the compliance table add 1e-4 of the energy
      CHECK(std::log2(d40.largest / d10.largest) / 2.0 > 1.7);
    }
  }
}

TEST_CASE("With damping the bouncing only loses energy") {
  const auto track = track::modal_track(cases::short_track());
  const auto s = cases::settings(0.11, -0.0011, 0.1);
  const auto move = cases::over(cases::level_path(), track, s);
  passage::State state = passage::initial_state(move);
  passage::ExponentialStepper stepper(move);
  const double still = state.force[0];
  state.vehicle[move.vehicle->model.M.rows()] = -0.3;
  double early = 0.0, late = 0.0;
  for (int i = 0; i < 15000; ++i) {
    stepper.do_step(move, state, i * s.step, s.step);
    double& part = i < 2500 ? early : late;
    part = std::max(part, std::abs(state.force[0] - still));
  }
  CHECK(early > 0.5 * still);
  CHECK(late < 0.2 * early);
}

TEST_CASE("Deflections under moving loads add up and scale with the load") {
  const auto table = passage::step_table(cases::usual_track(), 4e-5);
  const auto one = [](double t) { return 9e4 * std::sin(700.0 * t); };
  const auto two = [](double t) { return 4e4 + 2e6 * t - 3e4 * std::cos(4000.0 * t); };
  const auto run = [&](const std::function<double(double)>& f) {
    return passage::moving_load(*table, f, -1.0, 30.0, 1500);
  };
  const auto a = run(one), b = run(two);
  const auto both = run([&](double t) { return one(t) + two(t); }),
             scaled = run([&](double t) { return -2.5 * one(t); });
  double sum_error = 0.0, scale_error = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    sum_error = std::max(sum_error, std::abs(both[i] - a[i] - b[i]));
    scale_error = std::max(scale_error, std::abs(scaled[i] + 2.5 * a[i]));
  }
  CHECK(sum_error < 1e-12 * cases::largest(both));
  CHECK(scale_error < 1e-12 * cases::largest(scaled));
}

TEST_CASE("A facing move and the trailing move over the mirrored track and path are one and the same") {
  track::Track t = cases::short_track();
  track::Seat stiff = t.seat, hanging = t.seat;
  stiff.pad_stiffness *= 2.0;
  stiff.bearer_mass *= 1.7;
  hanging.ballast_stiffness *= 0.3;
  track::RailProperties casting = t.rail;
  casting.EI *= 1.8;
  casting.rho_A *= 2.0;
  t.overrides = {{0.6, stiff}, {-1.2, hanging}};
  t.zones = {{-0.31, 1.49, casting}};
  track::Track mirror = t;
  mirror.overrides = {{-0.6, stiff}, {1.2, hanging}};
  mirror.zones = {{-1.49, 0.31, casting}};
  const auto there = track::modal_track(t), back = track::modal_track(mirror);

  const auto compare = [&](const cases::PathPtr& path, const cases::PathPtr& mirrored, const vehicle::VehicleModel& v) {
    const auto facing = passage::simulate(cases::over(path, there, cases::settings(40.0, -2.0, 2.4), 0.0, v));
    const auto trailing =
        passage::simulate(cases::over(mirrored, back, cases::settings(40.0, -2.4, 2.0, Direction::trailing), 0.0, v));
    REQUIRE(facing.force.size() == trailing.force.size());
    CHECK(cases::largest_difference(facing.force, trailing.force) < 1e-9 * cases::largest(facing.force));
    CHECK(cases::largest_difference(facing.wheel_height, trailing.wheel_height) <
          1e-9 * cases::largest(facing.wheel_height));
    CHECK(cases::largest_difference(facing.rail_deflection, trailing.rail_deflection) <
          1e-9 * cases::largest(facing.rail_deflection));
    CHECK(cases::largest(facing.force) > 1.2 * facing.static_load); // something happened
    for (std::size_t i = 0; i < facing.station.size(); i += 100) {
      CHECK(facing.station[i] == Approx(-trailing.station[i]).margin(1e-12));
    }
  };
  SECTION("a dip between two seats, one wheel") {
    compare(cases::given_path({-6.0, -0.4, 0.17, 0.5, 6.0}, {0.0, 0.0, -0.004, 0.0, 0.0}),
            cases::given_path({-6.0, -0.5, -0.17, 0.4, 6.0}, {0.0, 0.0, -0.004, 0.0, 0.0}), cases::usual_wheel());
  }
  SECTION("a dip between two seats, a bogie") {
    compare(cases::given_path({-6.0, -0.4, 0.17, 0.5, 6.0}, {0.0, 0.0, -0.004, 0.0, 0.0}),
            cases::given_path({-6.0, -0.5, -0.17, 0.4, 6.0}, {0.0, 0.0, -0.004, 0.0, 0.0}),
            vehicle::assemble(vehicle::preset("bogie")));
  }
  SECTION("two bodies that change over") {
    const std::vector<double> x{-6.0, -0.2, 0.11, 0.4, 6.0}, falling{0.0, 0.0, -0.002, -0.02, -0.1},
        rising{-0.1, -0.01, -0.002, 0.0, 0.0};
    const auto turned = [](std::vector<double> v, double sign) {
      std::reverse(v.begin(), v.end());
      for (double& value : v) {
        value *= sign;
      }
      return v;
    };
    compare(cases::two_body_path(x, falling, rising),
            cases::two_body_path(turned(x, -1.0), turned(falling, 1.0), turned(rising, 1.0)), cases::usual_wheel());
  }
}
