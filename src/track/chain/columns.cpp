#include "columns.hpp"

namespace wingnose::track::chain {
namespace detail {
namespace {

// p, q: forces on the boundary of a bay, at its first and at its second seat.
template <class V>
void bay_column(const Chain& chain, const V& view, const Factor& f, Field& field, int bay, const typename V::Piece& p,
                const typename V::Piece& q, double share = negligible) {
  const auto next = view.block(f.next, bay);
  const typename V::Piece left = view.block(f.own, bay) * p + next * q;
  const typename V::Piece right = next.transpose() * p + view.block(f.own, bay + 1) * q;
  view.piece(field.seat, bay) += left;
  view.piece(field.seat, bay + 1) += right;
  spread(chain, view, f, field, bay, left, bay + 1, right, share);
}

template <class V>
void rail_column(const Chain& chain, const V& view, const Factor& f, Field& field, const RailPoint& at,
                 const Eigen::Vector4cd& onto) {
  typename V::Piece p = view.none(), q = view.none();
  p.template segment<2>(2 * at.line) = onto.head<2>();
  q.template segment<2>(2 * at.line) = onto.tail<2>();
  bay_column(chain, view, f, field, at.bay, p, q);
}

int kind_of_bay(const Chain& chain, const RailPoint& at) { return chain.bay[at.bay * chain.lines + at.line]; }

} // namespace

Eigen::Vector4cd onto_boundary(const Chain& chain, const Factor& f, const RailPoint& at) {
  const int kind = kind_of_bay(chain, at);
  const RailBay& bay = chain.bay_kind[kind];
  Eigen::Vector4cd onto = at.boundary.cast<Complex>();
  const Complex s2 = f.s * f.s;
  for (int j = 0; j < bay.modes; ++j) {
    onto -= (s2 * f.mode[kind][j] * at.modal[j]) * bay.coupling.col(j);
  }
  return onto;
}

void add_reduced_force(const Chain& chain, Field& field, const RailPoint& at, const Eigen::Vector4cd& onto,
                       Complex force) {
  field.bay.segment<most_modes>(first_mode(chain, at.bay, at.line)) += force * at.modal;
  field.seat.segment<2>(first_unknown(chain, at.bay, at.line)) += force * onto.head<2>();
  field.seat.segment<2>(first_unknown(chain, at.bay + 1, at.line)) += force * onto.tail<2>();
}

void add_rail_column(const Chain& chain, const Factor& f, Field& field, const RailPoint& at,
                     const Eigen::Vector4cd& onto, Complex force) {
  field.bay.segment<most_modes>(first_mode(chain, at.bay, at.line)) += force * at.modal;
  with_lines<true>(chain, [&](const auto& view) { rail_column(chain, view, f, field, at, force * onto); });
}

void add_rail_columns(const Chain& chain, const Factor& f, Field& field, std::span<const InBay> forces) {
  if (forces.empty()) {
    return;
  }
  for (const InBay& one : forces) {
    field.bay.segment<most_modes>(first_mode(chain, one.at->bay, one.at->line)) += one.force * one.at->modal;
  }
  with_lines<true>(chain, [&](const auto& view) {
    auto p = view.none(), q = view.none();
    for (const InBay& one : forces) {
      p.template segment<2>(2 * one.at->line) += one.force * one.onto->template head<2>();
      q.template segment<2>(2 * one.at->line) += one.force * one.onto->template tail<2>();
    }
    bay_column(chain, view, f, field, forces.front().at->bay, p, q, negligible_change);
  });
}

Complex deflection(const Chain& chain, const Factor& f, const Field& field, const RailPoint& at,
                   const Eigen::Vector4cd& onto) {
  const int kind = kind_of_bay(chain, at);
  const Eigen::Vector4cd z = boundary(chain, field.seat, at.bay, at.line);
  const Complex* rhs = field.bay.data() + first_mode(chain, at.bay, at.line);
  Complex w = (onto.transpose() * z)(0);
  for (int j = 0; j < chain.bay_kind[kind].modes; ++j) {
    w += at.modal[j] * f.mode[kind][j] * rhs[j];
  }
  return w;
}

Complex compliance(const Chain& chain, const Factor& f, const RailPoint& at, const Eigen::Vector4cd& onto) {
  const int kind = kind_of_bay(chain, at);
  const int n = 2 * chain.lines;
  const auto block = [&](const std::vector<Complex>& v, int i) -> Eigen::Matrix2cd {
    return Eigen::Map<const Eigen::Matrix2cd, 0, Eigen::OuterStride<>>(
        v.data() + i * n * n + 2 * at.line * n + 2 * at.line, Eigen::OuterStride<>(n));
  };
  const Eigen::Vector2cd p = onto.head<2>(), q = onto.tail<2>();
  Complex sum = (p.transpose() * block(f.own, at.bay) * p)(0) + (q.transpose() * block(f.own, at.bay + 1) * q)(0) +
                2.0 * (p.transpose() * block(f.next, at.bay) * q)(0);
  for (int j = 0; j < chain.bay_kind[kind].modes; ++j) {
    sum += at.modal[j] * at.modal[j] * f.mode[kind][j];
  }
  return sum;
}

Complex compliance(const Chain& chain, const Factor& f, const RailPoint& at, const Eigen::Vector4cd& onto,
                   const RailPoint& load, const Eigen::Vector4cd& of_load) {
  const int n = 2 * chain.lines;
  const auto block = [&](const std::vector<Complex>& v, int i, int row, int column) -> Eigen::Matrix2cd {
    return Eigen::Map<const Eigen::Matrix2cd, 0, Eigen::OuterStride<>>(v.data() + i * n * n + 2 * column * n + 2 * row,
                                                                       Eigen::OuterStride<>(n));
  };
  const Eigen::Vector2cd p = onto.head<2>(), q = onto.tail<2>(), a = of_load.head<2>(), b = of_load.tail<2>();
  const int row = at.line, column = load.line;
  Complex sum = (p.transpose() * block(f.own, at.bay, row, column) * a)(0) +
                (q.transpose() * block(f.own, at.bay + 1, row, column) * b)(0) +
                (p.transpose() * block(f.next, at.bay, row, column) * b)(0) +
                (a.transpose() * block(f.next, at.bay, column, row) * q)(0);
  if (row == column) {
    const int kind = kind_of_bay(chain, at);
    for (int j = 0; j < chain.bay_kind[kind].modes; ++j) {
      sum += at.modal[j] * load.modal[j] * f.mode[kind][j];
    }
  }
  return sum;
}

} // namespace detail

void add_rail_column(const Chain& chain, const Factor& f, Field& field, const RailPoint& at, Complex force) {
  detail::add_rail_column(chain, f, field, at, detail::onto_boundary(chain, f, at), force);
}

Complex deflection(const Chain& chain, const Factor& f, const Field& field, const RailPoint& at) {
  return detail::deflection(chain, f, field, at, detail::onto_boundary(chain, f, at));
}

Complex compliance(const Chain& chain, const Factor& f, const RailPoint& at) {
  return detail::compliance(chain, f, at, detail::onto_boundary(chain, f, at));
}

} // namespace wingnose::track::chain
