// How the track of a case answers a load on one rail (track/places.hpp).
#pragma once

#include "wingnose/study/run.hpp"
#include "wingnose/track/places.hpp"

#include <memory>
#include <vector>

namespace wingnose::study {

struct TrackResponse {
  double load;                      // N, the static load of the reported wheel
  std::vector<double> frequency;    // Hz
  std::vector<track::Place> places; // over a bearer near the middle of the stretch, and mid-span
  std::shared_ptr<const track::ModalTrack> modal;
  double set_up = 0.0; // s, to make the modes
};

[[nodiscard]] TrackResponse track_response(const Case& c); // throws InputError
[[nodiscard]] quantity::Tree tell(const Case& c, const TrackResponse& response);

} // namespace wingnose::study
