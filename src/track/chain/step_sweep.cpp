#include "step_sweep.hpp"

#include "blocks.hpp"
#include "step_sums.hpp"

namespace wingnose::track::chain::detail {
namespace {

double* parts(Eigen::VectorXcd& z) { return reinterpret_cast<double*>(z.data()); } // as the standard lays them out
const double* parts(const Eigen::VectorXcd& z) { return reinterpret_cast<const double*>(z.data()); }

// known: modes of the bay. here, there: its line at either seat.
template <int known>
WINGNOSE_INTO_CLONES void bay_onto_seats(const BayStep& bay, const Motion& motion, int here, int there, double* z) {
  const int modes = known > 0 ? known : bay.modes;
  const double *u = motion.seat.data(), *v = motion.seat_rate.data();
  Sum<8> sum, of_rates; // two, so that one product need not wait for the last
  const double* A = sum.add(bay.onto.data(), u + 2 * here, 2);
  A = sum.add(A, u + 2 * there, 2);
  A = of_rates.add(A, v + 2 * here, 2);
  A = of_rates.add(A, v + 2 * there, 2);
  A = sum.add(A, motion.bay.data() + here * most_modes, modes);
  of_rates.add(A, motion.bay_rate.data() + here * most_modes, modes);
  sum.add(of_rates);
  sum.add_halves_to(z + 4 * here, z + 4 * there);
}

WINGNOSE_INTO_CLONES void bays_onto_seats(const Chain& chain, const StepMatrices& m, const Motion& motion, double* z) {
  const int lines = chain.lines, bays = chain.bays();
  for (int b = 0; b < bays; ++b) {
    for (int line = 0; line < lines; ++line) {
      const int here = b * lines + line, there = here + lines;
      const BayStep& bay = m.bay[chain.bay[here]];
      if (bay.modes == 5) { // as a Model has them unless told otherwise
        bay_onto_seats<5>(bay, motion, here, there, z);
      } else {
        bay_onto_seats<0>(bay, motion, here, there, z);
      }
    }
  }
}

template <int known_n, int known_lines>
WINGNOSE_INTO_CLONES void bearer_onto_seats(const BearerStep& bearer, const double* q, const double* rate,
                                            const double* rail, int lines, double* z) {
  const int n = known_n > 0 ? known_n : bearer.n, of = known_lines > 0 ? known_lines : lines;
  auto sum = nothing<2 * known_lines>(2 * of), more = nothing<2 * known_lines>(2 * of);
  const double* A = sum.add(bearer.onto.data(), q, n);
  A = more.add(A, rate, n);
  for (int r = 0; r < of; ++r) {
    A = sum.add(A, rail + 2 * r, 1);
  }
  sum.add(more);
  std::array<double, 2 * places(known_lines, most_lines)> onto;
  sum.put(onto.data());
  for (int r = 0; r < of; ++r) { // the deflections, not the rotations
    z[4 * r] += onto[2 * r];
    z[4 * r + 1] += onto[2 * r + 1];
  }
}

template <int known_n, int known_lines>
WINGNOSE_INTO_CLONES void advance_bearer(const BearerStep& bearer, double* q, double* rate, const double* rail,
                                         const double* z, int lines) {
  const int n = known_n > 0 ? known_n : bearer.n, of = known_lines > 0 ? known_lines : lines;
  auto sum = nothing<2 * known_n>(2 * n), more = nothing<2 * known_n>(2 * n);
  const double* A = sum.add(bearer.after.data(), q, n);
  A = more.add(A, rate, n);
  for (int r = 0; r < of; ++r) {
    A = sum.add(A, rail + 2 * r, 1);
  }
  for (int r = 0; r < of; ++r) {
    A = more.add(A, z + 4 * r, 2);
  }
  sum.add(more);
  std::array<double, 2 * places(known_n, most_coordinates)> end;
  sum.put(end.data());
  for (int j = 0; j < n; ++j) {
    q[j] = end[j];
    rate[j] = end[n + j];
  }
}

// act(<n>, <lines>) for what is usual: a lumped bearer under one rail or two, one of eight coordinates under two, the
// same where they also bend laterally.
template <class Act> WINGNOSE_INTO_CLONES void by_size(int n, int lines, const Act& act) {
  if (n == 1 && lines == 1) {
    act.template operator()<1, 1>();
  } else if (n == 2 && lines == 2) {
    act.template operator()<2, 2>();
  } else if (n == 8 && lines == 2) {
    act.template operator()<8, 2>();
  } else if (n == 12 && lines == 4) {
    act.template operator()<12, 4>();
  } else {
    act.template operator()<0, 0>();
  }
}

template <int lanes>
WINGNOSE_INTO_CLONES void advance_bay(const BayStep& bay, const double* v, const double* v_end, const double* z,
                                      const double* z_end, double* mode, double* rate) {
  using V = typename Wide<lanes>::type;
  V q{}, re{}, im{}, now, now_rate, row;
  for (int k = 0; k < 4; ++k) {
    const double *speed = (k < 2 ? v : v_end) + k % 2, *moved = (k < 2 ? z : z_end) + 2 * (k % 2);
    __builtin_memcpy(&row, bay.coupling[k].data(), sizeof row);
    q += row * *speed;
    re += row * moved[0];
    im += row * moved[1];
  }
  __builtin_memcpy(&now, mode, sizeof now);
  __builtin_memcpy(&now_rate, rate, sizeof now_rate);
  const auto end = [&](const std::array<BayStep::Lanes, 5>& of, double* to) __attribute__((always_inline)) {
    V sum{};
    const std::array<const V*, 5> by{&now, &now_rate, &q, &re, &im};
    for (int k = 0; k < 5; ++k) {
      __builtin_memcpy(&row, of[k].data(), sizeof row);
      sum += row * *by[k];
    }
    __builtin_memcpy(to, &sum, sizeof sum);
  };
  end(bay.mode, mode);
  end(bay.rate, rate);
}

// known: rows of a block.
template <int known> class Blocks {
public:
  Blocks(const SeatSteps& steps, int lines, double* z) : steps_(&steps), z_(z), rows_(4 * lines) {}
  [[nodiscard]] int rows() const { return known > 0 ? known : rows_; }
  WINGNOSE_INTO_CLONES void inward(int to, int from) { take(steps_->inward, to, from); }
  WINGNOSE_INTO_CLONES void outward(int to, int from) { take(steps_->outward, to, from); }
  WINGNOSE_INTO_CLONES void own(int i) { product(steps_->own, i, i).put(z_ + i * rows()); }

private:
  [[nodiscard]] WINGNOSE_INTO_CLONES Sum<known> product(const std::vector<double>& blocks, int to, int from) const {
    auto sum = nothing<known>(rows());
    sum.add(blocks.data() + static_cast<std::ptrdiff_t>(to) * rows() * rows(), z_ + from * rows(), rows());
    return sum;
  }
  WINGNOSE_INTO_CLONES void take(const std::vector<double>& blocks, int to, int from) {
    product(blocks, to, from).add_to(z_ + to * rows());
  }

  const SeatSteps* steps_;
  double* z_;
  int rows_;
};

// Both halves at once: neither waits for the other.
template <int known> WINGNOSE_INTO_CLONES void solve(const Chain& chain, const SeatSteps& steps, double* z) {
  Blocks<known> blocks(steps, chain.lines, z);
  const int last = chain.seats() - 1, middle = steps.middle;
  for (int k = 1; k < middle || last - k > middle; ++k) {
    if (k < middle) {
      blocks.inward(k, k - 1);
    }
    if (last - k > middle) {
      blocks.inward(last - k, last - k + 1);
    }
  }
  if (middle > 0) {
    blocks.outward(middle, middle - 1);
  }
  if (middle < last) {
    blocks.inward(middle, middle + 1);
  }
  blocks.own(middle);
  for (int k = 1; k <= middle || middle + k <= last; ++k) {
    if (k <= middle) {
      blocks.own(middle - k);
      blocks.outward(middle - k, middle - k + 1);
    }
    if (middle + k <= last) {
      blocks.own(middle + k);
      blocks.outward(middle + k, middle + k - 1);
    }
  }
}

} // namespace

WINGNOSE_CLONES
void onto_seats(const Chain& chain, const StepMatrices& m, const Motion& motion, Eigen::VectorXcd& seat) {
  double* z = parts(seat);
  std::fill(z, z + 2 * seat.size(), 0.0);
  bays_onto_seats(chain, m, motion, z);
  const int lines = chain.lines, seats = chain.seats();
  for (int i = 0; i < seats; ++i) {
    const BearerStep& bearer = m.bearer[chain.bearer[i]];
    const double *q = motion.bearer.data() + chain.coordinate[i],
                 *rate = motion.bearer_rate.data() + chain.coordinate[i];
    const double* rail = motion.seat.data() + 2 * i * lines;
    by_size(
        bearer.n, lines, [&]<int n, int known>() __attribute__((always_inline)) {
          bearer_onto_seats<n, known>(bearer, q, rate, rail, lines, z + 4 * i * lines);
        });
  }
}

WINGNOSE_CLONES
void solve_seats(const Chain& chain, const SeatSteps& steps, Eigen::VectorXcd& seat) {
  if (chain.lines == 1) {
    solve<4>(chain, steps, parts(seat));
  } else if (chain.lines == 2) {
    solve<8>(chain, steps, parts(seat));
  } else if (chain.lines == 4) {
    solve<16>(chain, steps, parts(seat));
  } else {
    solve<0>(chain, steps, parts(seat));
  }
}

WINGNOSE_CLONES
void advance_inside(const Chain& chain, const StepMatrices& m, const Eigen::VectorXcd& seat, Motion& motion) {
  const int lines = chain.lines, bays = chain.bays(), seats = chain.seats();
  const double *z = parts(seat), *v = motion.seat_rate.data();
  for (int b = 0; b < bays; ++b) {
    for (int line = 0; line < lines; ++line) {
      const int here = b * lines + line, there = here + lines;
      const BayStep& bay = m.bay[chain.bay[here]];
      double *mode = motion.bay.data() + here * most_modes, *rate = motion.bay_rate.data() + here * most_modes;
      if (bay.modes <= 4) {
        advance_bay<4>(bay, v + 2 * here, v + 2 * there, z + 4 * here, z + 4 * there, mode, rate);
      } else {
        advance_bay<most_modes>(bay, v + 2 * here, v + 2 * there, z + 4 * here, z + 4 * there, mode, rate);
      }
    }
  }
  for (int i = 0; i < seats; ++i) {
    const BearerStep& bearer = m.bearer[chain.bearer[i]];
    double *q = motion.bearer.data() + chain.coordinate[i], *rate = motion.bearer_rate.data() + chain.coordinate[i];
    const double* rail = motion.seat.data() + 2 * i * lines;
    by_size(
        bearer.n, lines, [&]<int n, int known>() __attribute__((always_inline)) {
          advance_bearer<n, known>(bearer, q, rate, rail, z + 4 * i * lines, lines);
        });
  }
}

WINGNOSE_CLONES
void advance_seats(Complex s, double w, const Eigen::VectorXcd& seat, Motion& motion) {
  const double* z = parts(seat);
  double *u = motion.seat.data(), *v = motion.seat_rate.data();
  const double re = w * s.real(), im = w * s.imag();
  const Eigen::Index n = motion.seat.size();
  for (Eigen::Index i = 0; i < n; ++i) {
    u[i] -= w * z[2 * i + 1];
    v[i] -= re * z[2 * i + 1] + im * z[2 * i];
  }
}

} // namespace wingnose::track::chain::detail
