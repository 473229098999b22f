#include "wingnose/track/chain/step_matrices.hpp"

#include "blocks.hpp"

namespace wingnose::track::chain {
namespace {

// A real matrix by columns, told by complex entries whose parts stand in two rows or two columns.
class Table {
public:
  Table(std::vector<double>& values, int rows, int columns) : values_(&values), rows_(rows) {
    values.assign(static_cast<std::size_t>(rows) * columns, 0.0);
  }
  double& operator()(int row, int column) { return (*values_)[static_cast<std::size_t>(column) * rows_ + row]; }
  void add_parts(int row, int column, Complex z) {
    (*this)(2 * row, column) += z.real();
    (*this)(2 * row + 1, column) += z.imag();
  }

private:
  std::vector<double>* values_;
  int rows_;
};

BayStep bay_step(const RailBay& bay, const Eigen::Matrix<Complex, most_modes, 1>& inverse, Complex s, double w) {
  BayStep step;
  step.modes = bay.modes;
  Table onto(step.onto, 8, 8 + 2 * bay.modes);
  for (int k = 0; k < 4; ++k) {
    for (int l = 0; l < 4; ++l) {
      onto.add_parts(k, l, -bay.K(k, l));
      onto.add_parts(k, 4 + l, s * bay.M(k, l));
    }
  }
  const Complex s2 = s * s;
  for (int j = 0; j < bay.modes; ++j) {
    const Complex taken = s2 * inverse[j]; // what the boundary takes of a mode's right-hand side
    const double stiffness = bay.stiffness[j];
    for (int k = 0; k < 4; ++k) {
      const double couples = bay.coupling(k, j);
      step.coupling[k][j] = couples;
      for (int l = 0; l < 4; ++l) {
        onto.add_parts(k, 4 + l, -couples * taken * s * bay.coupling(l, j));
      }
      onto.add_parts(k, 8 + j, couples * taken * stiffness);
      onto.add_parts(k, 8 + bay.modes + j, couples * (s - taken * s));
    }
    // Z of the mode = inverse (s (q + rate) - stiffness mode - s2 z)
    const auto fill = [&](std::array<BayStep::Lanes, 5>& rows, Complex factor) {
      rows[0][j] = w * (factor * stiffness).imag();
      rows[1][j] = rows[2][j] = -w * (factor * s).imag();
      rows[3][j] = w * (factor * s2).imag();
      rows[4][j] = w * (factor * s2).real();
    };
    fill(step.mode, inverse[j]);
    fill(step.rate, s * inverse[j]);
    step.mode[0][j] += 1.0;
    step.rate[1][j] += 1.0;
  }
  return step;
}

BearerStep bearer_step(const BearerShape& bearer, const Eigen::MatrixXcd& inverse, const Eigen::MatrixXcd& seat,
                       Complex s, double w) {
  const auto lines = static_cast<int>(bearer.pad.size());
  const int n = bearer.n;
  BearerStep step;
  step.n = n;
  // Right-hand side of the coordinates: -stiffness q + s q' + what the pads press, k (rail - seat q); on the rails the
  // pads' forces turned round and, with the coordinates eliminated, `seat` times the same.
  const Eigen::MatrixXcd lifted = inverse * bearer.seat;          // the answer to forces at the seats
  const Eigen::MatrixXcd across = seat.transpose() * bearer.seat; // [lines x lines]
  Table onto(step.onto, 2 * lines, 2 * n + lines);
  Eigen::MatrixXcd own(n, 2 * n + lines); // the coordinates' answer
  for (int j = 0; j < n; ++j) {
    own.col(j) = -bearer.stiffness[j] * inverse.col(j);
    own.col(n + j) = s * inverse.col(j);
    for (int r = 0; r < lines; ++r) {
      own.col(j) -= (bearer.pad[r].stiffness * bearer.seat(j, r)) * lifted.col(r);
      Complex on_rail = bearer.pad[r].stiffness * bearer.seat(j, r) - seat(j, r) * bearer.stiffness[j];
      for (int k = 0; k < lines; ++k) {
        on_rail -= bearer.pad[k].stiffness * across(r, k) * bearer.seat(j, k);
      }
      onto.add_parts(r, j, on_rail);
      onto.add_parts(r, n + j, s * seat(j, r));
    }
  }
  for (int r = 0; r < lines; ++r) {
    own.col(2 * n + r) = bearer.pad[r].stiffness * lifted.col(r);
    for (int k = 0; k < lines; ++k) {
      onto.add_parts(k, 2 * n + r, bearer.pad[r].stiffness * (across(k, r) - (k == r ? 1.0 : 0.0)));
    }
  }
  Table after(step.after, 2 * n, 2 * n + 3 * lines);
  for (int j = 0; j < n; ++j) {
    for (int column = 0; column < 2 * n + lines; ++column) {
      after(j, column) = -w * own(j, column).imag();
      after(n + j, column) = -w * (s * own(j, column)).imag();
    }
    for (int r = 0; r < lines; ++r) {
      const int column = 2 * n + lines + 2 * r;
      after(j, column) = -w * seat(j, r).imag();
      after(j, column + 1) = -w * seat(j, r).real();
      after(n + j, column) = -w * (s * seat(j, r)).imag();
      after(n + j, column + 1) = -w * (s * seat(j, r)).real();
    }
    after(j, j) += 1.0;
    after(n + j, n + j) += 1.0;
  }
  return step;
}

// A complex block as a real one on parts side by side; `turned`: transposed.
void put(std::vector<double>& values, int seat, const std::vector<Complex>& blocks, int of, int n, double sign,
         bool turned) {
  double* out = values.data() + static_cast<std::ptrdiff_t>(seat) * 4 * n * n;
  const Complex* in = blocks.data() + static_cast<std::ptrdiff_t>(of) * n * n;
  for (int c = 0; c < n; ++c) {
    for (int r = 0; r < n; ++r) {
      const Complex z = sign * (turned ? in[r * n + c] : in[c * n + r]);
      double *first = out + (2 * c) * 2 * n + 2 * r, *second = first + 2 * n;
      first[0] = z.real();
      first[1] = z.imag();
      second[0] = -z.imag();
      second[1] = z.real();
    }
  }
}

SeatSteps seat_steps(const Chain& chain, const Factor& f) {
  const int seats = chain.seats(), n = 2 * chain.lines;
  SeatSteps step;
  step.middle = seats / 2;
  for (auto* values : {&step.inward, &step.own, &step.outward}) {
    values->assign(static_cast<std::size_t>(seats) * 4 * n * n, 0.0);
  }
  for (int i = 0; i < seats; ++i) {
    if (i < step.middle) {
      put(step.own, i, f.inverse, i, n, 1.0, false);
      put(step.outward, i, f.back, i, n, -1.0, false);
      if (i > 0) {
        put(step.inward, i, f.back, i - 1, n, -1.0, true);
      }
    } else if (i > step.middle) {
      put(step.own, i, f.inverse_right, i, n, 1.0, false);
      put(step.outward, i, f.ahead, i - 1, n, -1.0, false);
      if (i + 1 < seats) {
        put(step.inward, i, f.ahead, i, n, -1.0, true);
      }
    } else {
      put(step.own, i, f.own, i, n, 1.0, false);
      // The middle takes from both sides: from the right by `inward`, from the left by `outward`.
      if (i > 0) {
        put(step.outward, i, f.back, i - 1, n, -1.0, true);
      }
      if (i + 1 < seats) {
        put(step.inward, i, f.ahead, i, n, -1.0, true);
      }
    }
  }
  return step;
}

} // namespace

StepMatrices step_matrices(const Chain& chain, const Factor& f, double w) {
  StepMatrices step;
  step.bay.reserve(chain.bay_kind.size());
  for (std::size_t k = 0; k < chain.bay_kind.size(); ++k) {
    step.bay.push_back(bay_step(chain.bay_kind[k], f.mode[k], f.s, w));
  }
  step.bearer.reserve(chain.bearer_kind.size());
  for (std::size_t k = 0; k < chain.bearer_kind.size(); ++k) {
    step.bearer.push_back(bearer_step(chain.bearer_kind[k], f.bearer_inverse[k], f.bearer_seat[k], f.s, w));
  }
  step.seats = seat_steps(chain, f);
  return step;
}

} // namespace wingnose::track::chain
