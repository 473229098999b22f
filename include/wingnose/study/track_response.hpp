// How the track of a case answers a load on one rail: static deflection under the wheel, receptance over frequency.
#pragma once

#include "wingnose/study/run.hpp"
#include "wingnose/track/modal.hpp"

#include <complex>
#include <memory>
#include <string>
#include <vector>

namespace wingnose::study {

struct TrackPlace {
  std::string name;                             // "over a bearer"
  double station;                               // m
  double deflection;                            // m, under the load, downward
  double stiffness;                             // N/m, load over deflection
  std::vector<std::complex<double>> receptance; // m/N, at each frequency
};

struct TrackResponse {
  double load;                    // N, the static load of the reported wheel
  std::vector<double> frequency;  // Hz
  std::vector<TrackPlace> places; // over a bearer near the middle of the stretch, and mid-span
  std::shared_ptr<const track::ModalTrack> modal;
  double set_up = 0.0; // s, to make the modes
};

[[nodiscard]] TrackResponse track_response(const Case& c); // throws InputError
[[nodiscard]] quantity::Tree tell(const Case& c, const TrackResponse& response);

} // namespace wingnose::study
