#include "columns.hpp"

#include <array>

namespace wingnose::track::chain {
namespace {

using detail::first_unknown;
using detail::spread;

// Direction of a link on the bearer's coordinates; on the rail seat it is 1 for a pad.
auto direction(const BearerShape& bearer, const Link& link) {
  return link.pad >= 0 ? Eigen::VectorXd::ConstMapType(bearer.seat.col(link.pad).data(), bearer.n)
                       : Eigen::VectorXd::ConstMapType(bearer.ballast[link.point].shape.data(), bearer.n);
}
double side(const Link& link) { return link.pad >= 0 ? -1.0 : 1.0; }

using Coordinates = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, most_coordinates, 1>;
using Lines = Eigen::Matrix<double, most_lines, 1>; // unused ones are zero
using ComplexCoordinates = Eigen::Matrix<Complex, Eigen::Dynamic, 1, 0, most_coordinates, 1>;

// Forces of links: on the coordinates of their bearer, and on its seats, per line.
struct Acting {
  Coordinates along;
  Lines pads = Lines::Zero();
};
Acting acting(const BearerShape& shape, std::span<const double> force) {
  Acting a{Coordinates::Zero(shape.n)};
  for (std::size_t l = 0; l < force.size(); ++l) {
    const Link& link = shape.links[l];
    a.along += (force[l] * side(link)) * direction(shape, link);
    if (link.pad >= 0) {
      a.pads[link.pad] += force[l];
    }
  }
  return a;
}
// ... and on a line over its seat once the bearer is eliminated.
Complex at_seat(const Factor& f, int kind, int line, const Acting& acting) {
  return acting.pads[line] + (f.bearer_seat[kind].col(line).transpose() * acting.along)(0);
}

// Forces scale * acting, and their column at the seats.
template <class V>
void bearer_column(const Chain& chain, const V& view, const Factor& f, Field& field, int i, const Acting& acting,
                   Complex scale) {
  const int kind = chain.bearer[i];
  field.bearer.segment(chain.coordinate[i], acting.along.size()) +=
      scale * f.bearer_inverse[kind].lazyProduct(acting.along);
  typename V::Piece p = view.none();
  for (int r = 0; r < chain.lines; ++r) {
    p[2 * r] = scale * at_seat(f, kind, r, acting);
  }
  const typename V::Piece z = view.block(f.own, i) * p;
  view.piece(field.seat, i) += z;
  spread(chain, view, f, field, i, z, i, z);
}

} // namespace

void add_link_force(const Chain& chain, Field& rhs, int bearer, int link, Complex force) {
  const BearerShape& shape = chain.bearer_of(bearer);
  const Link& l = shape.links[link];
  rhs.bearer.segment(chain.coordinate[bearer], shape.n) += (force * side(l)) * direction(shape, l);
  if (l.pad >= 0) {
    rhs.seat[first_unknown(chain, bearer, l.pad)] += force;
  }
}

void detail::add_reduced_links(const Chain& chain, const Factor& f, Field& field, int bearer,
                               std::span<const double> force, Complex scale) {
  const int kind = chain.bearer[bearer];
  const Acting a = acting(chain.bearer_kind[kind], force);
  field.bearer.segment(chain.coordinate[bearer], a.along.size()) += scale * f.bearer_inverse[kind].lazyProduct(a.along);
  for (int r = 0; r < chain.lines; ++r) {
    field.seat[first_unknown(chain, bearer, r)] += scale * at_seat(f, kind, r, a);
  }
}

void add_link_columns(const Chain& chain, const Factor& f, Field& field, int bearer, std::span<const double> force,
                      Complex scale) {
  const Acting a = acting(chain.bearer_of(bearer), force);
  detail::with_lines<true>(chain, [&](const auto& view) { bearer_column(chain, view, f, field, bearer, a, scale); });
}

void add_link_column(const Chain& chain, const Factor& f, Field& field, int bearer, int link, Complex force) {
  std::array<double, most_links> one{};
  one[link] = 1.0;
  add_link_columns(chain, f, field, bearer, std::span(one).first(chain.bearer_of(bearer).links.size()), force);
}

void shortenings(const Chain& chain, const Factor& f, const Field& field, int bearer, std::span<Complex> out) {
  const int kind = chain.bearer[bearer];
  const BearerShape& shape = chain.bearer_kind[kind];
  ComplexCoordinates q = field.bearer.segment(chain.coordinate[bearer], shape.n);
  for (int r = 0; r < chain.lines; ++r) {
    q += field.seat[first_unknown(chain, bearer, r)] * f.bearer_seat[kind].col(r);
  }
  for (std::size_t l = 0; l < out.size(); ++l) {
    const Link& link = shape.links[l];
    const auto along = direction(shape, link);
    const Complex moved(along.dot(q.real()), along.dot(q.imag()));
    out[l] = link.pad >= 0 ? field.seat[first_unknown(chain, bearer, link.pad)] - moved : moved;
  }
}

Complex shortening(const Chain& chain, const Factor& f, const Field& field, int bearer, int link) {
  std::array<Complex, most_links> all{};
  shortenings(chain, f, field, bearer, std::span(all).first(chain.bearer_of(bearer).links.size()));
  return all[link];
}

} // namespace wingnose::track::chain
