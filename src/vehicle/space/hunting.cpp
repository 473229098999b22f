// Running in time on the analytic contact.
#include "on_rails.hpp"

#include "wingnose/vehicle/space/link_force.hpp"
#include "wingnose/words/error.hpp"

#include <boost/numeric/odeint/stepper/runge_kutta4.hpp>

#include <Eigen/LU>

#include <cmath>
#include <utility>

namespace wingnose::vehicle::space {
namespace {

using State = std::vector<double>;

// Share of the linear creep forces that is left where their resultant is u friction limits (Vermeulen, Johnson 1964).
double saturation(double u) { return u < 3.0 ? 1.0 - u / 3.0 + u * u / 27.0 : 1.0 / u; }

struct Push {
  double lateral, moment; // N, N m
};

// Both wheels of a wheelset, at rail level.
Push creep(const WheelsetOnRails& set, const AnalyticContact& c, double speed, double y, double yaw, double y_rate,
           double yaw_rate) {
  const double across = y_rate / speed - yaw, spin = yaw_rate / speed, l = set.half_spacing;
  const double along = yaw_rate * l / speed + c.conicity * y / set.radius; // at +y against the run, at -y with it
  double share = 1.0;
  if (c.friction_limit > 0.0) {
    share = saturation(std::hypot(c.f11 * along, c.f22 * across + c.f23 * spin) / c.friction_limit);
  }
  return {-2.0 * share * (c.f22 * across + c.f23 * spin),
          -2.0 * share * (c.f11 * along * l - c.f23 * across + c.f33 * spin)};
}

double flange(const AnalyticContact& c, double y) {
  const double beyond = std::abs(y) - c.flange_clearance;
  return beyond > 0.0 ? -std::copysign(c.flange_stiffness * beyond, y) : 0.0;
}

// What stops and dampers that give way add to small motion. series: whether springs in series are kept.
class Beyond {
public:
  Beyond(const SpatialModel& model, const Eigen::MatrixXd& shapes, bool series) : links_(model.beyond) {
    for (BeyondSmall& link : links_) {
      link.stretch = (shapes.transpose() * link.stretch).eval();
      link.series = series ? link.series : -1;
    }
  }
  // x, out: the state and its rate, whose last part is put right; n: coordinates.
  void add(const Eigen::Map<const Eigen::VectorXd>& x, Eigen::Index n, Eigen::VectorXd& push,
           Eigen::Map<Eigen::VectorXd>& out) const {
    for (const BeyondSmall& link : links_) {
      const double stretch = link.stretch.dot(x.head(n)), speed = link.stretch.dot(x.segment(n, n));
      double more = spring_force(link.law, stretch) - link.law.stiffness * stretch;
      if (link.series < 0) {
        more += damper_force(link.law, speed) - link.law.damping * speed;
      } else {
        const Eigen::Index inside = 2 * n + link.series;
        out(inside) = damper_speed(link.law, link.law.series_stiffness * (stretch - x(inside)));
      }
      push -= more * link.stretch;
    }
  }

private:
  std::vector<BeyondSmall> links_;
};

// State: coordinates, their rates, places inside dampers.
class Rates {
public:
  Rates(const OnRails& rails, const AnalyticContact& contact, double speed, const LinearSystem& system, Beyond beyond)
      : rails_(&rails), beyond_(std::move(beyond)), contact_(&contact), speed_(speed), n_(system.size()),
        A_(state_matrix(system)), mobility_(system.M.inverse()), push_(Eigen::VectorXd::Zero(system.size())) {}

  void operator()(const State& state, State& rate, double /*time*/) {
    const Eigen::Map<const Eigen::VectorXd> x(state.data(), static_cast<Eigen::Index>(state.size()));
    Eigen::Map<Eigen::VectorXd> out(rate.data(), static_cast<Eigen::Index>(rate.size()));
    const auto at = [&](int i, Eigen::Index from) { return i < 0 ? 0.0 : x(from + i); };
    push_.setZero();
    for (const WheelsetOnRails& set : rails_->wheelsets) {
      const double y = set.at_rail * at(set.shift, 0);
      const Push push =
          creep(set, *contact_, speed_, y, at(set.yaw, 0), set.at_rail * at(set.shift, n_), at(set.yaw, n_));
      if (set.shift >= 0) {
        push_(set.shift) += set.at_rail * (push.lateral + flange(*contact_, y));
      }
      if (set.yaw >= 0) {
        push_(set.yaw) += push.moment;
      }
    }
    out.noalias() = A_ * x;
    beyond_.add(x, n_, push_, out);
    out.segment(n_, n_).noalias() += mobility_ * push_;
  }

private:
  const OnRails* rails_;
  Beyond beyond_;
  const AnalyticContact* contact_;
  double speed_;
  Eigen::Index n_;
  Eigen::MatrixXd A_, mobility_;
  Eigen::VectorXd push_;
};

// Every part shifted alike.
State shifted(const SpatialModel& model, const LinearSystem& system, double shift) {
  State state(static_cast<std::size_t>(2 * system.size()) + system.series.size(), 0.0);
  for (std::size_t i = 0; i < system.coordinate.size(); ++i) {
    for (int part = 0; part < model.parts(); ++part) {
      if (model.coordinate[static_cast<std::size_t>(index(part, Motion::y))] == system.coordinate[i]) {
        state[i] = shift;
      }
    }
  }
  return state;
}

} // namespace

HuntingHistory hunt(const SpatialModel& model, const AnalyticContact& contact, const Hunting& run, const Terms& terms) {
  demand_ranges(run, "hunting");
  const OnRails rails = on_rails(model, contact);
  LinearSystem system = reduced(model, rails.shapes, rails.names, run.speed, terms);
  for (const WheelsetOnRails& set : rails.wheelsets) {
    add_gravity(set, contact, system);
  }
  Rates rates(rails, contact, run.speed, system, Beyond(model, rails.shapes, terms.series));
  State state = shifted(model, system, run.shift);
  if (!run.start.empty()) {
    if (run.start.size() != state.size()) {
      throw InputError("start of hunting", std::to_string(run.start.size()) + " numbers",
                       std::to_string(state.size()) + " for this vehicle",
                       "Start from the end of a run of the same vehicle, or leave it empty.");
    }
    state = run.start;
  }
  boost::numeric::odeint::runge_kutta4<State> stepper;

  const auto steps = static_cast<long>(std::ceil(run.duration / run.step));
  const long kept = steps / run.stride + 1;
  HuntingHistory out{{}, Eigen::MatrixXd(kept, static_cast<Eigen::Index>(rails.wheelsets.size())), {}};
  out.time.reserve(static_cast<std::size_t>(kept));
  for (long step = 0; step <= steps; ++step) {
    if (step % run.stride == 0) {
      for (std::size_t i = 0; i < rails.wheelsets.size(); ++i) {
        const WheelsetOnRails& set = rails.wheelsets[i];
        const double y = set.shift < 0 ? 0.0 : set.at_rail * state[static_cast<std::size_t>(set.shift)];
        if (!(std::abs(y) < 1.0)) {
          throw ComputeError(
              "The wheelsets swing beyond 1 m: the motion grows without bound, or the step is too long for "
              "the creep's damping at this speed. Shorten the step, lower the speed, or give a flange.");
        }
        out.shift(static_cast<Eigen::Index>(out.time.size()), static_cast<Eigen::Index>(i)) = y;
      }
      out.time.push_back(static_cast<double>(step) * run.step);
    }
    if (step < steps) {
      stepper.do_step(std::ref(rates), state, static_cast<double>(step) * run.step, run.step);
    }
  }
  out.end = state;
  return out;
}

} // namespace wingnose::vehicle::space
