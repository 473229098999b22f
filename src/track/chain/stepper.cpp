#include "wingnose/track/chain/stepper.hpp"

#include "blocks.hpp"

#include "wingnose/numeric/clones.hpp"
#include "wingnose/words/error.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <array>
#include <cmath>

namespace wingnose::track::chain {
namespace {

using detail::boundary;
using detail::first_mode;
using detail::first_unknown;

// Constants of the step, see the header; w is imaginary.
const double root3 = std::sqrt(3.0);
const Complex r(3.0, root3);
const Complex kappa = 0.5 - r / 12.0;
const double w = 4.0 * root3;

// What a part of Z adds to displacements and to velocities.
double moves(Complex z) { return -w * z.imag(); }
double speeds(Complex s, Complex z) { return -w * (s * z).imag(); }

template <class Coordinates>
double pad_shortening(const Chain& chain, const Eigen::VectorXd& seat, int i, int line, const Coordinates& q) {
  return seat[first_unknown(chain, i, line)] - chain.bearer_of(i).seat.col(line).dot(q);
}

// Shortening of a link in displacements or velocities.
double link_shortening(const Chain& chain, int i, const Link& link, const Eigen::VectorXd& seat,
                       const Eigen::VectorXd& bearer) {
  const BearerShape& shape = chain.bearer_of(i);
  const auto q = bearer.segment(chain.coordinate[i], shape.n);
  return link.pad >= 0 ? pad_shortening(chain, seat, i, link.pad, q) : shape.ballast[link.point].shape.dot(q);
}

} // namespace

StepFactor step_factor(const Chain& chain, double h) {
  if (!(h > 0.0 && std::isfinite(h))) {
    throw InputError("step of the track", number(h) + " s", "above 0 and finite", "Correct the step.");
  }
  StepFactor f{h, factor(chain, r / h), {}};
  Field field(chain);
  for (int i = 0; i < chain.seats(); ++i) {
    const int m = chain.link[i + 1] - chain.link[i];
    if (m == 0) {
      continue;
    }
    StepFactor::Answer answer{i, Eigen::MatrixXd(m, m), Eigen::MatrixXd(m, m)};
    for (int j = 0; j < m; ++j) {
      field.clear();
      add_link_column(chain, f.factor, field, i, j, kappa);
      for (int k = 0; k < m; ++k) {
        const Complex z = shortening(chain, f.factor, field, i, k);
        answer.shortening(k, j) = moves(z);
        answer.rate(k, j) = speeds(f.factor.s, z);
      }
    }
    f.links.push_back(std::move(answer));
  }
  return f;
}

Stepper::Stepper(const Chain& chain, int wheels)
    : chain_(&chain), field_(chain), to_(wheels), own_(wheels, 0.0), before_(wheels, 0.0), link_(chain.links(), 0.0) {}

// s M v0 - K u0 + f0 + kappa (f1 - f0)
WINGNOSE_CLONES
void Stepper::right_hand_side(const Motion& m, std::span<const WheelForce> from) {
  const Chain& chain = *chain_;
  const Complex s = factor_->factor.s;
  field_.seat.setZero();
  for (int b = 0; b < chain.bays(); ++b) {
    for (int line = 0; line < chain.lines; ++line) {
      const RailBay& bay = chain.bay_of(b, line);
      const Eigen::Vector4d u = boundary(chain, m.seat, b, line), v = boundary(chain, m.seat_rate, b, line);
      const Eigen::Index first = first_mode(chain, b, line);
      Eigen::Vector4d momentum = bay.M * v;
      const Eigen::Vector4d force = bay.K * u;
      for (int j = 0; j < bay.modes; ++j) {
        const auto couples = bay.coupling.col(j);
        momentum += m.bay_rate[first + j] * couples;
        field_.bay[first + j] = s * (couples.dot(v) + m.bay_rate[first + j]) - bay.stiffness[j] * m.bay[first + j];
      }
      field_.seat.segment<2>(first_unknown(chain, b, line)) += s * momentum.head<2>() - force.head<2>();
      field_.seat.segment<2>(first_unknown(chain, b + 1, line)) += s * momentum.tail<2>() - force.tail<2>();
    }
  }
  for (int i = 0; i < chain.seats(); ++i) {
    const BearerShape& bearer = chain.bearer_of(i);
    const Eigen::Index first = chain.coordinate[i];
    const auto q = m.bearer.segment(first, bearer.n);
    for (int j = 0; j < bearer.n; ++j) {
      field_.bearer[first + j] = s * m.bearer_rate[first + j] - bearer.stiffness[j] * q[j];
    }
    for (int line = 0; line < chain.lines; ++line) {
      const double force = bearer.pad[line].stiffness * pad_shortening(chain, m.seat, i, line, q);
      field_.seat[first_unknown(chain, i, line)] -= force;
      for (int j = 0; j < bearer.n; ++j) {
        field_.bearer[first + j] += force * bearer.seat(j, line);
      }
    }
  }
  for (const WheelForce& wheel : from) {
    add_rail_force(chain, field_, wheel.at, (1.0 - kappa) * wheel.force);
  }
  for (const WheelForce& wheel : to_) {
    add_rail_force(chain, field_, wheel.at, kappa * wheel.force);
  }
  for (const StepFactor::Answer& answer : factor_->links) {
    for (int l = 0; l < answer.rate.cols(); ++l) { // first guess: as it was
      const double force = m.link[chain.link[answer.bearer] + l];
      if (force != 0.0) {
        add_link_force(chain, field_, answer.bearer, l, -force);
      }
    }
  }
}

void Stepper::begin(const Motion& motion, const StepFactor& f, std::span<const WheelForce> from,
                    std::span<const WheelForce> to) {
  factor_ = &f;
  motion_ = &motion;
  std::copy(to.begin(), to.end(), to_.begin());
  std::copy(motion.link.begin(), motion.link.end(), link_.begin());
  right_hand_side(motion, from);
  reduce(*chain_, f.factor, field_);
  for (std::size_t i = 0; i < to_.size(); ++i) {
    own_[i] = moves(kappa * chain::compliance(*chain_, f.factor, to_[i].at)) + to_[i].at.residual;
    before_[i] = rail_deflection(*chain_, motion, to_[i].at);
  }
}

double Stepper::free_deflection(int i) const {
  const WheelForce& wheel = to_[i];
  const double moved = moves(deflection(*chain_, factor_->factor, field_, wheel.at));
  return before_[i] + moved - (own_[i] - wheel.at.residual) * wheel.force;
}

void Stepper::set_force(int i, double force) {
  const double change = force - to_[i].force;
  if (change != 0.0) {
    add_rail_column(*chain_, factor_->factor, field_, to_[i].at, kappa * change);
    to_[i].force = force;
  }
}

double Stepper::meet_links() {
  double most = 0.0;
  for (const StepFactor::Answer& answer : factor_->links) {
    most = std::max(most, meet_links(answer));
  }
  return most;
}

// Newton on the links of one bearer: x = law(dead + e, e') - dead force - k e - c e', with e = free - Y x.
double Stepper::meet_links(const StepFactor::Answer& answer) {
  using Small = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, most_links, 1>;
  using Square = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, most_links, most_links>;
  constexpr int most_rounds = 20;
  constexpr double settled = 1e-6; // N
  const Chain& chain = *chain_;
  const int i = answer.bearer, first = chain.link[i];
  const auto m = static_cast<int>(answer.rate.cols());
  const std::vector<Link>& links = chain.bearer_of(i).links;
  Small e(m), rate(m), x(m), start(m), residual(m);
  std::array<Complex, most_links> all{};
  const std::span<Complex> moved = std::span(all).first(m);
  shortenings(chain, factor_->factor, field_, i, moved);
  for (int l = 0; l < m; ++l) {
    const Complex z = moved[l];
    e[l] = link_shortening(chain, i, links[l], motion_->seat, motion_->bearer) + moves(z);
    rate[l] =
        link_shortening(chain, i, links[l], motion_->seat_rate, motion_->bearer_rate) + speeds(factor_->factor.s, z);
    x[l] = start[l] = link_[first + l];
  }
  for (int round = 0; round < most_rounds; ++round) {
    Square J = Square::Identity(m, m);
    bool plain = true; // no link deviates from its spring in stiffness
    for (int l = 0; l < m; ++l) {
      const LinkLaw& law = links[l].law;
      const LinkLaw::Value value = law.at(chain.dead_shortening[first + l] + e[l], rate[l]);
      residual[l] = x[l] - (value.force - chain.dead_force[first + l] - law.stiffness * e[l] - law.damping * rate[l]);
      const double k = value.stiffness - law.stiffness, c = value.damping - law.damping;
      if (k != 0.0 || c != 0.0) {
        J.row(l) += k * answer.shortening.row(l) + c * answer.rate.row(l);
        plain = false;
      }
    }
    if (residual.cwiseAbs().maxCoeff() <= settled) {
      break;
    }
    Small change = residual;
    if (!plain) {
      change = J.partialPivLu().solve(residual);
    }
    x -= change;
    e.noalias() += answer.shortening.lazyProduct(change);
    rate.noalias() += answer.rate.lazyProduct(change);
  }
  const Small change = x - start;
  const double most = change.cwiseAbs().maxCoeff();
  if (most > 0.0) {
    add_link_columns(chain, factor_->factor, field_, i, std::span<const double>(change.data(), m), -kappa);
    std::copy(x.data(), x.data() + m, link_.begin() + first);
  }
  return most;
}

void Stepper::end(Motion& m) {
  finish(*chain_, factor_->factor, field_);
  const Complex s = factor_->factor.s;
  const auto advance = [&](Eigen::VectorXd& u, Eigen::VectorXd& v, const Eigen::VectorXcd& z) {
    u -= w * z.imag();
    v -= w * (s.real() * z.imag() + s.imag() * z.real());
  };
  advance(m.seat, m.seat_rate, field_.seat);
  advance(m.bay, m.bay_rate, field_.bay);
  advance(m.bearer, m.bearer_rate, field_.bearer);
  std::copy(link_.begin(), link_.end(), m.link.begin());
}

} // namespace wingnose::track::chain
