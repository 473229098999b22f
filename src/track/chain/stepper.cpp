#include "wingnose/track/chain/stepper.hpp"

#include "columns.hpp"
#include "step_sweep.hpp"

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
  StepFactor f{h, factor(chain, r / h), {}, {}};
  f.matrices = step_matrices(chain, f.factor, w);
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
    : chain_(&chain), field_(chain), bearer_(Eigen::VectorXcd::Zero(chain.coordinate.back())), touched_(2 * wheels),
      to_(wheels), onto_(wheels), own_(wheels, 0.0), before_(wheels, 0.0), link_(chain.links(), 0.0) {}

// Right-hand side of the modes of a bay, by their motion alone.
Stepper::ModalField Stepper::modes_by_motion(int bay, int line) const {
  const Chain& chain = *chain_;
  const RailBay& shape = chain.bay_of(bay, line);
  const Eigen::Vector4d v = boundary(chain, motion_->seat_rate, bay, line);
  const Eigen::Index first = first_mode(chain, bay, line);
  ModalField rhs = ModalField::Zero();
  for (int j = 0; j < shape.modes; ++j) {
    rhs[j] = factor_->factor.s * (shape.coupling.col(j).dot(v) + motion_->bay_rate[first + j]) -
             shape.stiffness[j] * motion_->bay[first + j];
  }
  return rhs;
}

// The same of the coordinates of a bearer with links, solved on its pads and ballast with the rails held.
void Stepper::bearer_by_motion(int i) {
  const Chain& chain = *chain_;
  const BearerShape& bearer = chain.bearer_of(i);
  const Eigen::Index first = chain.coordinate[i];
  const auto q = motion_->bearer.segment(first, bearer.n);
  Eigen::Matrix<Complex, Eigen::Dynamic, 1, 0, most_coordinates, 1> rhs =
      factor_->factor.s * motion_->bearer_rate.segment(first, bearer.n) - bearer.stiffness.cwiseProduct(q);
  for (int line = 0; line < chain.lines; ++line) {
    rhs += bearer.pad[line].stiffness * pad_shortening(chain, motion_->seat, i, line, q) * bearer.seat.col(line);
  }
  bearer_.segment(first, bearer.n) = factor_->factor.bearer_inverse[chain.bearer[i]].lazyProduct(rhs);
}

void Stepper::touch(const RailPoint& at) {
  const std::pair<int, int> bay(at.bay, at.line);
  const auto end = touched_.begin() + touches_;
  if (std::find(touched_.begin(), end, bay) == end) {
    touched_[touches_++] = bay;
    field_.bay.segment<most_modes>(first_mode(*chain_, at.bay, at.line)) = modes_by_motion(at.bay, at.line);
  }
}

// s M v0 - K u0 + f0 + kappa (f1 - f0) at the seats; inside, only where a wheel or a link asks.
void Stepper::right_hand_side(std::span<const WheelForce> from) {
  const Chain& chain = *chain_;
  const Factor& f = factor_->factor;
  detail::onto_seats(chain, factor_->matrices, *motion_, field_.seat);
  touches_ = 0;
  for (const WheelForce& wheel : from) {
    touch(wheel.at);
    detail::add_reduced_force(chain, field_, wheel.at, detail::onto_boundary(chain, f, wheel.at),
                              (1.0 - kappa) * wheel.force);
  }
  for (std::size_t i = 0; i < to_.size(); ++i) {
    const WheelForce& wheel = to_[i];
    touch(wheel.at);
    onto_[i] = detail::onto_boundary(chain, f, wheel.at);
    detail::add_reduced_force(chain, field_, wheel.at, onto_[i], kappa * wheel.force);
  }
  for (const StepFactor::Answer& answer : factor_->links) {
    const int i = answer.bearer, first = chain.link[i];
    const Eigen::Index at = chain.coordinate[i];
    bearer_by_motion(i);
    field_.bearer.segment(at, chain.bearer_of(i).n) = bearer_.segment(at, chain.bearer_of(i).n);
    // first guess: as it was
    detail::add_reduced_links(chain, f, field_, i, std::span(motion_->link).subspan(first, answer.rate.cols()), -1.0);
  }
}

void Stepper::begin(const Motion& motion, const StepFactor& f, std::span<const WheelForce> from,
                    std::span<const WheelForce> to) {
  factor_ = &f;
  motion_ = &motion;
  std::copy(to.begin(), to.end(), to_.begin());
  std::copy(motion.link.begin(), motion.link.end(), link_.begin());
  right_hand_side(from);
  detail::solve_seats(*chain_, f.matrices.seats, field_.seat);
  for (std::size_t i = 0; i < to_.size(); ++i) {
    own_[i] = moves(kappa * detail::compliance(*chain_, f.factor, to_[i].at, onto_[i])) + to_[i].at.residual;
    before_[i] = rail_deflection(*chain_, motion, to_[i].at);
  }
}

double Stepper::free_deflection(int i) const {
  const WheelForce& wheel = to_[i];
  const double moved = moves(detail::deflection(*chain_, factor_->factor, field_, wheel.at, onto_[i]));
  return before_[i] + moved - (own_[i] - wheel.at.residual) * wheel.force;
}

void Stepper::set_force(int i, double force) {
  const double change = force - to_[i].force;
  if (change != 0.0) {
    detail::add_rail_column(*chain_, factor_->factor, field_, to_[i].at, onto_[i], kappa * change);
    to_[i].force = force;
  }
}

Stepper::Answer Stepper::answer(int w_of, int by) const {
  const Factor& f = factor_->factor;
  const Complex z = kappa * detail::compliance(*chain_, f, to_[w_of].at, onto_[w_of], to_[by].at, onto_[by]);
  return {moves(z) + (w_of == by ? to_[by].at.residual : 0.0), speeds(f.s, z)};
}

double Stepper::deflection(int i) const { return free_deflection(i) + own_[i] * to_[i].force; }

double Stepper::velocity(int i) const {
  const Factor& f = factor_->factor;
  const WheelForce& wheel = to_[i];
  return rail_velocity(*chain_, *motion_, wheel.at) +
         speeds(f.s, detail::deflection(*chain_, f, field_, wheel.at, onto_[i]));
}

void Stepper::set_forces(int first, std::span<const double> forces) {
  constexpr std::size_t most = most_lines;
  std::array<detail::InBay, most> changes{};
  std::size_t count = 0;
  for (std::size_t k = 0; k < forces.size(); ++k) {
    WheelForce& wheel = to_[static_cast<std::size_t>(first) + k];
    if (forces[k] != wheel.force) {
      changes[count++] = {&wheel.at, &onto_[static_cast<std::size_t>(first) + k], kappa * (forces[k] - wheel.force)};
      wheel.force = forces[k];
    }
  }
  detail::add_rail_columns(*chain_, factor_->factor, field_, std::span(changes).first(count));
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
  const Chain& chain = *chain_;
  const Complex s = factor_->factor.s;
  // What forces inside bays and bearers add there: all that is not from the motion.
  for (const auto& [bay, line] : std::span(touched_).first(touches_)) {
    field_.bay.segment<most_modes>(first_mode(chain, bay, line)) -= modes_by_motion(bay, line);
  }
  for (const StepFactor::Answer& answer : factor_->links) {
    const int first = chain.coordinate[answer.bearer], n = chain.bearer_of(answer.bearer).n;
    field_.bearer.segment(first, n) -= bearer_.segment(first, n);
  }
  detail::advance_inside(chain, factor_->matrices, field_.seat, m);
  detail::advance_seats(s, w, field_.seat, m);
  const auto advance = [&](double& u, double& v, Complex z) {
    u += moves(z);
    v += speeds(s, z);
  };
  for (const auto& [bay, line] : std::span(touched_).first(touches_)) {
    const Eigen::Index first = first_mode(chain, bay, line);
    const auto& inverse = factor_->factor.mode[chain.bay[bay * chain.lines + line]];
    for (Eigen::Index j = 0; j < most_modes; ++j) {
      advance(m.bay[first + j], m.bay_rate[first + j], inverse[j] * field_.bay[first + j]);
    }
  }
  for (const StepFactor::Answer& answer : factor_->links) {
    for (int j = chain.coordinate[answer.bearer]; j < chain.coordinate[answer.bearer + 1]; ++j) {
      advance(m.bearer[j], m.bearer_rate[j], field_.bearer[j]);
    }
  }
  std::copy(link_.begin(), link_.end(), m.link.begin());
}

} // namespace wingnose::track::chain
