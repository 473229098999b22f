// The passage every number of the benchmark refers to: one wheel, 8 m at 30 m/s, over a kink at mid-span.
//
// 60E1 on 40 bays of 0.6 m; per rail seat pads 120 MN/m + 40 kN s/m, 150 kg, ballast 60 MN/m + 80 kN s/m; 900 kg
// unsprung, 90 kN; S1002 on a 1:40 rail head. SI.
#pragma once

#include "wingnose/passage/exponential_stepper.hpp"
#include "wingnose/passage/simulate.hpp"
#include "wingnose/study/run.hpp"

#include <memory>
#include <vector>

namespace benchmark {

inline constexpr double reference_dip_angle = 0.010;                    // rad, total
inline constexpr double default_step = wingnose::cases::Passage{}.step; // s
inline constexpr double fine_step = 2.5e-5;                             // s

[[nodiscard]] wingnose::cases::Case reference_case(double step, bool probes);
[[nodiscard]] wingnose::track::Track reference_track();

// What all cases share.
struct Common {
  std::shared_ptr<const wingnose::track::ModalTrack> track;
  std::shared_ptr<const wingnose::passage::StepTable> steps;
  wingnose::contact::PlainContact contact;
  wingnose::vehicle::VehicleModel vehicle;
  wingnose::cases::Case settings;
};
[[nodiscard]] Common common(std::shared_ptr<const wingnose::track::ModalTrack> track, double step, bool probes);

[[nodiscard]] wingnose::passage::Passage kink_passage(const Common& shared, double dip_angle);
// Kinks of 5 to 15 mrad, all different.
[[nodiscard]] std::vector<double> dip_angles(int count);
[[nodiscard]] std::vector<wingnose::passage::Passage> kink_passages(const Common& shared,
                                                                    const std::vector<double>& angles);
[[nodiscard]] wingnose::assess::Measures measured(const Common& shared, const wingnose::passage::History& history);

// Largest difference between two force histories over the largest force (-).
[[nodiscard]] double difference(const wingnose::passage::History& a, const wingnose::passage::History& b);

} // namespace benchmark
