#include "columns.hpp"

namespace wingnose::track::chain {
namespace detail {
namespace {

template <class V>
void rail_column(const Chain& chain, const V& view, const Factor& f, Field& field, const RailPoint& at,
                 const Eigen::Vector4cd& onto) {
  typename V::Piece p = view.none(), q = view.none();
  p.template segment<2>(2 * at.line) = onto.head<2>();
  q.template segment<2>(2 * at.line) = onto.tail<2>();
  const auto next = view.block(f.next, at.bay);
  const typename V::Piece left = view.block(f.own, at.bay) * p + next * q;
  const typename V::Piece right = next.transpose() * p + view.block(f.own, at.bay + 1) * q;
  view.piece(field.seat, at.bay) += left;
  view.piece(field.seat, at.bay + 1) += right;
  spread(chain, view, f, field, at.bay, left, at.bay + 1, right);
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
