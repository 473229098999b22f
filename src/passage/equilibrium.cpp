#include "wingnose/passage/equilibrium.hpp"

#include "loads_on_chain.hpp"
#include "path_cursor.hpp"

#include "wingnose/words/error.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <complex>
#include <string>

namespace wingnose::passage {
namespace {

constexpr int most_rounds = 50;
constexpr int rounds_of_search = 20;    // a searched contact keeps its law once its depth has settled
constexpr double settled = 1e-11;       // m
constexpr double least_stiffness = 1e6; // N/m, keeps the system regular while a wheel is still in the air

// Static compliance of the track between the wheels, as the modes and the residual give it (m/N).
Eigen::MatrixXd compliance_between(const track::ModalTrack& track, const std::vector<double>& station) {
  const auto wheels = static_cast<Eigen::Index>(station.size());
  std::vector<std::vector<std::complex<double>>> theta;
  theta.reserve(station.size());
  for (const double x : station) {
    theta.push_back(track.shapes(x));
  }
  Eigen::MatrixXd compliance(wheels, wheels);
  for (Eigen::Index i = 0; i < wheels; ++i) {
    for (Eigen::Index j = 0; j < wheels; ++j) {
      double sum = 0.0;
      for (int k = 0; k < track.padded; ++k) {
        sum -= (theta[i][k] * theta[j][k] / std::complex<double>(track.lambda_re[k], track.lambda_im[k])).real();
      }
      compliance(i, j) = sum + (i == j ? track.residual_at(station[i]) : 0.0);
    }
  }
  return compliance;
}

// The same of a chain, all of its ballast in contact.
Eigen::MatrixXd compliance_between(const track::chain::Chain& chain, int rail, const std::vector<double>& station) {
  const auto wheels = static_cast<Eigen::Index>(station.size());
  std::vector<track::chain::RailPoint> at;
  at.reserve(station.size());
  for (const double x : station) {
    at.push_back(track::chain::rail_point(chain, rail, x));
  }
  const track::chain::Factor f = track::chain::factor(chain, 0.0);
  track::chain::Field field(chain);
  Eigen::MatrixXd compliance(wheels, wheels);
  for (Eigen::Index j = 0; j < wheels; ++j) {
    field.clear();
    track::chain::add_rail_column(chain, f, field, at[j], 1.0);
    for (Eigen::Index i = 0; i < wheels; ++i) {
      compliance(i, j) = track::chain::deflection(chain, f, field, at[i]).real() + (i == j ? at[i].residual : 0.0);
    }
  }
  return compliance;
}

// Deflections of a chain under its wheels beyond those of `compliance` (m): by what hangs or stiffens, and by partners
// abreast.
Eigen::VectorXd more_than_linear(const Passage& passage, double x, const Eigen::MatrixXd& compliance,
                                 const Eigen::VectorXd& F) {
  const track::chain::Chain& chain = *passage.plan->chain;
  const track::chain::Motion rest = track::chain::at_rest(chain, loads_on_chain(passage, x, F));
  Eigen::VectorXd more = -(compliance * F);
  for (int w = 0; w < passage.wheels(); ++w) {
    const track::chain::RailPoint at = track::chain::rail_point(chain, passage.plan->rail, passage.wheel_station(w, x));
    more[w] += track::chain::rail_deflection(chain, rest, at) + at.residual * F[w];
  }
  return more;
}

// A wheel over its bodies where it stands.
struct Standing {
  const Course* course;
  std::vector<BodyState> bodies;
  std::array<contact::GapLine, 2> gap; // where contact is searched

  Standing(const Course& c, double x, const std::string& wheel) : course(&c) {
    PathCursor cursor(*c.path);
    cursor.move_to(x);
    for (std::size_t b = 0; b < c.path->bodies.size(); ++b) {
      bodies.push_back(cursor.body(c.path->bodies[b].height, c.law->body[b]));
      if (c.search) {
        c.search->look(b, x, gap[b]);
        bodies[b].height = gap[b].level;
      }
    }
    if (!std::isfinite(top().height)) {
      throw ComputeError(wheel + " finds no rail under it at station " + number(x) + " m");
    }
  }
  [[nodiscard]] const BodyState& top() const {
    return *std::max_element(bodies.begin(), bodies.end(), [](auto& p, auto& q) { return p.height < q.height; });
  }
  // deflection: of the rail (m, downward); u: of the wheel (m, up).
  void search(double deflection, double u, double E_star) {
    for (std::size_t b = 0; b < bodies.size(); ++b) {
      const double depth = bodies[b].height - deflection - u;
      if (depth > 0.0) {
        bodies[b].law = E_star * course->search->law(gap[b], depth);
      }
    }
  }
  [[nodiscard]] contact::ForceLaw::Value force(double deflection, double u) const {
    contact::ForceLaw::Value sum{0.0, 0.0};
    for (const BodyState& body : bodies) {
      const auto value = body.law.at(body.height - deflection - u, course->law->reach);
      sum.force += value.force;
      sum.stiffness += value.stiffness;
    }
    return sum;
  }
};

} // namespace

Equilibrium equilibrium(const Passage& passage, double x) {
  const vehicle::VehicleModel& vehicle = passage.vehicle->model;
  const int wheels = passage.wheels();
  const Eigen::Index m = vehicle.K.rows();

  std::vector<double> station;
  std::vector<Standing> standing;
  standing.reserve(static_cast<std::size_t>(wheels));
  for (int w = 0; w < wheels; ++w) {
    station.push_back(passage.wheel_station(w, x));
    standing.emplace_back(passage.plan->courses[w], station[w], "wheel " + std::to_string(w + 1));
  }
  const Plan& plan = *passage.plan;
  const Eigen::MatrixXd compliance =
      plan.chain ? compliance_between(*plan.chain, plan.rail, station) : compliance_between(*plan.track, station);
  const Eigen::VectorXd load = Eigen::Map<const Eigen::VectorXd>(vehicle.static_load.data(), wheels);

  // A track that is not linear deflects by `more` beyond its compliance, found anew while the forces settle.
  Eigen::VectorXd more = Eigen::VectorXd::Zero(wheels);

  // Newton on: K u = P (F - F0) and F_w = sum_b f_b(z_b - w_w - u_w). Start with every wheel pressed in by its
  // own load.
  Eigen::VectorXd u = Eigen::VectorXd::Zero(m), F = load;
  for (int w = 0; w < wheels; ++w) {
    const BodyState& top = standing[w].top();
    u[w] =
        top.height - (compliance * F)[w] - contact::depth_for_force(top.law, F[w], passage.plan->courses[w].law->reach);
  }
  for (int round = 0; round < most_rounds; ++round) {
    Eigen::MatrixXd J = Eigen::MatrixXd::Zero(m + wheels, m + wheels);
    Eigen::VectorXd r(m + wheels);
    J.topLeftCorner(m, m) = vehicle.K;
    J.block(0, m, wheels, wheels) = -Eigen::MatrixXd::Identity(wheels, wheels);
    r.head(m) = vehicle.K * u;
    r.head(wheels) -= F - load;
    Eigen::VectorXd deflection = compliance * F;
    double moved = 0.0; // m
    if (plan.chain) {
      const Eigen::VectorXd last = more;
      more = more_than_linear(passage, x, compliance, F);
      moved = (more - last).cwiseAbs().maxCoeff();
      deflection += more;
    }
    for (int w = 0; w < wheels; ++w) {
      if (standing[w].course->search && round < rounds_of_search) {
        standing[w].search(deflection[w], u[w], passage.plan->combined_modulus);
      }
      const contact::ForceLaw::Value value = standing[w].force(deflection[w], u[w]);
      const double stiffness = std::max(value.stiffness, least_stiffness);
      // Written in length units (divided by the contact stiffness) so that all rows are of like size.
      r[m + w] = (F[w] - value.force) / stiffness;
      J.row(m + w).tail(wheels) = compliance.row(w);
      J(m + w, m + w) += 1.0 / stiffness;
      J(m + w, w) = 1.0;
    }
    const Eigen::VectorXd change = J.fullPivLu().solve(r);
    u -= change.head(m);
    F -= change.tail(wheels);
    // Both: the forces of one wheel are its load whatever its height.
    if (change.tail(wheels).cwiseAbs().maxCoeff() < 1e-9 * load.maxCoeff() &&
        change.head(wheels).cwiseAbs().maxCoeff() < settled && moved < settled) {
      if ((F.array() < 0.0).any()) {
        break;
      }
      Equilibrium result{u, F, std::vector<std::array<double, 2>>(wheels), std::vector<double>(wheels)};
      const Eigen::VectorXd rail = compliance * F + more;
      for (int w = 0; w < wheels; ++w) {
        result.rail[w] = rail[w];
        for (std::size_t b = 0; b < standing[w].bodies.size(); ++b) {
          const BodyState& body = standing[w].bodies[b];
          const double depth = body.height - rail[w] - u[w];
          result.body_force[w][b] = body.law.at(depth, passage.plan->courses[w].law->reach).force;
        }
      }
      return result;
    }
  }
  throw ComputeError("no static equilibrium found with the reported wheel at station " + number(x) +
                     " m; check that every wheel starts on a supported stretch");
}

} // namespace wingnose::passage
