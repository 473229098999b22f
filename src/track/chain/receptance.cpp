#include "wingnose/track/chain/statics.hpp"

#include "on_beam.hpp"
#include "parts.hpp"

#include <numbers>

namespace wingnose::track::chain {

std::vector<Complex> receptance(const Chain& chain, const RailPoint& load, const RailPoint& at,
                                std::span<const double> frequency) {
  std::vector<Complex> answer;
  answer.reserve(frequency.size());
  Field field(chain);
  double left = 0.0; // static compliance of the loaded bay that its modes leave out
  if (load.bay == at.bay && load.line == at.line) {
    const RailBay& bay = chain.bay_of(at.bay, at.line);
    left = detail::held_between(bay, load.inside, at.inside);
    for (int j = 0; j < bay.modes; ++j) {
      left -= load.modal[j] * at.modal[j] / bay.stiffness[j];
    }
  }
  for (const double hertz : frequency) {
    const Factor f = factor(chain, Complex(0.0, 2.0 * std::numbers::pi * hertz), true);
    field.clear();
    add_rail_column(chain, f, field, load, 1.0);
    answer.push_back(deflection(chain, f, field, at) + left / Complex(1.0, chain.model.rail_loss));
  }
  return answer;
}

std::vector<Complex> bearer_receptance(const Chain& chain, const RailPoint& load, int i, int rail, double y,
                                       std::span<const double> frequency) {
  const BearerShape& bearer = chain.bearer_of(i);
  const Eigen::VectorXd shape = bearer.node.empty() ? Eigen::VectorXd(bearer.seat.col(rail))
                                                    : detail::shape_at(bearer, detail::on_beam(bearer, y));
  std::vector<Complex> answer;
  answer.reserve(frequency.size());
  Field field(chain);
  for (const double hertz : frequency) {
    const Factor f = factor(chain, Complex(0.0, 2.0 * std::numbers::pi * hertz), true);
    field.clear();
    add_rail_column(chain, f, field, load, 1.0);
    finish(chain, f, field);
    answer.push_back((field.bearer.segment(chain.coordinate[i], bearer.n).transpose() * shape.cast<Complex>())(0));
  }
  return answer;
}

} // namespace wingnose::track::chain
