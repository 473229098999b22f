#include "../tell.hpp"

#include "wingnose/study/turnout_ride.hpp"

#include <optional>

namespace wingnose::study {
namespace {

using R = const TurnoutRide&;
using W = const GuidedWheelset&;

void add_about(Tree& tree, const Case& c, R r) {
  tree.attributes.emplace_back("name", c.name);
  Filler f(tree, "ride", c.name + ": " + r.options.vehicle + " through turnout " + r.turnout, Layout::rows);
  f.text({"vehicle", "vehicle", "vehicle in space"}, r.options.vehicle);
  f.text({"way", "way taken", "route the vehicle takes, in a facing move"}, std::string(name(r.way)));
  f.number({"speed_km_h", "speed", "speed along it", 1}, r.speed);
  f.number({"friction", "friction", "coefficient of friction at no slip", 2}, r.friction);
  f.number({"check_stiffness_MN_m", "check rail", "stiffness of the check rail", 1}, r.options.check_stiffness);
  f.number({"step_us", "step", "time step", 0, told}, r.options.step);
}

void add_wheelsets(Tree& tree, R r) {
  Columns(Filler(tree, "wheelset", "What each wheelset gives (largest along the way; means over 2 m)", Layout::columns),
          "wheelset", r.wheelsets)
      .text({"name", "wheelset", "which one"}, &GuidedWheelset::name)
      .number({"sum_of_Y_2m_kN", "sum of Y", "largest 2 m mean of what both wheels give sideways", 1},
              &GuidedWheelset::sum_of_Y)
      .number({"prudhomme_kN", "Prud'homme", "10 kN and a third of the axle load (Prud'homme 1967, from memory)", 1},
              &GuidedWheelset::prudhomme)
      .number({"Y_over_Q_2m", "Y/Q",
               "largest 2 m mean of Y outward over that of Q, of either wheel; no verdict on "
               "derailment",
               3},
              &GuidedWheelset::outward_over_Q)
      .number({"most_Q_2m_kN", "most Q", "largest 2 m mean of Q of either wheel", 1}, &GuidedWheelset::most_Q)
      .number({"least_Q_2m_kN", "least Q", "smallest 2 m mean of Q of either wheel", 1}, &GuidedWheelset::least_Q)
      .number({"most_shift_mm", "shift", "largest shift at rail level", 2}, &GuidedWheelset::most_shift)
      .number({"most_attack_mrad", "attack", "largest angle between wheelset and track", 2},
              &GuidedWheelset::most_attack);
}

void add_check(Tree& tree, R r) {
  using B = passage::space::CheckRailBlow;
  const auto of = [](double B::*member) { return [member](W w) { return w.check ? (*w.check).*member : none; }; };
  Columns(Filler(tree, "check_rail", "What the check rail takes from the back of a wheel", Layout::columns), "wheelset",
          r.wheelsets)
      .number({"first_mm", "first touch, axle at", "station of the axle where it is touched first", 0}, of(&B::first))
      .number({"last_mm", "last touch, axle at", "station of the axle where it is touched last", 0}, of(&B::last))
      .number({"attack_mrad", "attack", "angle of the wheelset against the track at the first touch", 2},
              of(&B::attack))
      .number({"peak_kN", "peak", "largest force", 1}, of(&B::peak))
      .number({"peak_at_mm", "at station", "of the face where that was", 0}, of(&B::at))
      .number({"impulse_Ns", "impulse", "integral of the force over time", 0}, of(&B::impulse));
}

// Every instant, wheelset by wheelset.
void add_history(Tree& tree, R r) {
  const passage::space::SpaceHistory& h = r.history;
  Filler f(tree, "history");
  const std::size_t rows = h.time.size();
  f.list({"time_ms", "time", "from the beginning", 3, stored}, "instant", h.time);
  f.list({"station_m", "station", "of the leading wheelset", 4, stored}, "instant", h.station);
  const auto add = [&](const Named& named, const std::string& dim, const Eigen::MatrixXd& values) {
    f.table(named, {{"instant", rows}, {dim, static_cast<std::size_t>(values.cols())}},
            grid(Dims{{"instant", rows}, {dim, static_cast<std::size_t>(values.cols())}},
                 [&](std::size_t row, std::size_t column) {
                   return values(static_cast<Eigen::Index>(row), static_cast<Eigen::Index>(column));
                 }));
  };
  add({"shift_mm", "shift", "of the wheelset at rail level, towards the crossing", 3, stored}, "wheelset",
      h.shift_at_rail);
  add({"yaw_mrad", "yaw", "against the track, towards the crossing", 3, stored}, "wheelset", h.yaw);
  add({"check_force_kN", "check rail", "force of the wheel's back on it", 3, stored}, "wheelset", h.check_force);
  add({"Y_kN", "Y", "of a wheel on its rail, towards the crossing", 3, stored}, "wheel", h.Y);
  add({"Q_kN", "Q", "of a wheel on its rail, downwards", 3, stored}, "wheel", h.Q);
  add({"contact_mm", "contact", "heaviest contact on the wheel, from its taping line", 2, stored}, "wheel",
      h.contact_y);
}

} // namespace

Tree tell(const Case& c, R r) {
  Tree tree("turnout_ride");
  add_about(tree, c, r);
  add_wheelsets(tree, r);
  add_check(tree, r);
  add_history(tree, r);
  add_end(tree, r.findings, c);
  return tree;
}

} // namespace wingnose::study
