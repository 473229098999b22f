#include "blocks.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace wingnose::track::chain {
namespace {

using detail::boundary;
using detail::first_mode;
using detail::first_unknown;
using detail::View;

// A column of D^-1 decays from seat to seat; what lies this far below its largest is nothing.
constexpr double negligible = 1e-15;

// Solution at seats `from` and `to` = from or from + 1 has been added; carry it outward.
template <int rails>
void spread(const Chain& chain, const Factor& f, Field& field, int from, typename View<rails>::Piece left, int to,
            typename View<rails>::Piece right) {
  using V = View<rails>;
  const double least = negligible * std::max(left.cwiseAbs().maxCoeff(), right.cwiseAbs().maxCoeff());
  for (int i = from - 1; i >= 0; --i) {
    left = -(V::block(f.back, i) * left).eval();
    V::piece(field.seat, i) += left;
    if (left.cwiseAbs().maxCoeff() <= least) {
      break;
    }
  }
  for (int i = to + 1; i < chain.seats(); ++i) {
    right = -(V::block(f.ahead, i - 1) * right).eval();
    V::piece(field.seat, i) += right;
    if (right.cwiseAbs().maxCoeff() <= least) {
      break;
    }
  }
}

// What a unit force at the point brings onto the boundary of its bay once the modes are eliminated.
Eigen::Vector4cd onto_boundary(const Factor& f, const RailBay& bay, int kind, const RailPoint& at) {
  Eigen::Vector4cd onto = at.boundary.cast<Complex>();
  const Complex s2 = f.s * f.s;
  for (int j = 0; j < bay.modes; ++j) {
    onto -= (s2 * f.mode[kind][j] * at.modal[j]) * bay.coupling.col(j);
  }
  return onto;
}

template <int rails>
void rail_column(const Chain& chain, const Factor& f, Field& field, const RailPoint& at, Complex force) {
  using V = View<rails>;
  const int kind = chain.bay[at.bay * rails + at.rail];
  const RailBay& bay = chain.bay_kind[kind];
  for (int j = 0; j < bay.modes; ++j) {
    field.bay[first_mode(chain, at.bay, at.rail) + j] += force * at.modal[j];
  }
  const Eigen::Vector4cd onto = force * onto_boundary(f, bay, kind, at);
  typename V::Piece p = V::Piece::Zero(), q = V::Piece::Zero();
  p.template segment<2>(2 * at.rail) = onto.head<2>();
  q.template segment<2>(2 * at.rail) = onto.tail<2>();
  const auto next = V::block(f.next, at.bay);
  const typename V::Piece left = V::block(f.own, at.bay) * p + next * q;
  const typename V::Piece right = next.transpose() * p + V::block(f.own, at.bay + 1) * q;
  V::piece(field.seat, at.bay) += left;
  V::piece(field.seat, at.bay + 1) += right;
  spread<rails>(chain, f, field, at.bay, left, at.bay + 1, right);
}

template <int rails> void solve_seats(const Chain& chain, const Factor& f, Field& field) {
  using V = View<rails>;
  const int seats = chain.seats();
  for (int i = 1; i < seats; ++i) {
    V::piece(field.seat, i).noalias() -= V::block(f.back, i - 1).transpose() * V::piece(field.seat, i - 1);
  }
  for (int i = seats - 1; i >= 0; --i) {
    typename V::Piece z = V::block(f.inverse, i) * V::piece(field.seat, i);
    if (i + 1 < seats) {
      z.noalias() -= V::block(f.back, i) * V::piece(field.seat, i + 1);
    }
    V::piece(field.seat, i) = z;
  }
}

// Direction of a link on the bearer's coordinates; on the rail seat it is 1 for a pad.
auto direction(const BearerShape& bearer, const Link& link) {
  return link.pad >= 0 ? Eigen::VectorXd::ConstMapType(bearer.seat.col(link.pad).data(), bearer.n)
                       : Eigen::VectorXd::ConstMapType(bearer.ballast[link.point].shape.data(), bearer.n);
}
double side(const Link& link) { return link.pad >= 0 ? -1.0 : 1.0; }

using Coordinates = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, most_coordinates, 1>;
using ComplexCoordinates = Eigen::Matrix<Complex, Eigen::Dynamic, 1, 0, most_coordinates, 1>;

// Forces scale * along on the coordinates of a bearer and scale * pads on its rail seats.
template <int rails>
void bearer_column(const Chain& chain, const Factor& f, Field& field, int i, const Coordinates& along,
                   const Eigen::Vector2d& pads, Complex scale) {
  using V = View<rails>;
  const int kind = chain.bearer[i];
  field.bearer.segment(chain.coordinate[i], along.size()) += scale * f.bearer_inverse[kind].lazyProduct(along);
  typename V::Piece p = V::Piece::Zero();
  for (int r = 0; r < rails; ++r) {
    p[2 * r] = scale * (pads[r] + (f.bearer_seat[kind].col(r).transpose() * along)(0));
  }
  const typename V::Piece z = V::block(f.own, i) * p;
  V::piece(field.seat, i) += z;
  spread<rails>(chain, f, field, i, z, i, z);
}

} // namespace

Field::Field(const Chain& chain)
    : seat(Eigen::VectorXcd::Zero(chain.seats() * 2 * chain.rails)),
      bay(Eigen::VectorXcd::Zero(static_cast<Eigen::Index>(chain.bay.size()) * most_modes)),
      bearer(Eigen::VectorXcd::Zero(chain.coordinate.back())) {}

void Field::clear() {
  seat.setZero();
  bay.setZero();
  bearer.setZero();
}

void add_rail_force(const Chain& chain, Field& rhs, const RailPoint& at, Complex force) {
  rhs.seat.segment<2>(first_unknown(chain, at.bay, at.rail)) += force * at.boundary.head<2>();
  rhs.seat.segment<2>(first_unknown(chain, at.bay + 1, at.rail)) += force * at.boundary.tail<2>();
  rhs.bay.segment<most_modes>(first_mode(chain, at.bay, at.rail)) += force * at.modal;
}

void reduce(const Chain& chain, const Factor& f, Field& field) {
  const Complex s2 = f.s * f.s;
  for (int b = 0; b < chain.bays(); ++b) {
    for (int r = 0; r < chain.rails; ++r) {
      const int kind = chain.bay[b * chain.rails + r];
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
    for (int r = 0; r < chain.rails; ++r) {
      field.seat[first_unknown(chain, i, r)] += (f.bearer_seat[kind].col(r).transpose() * own)(0);
    }
    Eigen::Matrix<Complex, Eigen::Dynamic, 1, 0, most_coordinates, 1> z = f.bearer_inverse[kind].lazyProduct(own);
    own = z;
  }
  if (chain.rails == 1) {
    solve_seats<1>(chain, f, field);
  } else {
    solve_seats<2>(chain, f, field);
  }
}

void add_rail_column(const Chain& chain, const Factor& f, Field& field, const RailPoint& at, Complex force) {
  if (chain.rails == 1) {
    rail_column<1>(chain, f, field, at, force);
  } else {
    rail_column<2>(chain, f, field, at, force);
  }
}

void finish(const Chain& chain, const Factor& f, Field& field) {
  const Complex s2 = f.s * f.s;
  for (int b = 0; b < chain.bays(); ++b) {
    for (int r = 0; r < chain.rails; ++r) {
      const int kind = chain.bay[b * chain.rails + r];
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
    for (int r = 0; r < chain.rails; ++r) {
      own += field.seat[first_unknown(chain, i, r)] * f.bearer_seat[kind].col(r);
    }
  }
}

Complex deflection(const Chain& chain, const Factor& f, const Field& field, const RailPoint& at) {
  const int kind = chain.bay[at.bay * chain.rails + at.rail];
  const RailBay& bay = chain.bay_kind[kind];
  const Eigen::Vector4cd z = boundary(chain, field.seat, at.bay, at.rail);
  const Complex* rhs = field.bay.data() + first_mode(chain, at.bay, at.rail);
  Complex w = (onto_boundary(f, bay, kind, at).transpose() * z)(0);
  for (int j = 0; j < bay.modes; ++j) {
    w += at.modal[j] * f.mode[kind][j] * rhs[j];
  }
  return w;
}

Complex compliance(const Chain& chain, const Factor& f, const RailPoint& at) {
  const int kind = chain.bay[at.bay * chain.rails + at.rail];
  const RailBay& bay = chain.bay_kind[kind];
  const Eigen::Vector4cd onto = onto_boundary(f, bay, kind, at);
  const int n = 2 * chain.rails;
  const auto block = [&](const std::vector<Complex>& v, int i) -> Eigen::Matrix2cd {
    return Eigen::Map<const Eigen::Matrix2cd, 0, Eigen::OuterStride<>>(
        v.data() + i * n * n + 2 * at.rail * n + 2 * at.rail, Eigen::OuterStride<>(n));
  };
  const Eigen::Vector2cd p = onto.head<2>(), q = onto.tail<2>();
  Complex sum = (p.transpose() * block(f.own, at.bay) * p)(0) + (q.transpose() * block(f.own, at.bay + 1) * q)(0) +
                2.0 * (p.transpose() * block(f.next, at.bay) * q)(0);
  for (int j = 0; j < bay.modes; ++j) {
    sum += at.modal[j] * at.modal[j] * f.mode[kind][j];
  }
  return sum;
}

void add_link_force(const Chain& chain, Field& rhs, int bearer, int link, Complex force) {
  const BearerShape& shape = chain.bearer_of(bearer);
  const Link& l = shape.links[link];
  rhs.bearer.segment(chain.coordinate[bearer], shape.n) += (force * side(l)) * direction(shape, l);
  if (l.pad >= 0) {
    rhs.seat[first_unknown(chain, bearer, l.pad)] += force;
  }
}

void add_link_columns(const Chain& chain, const Factor& f, Field& field, int bearer, std::span<const double> force,
                      Complex scale) {
  const BearerShape& shape = chain.bearer_of(bearer);
  Coordinates along = Coordinates::Zero(shape.n);
  Eigen::Vector2d pads = Eigen::Vector2d::Zero();
  for (std::size_t l = 0; l < force.size(); ++l) {
    const Link& link = shape.links[l];
    along += (force[l] * side(link)) * direction(shape, link);
    if (link.pad >= 0) {
      pads[link.pad] += force[l];
    }
  }
  if (chain.rails == 1) {
    bearer_column<1>(chain, f, field, bearer, along, pads, scale);
  } else {
    bearer_column<2>(chain, f, field, bearer, along, pads, scale);
  }
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
  for (int r = 0; r < chain.rails; ++r) {
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
