// How long a ride in space over a crossing takes on two rails that bend: a coach of eight wheels and one wheelset, 40 m
// at 30 m/s, beside the same in steps of 10 us. Processor time; set-up (bodies, track, vehicle) is told by itself.
#include "stopwatch.hpp"

#include "wingnose/assess/space_measures.hpp"
#include "wingnose/layout/turnout/geometry.hpp"
#include "wingnose/track/chain/across.hpp"
#include "wingnose/vehicle/space/presets.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <utility>
#include <vector>

using namespace wingnose;
using namespace wingnose::passage::space;

namespace {

constexpr double speed = 30.0, length = 40.0, begin = -8.0; // m/s, m, m
enum class Rails { along, bending, bending_across };

Ground ground(const Rolling& rolling, Rails rails) {
  layout::CrossingShape shape;
  shape.wing_head = "60E1";
  shape.wing_inclination = std::atan(1.0 / 40.0);
  Ground out = over_turnout(layout::turnout::preset("R760-1:14"), layout::turnout::Way::through, shape,
                            profile::rail_head("60E1", shape.wing_inclination));
  if (rails == Rails::along) {
    return out;
  }
  track::chain::Model model;
  model.rails.resize(2);
  for (double x = begin + rolling.model.vehicle.wheelsets.back().x - 3.0; x < begin + length + 3.6; x += 0.6) {
    track::chain::Bearer bearer;
    bearer.x = x;
    bearer.seat = {{-0.75, {}}, {0.75, {}}};
    model.bearers.push_back(bearer);
  }
  out.bends = track::chain::make_chain(rails == Rails::bending ? model : track::chain::with_across(model));
  return out;
}

void tell(const char* vehicle, Rails rails, double step, double longest, bool beside_fine) {
  const Rolling one = rolling(wingnose::vehicle::space::preset(vehicle), profile::s1002());
  const Ground track = ground(one, rails);
  Ride ride{.speed = speed, .begin = begin, .length = length, .step = step, .longest_step = longest, .stride = 1};
  SpaceHistory history;
  const benchmark::Timing timing = benchmark::repeated(5, [&] { history = simulate(one, track, ride); });
  std::printf("%-11s %-34s steps %3.0f/%3.0f us: %7.1f ms, %5.1f x real time", vehicle,
              rails == Rails::along     ? "rails along"
              : rails == Rails::bending ? "rails bend, along across"
                                        : "rails bend, up and across",
              1e6 * step, 1e6 * std::max(step, longest), 1e3 * timing.processor_minimum,
              length / speed / timing.processor_minimum);
  if (beside_fine) {
    ride.step = 1e-5;
    ride.longest_step = 0.0;
    const SpaceHistory fine = simulate(one, track, ride);
    double p2 = 0.0, peak = 0.0;
    for (int set = 0; set < one.model.wheelsets(); ++set) {
      const auto a = *assess::measure(history, one, track, set, 0, 0.3),
                 b = *assess::measure(fine, one, track, set, 0, 0.3);
      p2 = std::max(p2, std::abs(a.p2 / b.p2 - 1.0));
      peak = std::max(peak, std::abs(a.peak_total / b.peak_total - 1.0));
    }
    std::printf("; worst P2 %.2f %%, peak %.2f %%", 1e2 * p2, 1e2 * peak);
  }
  std::printf("\n");
}

} // namespace

int main(int count, char** arguments) {
  const bool quick = count > 1 && std::strcmp(arguments[1], "--quick") == 0;
  for (const char* vehicle : {"wheelset", "coach_1998"}) {
    tell(vehicle, Rails::along, 4e-4, 0.0, false);
    for (const Rails rails : {Rails::bending, Rails::bending_across}) {
      tell(vehicle, rails, 4e-4, 0.0, !quick);
      if (!quick) {
        tell(vehicle, rails, 1e-4, 4e-4, true);
      }
    }
  }
}
