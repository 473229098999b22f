#include "blocks.hpp"

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

void reduce(const Chain& chain, const Factor& f, Field& field) {
  const Complex s2 = f.s * f.s;
  for (int b = 0; b < chain.bays(); ++b) {
    for (int r = 0; r < chain.lines; ++r) {
      const int kind = chain.bay[b * chain.lines + r];
      const RailBay& bay = chain.bay_kind[kind];
      const Complex* rhs = field.bay.data() + first_mode(chain, b, r);
      Eigen::Vector4cd onto = Eigen::Vector4cd::Zero();
      for (int j = 0; j < bay.modes; ++j) {
        onto += (s2 * f.mode[kind][j] * rhs[j]) * bay.coupling.col(j);
      }
      field.seat.segment<2>(first_unknown(chain, b, r)) -= onto.head<2>();
      field.seat.segment<2>(first_unknown(chain, b + 1, r)) -= onto.tail<2>();
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

void finish(const Chain& chain, const Factor& f, Field& field) {
  const Complex s2 = f.s * f.s;
  for (int b = 0; b < chain.bays(); ++b) {
    for (int r = 0; r < chain.lines; ++r) {
      const int kind = chain.bay[b * chain.lines + r];
      const RailBay& bay = chain.bay_kind[kind];
      const Eigen::Vector4cd z = boundary(chain, field.seat, b, r);
      Complex* mode = field.bay.data() + first_mode(chain, b, r);
      for (int j = 0; j < bay.modes; ++j) {
        mode[j] = f.mode[kind][j] * (mode[j] - s2 * bay.coupling.col(j).cast<Complex>().cwiseProduct(z).sum());
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
