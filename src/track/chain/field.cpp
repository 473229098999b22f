#include "blocks.hpp"

#include "wingnose/numeric/clones.hpp"

namespace wingnose::track::chain {
namespace {

using detail::boundary;
using detail::first_mode;
using detail::first_unknown;

template <class V> void solve_seats(const Chain& chain, const V& view, const Factor& f, Field& field) {
  const int seats = chain.seats();
  for (int i = 1; i < seats; ++i) {
    view.piece(field.seat, i).noalias() -= view.block(f.back, i - 1).transpose() * view.piece(field.seat, i - 1);
  }
  for (int i = seats - 1; i >= 0; --i) {
    typename V::Piece z = view.block(f.inverse, i) * view.piece(field.seat, i);
    if (i + 1 < seats) {
      z.noalias() -= view.block(f.back, i) * view.piece(field.seat, i + 1);
    }
    view.piece(field.seat, i) = z;
  }
}

} // namespace

Field::Field(const Chain& chain)
    : seat(Eigen::VectorXcd::Zero(chain.seats() * 2 * chain.lines)),
      bay(Eigen::VectorXcd::Zero(static_cast<Eigen::Index>(chain.bay.size()) * most_modes)),
      bearer(Eigen::VectorXcd::Zero(chain.coordinate.back())) {}

void Field::clear() {
  seat.setZero();
  bay.setZero();
  bearer.setZero();
}

void add_rail_force(const Chain& chain, Field& rhs, const RailPoint& at, Complex force) {
  rhs.seat.segment<2>(first_unknown(chain, at.bay, at.line)) += force * at.boundary.head<2>();
  rhs.seat.segment<2>(first_unknown(chain, at.bay + 1, at.line)) += force * at.boundary.tail<2>();
  rhs.bay.segment<most_modes>(first_mode(chain, at.bay, at.line)) += force * at.modal;
}

WINGNOSE_CLONES
void reduce(const Chain& chain, const Factor& f, Field& field) {
  const Complex s2 = f.s * f.s;
  for (int b = 0; b < chain.bays(); ++b) {
    for (int r = 0; r < chain.lines; ++r) {
      const int kind = chain.bay[b * chain.lines + r];
      const RailBay& bay = chain.bay_kind[kind];
      const Complex* rhs = field.bay.data() + first_mode(chain, b, r);
      Complex p0 = 0.0, p1 = 0.0, q0 = 0.0, q1 = 0.0;
      for (int j = 0; j < bay.modes; ++j) {
        const double* k = bay.coupling.col(j).data();
        const Complex moved = s2 * f.mode[kind][j] * rhs[j];
        p0 += k[0] * moved;
        p1 += k[1] * moved;
        q0 += k[2] * moved;
        q1 += k[3] * moved;
      }
      Complex *p = field.seat.data() + first_unknown(chain, b, r),
              *q = field.seat.data() + first_unknown(chain, b + 1, r);
      p[0] -= p0;
      p[1] -= p1;
      q[0] -= q0;
      q[1] -= q1;
    }
  }
  for (int i = 0; i < chain.seats(); ++i) {
    const int kind = chain.bearer[i];
    const int n = chain.bearer_kind[kind].n;
    auto own = field.bearer.segment(chain.coordinate[i], n);
    for (int r = 0; r < chain.lines; ++r) {
      field.seat[first_unknown(chain, i, r)] += (f.bearer_seat[kind].col(r).transpose() * own)(0);
    }
    Eigen::Matrix<Complex, Eigen::Dynamic, 1, 0, most_coordinates, 1> z = f.bearer_inverse[kind].lazyProduct(own);
    own = z;
  }
  detail::with_lines<true>(chain, [&](const auto& view) { solve_seats(chain, view, f, field); });
}

WINGNOSE_CLONES
void finish(const Chain& chain, const Factor& f, Field& field) {
  const Complex s2 = f.s * f.s;
  for (int b = 0; b < chain.bays(); ++b) {
    for (int r = 0; r < chain.lines; ++r) {
      const int kind = chain.bay[b * chain.lines + r];
      const RailBay& bay = chain.bay_kind[kind];
      const Complex *p = field.seat.data() + first_unknown(chain, b, r),
                    *q = field.seat.data() + first_unknown(chain, b + 1, r);
      const Complex p0 = p[0], p1 = p[1], q0 = q[0], q1 = q[1];
      Complex* mode = field.bay.data() + first_mode(chain, b, r);
      for (int j = 0; j < bay.modes; ++j) {
        const double* k = bay.coupling.col(j).data();
        mode[j] = f.mode[kind][j] * (mode[j] - s2 * (k[0] * p0 + k[1] * p1 + k[2] * q0 + k[3] * q1));
      }
    }
  }
  for (int i = 0; i < chain.seats(); ++i) {
    const int kind = chain.bearer[i];
    auto own = field.bearer.segment(chain.coordinate[i], chain.bearer_kind[kind].n);
    for (int r = 0; r < chain.lines; ++r) {
      own += field.seat[first_unknown(chain, i, r)] * f.bearer_seat[kind].col(r);
    }
  }
}

} // namespace wingnose::track::chain
