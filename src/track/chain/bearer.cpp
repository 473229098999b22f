#include "bearer_parts.hpp"
#include "parts.hpp"

#include "wingnose/words/error.hpp"

#include <cmath>
#include <string>

namespace wingnose::track::chain::detail {
namespace {

BearerShape lumped(const Bearer& bearer, const LumpedBearer& body) {
  BearerShape shape;
  shape.n = static_cast<int>(bearer.seat.size());
  const double root = std::sqrt(body.mass);
  shape.seat = Eigen::MatrixXd::Identity(shape.n, shape.n) / root;
  shape.weight = Eigen::VectorXd::Constant(shape.n, root);
  shape.stiffness = Eigen::VectorXd::Zero(shape.n);
  shape.damping = shape.loss = Eigen::MatrixXd::Zero(shape.n, shape.n);
  add_pads(shape, bearer);
  const double gap = bearer.voids.empty() ? 0.0 : bearer.voids.back().gap;
  for (int r = 0; r < shape.n; ++r) {
    const std::size_t before = shape.ballast.size();
    add_point(shape, bearer, bearer.seat[r].y, 1.0, in_series(bearer.ballast, bearer.under_sleeper_pad), gap);
    if (shape.ballast.size() > before) {
      BallastPoint& point = shape.ballast.back();
      point.shape = shape.seat.col(r);
      shape.stiffness[r] = point.stiffness / body.mass;
      shape.damping(r, r) = point.damping / body.mass;
      shape.loss(r, r) = point.stiffness * point.loss / body.mass;
    }
  }
  if (bearer.lateral) {
    add_shift(shape, bearer, body);
  }
  return shape;
}

} // namespace

void add_pads(BearerShape& to, const Bearer& bearer) {
  for (std::size_t r = 0; r < bearer.seat.size(); ++r) {
    const Pad& pad = bearer.seat[r].pad;
    to.pad.push_back(pad);
    if (pad.knee || pad.clip_load) {
      Link link;
      link.pad = static_cast<int>(r);
      link.law.stiffness = pad.stiffness;
      link.law.damping = pad.damping;
      if (pad.knee) {
        link.law.knee = *pad.knee;
        link.law.beyond = pad.stiffness_beyond;
      }
      if (pad.clip_load) {
        link.law.pull = *pad.clip_load;
      }
      to.links.push_back(link);
    }
  }
}

BearerShape make_bearer(const Bearer& bearer) {
  const auto* beam = std::get_if<BeamBearer>(&bearer.body);
  BearerShape shape =
      beam != nullptr ? beam_on_bedding(bearer, *beam) : lumped(bearer, std::get<LumpedBearer>(bearer.body));
  shape.width = bearer.width;
  if (shape.links.size() > most_links) {
    throw InputError("bearer at " + number(bearer.x) + " m", std::to_string(shape.links.size()) + " spots of ballast",
                     "up to " + std::to_string(most_links) + " that may let go",
                     "Give fewer voids and zones along one bearer.");
  }
  return shape;
}

} // namespace wingnose::track::chain::detail
