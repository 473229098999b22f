#include "adaptive.hpp"

#include "contact_solve.hpp"
#include "path_cursor.hpp"

#include <boost/numeric/odeint.hpp>

#include <complex>

namespace wingnose::passage {
namespace {

using Complex = std::complex<double>;
using Vector = std::vector<double>; // z_re [modes], z_im [modes], vehicle displacements and velocities

// Right-hand side; also finds the contact forces that belong to a given motion.
class Equations {
public:
  explicit Equations(const Passage& passage)
      : passage_(&passage), n_(passage.plan->track->padded), theta_(passage.wheels(), Vector(2 * n_)),
        force_(passage.wheels()), body_force_(passage.wheels()), rail_(passage.wheels()),
        interval_(passage.wheels(), 0), element_(passage.wheels(), 0) {}

  // Algebraic part: with the residual compliance the force follows from w = modal deflection + R F at once.
  void contact(const Vector& y, double t) {
    const track::ModalTrack& m = *passage_->plan->track;
    const Run& run = passage_->run;
    station_ = passage_->start() + sense(run.direction) * run.speed * t;
    for (int w = 0; w < passage_->wheels(); ++w) {
      const double x = passage_->wheel_station(w, station_);
      const track::OnElement at = m.place(x);
      element_[w] = at.element;
      const double *re = m.element_re(at.element), *im = m.element_im(at.element);
      double modal = 0.0;
      for (int k = 0; k < n_; ++k) {
        const double p = track::shape_at(re, n_, k, at.s), q = track::shape_at(im, n_, k, at.s);
        theta_[w][k] = p;
        theta_[w][n_ + k] = q;
        modal += p * y[k] - q * y[n_ + k];
      }
      const double residual = m.residual_at(x);
      const Course& course = passage_->plan->courses[w];
      PathCursor cursor(*course.path, interval_[w]);
      cursor.move_to(x);
      interval_[w] = cursor.interval();
      std::array<double, max_bodies> approach{};
      std::array<contact::ForceLaw, max_bodies> law{};
      const int bodies = static_cast<int>(course.path->bodies.size());
      for (int b = 0; b < bodies; ++b) {
        const BodyState body = cursor.body(course.path->bodies[b].height, course.law->body[b]);
        approach[b] = body.height - modal - y[2 * n_ + w];
        law[b] = body.law;
      }
      force_[w] = solve_contact(approach, law, course.law->reach, bodies, residual, force_[w], body_force_[w]);
      rail_[w] = modal + residual * force_[w];
    }
  }

  void operator()(const Vector& y, Vector& dy, double t) {
    contact(y, t);
    const track::ModalTrack& m = *passage_->plan->track;
    for (int k = 0; k < n_; ++k) {
      dy[k] = m.lambda_re[k] * y[k] - m.lambda_im[k] * y[n_ + k];
      dy[n_ + k] = m.lambda_re[k] * y[n_ + k] + m.lambda_im[k] * y[k];
    }
    const VehicleStep& v = passage_->vehicle->step;
    const Eigen::Index states = v.rate.rows();
    const Eigen::Map<const Eigen::VectorXd> s(y.data() + 2 * n_, states);
    Eigen::Map<Eigen::VectorXd> ds(dy.data() + 2 * n_, states);
    ds.noalias() = v.rate * s;
    for (int w = 0; w < passage_->wheels(); ++w) {
      for (int k = 0; k < 2 * n_; ++k) {
        dy[k] += theta_[w][k] * force_[w];
      }
      ds += v.rate_input.col(w) * (force_[w] - passage_->vehicle->model.static_load[w]);
    }
  }

  // What is recorded, for the motion y at time t. The scaled modal coordinates are chosen so that z = scale y +
  // lag theta f holds.
  void fill(const Vector& y, double t, State& state) {
    contact(y, t);
    const StepTable& table = *passage_->plan->steps;
    state.station = station_;
    state.body_force = body_force_;
    state.rail = rail_;
    state.element = element_;
    state.vehicle = Eigen::Map<const Eigen::VectorXd>(y.data() + 2 * n_, passage_->vehicle->step.rate.rows());
    for (int w = 0; w < passage_->wheels(); ++w) {
      state.force[w] = force_[w];
    }
    for (int k = 0; k < n_; ++k) {
      const Complex scale(table.scale_re[k], table.scale_im[k]), lag(table.lag_re[k], table.lag_im[k]);
      Complex z(y[k], y[n_ + k]);
      for (int w = 0; w < passage_->wheels(); ++w) {
        const Complex shape = scale * Complex(theta_[w][k], theta_[w][n_ + k]);
        state.theta_re[w][k] = shape.real();
        state.theta_im[w][k] = shape.imag();
        z -= lag * shape * force_[w];
      }
      const Complex scaled = z / scale;
      state.y_re[k] = scaled.real();
      state.y_im[k] = scaled.imag();
    }
  }

private:
  const Passage* passage_;
  int n_;
  std::vector<Vector> theta_;
  Vector force_;
  std::vector<std::array<double, max_bodies>> body_force_;
  Vector rail_;
  std::vector<int> interval_;
  std::vector<int> element_;
  double station_ = 0.0;
};

} // namespace

void integrate_adaptive(const Passage& passage, State& state, int samples,
                        const std::function<void(const State&, int)>& record) {
  namespace odeint = boost::numeric::odeint;
  const int n = passage.plan->track->padded;
  const StepTable& table = *passage.plan->steps;
  Vector y(2 * n + static_cast<std::size_t>(passage.vehicle->step.rate.rows()));
  for (int k = 0; k < n; ++k) {
    const Complex scale(table.scale_re[k], table.scale_im[k]), lag(table.lag_re[k], table.lag_im[k]);
    Complex z = scale * Complex(state.y_re[k], state.y_im[k]);
    for (int w = 0; w < passage.wheels(); ++w) {
      z += lag * Complex(state.theta_re[w][k], state.theta_im[w][k]) * state.force[w];
    }
    y[k] = z.real();
    y[n + k] = z.imag();
  }
  Eigen::Map<Eigen::VectorXd>(y.data() + 2 * n, passage.vehicle->step.rate.rows()) = state.vehicle;

  Equations equations(passage);
  // Absolute tolerance: coordinates of very different size share it, so it is tied to the track's modal deflection at
  // rest.
  double largest = 0.0;
  for (const double value : y) {
    largest = std::max(largest, std::abs(value));
  }
  const double relative = passage.run.tolerance;
  // Steps stay below one sample so that no contact begins and ends unseen.
  auto stepper =
      odeint::make_dense_output(relative * 1e-3 * largest, relative, table.step, odeint::runge_kutta_dopri5<Vector>());
  int sample = 0;
  odeint::integrate_const(stepper, std::ref(equations), y, 0.0, (samples - 0.5) * table.step, table.step,
                          [&](const Vector& at, double t) {
                            equations.fill(at, t, state);
                            record(state, sample++);
                          });
}

} // namespace wingnose::passage
