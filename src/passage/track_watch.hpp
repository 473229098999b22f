// What the track feels while a passage runs; everything is allocated before the first step.
#pragma once

#include "modal_rows.hpp"

#include "wingnose/passage/felt.hpp"
#include "wingnose/passage/state.hpp"
#include "wingnose/track/chain/rows.hpp"

#include <optional>
#include <vector>

namespace wingnose::passage {

class TrackWatch {
public:
  // Throws InputError for a sensor that does not stand on the track, or across a bearer that does not bend.
  TrackWatch(const Passage& passage, int samples);
  void operator()(const State& state, int sample); // samples may be left out
  [[nodiscard]] TrackFelt finish() && { return std::move(felt_); }

private:
  struct OnChain {
    track::chain::RailPoint over; // the rail there
    track::chain::BearerRows rows;
    int row = -1; // of a sensor across a bearer; otherwise under the rail
  };
  void prepare_chain();
  void prepare_modes();
  void look_at_chain(const State& state);
  void look_at_modes(const State& state);
  void look_at_rail(const State& state);      // stress under the wheels
  void look_under_wheels(const State& state); // a rail right under a wheel moves by the wheel's own dent, too
  void record_points(const State& state, double t);
  [[nodiscard]] BearerFelt& nearest(double x);

  const Passage* passage_;
  TrackFelt felt_;
  int every_ = 1, next_ = 0;                     // samples between two looks; from which on the next is due
  std::vector<OnChain> bearer_, point_;          // of felt_.bearers and felt_.points
  std::vector<int> seat_;                        // of felt_.bearers, on modes
  std::optional<ModalRows> modes_, point_modes_; // behind a step of the plan's own length
  std::vector<double> value_;                    // what the rows of the modes tell
};

} // namespace wingnose::passage
