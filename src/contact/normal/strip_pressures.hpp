// Pressures of strips side by side that close the gap between wheel and body.
#pragma once

#include <array>

namespace wingnose::contact {

// Strips across an overlap, at most.
constexpr int most_strips = 56;

// Slopes c of p = c sqrt(a^2 - x^2), from 0 to a limit, that close the gap in the middle of the strips. Strips that
// would pull are left out, those that would overlap are taken in again (active sets). The limit keeps a strip that is
// still short from carrying a load: it grows with a^2 at most, so that nothing jumps when a strip appears.
class StripPressures {
public:
  // modulus: combined, Pa; limit: of the slopes, Pa/m; strips are told by add() from one side to the other.
  StripPressures(double modulus, double limit) : modulus_(modulus), limit_(limit) {}
  // middle: along the surface across the track; closing: approach less the gap in the middle; half_length: 0 where it
  // does not touch yet; all m.
  void add(double middle, double width, double closing, double half_length);
  void lengthen(int i, double half_length);
  void solve();
  [[nodiscard]] int count() const { return n_; }
  [[nodiscard]] double half_length(int i) const { return length_[i]; }
  [[nodiscard]] double slope(int i) const { return slope_[i]; }
  // Gap left in the middle of strip i (m), negative where the bodies would still overlap.
  [[nodiscard]] double left(int i) const { return left_[i]; }

private:
  enum class State : unsigned char { none, carries, open, steepest };
  using Values = std::array<double, most_strips>;

  void make_column(int j);
  void look_at_gaps();
  void solve_carrying();
  bool settle(); // true when no strip changes its state

  int n_ = 0;
  double modulus_, limit_;
  alignas(64) Values middle_, width_, closing_, length_, slope_, left_;
  std::array<State, most_strips> state_;
  std::array<unsigned char, most_strips> left_carrying_;                // so often
  alignas(64) std::array<double, most_strips * most_strips> influence_; // column by column, most_strips apart
};

} // namespace wingnose::contact
