// How the track of a case answers loads: by its modes the static deflection and receptance of one rail
// (track/places.hpp), as a chain also its stiffness from place to place, what bearers carry, and how voids close
// (track/chain/survey.hpp).
#pragma once

#include "wingnose/study/run.hpp"
#include "wingnose/track/chain/survey.hpp"
#include "wingnose/track/places.hpp"

#include <complex>
#include <memory>
#include <optional>
#include <vector>

namespace wingnose::study {

// What only a chain answers.
struct ChainResponse {
  std::shared_ptr<const track::chain::Chain> chain;
  std::vector<double> station, deflection, stiffness; // m, m, N/m: under the load there, on every rail alike
  std::vector<double> shape_station, shape;           // m, m: of the first rail under all wheels, one over the middle
  std::vector<double> shape_other;                    // m, of the other rail; empty where there is none
  std::vector<std::complex<double>> bearer; // m/N, receptance of the bearer below the load, at the few frequencies ...
  struct Curve {                            // ... and with those of the rail at many
    std::vector<double> frequency;          // Hz
    std::vector<std::complex<double>> over, between, bearer;
  } curve;
  std::vector<track::chain::LoadedBearer> bearers;
  std::vector<double> loads; // N, tried over every void
  std::vector<track::chain::Closing> voids;
};

struct TrackResponse {
  double load;                                    // N, the static load of the reported wheel
  std::vector<double> frequency;                  // Hz
  std::vector<track::Place> places;               // over a bearer near the middle of the stretch, and mid-span
  std::shared_ptr<const track::ModalTrack> modal; // nullptr where the case asks for a chain
  std::optional<ChainResponse> chain;
  double set_up = 0.0; // s, to make the modes or the chain
};

[[nodiscard]] TrackResponse track_response(const Case& c); // throws InputError
[[nodiscard]] quantity::Tree tell(const Case& c, const TrackResponse& response);

} // namespace wingnose::study
