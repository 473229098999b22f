#include "wingnose/track/chain/rows.hpp"

#include <algorithm>
#include <utility>

namespace wingnose::track::chain {
namespace {

// The rows of answers that are linear in the motion of one bearer: asked with one coordinate, rate or link at a time.
template <class Answers> Rows rows_of(const Chain& chain, int bearer, Eigen::Index values, Answers answers) {
  const int n = chain.bearer_of(bearer).n, first = chain.coordinate[bearer];
  const int links = chain.link[bearer + 1] - chain.link[bearer];
  Rows rows{Rows::Matrix::Zero(values, n), Rows::Matrix::Zero(values, n), Rows::Matrix::Zero(values, links)};
  Motion motion(chain);
  const auto ask = [&](double& unit, auto column) {
    unit = 1.0;
    const std::vector<double> answer = answers(motion);
    column = Eigen::Map<const Eigen::VectorXd>(answer.data(), values);
    unit = 0.0;
  };
  for (int j = 0; j < n; ++j) {
    ask(motion.bearer[first + j], rows.of.col(j));
    ask(motion.bearer_rate[first + j], rows.of_rate.col(j));
  }
  for (int l = 0; l < links; ++l) {
    ask(motion.link[chain.link[bearer] + l], rows.of_link.col(l));
  }
  return rows;
}

} // namespace

std::vector<double> places_across(const Chain& chain, int bearer) {
  std::vector<double> y;
  const BearerShape& shape = chain.bearer_of(bearer);
  if (shape.node.empty()) {
    return y;
  }
  for (const RailSeat& seat : chain.model.bearers[bearer].seat) {
    y.push_back(seat.y);
  }
  std::sort(y.begin(), y.end());
  if (y.size() == 1) {
    return {0.5 * (shape.node.front() + y[0]), y[0], 0.5 * (y[0] + shape.node.back())};
  }
  for (std::size_t i = y.size() - 1; i > 0; --i) {
    y.insert(y.begin() + static_cast<std::ptrdiff_t>(i), 0.5 * (y[i - 1] + y[i]));
  }
  return y;
}

BearerRows bearer_rows(const Chain& chain, int bearer, std::vector<double> y) {
  const BearerShape& shape = chain.bearer_of(bearer);
  BearerRows rows;
  rows.bearer = bearer;
  const auto spots = static_cast<Eigen::Index>(shape.ballast.size());
  rows.ballast =
      rows_of(chain, bearer, spots, [&](const Motion& motion) { return ballast_forces(chain, motion, bearer); });
  if (const auto* lumped = std::get_if<LumpedBearer>(&chain.model.bearers[bearer].body)) {
    rows.area.assign(shape.ballast.size(), lumped->length * shape.width);
    return rows;
  }
  for (const BallastPoint& point : shape.ballast) {
    rows.area.push_back(point.length * shape.width);
  }
  rows.y = std::move(y);
  const auto over = [&](auto answer) {
    return rows_of(chain, bearer, static_cast<Eigen::Index>(rows.y.size()), [&](const Motion& motion) {
      std::vector<double> answers;
      for (const double at : rows.y) {
        answers.push_back(answer(chain, motion, bearer, at));
      }
      return answers;
    });
  };
  rows.moment = over([](const Chain& c, const Motion& m, int i, double at) { return bearer_moment(c, m, i, at); });
  rows.deflection =
      over([](const Chain& c, const Motion& m, int i, double at) { return bearer_deflection(c, m, i, at); });
  return rows;
}

double value(const Rows& rows, const Chain& chain, const Motion& m, int bearer, int r) {
  const int first = chain.coordinate[bearer], link = chain.link[bearer];
  double sum = 0.0;
  const Eigen::Index n = rows.of.cols();
  const double *of = rows.of.data() + r * n, *of_rate = rows.of_rate.data() + r * n;
  const double *q = m.bearer.data() + first, *rate = m.bearer_rate.data() + first;
  for (Eigen::Index j = 0; j < n; ++j) {
    sum += of[j] * q[j] + of_rate[j] * rate[j];
  }
  for (Eigen::Index l = 0; l < rows.of_link.cols(); ++l) {
    sum += rows.of_link(r, l) * m.link[link + l];
  }
  return sum;
}

double rate(const Rows& rows, const Chain& chain, const Motion& m, int bearer, int r) {
  const int first = chain.coordinate[bearer];
  double sum = 0.0;
  for (Eigen::Index j = 0; j < rows.of.cols(); ++j) {
    sum += rows.of(r, j) * m.bearer_rate[first + j];
  }
  return sum;
}

} // namespace wingnose::track::chain
