// One time step: of a single mode against its analytic solution, of the vehicle against an integration of its own.
#include "catch.hpp"
#include "passage_cases.hpp"

#include "wingnose/words/error.hpp"

#include <boost/numeric/odeint.hpp>

#include <Eigen/LU>

#include <complex>
#include <vector>

using namespace wingnose;
using Complex = std::complex<double>;

namespace {

// One element of 1 m that carries a few modes of constant shape, and a residual compliance.
cases::TrackPtr hand_made_track(const std::vector<Complex>& lambda, const std::vector<Complex>& theta,
                                double residual) {
  track::ModalTrack m;
  m.assembly.node = {0.0, 1.0};
  m.modes = static_cast<int>(lambda.size());
  m.padded = (m.modes + 7) / 8 * 8;
  const auto n = static_cast<std::size_t>(m.padded);
  m.lambda_re.assign(n, -1.0);
  m.lambda_im.assign(n, 0.0);
  m.theta_re.assign(4 * n, 0.0);
  m.theta_im.assign(4 * n, 0.0);
  for (std::size_t k = 0; k < lambda.size(); ++k) {
    m.lambda_re[k] = lambda[k].real();
    m.lambda_im[k] = lambda[k].imag();
    m.theta_re[k] = theta[k].real(); // the constant term of the cubic
    m.theta_im[k] = theta[k].imag();
    m.highest_frequency = std::max(m.highest_frequency, std::abs(lambda[k]) / 6.283185307179586);
  }
  m.residual_points = 13; // as the track room stores them
  m.residual.assign(13, residual);
  return std::make_shared<const track::ModalTrack>(std::move(m));
}

} // namespace

TEST_CASE("Every mode follows its exact solution under a force that grows evenly, at any step") {
  // z' = lambda z + theta a t from rest: z = theta a (exp(lambda t) - 1 - lambda t) / lambda^2.
  const std::vector<Complex> lambda{{-30.0, 400.0}, {-900.0, 7000.0}, {-2500.0, 0.0}, {-1e-3, 60.0}};
  const std::vector<Complex> theta{{1e-3, -4e-4}, {2e-4, 3e-4}, {0.0, 1e-3}, {5e-4, 5e-4}};
  constexpr double residual = 3e-10, rate = 4e6; // m/N, N/s
  const auto track = hand_made_track(lambda, theta, residual);
  for (const double step : {1e-6, 2.5e-5, 6e-4}) { // both branches of the weights: small and large lambda h
    const auto table = passage::step_table(track, step);
    const auto w = passage::moving_load(
        *table, [](double t) { return rate * t; }, 0.2, 0.1, 60);
    REQUIRE(w.size() == 61);
    double worst = 0.0;
    for (std::size_t i = 0; i < w.size(); ++i) {
      const double t = static_cast<double>(i) * step;
      double exact = residual * rate * t, scale = exact;
      for (std::size_t k = 0; k < lambda.size(); ++k) {
        // exp(u) - 1 - u by its series: the closed form loses all digits for small u.
        const Complex u = lambda[k] * t;
        Complex term = 0.5 * u * u, sum = term;
        for (int j = 3; j < 80; ++j) {
          term *= u / static_cast<double>(j);
          sum += term;
        }
        const Complex e = std::abs(u) < 1.0 ? sum : std::exp(u) - 1.0 - u;
        const Complex z = theta[k] * rate * e / (lambda[k] * lambda[k]);
        exact += (theta[k] * z).real();
        scale += std::abs(theta[k] * z);
      }
      worst = i == 0 ? std::abs(w[i]) : std::max(worst, std::abs(w[i] - exact) / scale);
    }
    CAPTURE(step);
    CHECK(worst < 1e-11);
  }
}

TEST_CASE("The modes that only fill up the vectors never move") {
  const auto move = cases::over(cases::kink_path(10e-3, 0.1), cases::usual_track(), cases::settings(40.0, -0.5, 0.5));
  const int modes = move.plan->track->modes, padded = move.plan->steps->modes;
  CHECK(padded % 8 == 0);
  CHECK(padded == move.plan->track->padded);
  passage::State state = passage::initial_state(move);
  passage::ExponentialStepper stepper(move);
  const double step = move.plan->steps->step;
  for (int i = 0; i < 1000; ++i) {
    stepper.do_step(move, state, i * step, step);
  }
  for (int k = 0; k < padded; ++k) {
    CHECK(std::isfinite(state.y_re[k] + state.y_im[k]));
    if (k >= modes) {
      CHECK(state.y_re[k] == 0.0);
      CHECK(state.y_im[k] == 0.0);
    }
  }
  // The hand-made track has five of eight places to fill, whatever the usual one has.
  const auto table =
      passage::step_table(hand_made_track({{-1.0, 50.0}, {-2.0, 90.0}, {-3.0, 0.0}}, {1.0, 1.0, 1.0}, 0.0), 1e-4);
  CHECK(table->modes == 8);
  for (int k = 3; k < 8; ++k) {
    CHECK(table->shape_re[k] == 0.0);
    CHECK(table->shape_im[k] == 0.0);
    CHECK(std::hypot(table->decay_re[k], table->decay_im[k]) < 1.0);
    CHECK(std::hypot(table->scale_re[k], table->scale_im[k]) > 0.0);
  }
}

TEST_CASE("A step too long for the track's highest mode, or no step at all, is refused") {
  const auto track = hand_made_track({{-10.0, 6283.185307179586}}, {1.0}, 0.0); // 1000 Hz: 0.8 ms
  CHECK_NOTHROW(passage::step_table(track, 0.79e-3));
  for (const double step : {0.81e-3, 0.02, 0.0, -1e-5, std::numeric_limits<double>::quiet_NaN()}) {
    CAPTURE(step);
    CHECK_THROWS_AS(passage::step_table(track, step), InputError);
  }
}

TEST_CASE("Deflection within a step: modes and residual together, as the recurrence applies them") {
  const auto track = cases::usual_track();
  const auto table = passage::step_table(track, 2.5e-5);
  for (const double x : {0.0, 0.013, 0.3, 0.411}) {
    const int e = track->element_at(x);
    const double s = (x - track->assembly.node[e]) / (track->assembly.node[e + 1] - track->assembly.node[e]);
    // A force that appears during one step: by moving_load at rest, 0 at its beginning and 1 N at its end.
    const auto w = passage::moving_load(
        *table, [](double t) { return t > 0.0 ? 1.0 : 0.0; }, x, 0.0, 1);
    CHECK(table->compliance_at(e, s) == Approx(w[1]).epsilon(1e-12));
    CHECK(table->compliance_at(e, s) > track->residual_at(x));
  }
}

TEST_CASE("The vehicle's step agrees with a fine integration of its masses, springs and dampers") {
  namespace odeint = boost::numeric::odeint;
  using Vector = std::vector<double>;
  for (const char* name : {"wheel", "bogie", "coach"}) {
    const auto v = vehicle::assemble(vehicle::preset(name));
    const Eigen::Index m = v.M.rows();
    const int wheels = v.wheels();
    for (const double step : {2.5e-5, 4e-3}) {
      const passage::VehicleStep one = passage::vehicle_step(v, step);
      Eigen::VectorXd begin(wheels), end(wheels), s(2 * m);
      for (int w = 0; w < wheels; ++w) {
        begin[w] = 4e4 * std::cos(1.0 + w);
        end[w] = 5e4 * std::sin(2.0 + 3.0 * w);
      }
      for (Eigen::Index i = 0; i < 2 * m; ++i) {
        s[i] = (i < m ? 1e-3 : 0.3) * std::cos(0.7 * static_cast<double>(i));
      }
      const auto motion = [&](const Vector& y, Vector& dy, double t) {
        const Eigen::Map<const Eigen::VectorXd> u(y.data(), m), rate(y.data() + m, m);
        Eigen::VectorXd force = -v.C * rate - v.K * u;
        force.head(wheels) += begin + t / step * (end - begin);
        for (Eigen::Index i = 0; i < m; ++i) {
          dy[i] = rate[i];
          dy[m + i] = force[i] / v.M(i, i);
        }
      };
      Vector y(s.data(), s.data() + 2 * m);
      odeint::integrate_n_steps(odeint::runge_kutta_fehlberg78<Vector>(), motion, y, 0.0, step / 50.0, 50);
      const Eigen::VectorXd next = one.transition * s + one.input_begin * begin + one.input_end * end;
      CAPTURE(name, step);
      for (Eigen::Index i = 0; i < 2 * m; ++i) {
        const double scale = i < m ? 1e-3 : 0.3;
        CHECK(next[i] == Approx(y[i]).epsilon(1e-10).margin(1e-11 * scale));
      }
    }
  }
}

TEST_CASE("Two wheels without a mass above them, as many motions as a wheel under a mass, each feel their own force") {
  const auto pair = vehicle::assemble(
      {"two wheels", {}, {{"front", 900.0, 0.0, 0.46}, {"rear", 900.0, -2.4, 0.46}}, {}, "made for this test"});
  auto s = cases::settings(20.0, -0.6, 0.6);
  s.reported_wheel = 1;
  const auto track = track::modal_track(cases::short_track());
  const auto table = passage::step_table(track, s.step);
  const auto path = cases::kink_path(4e-3, -0.2);
  const auto history = passage::simulate(cases::over(path, track, s, -0.2, pair, table));
  s.method = passage::Method::adaptive_runge_kutta;
  const auto reference = passage::simulate(cases::over(path, track, s, -0.2, pair, table));
  // Second order in the step; 0.5 % is what the default step is held to on a first peak.
  CHECK(cases::largest_difference(history.force, reference.force) < 5e-3 * cases::largest(reference.force));
  CHECK(cases::largest(reference.force) > 1.5 * reference.static_load); // the kink was felt
}
