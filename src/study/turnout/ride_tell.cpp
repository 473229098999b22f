#include "../tell.hpp"
#include "ride_ground.hpp"

#include "wingnose/study/turnout_ride.hpp"

#include <algorithm>
#include <array>
#include <optional>

namespace wingnose::study {
namespace {

namespace space = passage::space;
using R = const TurnoutRide&;
using W = assess::GuidedWheelset;
using quantity::Section;

void add_about(Tree& tree, const Case& c, R r) {
  tree.attributes.emplace_back("name", c.name);
  tree.attributes.emplace_back("vehicle", r.vehicle);
  Filler f(tree, "ride", c.name + ": " + r.vehicle + " through turnout " + r.turnout, Layout::rows);
  f.text({"vehicle", "vehicle", "vehicle in space"}, r.vehicle);
  f.text({"way", "way taken", "route the vehicle takes, in a facing move"}, std::string(name(c.turnout.way)));
  f.number({"speed_km_h", "speed", "speed along it", 1}, c.passage.speed);
  f.number({"entering_shift_mm", "enters shifted", "of the whole vehicle, towards the crossing", 1},
           c.wheel.lateral_offset);
  f.number({"friction", "friction", "coefficient of friction at no slip", 2}, c.damage.friction);
  f.number({"check_stiffness_MN_m", "check rail", "stiffness of the check rail", 1}, c.spatial.check_stiffness);
  f.number({"step_us", "step", "time step", 0, told}, c.spatial.step);
}

template <class Member> auto of(Member W::*member) {
  return [member](const W& w) -> double {
    if constexpr (std::is_same_v<Member, double>) {
      return w.*member;
    } else {
      return (w.*member).value_or(none);
    }
  };
}
auto end_of(std::optional<assess::Band> W::*band, double assess::Band::*end) {
  return [band, end](const W& w) { return w.*band ? (*(w.*band)).*end : none; };
}

void add_wheelsets(Tree& tree, const std::vector<W>& sets) {
  Columns(Filler(tree, "wheelset", "What each wheelset gives (largest along the way; means over 2 m)", Layout::columns),
          "wheelset", sets)
      .text({"name", "wheelset", "which one"}, &W::name)
      .number({"static_load_kN", "load", "of a wheel at rest", 1, told}, of(&W::static_load))
      .number({"sum_of_Y_2m_kN", "sum of Y", "largest 2 m mean of what both wheels give sideways", 1}, of(&W::sum_of_Y))
      .number({"prudhomme_kN", "Prud'homme", "10 kN and a third of the axle load (Prud'homme 1967, from memory)", 1},
              of(&W::prudhomme))
      .number({"Y_over_Q_2m", "Y/Q",
               "largest 2 m mean of Y outward over that of Q, of either wheel; no verdict on derailment", 3},
              of(&W::outward_over_Q))
      .number({"most_Q_2m_kN", "most Q", "largest 2 m mean of Q of either wheel", 1}, of(&W::most_Q))
      .number({"least_Q_2m_kN", "least Q", "smallest 2 m mean of Q of either wheel", 1}, of(&W::least_Q))
      .number({"unloading_2m_percent", "unloading", "most that the 2 m mean of Q of a wheel lacks of its load at rest",
               1, told},
              of(&W::unloading))
      .number({"most_shift_mm", "shift", "largest shift at rail level", 2}, of(&W::most_shift))
      .number({"most_attack_mrad", "attack", "largest angle between wheelset and track", 2}, of(&W::most_attack))
      .number({"transfer_mm", "to the nose at", "station of the axle where the nose carries more than the wing", 1},
              of(&W::transfer))
      .number(
          {"nose_margin_mm", "flange to nose", "least distance of the flange's front to the nose where it is thin", 2},
          of(&W::nose_margin))
      .number({"flange_power_2m_kW", "flange wear", "largest 2 m mean of creep power where the wheel is steep", 2},
              of(&W::flange_power))
      .number({"flange_energy_J", "flange energy", "the same over the whole ride", 0, told}, of(&W::flange_energy));
}

// In newtons what the wheel of each wheelset does to the crossing.
void add_impacts(Tree& tree, R r) {
  struct Impact {
    std::string name;
    std::optional<assess::Measures> of;
  };
  std::vector<Impact> list;
  for (std::size_t w = 0; w < r.impact.size(); ++w) {
    list.push_back({r.rolling.model.vehicle.wheelsets[w].name, r.impact[w]});
  }
  const auto one = [](auto value) {
    return [value](const Impact& i) { return i.of ? std::optional<double>((*i.of).*value).value_or(none) : none; };
  };
  using M = assess::Measures;
  Columns(Filler(tree, "impact", "What the wheel of each wheelset does to the crossing", Layout::columns), "wheelset",
          list)
      .text({"name", "wheelset", "which one"}, &Impact::name)
      .number({"landing_station_mm", "lands at", "station of the axle at the first touch of the nose", 1},
              one(&M::landing_station))
      .number({"first_peak_kN", "P1", "first peak that stands out after the landing", 1}, one(&M::first_peak))
      .number({"p2_kN", "P2", "largest low-passed force after the landing", 1}, one(&M::p2))
      .number({"peak_total_kN", "most", "largest total force", 1}, one(&M::peak_total))
      .number({"lost_contact_ms", "lost", "time without contact", 2}, one(&M::lost_contact));
}

void add_check(Tree& tree, const std::vector<W>& sets) {
  using B = space::CheckRailBlow;
  const auto blow = [](double B::*member) {
    return [member](const W& w) { return w.check ? (*w.check).*member : none; };
  };
  Columns(Filler(tree, "check_rail", "What the check rail takes from the back of a wheel", Layout::columns), "wheelset",
          sets)
      .text({"name", "wheelset", "which one"}, &W::name)
      .number({"first_mm", "first touch, axle at", "station of the axle where it is touched first", 0}, blow(&B::first))
      .number({"last_mm", "last touch, axle at", "station of the axle where it is touched last", 0}, blow(&B::last))
      .number({"attack_mrad", "attack", "angle of the wheelset against the track at the first touch", 2},
              blow(&B::attack))
      .number({"peak_kN", "peak", "largest force", 1}, blow(&B::peak))
      .number({"peak_least_kN", "peak, least", "least of it over the range of the check rail's stiffness", 1},
              end_of(&W::check_peak, &assess::Band::least))
      .number({"peak_most_kN", "most", "most of it over that range", 1}, end_of(&W::check_peak, &assess::Band::most))
      .number({"peak_at_mm", "at station", "of the face where that was", 0}, blow(&B::at))
      .number({"impulse_Ns", "impulse", "integral of the force over time", 0}, blow(&B::impulse))
      .number({"impulse_least_Ns", "impulse, least", "least of it over that range", 0, told},
              end_of(&W::check_impulse, &assess::Band::least))
      .number({"impulse_most_Ns", "most", "most of it over that range", 0, told},
              end_of(&W::check_impulse, &assess::Band::most))
      .number({"power_2m_kW", "wear", "largest 2 m mean of friction power", 2}, of(&W::check_power))
      .number({"energy_J", "energy", "the same over the whole ride", 0, told}, of(&W::check_energy));
}

void add_accelerations(Tree& tree, const std::vector<assess::PartAcceleration>& list) {
  using A = assess::PartAcceleration;
  const auto one = [](std::optional<double> A::*member) {
    return [member](const A& a) { return (a.*member).value_or(none); };
  };
  Columns(Filler(tree, "acceleration", "What accelerometers on its parts show (largest along the way, low-passed)",
                 Layout::columns),
          "part", list)
      .text({"name", "part", "body, or wheelset whose axle boxes are meant"}, &A::name)
      .text({"kind", "kind", "where it is in the vehicle"}, [](const A& a) { return std::string(name(a.part)); })
      .number({"cut_off_hz", "low-pass", "cut-off of the Butterworth low-pass of order 2, run forward and back", 0},
              [](const A& a) { return assess::cut_off(a.part); })
      .number({"vertical_m_s2", "vertical", "largest size, upwards beyond gravity", 2}, one(&A::vertical))
      .number({"lateral_m_s2", "lateral", "largest size, with the share of gravity that cant and roll turn there", 2},
              one(&A::lateral));
}

// Every instant, wheelset by wheelset.
void add_history(Tree& tree, R r) {
  const space::SpaceHistory& h = r.history;
  Filler f(tree, "history");
  const std::size_t rows = h.time.size();
  f.list({"time_ms", "time", "from the beginning", 3, stored}, "instant", h.time);
  f.list({"station_m", "station", "of the leading wheelset", 4, stored}, "instant", h.station);
  f.list({"ahead_m", "ahead", "of every wheelset, of the leading one: where it falls below 0 behind it", 3, stored},
         "wheelset", each(r.rolling.model.vehicle.wheelsets, [](const auto& set) { return set.x; }));
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
  add({"roll_mrad", "roll", "lifts the wheel on the crossing's side", 3, stored}, "wheelset", h.roll);
  add({"lift_mm", "lift", "of the axle over its height at rest", 3, stored}, "wheelset", h.height);
  add({"check_force_kN", "check rail", "force of the wheel's back on it", 3, stored}, "wheelset", h.check_force);
  add({"Y_kN", "Y", "of a wheel on its rail, towards the crossing", 3, stored}, "wheel", h.Y);
  add({"Q_kN", "Q", "of a wheel on its rail, downwards", 3, stored}, "wheel", h.Q);
  add({"contact_mm", "contact", "heaviest contact on the wheel, from its taping line", 2, stored}, "wheel",
      h.contact_y);
}

// Contacts of every wheel, one instant in so many millimetres of travel.
void add_contacts(Tree& tree, R r) {
  constexpr double pitch = 20e-3; // m
  std::vector<const space::ContactRecord*> list;
  double next = r.history.station.empty() ? 0.0 : r.history.station.front();
  for (std::size_t k = 0; k < r.contacts.size(); ++k) {
    if (r.history.station[k] >= next) {
      for (const space::ContactRecord& c : r.contacts[k]) {
        list.push_back(&c);
      }
      next += pitch;
    }
  }
  const auto one = [&](auto of_contact) {
    return [of_contact](const space::ContactRecord* c) { return of_contact(*c); };
  };
  using C = const space::ContactRecord&;
  Columns(Filler(tree, "contacts"), "contact", list)
      .number({"wheelset", "wheelset", "which one, 1: leading", 0, stored}, one([](C c) { return c.wheelset + 1.0; }))
      .number({"wheel", "wheel", "1: on the crossing's side, 2: on the other", 0, stored},
              one([](C c) { return c.wheel + 1.0; }))
      .number({"body", "body", "place among the bodies of the ground, 0: check rail", 0, stored},
              one([](C c) { return c.body + 1.0; }))
      .number({"station_m", "station", "of the contact", 4, stored}, one([](C c) { return c.station; }))
      .number({"y_mm", "y", "of the contact, from the middle of the track", 2, stored}, one([](C c) { return c.y; }))
      .number({"on_wheel_mm", "on the wheel", "from its taping line, + to the field side", 2, stored},
              one([](C c) { return c.wheel_y; }))
      .number({"angle_mrad", "angle", "slope across, outward: negative on the flange", 1, stored},
              one([](C c) { return c.angle; }))
      .number({"normal_kN", "normal force", "of the contact", 2, stored}, one([](C c) { return c.normal; }))
      .number({"power_kW", "power", "of creep", 3, stored}, one([](C c) { return c.power; }));
}

} // namespace

Tree tell(const Case& c, R r) {
  Tree tree("turnout_ride");
  add_about(tree, c, r);
  quantity::add_measures(tree, r.assessment, Section::wheel_path, {}, told); // not available on this rung ...
  const bool bends = r.history.rails_bend; // else only speed and transfer are available
  quantity::add_measures(tree, r.assessment, Section::passage,
                         bends ? "Leading wheelset, its wheel on the crossing" : "",
                         bends ? quantity::Detail::printed : told);
  quantity::add_measures(tree, r.assessment, Section::guidance,
                         bends ? "Vehicle in space (largest of all wheelsets)"
                               : "Vehicle in space (largest of all wheelsets; P1, P2 and peaks: not available)");
  const std::vector<W> sets = r.assessment.guidance ? r.assessment.guidance->wheelsets : std::vector<W>{};
  if (r.history.rails_bend) {
    add_impacts(tree, r);
  }
  add_wheelsets(tree, sets);
  add_check(tree, sets);
  add_accelerations(tree, r.assessment.guidance ? r.assessment.guidance->accelerations
                                                : std::vector<assess::PartAcceleration>{});
  add_history(tree, r);
  add_contacts(tree, r);
  add_ground(tree, c, r);
  add_end(tree, r.assessment.findings, c);
  return tree;
}

} // namespace wingnose::study
