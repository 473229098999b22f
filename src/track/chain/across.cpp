#include "wingnose/track/chain/across.hpp"

namespace wingnose::track::chain {

Model with_across(Model model, const Across& across) {
  for (Rail& rail : model.rails) {
    rail.lateral = across.rail;
  }
  for (Bearer& bearer : model.bearers) {
    LateralBearer own = across.bearer;
    if (const auto* lumped = std::get_if<LumpedBearer>(&bearer.body)) {
      own.stiffness *= lumped->length;
      own.damping *= lumped->length;
    }
    bearer.lateral = own;
    for (RailSeat& seat : bearer.seat) {
      seat.lateral = across.seat;
    }
  }
  return model;
}

} // namespace wingnose::track::chain
