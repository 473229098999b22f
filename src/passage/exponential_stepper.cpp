#include "wingnose/passage/exponential_stepper.hpp"

#include "contact_solve.hpp"
#include "kernels.hpp"
#include "path_cursor.hpp"
#include "searched_contact.hpp"

#include <cmath>
#include <complex>

namespace wingnose::passage {
namespace {

// First cubic coefficient set and local coordinate of station x, starting the search at the wheel's last element.
kernels::Place place(const StepTable& t, double x, int& element) {
  const double* node = t.track->assembly.node.data();
  const int last = t.track->elements() - 1;
  while (element > 0 && x < node[element]) {
    --element;
  }
  while (element < last && x >= node[element + 1]) {
    ++element;
  }
  return {t.element_shape_re(element), t.element_shape_im(element),
          (x - node[element]) / (node[element + 1] - node[element])};
}

kernels::Modes modes(const StepTable& t) { return {t.modes, t.decay_re.data(), t.decay_im.data()}; }

// Whether any law along the path is more than Hertz's.
bool has_further_terms(const contact::PathLaw& path) {
  if (!std::isinf(path.reach)) {
    return true;
  }
  bool further = false;
  for (const std::vector<contact::ForceLaw>& body : path.body) {
    for (const contact::ForceLaw& law : body) {
      further |= law.c1 != 0.0 || law.c2 != 0.0;
    }
  }
  return further;
}

// The common case of studies, of sizes the compiler then knows; two wheels without a mass above them have as many
// motions.
bool one_mass_above_one_wheel(const State& state) { return state.vehicle.size() == 4 && state.force.size() == 1; }

// The three parts of a step that belong to one passage alone, whether it runs singly or in a batch.

void advance_vehicle(const Scene& scene, State& state, double time) {
  const Settings& settings = scene.settings;
  const double travelled = settings.speed * time;
  state.station = settings.direction == Direction::facing ? settings.from + travelled : settings.to - travelled;
  for (int w = 0; w < scene.wheels(); ++w) {
    state.force_change[w] = state.force[w] - scene.vehicle.static_load[w];
  }
  if (one_mass_above_one_wheel(state)) {
    const Eigen::Map<const Eigen::Matrix4d> transition(scene.vehicle_step.transition.data());
    const Eigen::Map<const Eigen::Vector4d> input(scene.vehicle_step.input_begin.data()), now(state.vehicle.data());
    Eigen::Map<Eigen::Vector4d>(state.vehicle_next.data()).noalias() = transition * now + input * state.force_change[0];
    return;
  }
  // lazyProduct: these matrices are small, and the blocked product would cost more in calls than in arithmetic.
  state.vehicle_next = scene.vehicle_step.transition.lazyProduct(state.vehicle);
  state.vehicle_next += scene.vehicle_step.input_begin.lazyProduct(state.force_change);
}

// What one wheel brings to its contact in a step.
struct Approach {
  std::array<double, max_bodies> depth; // m, without this step's force
  std::array<contact::ForceLaw, max_bodies> law;
  int bodies;
  double compliance; // m/N, of rail and wheel
};

// free_rail: deflection at the wheel (m, downward) without this step's force. further_terms: false reads the first term
// of the laws only.
template <bool further_terms>
inline Approach approach(const Scene& scene, State& state, int w, double x, double free_rail, double rail_compliance) {
  const double wheel_compliance = scene.vehicle_step.input_end(w, w);
  const double free_wheel = state.vehicle_next[w] - wheel_compliance * scene.vehicle.static_load[w];
  PathCursor cursor(*scene.path, state.path_index[w]);
  cursor.move_to(x);
  state.path_index[w] = cursor.interval();
  Approach result{{-1.0, -1.0}, {}, static_cast<int>(scene.path->bodies.size()), rail_compliance + wheel_compliance};
  for (int b = 0; b < result.bodies; ++b) {
    const BodyState body = cursor.body<further_terms>(scene.path->bodies[b].height, scene.law.body[b]);
    result.depth[b] = body.height - free_rail - free_wheel;
    result.law[b] = body.law;
  }
  return result;
}

// The same where contact is searched at this very step: heights of first touch from the search.
double searched_force(const Scene& scene, State& state, int w, double x, double free_rail, double rail_compliance) {
  const double wheel_compliance = scene.vehicle_step.input_end(w, w);
  const double free_wheel = state.vehicle_next[w] - wheel_compliance * scene.vehicle.static_load[w];
  const int bodies = static_cast<int>(scene.path->bodies.size());
  std::array<contact::GapLine, max_bodies>& lines = state.gap[static_cast<std::size_t>(w)];
  std::array<double, max_bodies> depth{-1.0, -1.0};
  for (int b = 0; b < bodies; ++b) {
    scene.search->look(static_cast<std::size_t>(b), x, lines[b]);
    depth[b] = lines[b].level - free_rail - free_wheel;
  }
  return solve_searched(*scene.search, lines, scene.combined_modulus, depth, bodies, rail_compliance + wheel_compliance,
                        state.force[w] + state.slope[w], state.body_force[w]);
}

void accept(State& state, int w, double force, double free_rail, double rail_compliance) {
  state.slope[w] = force - state.force[w];
  state.force[w] = force;
  state.rail[w] = free_rail + rail_compliance * force;
}

void finish_vehicle(const Scene& scene, State& state) {
  for (int w = 0; w < scene.wheels(); ++w) {
    state.force_change[w] = state.force[w] - scene.vehicle.static_load[w];
  }
  if (one_mass_above_one_wheel(state)) {
    const Eigen::Map<const Eigen::Vector4d> input(scene.vehicle_step.input_end.data());
    Eigen::Map<Eigen::Vector4d>(state.vehicle_next.data()) += input * state.force_change[0];
  } else {
    state.vehicle_next += scene.vehicle_step.input_end.lazyProduct(state.force_change);
  }
  state.vehicle.swap(state.vehicle_next);
}

// What the lanes of a batch bring to their contacts; idle ones touch nothing. Reading and blending all three terms of
// eight laws would take two thirds of the time that solving them takes: laws of one term are read as such.
template <bool further_terms>
void gather(std::span<const Scene> scenes, BatchState& batch, double x,
            const std::array<double, BatchState::lanes>& free_rail, double compliance, kernels::ContactLanes& lanes) {
  for (std::size_t j = 0; j < BatchState::lanes; ++j) {
    const bool busy = j < scenes.size();
    const Approach a = busy ? approach<further_terms>(scenes[j], batch.cases[j], 0, x, free_rail[j], compliance)
                            : Approach{{-1.0, -1.0}, {}, 0, 1.0};
    for (std::size_t b = 0; b < max_bodies; ++b) {
      lanes.approach[b][j] = a.depth[b];
      lanes.c0[b][j] = a.law[b].c0;
      if constexpr (further_terms) {
        lanes.c1[b][j] = a.law[b].c1;
        lanes.c2[b][j] = a.law[b].c2;
      }
    }
    lanes.compliance[j] = a.compliance;
    if constexpr (further_terms) {
      lanes.reach[j] = busy ? scenes[j].law.reach : 1.0;
    }
    lanes.force[j] = busy ? batch.cases[j].force[0] + batch.cases[j].slope[0] : 0.0;
  }
}

} // namespace

State initial_state(const Scene& scene) {
  using Complex = std::complex<double>;
  const StepTable& t = *scene.steps;
  const Settings& settings = scene.settings;
  const int wheels = scene.wheels();
  const Eigen::Index m = scene.vehicle.K.rows();

  State state;
  state.station = settings.direction == Direction::facing ? settings.from : settings.to;
  const Equilibrium still = equilibrium(scene, state.station);
  state.force = still.force;
  state.force_change.resize(wheels);
  state.vehicle = Eigen::VectorXd::Zero(2 * m);
  state.vehicle.head(m) = still.displacement;
  state.vehicle_next = state.vehicle;
  state.body_force = still.body_force;
  state.rail = still.rail;
  state.slope.assign(wheels, 0.0);
  state.path_index.assign(wheels, 0);
  state.element.assign(wheels, 0);
  state.gap.resize(scene.search ? static_cast<std::size_t>(wheels) : 0);
  state.y_re.assign(t.modes, 0.0);
  state.y_im.assign(t.modes, 0.0);
  state.theta_re.assign(wheels, AlignedVector(t.modes, 0.0));
  state.theta_im.assign(wheels, AlignedVector(t.modes, 0.0));

  double mean_slope = 0.0;
  for (int w = 0; w < wheels; ++w) {
    const double x = scene.wheel_station(w, state.station);
    state.element[w] = scene.track->element_at(x);
    kernels::shape_and_deflection(t.modes, state.y_re.data(), state.y_im.data(), state.theta_re[w].data(),
                                  state.theta_im[w].data(), place(t, x, state.element[w]));
    PathCursor cursor(*scene.path);
    double height[2] = {-1e300, -1e300};
    for (int side = 0; side < 2; ++side) { // slope of the path just ahead of the wheel, in the sense of travel
      cursor.move_to(x + side * 0.002 * sense(settings.direction));
      for (std::size_t b = 0; b < scene.path->bodies.size(); ++b) {
        height[side] = std::max(height[side], cursor.body(scene.path->bodies[b].height, scene.law.body[b]).height);
      }
      if (side == 0) {
        state.path_index[w] = cursor.interval();
      }
    }
    const double slope = (height[1] - height[0]) / 0.002;
    mean_slope += slope / wheels;
    state.vehicle[m + w] = slope * settings.speed;
  }
  // A vehicle that starts on a ramp already moves with it. Heaves follow the mean ramp; bodies do not pitch at first.
  for (Eigen::Index i = wheels; i < m; ++i) {
    if (scene.vehicle.coordinate[i].find("pitch") == std::string::npos) {
      state.vehicle[m + i] = mean_slope * settings.speed;
    }
  }

  // Track at rest under the wheels: z = -theta F / lambda; then y = (z - lag theta F) / scale.
  for (int k = 0; k < t.modes; ++k) {
    const Complex scale(t.scale_re[k], t.scale_im[k]), lag(t.lag_re[k], t.lag_im[k]);
    const Complex lambda(scene.track->lambda_re[k], scene.track->lambda_im[k]);
    Complex y = 0.0;
    for (int w = 0; w < wheels; ++w) {
      const Complex shape(state.theta_re[w][k], state.theta_im[w][k]); // already scaled
      y += (-shape / (scale * lambda) - lag * shape) / scale * state.force[w];
    }
    state.y_re[k] = y.real();
    state.y_im[k] = y.imag();
  }
  return state;
}

void ExponentialStepper::do_step(const Scene& scene, State& state, double t, double dt) const {
  const StepTable& table = *scene.steps;
  const int wheels = scene.wheels();
  advance_vehicle(scene, state, t + dt);

  const kernels::Modes m = modes(table);
  double* y_re = state.y_re.data();
  double* y_im = state.y_im.data();
  if (wheels > 1) {
    kernels::decay(m, y_re, y_im);
    for (int w = 0; w < wheels; ++w) {
      kernels::add_force(m.n, y_re, y_im, state.theta_re[w].data(), state.theta_im[w].data(), state.force[w]);
    }
  }
  for (int w = 0; w < wheels; ++w) {
    const double x = scene.wheel_station(w, state.station);
    const kernels::Place at = place(table, x, state.element[w]);
    double* theta_re = state.theta_re[w].data();
    double* theta_im = state.theta_im[w].data();
    const double free_rail = wheels > 1 ? kernels::shape_and_deflection(m.n, y_re, y_im, theta_re, theta_im, at)
                                        : kernels::advance(m, y_re, y_im, theta_re, theta_im, state.force[0], at);
    // Within one step a wheel feels only its own force: waves in the rail and the suspension take longer to the next
    // wheel.
    const double rail_compliance = table.compliance_at(state.element[w], at.s);
    if (scene.search) {
      accept(state, w, searched_force(scene, state, w, x, free_rail, rail_compliance), free_rail, rail_compliance);
      continue;
    }
    const Approach a = approach<true>(scene, state, w, x, free_rail, rail_compliance);
    const double force = solve_contact(a.depth, a.law, scene.law.reach, a.bodies, a.compliance,
                                       state.force[w] + state.slope[w], state.body_force[w]);
    accept(state, w, force, free_rail, rail_compliance);
  }
  finish_vehicle(scene, state);
}

BatchState::BatchState(std::span<const Scene> scenes) {
  const int n = scenes.front().steps->modes;
  y_re.assign(static_cast<std::size_t>(n) * lanes, 0.0);
  y_im.assign(static_cast<std::size_t>(n) * lanes, 0.0);
  for (std::size_t j = 0; j < scenes.size(); ++j) {
    further_terms = further_terms || has_further_terms(scenes[j].law);
    State state = initial_state(scenes[j]);
    for (int k = 0; k < n; ++k) {
      y_re[static_cast<std::size_t>(k) * lanes + j] = state.y_re[k];
      y_im[static_cast<std::size_t>(k) * lanes + j] = state.y_im[k];
    }
    force[j] = state.force[0];
    theta_re = state.theta_re[0];
    theta_im = state.theta_im[0];
    element = state.element[0];
    cases.push_back(std::move(state));
  }
}

void BatchStepper::do_step(std::span<const Scene> scenes, BatchState& batch, double t, double dt) const {
  const StepTable& table = *scenes.front().steps;
  for (std::size_t j = 0; j < scenes.size(); ++j) {
    advance_vehicle(scenes[j], batch.cases[j], t + dt);
  }
  const double x = batch.cases.front().station;
  const kernels::Place at = place(table, x, batch.element);
  std::array<double, BatchState::lanes> free_rail{};
  kernels::advance8(modes(table), batch.y_re.data(), batch.y_im.data(), batch.theta_re.data(), batch.theta_im.data(),
                    batch.force.data(), at, free_rail.data());
  const double compliance = table.compliance_at(batch.element, at.s);
  kernels::ContactLanes lanes;
  if (batch.further_terms) {
    gather<true>(scenes, batch, x, free_rail, compliance, lanes);
  } else {
    gather<false>(scenes, batch, x, free_rail, compliance, lanes);
  }
  kernels::solve_contact8(lanes, batch.further_terms);
  for (std::size_t j = 0; j < scenes.size(); ++j) {
    State& state = batch.cases[j];
    accept(state, 0, lanes.force[j], free_rail[j], compliance);
    state.body_force[0] = {lanes.body_force[0][j], lanes.body_force[1][j]};
    batch.force[j] = state.force[0];
    finish_vehicle(scenes[j], state);
  }
}

} // namespace wingnose::passage
