#include "wingnose/track/chain/factor.hpp"

#include "blocks.hpp"

#include "wingnose/words/error.hpp"

#include <Eigen/LU>

#include <cmath>

namespace wingnose::track::chain {
namespace {

constexpr Complex i_unit(0.0, 1.0);

// Dynamic stiffness of a bay on its four boundary unknowns.
Eigen::Matrix4cd bay_block(const RailBay& bay, Complex s, Complex hysteresis,
                           const Eigen::Matrix<Complex, most_modes, 1>& mode) {
  const Complex s2 = s * s;
  Eigen::Matrix4cd D = hysteresis * bay.K + s2 * bay.M;
  for (int j = 0; j < bay.modes; ++j) {
    D -= (s2 * s2 * mode[j]) * (bay.coupling.col(j) * bay.coupling.col(j).transpose());
  }
  return D;
}

Complex pad_stiffness(const Pad& pad, Complex s, bool losses) {
  return pad.stiffness * (losses ? 1.0 + i_unit * pad.loss : Complex(1.0)) + s * pad.damping;
}

using Onto = Eigen::Matrix<Complex, Eigen::Dynamic, Eigen::Dynamic, 0, most_lines, most_lines>;

// A bearer on its pads and ballast; returns what it adds to its seats, [lines x lines].
Onto add_bearer(const BearerShape& bearer, Complex s, Factor& f) {
  const auto lines = static_cast<int>(bearer.pad.size());
  using Small = Eigen::Matrix<Complex, Eigen::Dynamic, Eigen::Dynamic, 0, most_coordinates, most_coordinates>;
  Small D = s * bearer.damping;
  D.diagonal().array() += bearer.stiffness.array() + s * s;
  if (f.losses) {
    D += i_unit * bearer.loss;
  }
  Eigen::MatrixXcd P(bearer.n, lines);
  for (int r = 0; r < lines; ++r) {
    const Complex pad = pad_stiffness(bearer.pad[r], s, f.losses);
    P.col(r) = pad * bearer.seat.col(r);
    D += P.col(r) * bearer.seat.col(r).transpose();
  }
  const Small inverse = D.inverse();
  f.bearer_inverse.emplace_back(inverse);
  f.bearer_seat.emplace_back(inverse * P);
  Onto onto = -P.transpose() * f.bearer_seat.back();
  for (int r = 0; r < lines; ++r) {
    onto(r, r) += pad_stiffness(bearer.pad[r], s, f.losses);
  }
  return onto;
}

template <class V> struct Blocks { std::vector<typename V::Square> diagonal, upper; };

template <class V> Blocks<V> assemble(const Chain& chain, const V& view, Factor& f, const std::vector<Onto>& onto) {
  const typename V::Square nothing = V::Square::Zero(view.n(), view.n());
  Blocks<V> D;
  D.diagonal.assign(chain.seats(), nothing);
  D.upper.assign(chain.bays(), nothing);
  const Complex hysteresis(1.0, f.losses ? chain.model.rail_loss : 0.0);
  std::vector<Eigen::Matrix4cd> kind;
  kind.reserve(chain.bay_kind.size());
  for (const RailBay& bay : chain.bay_kind) {
    kind.push_back(bay_block(bay, f.s, hysteresis, f.mode[kind.size()]));
  }
  for (int b = 0; b < chain.bays(); ++b) {
    for (int r = 0; r < chain.lines; ++r) {
      const Eigen::Matrix4cd& block = kind[chain.bay[b * chain.lines + r]];
      D.diagonal[b].template block<2, 2>(2 * r, 2 * r) += block.topLeftCorner<2, 2>();
      D.diagonal[b + 1].template block<2, 2>(2 * r, 2 * r) += block.bottomRightCorner<2, 2>();
      D.upper[b].template block<2, 2>(2 * r, 2 * r) += block.topRightCorner<2, 2>();
    }
  }
  for (int i = 0; i < chain.seats(); ++i) {
    for (int p = 0; p < chain.lines; ++p) {
      for (int q = 0; q < chain.lines; ++q) {
        D.diagonal[i](2 * p, 2 * q) += onto[chain.bearer[i]](p, q);
      }
    }
  }
  return D;
}

template <class V> void decompose(const Chain& chain, const V& view, Factor& f, const std::vector<Onto>& onto) {
  using Block = typename V::Square;
  const int n = view.n();
  const Blocks<V> D = assemble(chain, view, f, onto);
  const int seats = chain.seats();
  for (auto* v : {&f.inverse, &f.inverse_right, &f.back, &f.ahead, &f.own, &f.next}) {
    v->assign(static_cast<std::size_t>(seats) * n * n, Complex(0.0));
  }
  const auto at = [&](std::vector<Complex>& v, int i) { return view.block(v, i); };
  std::vector<Block> left(seats);
  for (int i = 0; i < seats; ++i) {
    left[i] = D.diagonal[i];
    if (i > 0) {
      left[i] -= D.upper[i - 1].transpose() * at(f.back, i - 1);
    }
    at(f.inverse, i) = left[i].inverse();
    if (i + 1 < seats) {
      at(f.back, i) = at(f.inverse, i) * D.upper[i];
    }
  }
  Block right = Block::Zero(n, n);
  for (int i = seats - 1; i >= 0; --i) {
    right = D.diagonal[i];
    if (i + 1 < seats) {
      right -= D.upper[i] * at(f.ahead, i);
    }
    const Block own = (left[i] + right - D.diagonal[i]).inverse();
    at(f.own, i) = own;
    if (i > 0) {
      at(f.inverse_right, i) = right.inverse();
      at(f.ahead, i - 1) = at(f.inverse_right, i) * D.upper[i - 1].transpose();
    }
  }
  for (int i = 0; i + 1 < seats; ++i) {
    at(f.next, i) = -at(f.back, i) * at(f.own, i + 1);
  }
  if (!std::isfinite(std::abs(at(f.own, 0).sum())) || !std::isfinite(std::abs(at(f.own, seats - 1).sum()))) {
    throw ComputeError("the track can move freely or resonates without damping: no finite answer");
  }
}

} // namespace

Factor factor(const Chain& chain, Complex s, bool losses) {
  Factor f;
  f.s = s;
  f.losses = losses;
  const double eta = losses ? chain.model.rail_loss : 0.0;
  for (const RailBay& bay : chain.bay_kind) {
    Eigen::Matrix<Complex, most_modes, 1> mode = decltype(mode)::Zero();
    for (int j = 0; j < bay.modes; ++j) {
      mode[j] = 1.0 / (s * s + bay.stiffness[j] * (1.0 + i_unit * eta));
    }
    f.mode.push_back(mode);
  }
  std::vector<Onto> onto;
  for (const BearerShape& bearer : chain.bearer_kind) {
    onto.push_back(add_bearer(bearer, s, f));
  }
  detail::with_lines<false>(chain, [&](const auto& view) { decompose(chain, view, f, onto); });
  return f;
}

} // namespace wingnose::track::chain
