#include "track_watch.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>

namespace wingnose::passage {
namespace {

namespace chain = track::chain;
using Complex = std::complex<double>;

// A load that oscillates at 500 Hz is read within 1.2 % of its amplitude at the worst instants.
constexpr double looked_every = 0.1e-3; // s

std::size_t nearest_of(const std::vector<double>& seats, double x) {
  return static_cast<std::size_t>(
      std::min_element(seats.begin(), seats.end(),
                       [x](double a, double b) { return std::abs(a - x) < std::abs(b - x); }) -
      seats.begin());
}

void raise(double& most, double value) { most = std::max(most, value); }

[[noreturn]] void refuse_across(double across, const std::string& why) {
  throw InputError("sensor.across_mm", number(1e3 * across) + " mm", "on bearers that bend",
                   "The bearers of this track are " + why +
                       ": leave the key out, the sensor then stands under the rail.");
}

[[noreturn]] void refuse_other_rail() {
  throw InputError("sensor.on", "\"other_rail\"", "on a track of two rails",
                   "This one models the rail of the wheels only: take track.method = \"chain\" with track.rails = "
                   "\"two\".");
}

} // namespace

TrackWatch::TrackWatch(const Passage& passage, int samples) : passage_(&passage) {
  const Plan& plan = *passage.plan;
  every_ = std::max(1, static_cast<int>(looked_every / plan.step + 1e-9));
  felt_.sampling = std::max(every_, plan.stride) * plan.step; // at most
  for (const SensorPlace& place : passage.run.sensors) {
    if (!(place.station >= plan.track_begin() && place.station <= plan.track_end())) {
      throw InputError("sensor.station_m", number(place.station) + " m",
                       number(plan.track_begin()) + " to " + number(plan.track_end()) + " m",
                       "The track is modelled there only.");
    }
    PointMotion& point = felt_.points.emplace_back();
    point.station = place.station;
    for (std::vector<double>* v : {&point.time, &point.deflection, &point.velocity}) {
      v->reserve(samples);
    }
  }
  if (plan.chain) {
    prepare_chain();
  } else {
    prepare_modes();
  }
}

void TrackWatch::prepare_chain() {
  const Plan& plan = *passage_->plan;
  const chain::Chain& c = *plan.chain;
  for (int i = 0; i < c.seats(); ++i) {
    const chain::BearerShape& shape = c.bearer_of(i);
    if (c.seat[i] >= plan.from && c.seat[i] <= plan.to) {
      felt_.bearers.emplace_back().station = c.seat[i];
      bearer_.push_back(
          {chain::rail_point(c, plan.rail, c.seat[i]), chain::bearer_rows(c, i, chain::places_across(c, i))});
      if (!shape.node.empty()) {
        felt_.coordinates = felt_.coordinates == 0 ? shape.n : std::min(felt_.coordinates, shape.n);
      }
    }
  }
  for (std::size_t p = 0; p < felt_.points.size(); ++p) {
    const SensorPlace& place = passage_->run.sensors[p];
    OnChain on;
    if (place.on_bearer) {
      const auto i = static_cast<int>(nearest_of(c.seat, place.station));
      felt_.points[p].station = c.seat[i];
      if (place.across && c.bearer_of(i).node.empty()) {
        refuse_across(*place.across, "lumps");
      }
      on.rows.bearer = i;
      if (place.across) {
        on.rows = chain::bearer_rows(c, i, {*place.across});
        on.row = 0;
      }
    } else {
      if (place.other_rail && c.rails < 2) {
        refuse_other_rail();
      }
      on.over = chain::rail_point(c, place.other_rail ? 1 - plan.rail : plan.rail, place.station);
    }
    point_.push_back(std::move(on));
  }
}

void TrackWatch::prepare_modes() {
  const track::ModalTrack& m = *passage_->plan->track;
  const std::vector<double>& seats = m.assembly.seat_station;
  felt_.top_mode = m.highest_frequency;
  const auto times = [&](ModalShape shape, int power) { // lambda^power
    for (int k = 0; k < m.padded; ++k) {
      shape[k] *= power == 0 ? Complex(1.0) : std::pow(Complex(m.lambda_re[k], m.lambda_im[k]), power);
    }
    return shape;
  };
  const auto of_bearer = [&](std::size_t j) {
    ModalShape shape(m.padded);
    for (int k = 0; k < m.padded; ++k) {
      shape[k] = {m.bearer_re[j * m.padded + k], m.bearer_im[j * m.padded + k]};
    }
    return shape;
  };
  // Of a point: deflection, velocity (z' = lambda z + theta f), and likewise acceleration.
  std::vector<ModalRows::Row> rows;
  for (std::size_t j = 0; j < seats.size(); ++j) {
    if (seats[j] >= passage_->plan->from && seats[j] <= passage_->plan->to) {
      felt_.bearers.emplace_back().station = seats[j];
      seat_.push_back(static_cast<int>(j));
      const ModalShape bearer = of_bearer(j);
      rows.push_back({m.shapes(seats[j]), {}});
      rows.push_back({bearer, {}});
      rows.push_back({times(bearer, 1), bearer});
      rows.push_back({times(bearer, 2), times(bearer, 1)});
    }
  }
  std::vector<ModalRows::Row> points;
  for (std::size_t p = 0; p < felt_.points.size(); ++p) {
    const SensorPlace& place = passage_->run.sensors[p];
    if (place.across) {
      refuse_across(*place.across, "lumps, the track being stepped by its modes");
    }
    if (place.other_rail) {
      refuse_other_rail();
    }
    const std::size_t j = nearest_of(seats, place.station);
    const ModalShape shape = place.on_bearer ? of_bearer(j) : m.shapes(place.station);
    felt_.points[p].station = place.on_bearer ? seats[j] : place.station;
    points.push_back({shape, {}});
    points.push_back({times(shape, 1), shape});
  }
  modes_.emplace(*passage_, *passage_->plan->steps, rows);
  point_modes_.emplace(*passage_, *passage_->plan->steps, points);
  value_.assign(std::max(rows.size(), points.size()), 0.0);
}

void TrackWatch::operator()(const State& state, int sample) {
  record_points(state, sample * passage_->plan->step);
  if (sample >= next_) {
    next_ = sample + every_;
    look_under_wheels(state);
    if (state.motion) {
      look_at_chain(state);
      look_at_rail(state);
    } else {
      look_at_modes(state);
    }
  }
}

void TrackWatch::look_at_chain(const State& state) {
  const chain::Chain& c = *passage_->plan->chain;
  const chain::Motion& m = *state.motion;
  const int rail = passage_->plan->rail;
  for (std::size_t b = 0; b < bearer_.size(); ++b) {
    BearerFelt& felt = felt_.bearers[b];
    const chain::BearerRows& rows = bearer_[b].rows;
    const double seat = chain::seat_force(c, m, rows.bearer, rail);
    raise(felt.rail_deflection, chain::rail_deflection(c, m, bearer_[b].over));
    raise(felt.deflection, chain::seat_deflection(c, m, rows.bearer, rail));
    raise(felt.seat_force, seat);
    raise(felt.seat_uplift, -seat);
    double ballast = 0.0;
    for (Eigen::Index p = 0; p < rows.ballast.of.rows(); ++p) {
      const double force = chain::value(rows.ballast, c, m, rows.bearer, static_cast<int>(p));
      ballast += force;
      if (!rows.area.empty()) { // NaN first
        felt.ballast_pressure = std::fmax(felt.ballast_pressure, force / rows.area[p]);
      }
    }
    raise(felt.ballast_force, ballast);
    for (std::size_t y = 0; y < rows.y.size(); ++y) {
      const double moment = chain::value(rows.moment, c, m, rows.bearer, static_cast<int>(y));
      if (!(std::abs(moment) <= std::abs(felt.moment))) {
        const chain::BearerShape& shape = c.bearer_of(rows.bearer);
        felt.moment = moment;
        felt.moment_across = rows.y[y];
        felt.strain = std::abs(moment) * 0.5 * shape.depth / shape.EI;
      }
    }
  }
}

BearerFelt& TrackWatch::nearest(double x) {
  return *std::min_element(felt_.bearers.begin(), felt_.bearers.end(), [x](const BearerFelt& a, const BearerFelt& b) {
    return std::abs(a.station - x) < std::abs(b.station - x);
  });
}

void TrackWatch::look_under_wheels(const State& state) {
  constexpr double over_it = 0.005; // m
  for (int w = 0; w < passage_->wheels() && !felt_.bearers.empty(); ++w) {
    const double x = passage_->wheel_station(w, state.station);
    BearerFelt& felt = nearest(x);
    if (std::abs(felt.station - x) < over_it) {
      raise(felt.rail_deflection, state.rail[w]);
    }
  }
}

void TrackWatch::look_at_rail(const State& state) {
  const chain::Chain& c = *passage_->plan->chain;
  for (int w = 0; w < passage_->wheels() && !felt_.bearers.empty(); ++w) {
    const chain::RailPoint under =
        chain::rail_point(c, passage_->plan->rail, passage_->wheel_station(w, state.station));
    const double modulus = chain::rail_section(c, under).foot_modulus;
    if (modulus > 0.0) {
      BearerFelt& felt = nearest(under.x);
      felt.rail_stress =
          std::fmax(felt.rail_stress, chain::rail_moment(c, *state.motion, under, state.force[w]) / modulus);
    }
  }
}

void TrackWatch::look_at_modes(const State& state) {
  modes_->evaluate(state, value_.data());
  for (std::size_t b = 0; b < seat_.size(); ++b) {
    const track::Seat& seat = passage_->plan->track->assembly.seat[seat_[b]];
    const double* v = value_.data() + 4 * b; // rail, bearer, its velocity and acceleration
    BearerFelt& felt = felt_.bearers[b];
    // What the pad presses the bearer with, by the bearer's own balance: it misses less of the modes left out than the
    // shortening of the pad does.
    const double ballast = seat.ballast_stiffness * v[1] + seat.ballast_damping * v[2];
    const double pad = seat.bearer_mass * v[3] + ballast;
    raise(felt.rail_deflection, v[0]);
    raise(felt.deflection, v[1]);
    raise(felt.seat_force, pad);
    raise(felt.seat_uplift, -pad);
    raise(felt.ballast_force, ballast);
  }
}

void TrackWatch::record_points(const State& state, double t) {
  if (felt_.points.empty()) {
    return;
  }
  if (!state.motion) {
    point_modes_->evaluate(state, value_.data());
  }
  for (std::size_t p = 0; p < felt_.points.size(); ++p) {
    PointMotion& point = felt_.points[p];
    point.time.push_back(t);
    if (!state.motion) {
      point.deflection.push_back(value_[2 * p]);
      point.velocity.push_back(value_[2 * p + 1]);
      continue;
    }
    const chain::Chain& c = *passage_->plan->chain;
    const OnChain& on = point_[p];
    const chain::Motion& m = *state.motion;
    const int rail = passage_->plan->rail;
    if (!passage_->run.sensors[p].on_bearer) {
      point.deflection.push_back(chain::rail_deflection(c, m, on.over));
      point.velocity.push_back(chain::rail_velocity(c, m, on.over));
    } else if (on.row < 0) {
      point.deflection.push_back(chain::seat_deflection(c, m, on.rows.bearer, rail));
      point.velocity.push_back(chain::seat_velocity(c, m, on.rows.bearer, rail));
    } else {
      point.deflection.push_back(chain::value(on.rows.deflection, c, m, on.rows.bearer, on.row));
      point.velocity.push_back(chain::rate(on.rows.deflection, c, m, on.rows.bearer, on.row));
    }
  }
}

} // namespace wingnose::passage
