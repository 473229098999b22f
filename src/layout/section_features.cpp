#include "section_features.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::layout {
namespace {

constexpr int samples = 240;        // along the running surface
constexpr double least_turn = 0.4;  // rad, of a corner: a head alone turns less
constexpr double sharper = 3.0;     // times the curvature of the head, at least: rail heads go from 13 to 80 mm
constexpr double widest = 0.98;     // share of the way from edge to crown a shoulder may take
constexpr double stands_out = 5e-5; // m, from the crown down to both ends of the plateau
constexpr double unsure = 0.25;     // of the distance of the points: a place between them is known that well
constexpr double as_high = 1e-5;    // m
constexpr double at_face = 1.1;     // rad: a section that begins so steep begins at the face, where the rounding does
constexpr std::size_t few = 12.0;   // samples on either side below which a corner is not looked for

struct Angles {
  std::vector<double> s, angle; // m from the running edge or the far end, rad
};

// The best of all pairs of straight lines that meet at b: angle = a + c s + d max(0, s - b).
struct TwoLines {
  double before = 0.0, after = 0.0; // rad/m, slopes
  double squares = std::numeric_limits<double>::infinity();
};
TwoLines two_lines(const Angles& a, double b) {
  Eigen::Matrix3d m = Eigen::Matrix3d::Zero();
  Eigen::Vector3d r = Eigen::Vector3d::Zero();
  double all = 0.0;
  const double scale = a.s.back();
  for (std::size_t i = 0; i < a.s.size(); ++i) {
    const Eigen::Vector3d v{1.0, a.s[i] / scale, std::max(0.0, a.s[i] - b) / scale};
    m.noalias() += v * v.transpose();
    r += v * a.angle[i];
    all += a.angle[i] * a.angle[i];
  }
  const Eigen::Vector3d x = m.ldlt().solve(r);
  return {x[1] / scale, (x[1] + x[2]) / scale, all - x.dot(r)};
}

// Where the rounding that begins at the first of these places ends. Curvature itself is noisy; the angle is its
// integral, and an arc that runs into a flatter one is two straight lines in it.
std::optional<FeaturePlace> corner_end(const Angles& a, double pitch) {
  const double end = a.s.back();
  if (a.s.size() < few || std::abs(a.angle.front() - a.angle.back()) < least_turn) {
    return std::nullopt;
  }
  constexpr int coarse = 24;
  int best = 1;
  double least = std::numeric_limits<double>::infinity();
  for (int i = 1; i < coarse; ++i) {
    const double squares = two_lines(a, end * i / coarse).squares;
    if (squares < least) {
      least = squares;
      best = i;
    }
  }
  double low = end * (best - 1) / coarse, high = end * (best + 1) / coarse;
  constexpr double golden = 0.6180339887498949;
  for (int k = 0; k < 24; ++k) {
    const double left = high - golden * (high - low), right = low + golden * (high - low);
    const bool in_left = two_lines(a, left).squares < two_lines(a, right).squares;
    (in_left ? high : low) = in_left ? right : left;
  }
  const double b = 0.5 * (low + high);
  const TwoLines fit = two_lines(a, b);
  const double turns = std::abs(fit.before - fit.after);
  if (b > widest * end || !(std::abs(fit.before) > sharper * std::abs(fit.after))) {
    return FeaturePlace{widest * end, unsure * pitch}; // one arc up to the crown: the plateau has shrunk to nothing
  }
  // Angles off the two lines by so much move the place where they meet.
  const double off = std::sqrt(std::max(fit.squares, 0.0) / static_cast<double>(a.s.size())) / turns;
  return FeaturePlace{b, std::clamp(off, 1e-6, unsure * pitch)};
}

} // namespace

SectionFeatures features_of(const SmoothSection& section) {
  const double length = section.length(), pitch = length / samples;
  // On a level plateau the highest place is anywhere: the middle of what is nearly as high separates the two sides.
  std::vector<double> height;
  for (int i = 0; i <= samples; ++i) {
    height.push_back(section.height(i * pitch));
  }
  const double most = *std::max_element(height.begin(), height.end());
  const auto level = [&](double z) { return z > most - as_high; };
  const auto from = std::find_if(height.begin(), height.end(), level) - height.begin();
  const auto to = height.rend() - std::find_if(height.rbegin(), height.rend(), level) - 1;
  const int top = static_cast<int>((from + to) / 2);
  SectionFeatures f;
  const double apart = section.pitch();
  f.face = std::abs(section.angle(0.0)) > at_face;
  Angles near, far;
  for (int i = 0; i <= top; ++i) {
    near.s.push_back(i * pitch);
    near.angle.push_back(section.angle(i * pitch));
  }
  for (int i = samples; i >= top; --i) {
    far.s.push_back(length - i * pitch);
    far.angle.push_back(section.angle(i * pitch));
  }
  f.shoulder = corner_end(near, apart);
  if (const auto end = corner_end(far, apart)) {
    f.far_shoulder = FeaturePlace{length - end->at, end->unsure};
  }
  if (!f.shoulder || !f.far_shoulder) {
    return f;
  }
  if (most - std::max(section.height(f.shoulder->at), section.height(f.far_shoulder->at)) > stands_out) {
    double low = f.shoulder->at, high = f.far_shoulder->at; // the head rises from one and falls to the other
    for (int k = 0; k < 40; ++k) {
      const double middle = 0.5 * (low + high);
      (section.angle(middle) > 0.0 ? low : high) = middle;
    }
    f.crown = FeaturePlace{0.5 * (low + high), unsure * apart};
  }
  return f;
}

} // namespace wingnose::layout
