// A route as a drawing gives it: stretches of given curvature and cant, one behind the other. Heading and place follow
// by integration: in closed form where the curvature is constant, by quadrature along a transition (clothoid).
//
// s is the arc length along the centre line of the route, 0 where the route's gauge line meets that of the other route
// (theoretical intersection). Plan of a turnout: x along the through route in the facing sense, 0 at the start of the
// turnout, y to the left of it. Curvature is positive towards y > 0; cant is positive where it helps such a curve.
#pragma once

#include <cstddef>
#include <vector>

namespace wingnose::layout::turnout {

// Both ends of a stretch; linear between them.
struct Stretch {
  double length;                     // m
  double curvature, curvature_end;   // 1/m
  double cant = 0.0, cant_end = 0.0; // m, of tape lines 1.5 m apart
  [[nodiscard]] friend bool operator==(const Stretch&, const Stretch&) = default;
};

struct Place {
  double x, y;    // m
  double heading; // rad, from x towards y
};

// After `length` along a stretch that begins at `start`.
[[nodiscard]] Place along(const Place& start, const Stretch& stretch, double length);
// A distance (m) to the left of the centre line there.
[[nodiscard]] Place beside(const Place& place, double distance);

class Route {
public:
  // begin: s of the first stretch. Straight ahead of it and behind the last one.
  Route(double begin, std::vector<Stretch> stretches, const Place& start = {0.0, 0.0, 0.0});

  [[nodiscard]] double begin() const { return begins_.front(); }
  [[nodiscard]] double end() const { return begins_.back(); }
  [[nodiscard]] double curvature(double s) const; // 1/m; where it steps, that behind the step
  [[nodiscard]] double cant(double s) const;      // m
  [[nodiscard]] Place at(double s) const;
  [[nodiscard]] const std::vector<Stretch>& stretches() const { return stretches_; }
  [[nodiscard]] double begin_of(std::size_t stretch) const { return begins_[stretch]; } // also of one behind the last
  [[nodiscard]] Route shifted(double by) const;                                         // of s alone
  [[nodiscard]] Route mirrored() const;                                                 // y -> -y
  [[nodiscard]] Route backwards() const; // s -> -s, its sides as they are: run from its other end

private:
  std::vector<Stretch> stretches_;
  std::vector<double> begins_; // s of every stretch, and of the end
  std::vector<Place> places_;  // there
  [[nodiscard]] std::size_t stretch_at(double s) const;
};

} // namespace wingnose::layout::turnout
