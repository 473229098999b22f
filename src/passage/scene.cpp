#include "wingnose/passage/scene.hpp"

#include "path_cursor.hpp"

#include "wingnose/words/error.hpp"

#include <unsupported/Eigen/MatrixFunctions>

#include <algorithm>
#include <cmath>
#include <string>

namespace wingnose::passage {
namespace {

void check(const Settings& s, const vehicle::VehicleModel& v, const track::ModalTrack& track, const Scene& scene) {
  if (!(s.speed > 0.1 && s.speed < 200.0)) {
    throw InputError("speed", number(s.speed) + " m/s", "0.1 to 200 m/s", "Give the speed of the move.");
  }
  if (!(s.to > s.from)) {
    throw InputError("passage window", number(s.from) + " to " + number(s.to) + " m", "from below to",
                     "from and to are stations in x, whatever the direction of the move.");
  }
  if (s.reported_wheel < 0 || s.reported_wheel >= v.wheels()) {
    throw InputError("reported wheel", std::to_string(s.reported_wheel + 1), "1 to " + std::to_string(v.wheels()),
                     "Wheels are counted from the leading one.");
  }
  for (const double x : {s.from, s.to}) {
    for (int w = 0; w < v.wheels(); ++w) {
      const double at = scene.wheel_station(w, x);
      if (at < track.begin() || at > track.end()) {
        throw InputError("track length", number(track.begin()) + " to " + number(track.end()) + " m",
                         "a track that carries wheel " + std::to_string(w + 1) + " at " + number(at) + " m",
                         "Give more bays or a shorter window.");
      }
    }
  }
}

} // namespace

double Scene::wheel_station(int i, double x) const {
  return x + sense(settings.direction) * (vehicle.wheel_x[i] - vehicle.wheel_x[settings.reported_wheel]);
}

VehicleStep vehicle_step(const vehicle::VehicleModel& v, double step) {
  const Eigen::Index m = v.M.rows();
  const Eigen::Index wheels = v.wheels();
  VehicleStep s;
  const Eigen::MatrixXd inverse_mass = v.M.inverse();
  s.rate = Eigen::MatrixXd::Zero(2 * m, 2 * m);
  s.rate.topRightCorner(m, m).setIdentity();
  s.rate.bottomLeftCorner(m, m) = -inverse_mass * v.K;
  s.rate.bottomRightCorner(m, m) = -inverse_mass * v.C;
  s.rate_input = Eigen::MatrixXd::Zero(2 * m, wheels);
  s.rate_input.bottomRows(m) = inverse_mass.leftCols(wheels);

  // Van Loan (1978, doi:10.1109/TAC.1978.1101743): the exponential of the augmented matrix holds the transition and
  // both weights of the first-order hold.
  const Eigen::Index n = 2 * m;
  Eigen::MatrixXd augmented = Eigen::MatrixXd::Zero(n + 2 * wheels, n + 2 * wheels);
  augmented.topLeftCorner(n, n) = s.rate * step;
  augmented.block(0, n, n, wheels) = s.rate_input * step;
  augmented.block(n, n + wheels, wheels, wheels).setIdentity();
  const Eigen::MatrixXd e = augmented.exp();
  s.transition = e.topLeftCorner(n, n);
  s.input_end = e.topRightCorner(n, wheels);
  s.input_begin = e.block(0, n, n, wheels) - s.input_end;
  return s;
}

Scene make_scene(std::shared_ptr<const layout::WheelPath> path, std::shared_ptr<const track::ModalTrack> track,
                 const vehicle::VehicleModel& vehicle, const Settings& settings, double landing_station,
                 const contact::Elastic& steel, std::shared_ptr<const StepTable> steps, const contact::PathLaw* law,
                 std::shared_ptr<const contact::StepSearch> search) {
  Scene scene;
  scene.vehicle = vehicle;
  scene.settings = settings;
  scene.landing_station = landing_station;
  check(settings, vehicle, *track, scene);
  if (path->station.size() < 2 || path->bodies.empty() || path->bodies.size() > 2) {
    throw InputError("wheel path",
                     std::to_string(path->bodies.size()) + " bodies, " + std::to_string(path->station.size()) +
                         " stations",
                     "one or two bodies, two or more stations", "Roll the wheel over the crossing first.");
  }
  if (steps && (steps->track != track || steps->step != settings.step)) {
    throw InputError("step table", number(steps->step) + " s", "the table of this track and step",
                     "Make one with step_table().");
  }
  scene.steps = steps ? std::move(steps) : step_table(track, settings.step);
  scene.vehicle_step = passage::vehicle_step(vehicle, settings.step);
  scene.law = law != nullptr ? *law : contact::ellipse_law(*path);
  if (scene.law.body.size() != path->bodies.size() || scene.law.body.front().size() != path->station.size()) {
    throw InputError("law of contact", std::to_string(scene.law.body.size()) + " bodies", "a law of the same path",
                     "Make it from this path.");
  }
  if (search && settings.method != Method::modal_exponential) {
    throw InputError("search for contact at every step", "with method " + std::string(name(settings.method)),
                     "method " + std::string(name(Method::modal_exponential)),
                     "The adaptive method takes the law along the path.");
  }
  if (search && search->bodies() != path->bodies.size()) {
    throw InputError("search for contact at every step", std::to_string(search->bodies()) + " bodies",
                     std::to_string(path->bodies.size()) + " as the path's", "Make it for the same crossing.");
  }
  scene.search = std::move(search);
  scene.combined_modulus = steel.combined();
  const double E_star = steel.combined();
  for (std::vector<contact::ForceLaw>& body : scene.law.body) {
    for (contact::ForceLaw& one : body) {
      one = E_star * one;
    }
  }
  scene.path = std::move(path);
  scene.track = std::move(track);
  return scene;
}

namespace {

// theta of every mode at station x.
Eigen::VectorXcd mode_shapes(const track::ModalTrack& m, double x) {
  const int e = m.element_at(x);
  const double s = (x - m.assembly.node[e]) / (m.assembly.node[e + 1] - m.assembly.node[e]);
  const double* re = m.theta_re.data() + static_cast<std::size_t>(e) * 4 * m.padded;
  const double* im = m.theta_im.data() + static_cast<std::size_t>(e) * 4 * m.padded;
  Eigen::VectorXcd theta(m.padded);
  for (int k = 0; k < m.padded; ++k) {
    theta[k] = {((re[3 * m.padded + k] * s + re[2 * m.padded + k]) * s + re[m.padded + k]) * s + re[k],
                ((im[3 * m.padded + k] * s + im[2 * m.padded + k]) * s + im[m.padded + k]) * s + im[k]};
  }
  return theta;
}

} // namespace

Equilibrium equilibrium(const Scene& scene, double x) {
  const int wheels = scene.wheels();
  const Eigen::Index m = scene.vehicle.K.rows();
  const layout::WheelPath& path = *scene.path;
  const track::ModalTrack& track = *scene.track;

  // Static compliance of the track between the wheels, as the modes and the residual give it.
  std::vector<Eigen::VectorXcd> theta;
  std::vector<double> station;
  for (int w = 0; w < wheels; ++w) {
    station.push_back(scene.wheel_station(w, x));
    theta.push_back(mode_shapes(track, station[w]));
  }
  Eigen::MatrixXd compliance(wheels, wheels);
  for (int i = 0; i < wheels; ++i) {
    for (int j = 0; j < wheels; ++j) {
      double sum = 0.0;
      for (int k = 0; k < track.padded; ++k) {
        sum -= (theta[i][k] * theta[j][k] / std::complex<double>(track.lambda_re[k], track.lambda_im[k])).real();
      }
      compliance(i, j) = sum + (i == j ? track.residual_at(station[i]) : 0.0);
    }
  }

  Eigen::VectorXd u = Eigen::VectorXd::Zero(m), load(wheels), F(wheels);
  for (int w = 0; w < wheels; ++w) {
    load[w] = scene.vehicle.static_load[w];
  }
  F = load;
  // Newton on: K u = P (F - F0) and F_w = sum_b f_b(z_b - w_w - u_w). Start with every wheel pressed in by its
  // own load.
  PathCursor cursor(path);
  std::vector<std::vector<BodyState>> bodies(wheels);
  std::vector<std::array<contact::GapLine, 2>> gap(scene.search ? static_cast<std::size_t>(wheels) : 0);
  for (int w = 0; w < wheels; ++w) {
    cursor.move_to(station[w]);
    for (std::size_t b = 0; b < path.bodies.size(); ++b) {
      bodies[w].push_back(cursor.body(path.bodies[b].height, scene.law.body[b]));
      if (scene.search) {
        scene.search->look(b, station[w], gap[w][b]);
        bodies[w][b].height = gap[w][b].level;
      }
    }
    const auto top =
        std::max_element(bodies[w].begin(), bodies[w].end(), [](auto& p, auto& q) { return p.height < q.height; });
    if (!std::isfinite(top->height)) {
      throw ComputeError("wheel " + std::to_string(w + 1) + " finds no rail under it at station " + number(station[w]) +
                         " m");
    }
    u[w] = top->height - (compliance * F)[w] - contact::depth_for_force(top->law, F[w], scene.law.reach);
  }
  for (int iteration = 0; iteration < 50; ++iteration) {
    Eigen::MatrixXd J = Eigen::MatrixXd::Zero(m + wheels, m + wheels);
    Eigen::VectorXd r(m + wheels);
    J.topLeftCorner(m, m) = scene.vehicle.K;
    J.block(0, m, wheels, wheels) = -Eigen::MatrixXd::Identity(wheels, wheels);
    r.head(m) = scene.vehicle.K * u;
    r.head(wheels) -= F - load;
    const Eigen::VectorXd deflection = compliance * F;
    for (int w = 0; w < wheels; ++w) {
      double force = 0.0, stiffness = 0.0;
      // A searched contact tells its law at one depth at a time; kept once that depth has settled.
      for (std::size_t b = 0; scene.search && iteration < 20 && b < bodies[w].size(); ++b) {
        const double depth = bodies[w][b].height - deflection[w] - u[w];
        if (depth > 0.0) {
          bodies[w][b].law = scene.combined_modulus * scene.search->law(gap[w][b], depth);
        }
      }
      for (const BodyState& body : bodies[w]) {
        const auto value = body.law.at(body.height - deflection[w] - u[w], scene.law.reach);
        force += value.force;
        stiffness += value.stiffness;
      }
      stiffness = std::max(stiffness, 1e6); // keeps the system regular while a wheel is still in the air
      // Written in length units (divided by the contact stiffness) so that all rows are of like size.
      r[m + w] = (F[w] - force) / stiffness;
      J.row(m + w).tail(wheels) = compliance.row(w);
      J(m + w, m + w) += 1.0 / stiffness;
      J(m + w, w) = 1.0;
    }
    const Eigen::VectorXd change = J.fullPivLu().solve(r);
    u -= change.head(m);
    F -= change.tail(wheels);
    // Both: the forces of one wheel are its load whatever its height.
    constexpr double settled = 1e-11; // m
    if (change.tail(wheels).cwiseAbs().maxCoeff() < 1e-9 * load.maxCoeff() &&
        change.head(wheels).cwiseAbs().maxCoeff() < settled) {
      if ((F.array() < 0.0).any()) {
        break;
      }
      Equilibrium result{u, F, std::vector<std::array<double, 2>>(wheels), std::vector<double>(wheels)};
      const Eigen::VectorXd rail = compliance * F;
      for (int w = 0; w < wheels; ++w) {
        result.rail[w] = rail[w];
        for (std::size_t b = 0; b < bodies[w].size(); ++b) {
          const double depth = bodies[w][b].height - rail[w] - u[w];
          result.body_force[w][b] = bodies[w][b].law.at(depth, scene.law.reach).force;
        }
      }
      return result;
    }
  }
  throw ComputeError("no static equilibrium found with the reported wheel at station " + number(x) +
                     " m; check that every wheel starts on a supported stretch");
}

} // namespace wingnose::passage
