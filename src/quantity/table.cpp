// The table of quantities: one row per number a passage is told by.
#include "wingnose/quantity/quantity.hpp"

#include <array>

namespace wingnose::quantity {
namespace {

using assess::Assessment;
using assess::DamagePeak;
using Maybe = std::optional<double>;
using K = contact::Kinematics;
using M = assess::Measures;
using S = assess::SteelMeasures;
using enum Section;

// --- where numbers come from, which says to which part of an answer they belong --------------------------------------
struct From {
  Section section;
  Maybe (*of)(const Assessment&);
  const DamagePeak* (*place)(const Assessment&) = nullptr;
};
template <auto member>
constexpr From path{wheel_path, [](const Assessment& a) { return a.guidance ? Maybe() : Maybe(a.kinematics.*member); }};
template <auto member>
constexpr From passed{passage, [](const Assessment& a) { return a.measures ? Maybe((*a.measures).*member) : Maybe(); }};
// A prescribed path has one body only.
constexpr From overlap{passage, [](const Assessment& a) {
                         return a.measures && a.kinematics.transfer_station ? Maybe(a.measures->overlap_length)
                                                                            : Maybe();
                       }};
using T = assess::TrackMeasures;
constexpr From rail_deflection{track,
                               [](const Assessment& a) { return a.track ? Maybe(a.track->rail_deflection) : Maybe(); }};
template <auto member>
constexpr From felt{track, [](const Assessment& a) {
                      return a.track && (*a.track).*member ? Maybe(((*a.track).*member)->value) : Maybe();
                    }};
template <auto member>
constexpr From felt_at{track, [](const Assessment& a) {
                         return a.track && (*a.track).*member ? Maybe(((*a.track).*member)->station) : Maybe();
                       }};
using R = assess::SensorReading;
template <auto member>
constexpr From sensed{sensor,
                      [](const Assessment& a) { return a.sensors.empty() ? Maybe() : Maybe(a.sensors[0].*member); }};
constexpr From speed{passage, [](const Assessment& a) { return a.measures || a.guidance ? Maybe(a.speed) : Maybe(); }};
// Of a vehicle in space: its leading wheelset's.
constexpr From load_transfer{passage, [](const Assessment& a) {
                               return a.measures ? Maybe(a.measures->dynamic_transfer_station)
                                      : a.guidance && !a.guidance->wheelsets.empty()
                                          ? a.guidance->wheelsets.front().transfer
                                          : Maybe();
                             }};
template <auto member>
constexpr From derived{closed_form, [](const Assessment& a) {
                         return a.estimates.empty() ? Maybe() : Maybe(a.estimates.front().forces.*member);
                       }};
template <auto member>
constexpr From sum{steel, [](const Assessment& a) { return a.steel ? Maybe((*a.steel).*member) : Maybe(); }};
template <auto member>
constexpr From peak{steel, [](const Assessment& a) { return a.steel ? Maybe(((*a.steel).*member).value) : Maybe(); },
                    [](const Assessment& a) -> const DamagePeak* {
                      return a.steel && !((*a.steel).*member).body.empty() ? &((*a.steel).*member) : nullptr;
                    }};

using W = assess::GuidedWheelset;
// The largest or the least of all wheelsets, of those that have it.
template <bool greatest> Maybe extreme(const Assessment& a, Maybe (*of)(const W&)) {
  Maybe found;
  for (const W& w : a.guidance ? a.guidance->wheelsets : std::vector<W>{}) {
    const Maybe value = of(w);
    found = value && (!found || (greatest ? *value > *found : *value < *found)) ? value : found;
  }
  return found;
}
template <auto member>
constexpr From most{
    guidance, [](const Assessment& a) { return extreme<true>(a, [](const W& w) -> Maybe { return w.*member; }); }};
template <auto member>
constexpr From least{
    guidance, [](const Assessment& a) { return extreme<false>(a, [](const W& w) -> Maybe { return w.*member; }); }};
// Of a band: its end.
template <auto band, auto end>
constexpr From most_of{guidance, [](const Assessment& a) {
                         return extreme<true>(a,
                                              [](const W& w) { return w.*band ? Maybe((*(w.*band)).*end) : Maybe(); });
                       }};
// Of the blow on the check rail whose peak is the largest.
template <auto member>
constexpr From blow{guidance, [](const Assessment& a) {
                      const passage::space::CheckRailBlow* hardest = nullptr;
                      for (const W& w : a.guidance ? std::span<const W>(a.guidance->wheelsets) : std::span<const W>{}) {
                        hardest =
                            w.check && (hardest == nullptr || w.check->peak > hardest->peak) ? &*w.check : hardest;
                      }
                      return hardest != nullptr ? Maybe(hardest->*member) : Maybe();
                    }};
// Where the sum of Y comes nearest to what the track bears.
constexpr From over_prudhomme{guidance, [](const Assessment& a) {
                                return extreme<true>(a, [](const W& w) { return Maybe(w.sum_of_Y / w.prudhomme); });
                              }};
constexpr From nadal_limit{guidance,
                           [](const Assessment& a) { return a.guidance ? Maybe(a.guidance->nadal) : Maybe(); }};
// Of all parts of a kind, those that move that way.
template <assess::VehiclePart part, auto member>
constexpr From shaken{guidance, [](const Assessment& a) {
                        Maybe found;
                        for (const auto& p :
                             a.guidance ? a.guidance->accelerations : std::vector<assess::PartAcceleration>{}) {
                          found = p.part == part && p.*member && !(found > p.*member) ? p.*member : found;
                        }
                        return found;
                      }};
using A = assess::PartAcceleration;
using V = assess::VehiclePart;
using C = passage::space::CheckRailBlow;
using B = assess::Band;

// --- the rows --------------------------------------------------------------------------------------------------------
consteval Quantity row(std::string_view key, std::string_view label, int decimals, std::string_view meaning, From from,
                       Uses uses = {}) {
  uses.place = from.place;
  return {key, unit_of(key), label, decimals, meaning, from.section, from.of, uses};
}

constexpr std::array table{
    row("transfer_station_mm", "transfer station", 1,
        "station of the axle where the wheel's heights on wing and nose cross", path<&K::transfer_station>,
        {.change = Change::none, .compared = true}),
    row("nose_thickness_at_transfer_mm", "nose thickness at transfer", 2,
        "distance of the gauge lines at the transfer station", path<&K::nose_thickness>,
        {.change = Change::none, .compared = true}),
    row("contact_y_wing_mm", "contact on wing, from track centre", 1,
        "lateral position of the contact on the wing at transfer", path<&K::contact_y_wing>, {.change = Change::none}),
    row("contact_y_nose_mm", "contact on nose, from track centre", 1,
        "lateral position of the contact on the nose at transfer", path<&K::contact_y_nose>, {.change = Change::none}),
    row("transfer_zone_begin_mm", "transfer zone begins", 1,
        "heights on wing and nose are within the zone tolerance from here", path<&K::zone_begin>,
        {.change = Change::none}),
    row("transfer_zone_end_mm", "transfer zone ends", 1, "... to here", path<&K::zone_end>, {.change = Change::none}),
    row("dip_depth_mm", "dip depth", 3, "height of the wheel ahead of the crossing less its lowest height",
        path<&K::dip_depth>, {.change = Change::none}),
    row("slope_before_mrad", "slope before", 2, "slope of the wheel path just before transfer, in the sense of travel",
        path<&K::slope_before>, {.change = Change::none}),
    row("slope_after_mrad", "slope after", 2, "slope of the wheel path just after transfer, in the sense of travel",
        path<&K::slope_after>, {.change = Change::none}),
    row("dip_angle_mrad", "dip angle", 2, "change of slope at the transfer, in the sense of travel",
        path<&K::dip_angle>, {.limit = Limit::at_most, .change = Change::none, .compared = true}),

    row("rim_margin_mm", "least distance from field face", 1,
        "least distance of the carrying contact from the wheel's field face along the path", path<&K::rim_margin>,
        {.limit = Limit::at_least, .change = Change::none, .compared = true}),

    row("speed_km_h", "speed", 1, "speed of the vehicle", speed, {.change = Change::none}),
    row("static_load_kN", "static wheel load", 2, "load of the reported wheel at rest", passed<&M::static_load>,
        {.change = Change::none}),
    row("landing_station_mm", "landing station", 1,
        "first touch of the body landed on, or the kink of a prescribed path", passed<&M::landing_station>,
        {.change = Change::difference}),
    row("landing_time_ms", "landing time", 2, "time of the landing since the start", passed<&M::landing_time>,
        {.change = Change::none}),
    row("force_before_landing_kN", "force just before landing", 2, "total contact force just before the landing",
        passed<&M::force_before_landing>),
    row("first_peak_kN", "first peak (P1)", 2,
        "first local maximum of the total force after the landing that stands out", passed<&M::first_peak>,
        {.limit = Limit::at_most, .told_if_none = true}),
    row("first_peak_delay_ms", "first peak, after landing", 3, "time of the first peak after the landing",
        passed<&M::first_peak_delay>, {.change = Change::none}),
    row("first_peak_over_valleys_kN", "first peak, over its valleys", 2,
        "first peak less the higher of the lowest forces before and after it", passed<&M::first_peak_over_valleys>),
    row("first_peak_over_low_pass_kN", "first peak, over low-passed", 2,
        "first peak less the low-passed force at its instant; below 0 it is the crest of the slow response",
        passed<&M::first_peak_over_low_pass>, {.change = Change::difference}),
    row("high_frequency_excess_kN", "most over low-passed force", 2,
        "largest excess of the total force over its low-passed course after the landing",
        passed<&M::high_frequency_excess>, {.limit = Limit::at_most, .compared = true}),
    row("p2_kN", "P2", 2, "largest low-passed total force after the landing", passed<&M::p2>,
        {.limit = Limit::at_most, .compared = true}),
    row("p2_delay_ms", "P2, after landing", 2, "time of P2 after the landing", passed<&M::p2_delay>,
        {.change = Change::none}),
    row("p2_cutoff_hz", "P2 filter cut-off", 0, "cut-off of the Butterworth low-pass run forward and back",
        passed<&M::p2_cut_off>, {.change = Change::none}),
    row("peak_nose_kN", "largest force on nose", 2,
        "largest contact force on the nose after the landing; of a trailing wheel, which lands on the wing, what is "
        "left of it",
        passed<&M::peak_nose>, {.limit = Limit::at_most, .compared = true}),
    row("peak_wing_kN", "largest force on wing", 2,
        "largest contact force on the wing after the landing; of a facing wheel, which lands on the nose, what is left "
        "of it",
        passed<&M::peak_wing>, {.limit = Limit::at_most}),
    row("peak_total_kN", "largest total force", 2, "largest total contact force", passed<&M::peak_total>,
        {.limit = Limit::at_most, .compared = true}),
    row("peak_total_station_mm", "... at station", 1, "station of the axle at the largest total force",
        passed<&M::peak_total_station>, {.change = Change::none}),
    row("dynamic_transfer_station_mm", "load transfer station", 1,
        "where the body landed on first carries more than the other; of a vehicle in space that of the leading axle",
        load_transfer, {.change = Change::difference}),
    row("overlap_mm", "both bodies loaded over", 1, "length over which wing and nose are loaded at once", overlap),
    row("lost_contact_ms", "contact lost for", 2, "total time without any contact", passed<&M::lost_contact>,
        {.limit = Limit::at_most_or_zero, .compared = true}),
    row("minimum_force_kN", "least total force", 2, "lowest total contact force", passed<&M::minimum_force>,
        {.limit = Limit::at_least}),
    row("impulse_Ns", "impulse over static", 1, "integral of the force above the static load after the landing",
        passed<&M::impulse>),
    row("landing_impulse_Ns", "impulse on body landed on", 1,
        "integral of the force on the body landed on over the impulse window (measures.impulse_window_ms) after the "
        "landing",
        passed<&M::landing_impulse>, {.limit = Limit::at_most, .compared = true}),
    row("dynamic_factor", "dynamic factor, total", 3, "largest total force over static load",
        passed<&M::dynamic_factor>, {.limit = Limit::at_most}),
    row("p2_dynamic_factor", "dynamic factor, P2", 3, "P2 over static load", passed<&M::p2_dynamic_factor>,
        {.limit = Limit::at_most}),
    row("rail_acceleration_m_s2", "rail acceleration", 0, "largest rail acceleration at the probe, low-passed",
        passed<&M::rail_acceleration>, {.limit = Limit::at_most}),
    row("bearer_acceleration_m_s2", "bearer acceleration", 1, "largest bearer acceleration at the probe, low-passed",
        passed<&M::bearer_acceleration>, {.limit = Limit::at_most}),

    row("rail_deflection_max_mm", "rail deflection", 3, "largest deflection of the rail under the reported wheel",
        rail_deflection, {.limit = Limit::at_most, .compared = true}),
    row("bearer_deflection_max_mm", "bearer deflection", 3, "largest deflection of a bearer under the rail",
        felt<&T::bearer_deflection>, {.limit = Limit::at_most, .may_lack = true}),
    row("seat_force_max_kN", "seat force", 2, "largest force in a rail seat, over its dead load", felt<&T::seat_force>,
        {.limit = Limit::at_most, .compared = true, .may_lack = true}),
    row("seat_force_max_station_mm", "seat force, at bearer", 0, "station of that bearer", felt_at<&T::seat_force>,
        {.change = Change::none, .swept = false}),
    row("seat_uplift_max_kN", "seat uplift", 2, "most by which a rail seat is relieved of its dead load",
        felt<&T::seat_uplift>, {.limit = Limit::at_most, .may_lack = true}),
    row("ballast_force_max_kN", "ballast force", 2,
        "largest force of a bearer on its ballast, over its dead load; of half a bearer where one rail is modelled",
        felt<&T::ballast_force>, {.limit = Limit::at_most, .compared = true, .may_lack = true}),
    row("ballast_force_max_station_mm", "ballast force, at bearer", 0, "station of that bearer",
        felt_at<&T::ballast_force>, {.change = Change::none, .swept = false}),
    row("ballast_pressure_max_kPa", "ballast pressure", 1,
        "largest pressure on the ballast, over dead load; the mean under a lumped bearer; only on a chain",
        felt<&T::ballast_pressure>, {.limit = Limit::at_most, .compared = true, .may_lack = true}),
    row("bearer_moment_max_kNm", "bearer moment", 2,
        "largest size of the bending moment under and between the rails; only of bearers that bend",
        felt<&T::bearer_moment>, {.limit = Limit::at_most, .compared = true, .may_lack = true}),
    row("bearer_moment_max_station_mm", "bearer moment, at bearer", 0, "station of that bearer",
        felt_at<&T::bearer_moment>, {.change = Change::none, .swept = false}),
    row("bearer_strain_max_um_m", "bearer strain", 1, "largest size of the strain of a bearer's outer fibre",
        felt<&T::bearer_strain>, {.limit = Limit::at_most, .may_lack = true}),
    row("rail_foot_stress_max_MPa", "rail foot stress", 1,
        "largest tension at the foot of the rail under a wheel, where its section modulus is known; only on a chain",
        felt<&T::rail_stress>, {.limit = Limit::at_most, .compared = true, .may_lack = true}),
    row("rail_foot_stress_max_station_mm", "rail foot stress, at bearer", 0, "station of the bearer nearest to it",
        felt_at<&T::rail_stress>, {.change = Change::none, .swept = false}),

    row("sensor_acceleration_m_s2", "peak acceleration", 1, "largest size in the record of the first sensor",
        sensed<&R::peak_acceleration>, {.limit = Limit::at_most, .may_lack = true}),
    row("sensor_velocity_mm_s", "peak velocity", 1, "largest size in the record of the first sensor",
        sensed<&R::peak_velocity>, {.limit = Limit::at_most, .may_lack = true}),
    row("sensor_displacement_mm", "peak displacement", 3, "largest size in the record of the first sensor",
        sensed<&R::peak_displacement>, {.limit = Limit::at_most, .may_lack = true}),
    row("sensor_indicator_m_s2", "C(1-0.2 m) of acceleration", 3,
        "indicator of crossing geometry at the first sensor: RMS between v/1 m and v/0.2 m (Milosevic et al. 2022)",
        sensed<&R::indicator_acceleration>, {.limit = Limit::at_most, .may_lack = true}),
    row("sensor_indicator_um", "C(1-0.2 m) of displacement", 2, "the same of displacement",
        sensed<&R::indicator_displacement>, {.limit = Limit::at_most, .may_lack = true}),
    row("sensor_quasi_static_mm", "quasi-static share", 3,
        "largest displacement of the first sensor in wavelengths above 1 m", sensed<&R::quasi_static_peak>,
        {.limit = Limit::at_most, .may_lack = true}),
    row("sensor_dynamic_mm", "dynamic share", 3, "largest size of the rest of that displacement",
        sensed<&R::dynamic_peak>, {.limit = Limit::at_most, .may_lack = true}),

    row("estimate_p1_kN", "P1, closed form", 2,
        "P1 by the closed form, lumped track derived from the track of the case", derived<&closedform::JointForces::P1>,
        {.change = Change::none}),
    row("estimate_p2_kN", "P2, closed form", 2,
        "P2 by the closed form, lumped track derived from the track of the case", derived<&closedform::JointForces::P2>,
        {.change = Change::none}),

    row("peak_pressure_MPa", "peak pressure", 0, "largest elastic Hertz pressure", peak<&S::peak_pressure>,
        {.limit = Limit::at_most, .compared = true}),
    row("load_factor", "load factor p0/k", 2, "peak pressure over the yield in shear", peak<&S::load_factor>),
    row("shakedown_exceedance", "shakedown exceedance", 2,
        "load factor over the elastic shakedown limit at the traction used; above 1 every wheel leaves plastic "
        "strain",
        peak<&S::shakedown>,
        {.limit = Limit::at_most, .compared = true, .mark = 1.0, .beyond = "plastic with every wheel"}),
    row("surface_fatigue_index", "surface fatigue index", 3,
        "traction coefficient less k/p0 (Ekberg, Kabo and Andersson 2002); above 0 the surface yields",
        peak<&S::fatigue_index>,
        {.change = Change::difference, .compared = true, .mark = 0.0, .beyond = "surface yields"}),
    row("longitudinal_creepage_permil", "longitudinal creepage", 2,
        "largest size, the wheel keeping its spin speed by inertia", peak<&S::creepage>),
    row("creep_force_kN", "creep force", 2, "largest tangential force on one body", peak<&S::creep_force>),
    row("traction_coefficient", "traction coefficient", 3, "creep force over normal force", peak<&S::traction>),
    row("t_gamma_N", "T-gamma", 1, "creep force times creepage, without the spin moment", peak<&S::t_gamma>,
        {.limit = Limit::at_most, .compared = true}),
    row("crack_damage_1e_6", "crack damage per wheel", 2,
        "largest value of the crack function of T-gamma (Burstow 2004, for R260)", peak<&S::crack_damage>,
        {.compared = true}),
    row("friction_power_kW", "friction power", 2, "largest, on one body", peak<&S::friction_power>),
    row("change_of_contact_angle_rad", "angle change in patch", 3,
        "change of the contact angle inside a patch; above 0.15 the half-space is stretched", peak<&S::change_of_angle>,
        {.compared = true}),
    row("wear_depth_nm", "wear depth per wheel", 2, "deepest node of the maps, Archard; only where maps are made",
        peak<&S::wear_depth>),
    row("friction_energy_J", "friction energy", 2, "dissipated by sliding over the whole stretch",
        sum<&S::friction_energy>, {.compared = true}),
    row("wear_volume_mm3", "wear volume", 5, "lost over the whole stretch, Archard", sum<&S::wear_volume>,
        {.compared = true}),

    row("sum_of_Y_2m_kN", "sum of Y, 2 m mean", 1, "largest 2 m mean of what both wheels of a wheelset give sideways",
        most<&W::sum_of_Y>, {.limit = Limit::at_most, .may_lack = true}),
    row("prudhomme_kN", "sum of Y after Prud'homme", 1,
        "10 kN and a third of the axle load (Prud'homme 1967, from memory); the least of all wheelsets",
        least<&W::prudhomme>, {.change = Change::none, .may_lack = true}),
    row("sum_of_Y_over_prudhomme_2m", "sum of Y over Prud'homme", 3,
        "largest ratio of a wheelset's sum of Y, 2 m mean, to its value after Prud'homme", over_prudhomme,
        {.limit = Limit::at_most, .may_lack = true, .mark = 1.0, .beyond = "more than track bears by that rule"}),
    row("Y_over_Q_2m", "Y/Q, 2 m means", 3,
        "largest 2 m mean of Y outward over that of Q, of any wheel; no verdict on derailment",
        most<&W::outward_over_Q>, {.limit = Limit::at_most, .change = Change::difference, .may_lack = true}),
    row("nadal_Y_over_Q", "Y/Q after Nadal", 3,
        "Y/Q at which a flange of the profile's angle may begin to climb (Nadal 1896), for the friction of the case",
        nadal_limit, {.change = Change::none, .may_lack = true}),
    row("most_Q_2m_kN", "most Q, 2 m mean", 1, "largest 2 m mean of Q of any wheel", most<&W::most_Q>,
        {.limit = Limit::at_most, .may_lack = true}),
    row("least_Q_2m_kN", "least Q, 2 m mean", 1, "smallest 2 m mean of Q of any wheel", least<&W::least_Q>,
        {.limit = Limit::at_least, .may_lack = true}),
    row("wheel_unloading_2m_percent", "wheel unloading, 2 m mean", 1,
        "most that a 2 m mean of Q lacks of the wheel's load at rest", most<&W::unloading>,
        {.limit = Limit::at_most, .change = Change::difference, .may_lack = true}),
    row("shift_max_mm", "shift", 2, "largest shift of a wheelset at rail level, without sign", most<&W::most_shift>,
        {.limit = Limit::at_most, .may_lack = true}),
    row("attack_max_mrad", "angle of attack", 2, "largest angle between a wheelset and the track, without sign",
        most<&W::most_attack>, {.limit = Limit::at_most, .may_lack = true}),
    row("nose_margin_mm", "flange to nose", 2,
        "least distance of a flange's front to the nose's running face between its theoretical point and where it is "
        "50 "
        "mm thick; rigid, by the shift at rail level; below 0 the flange would strike it",
        least<&W::nose_margin>, {.limit = Limit::at_least, .change = Change::difference, .may_lack = true}),
    row("check_peak_kN", "check rail, peak", 1, "largest force of a wheel's back on the check rail", blow<&C::peak>,
        {.limit = Limit::at_most, .may_lack = true}),
    row("check_peak_least_kN", "check rail, peak: least", 1,
        "the same over the range stated for the stiffness of the check rail: its least",
        most_of<&W::check_peak, &B::least>, {.change = Change::none, .may_lack = true}),
    row("check_peak_most_kN", "check rail, peak: most", 1, "... and its most", most_of<&W::check_peak, &B::most>,
        {.limit = Limit::at_most, .may_lack = true}),
    row("check_peak_station_mm", "check rail, at station", 0, "of the check rail's face, where the peak is",
        blow<&C::at>, {.change = Change::none, .may_lack = true}),
    row("check_attack_mrad", "check rail, angle of attack", 2, "of that wheelset at its first touch", blow<&C::attack>,
        {.change = Change::difference, .may_lack = true}),
    row("check_impulse_Ns", "check rail, impulse", 0, "integral of the force over time, of the wheelset with the peak",
        blow<&C::impulse>, {.limit = Limit::at_most, .may_lack = true}),
    row("check_impulse_most_Ns", "check rail, impulse: most", 0,
        "largest impulse of any wheelset over the range stated for the stiffness of the check rail",
        most_of<&W::check_impulse, &B::most>, {.limit = Limit::at_most, .may_lack = true}),
    row("flange_wear_power_2m_kW", "wear power on flange", 2,
        "largest 2 m mean of creep power of a wheelset where the wheel is steeper than 30 degrees",
        most<&W::flange_power>, {.limit = Limit::at_most, .may_lack = true}),
    row("flange_wear_energy_J", "wear energy on flange", 0, "the same over the whole ride, of one wheelset",
        most<&W::flange_energy>, {.limit = Limit::at_most, .may_lack = true}),
    row("check_wear_power_2m_kW", "wear power on check rail", 2,
        "largest 2 m mean of friction power of a wheel's back on the check rail", most<&W::check_power>,
        {.limit = Limit::at_most, .may_lack = true}),
    row("check_wear_energy_J", "wear energy on check rail", 0, "the same over the whole ride, of one wheelset",
        most<&W::check_energy>, {.limit = Limit::at_most, .may_lack = true}),

    row("car_body_vertical_10hz_m_s2", "car body, vertical acceleration", 2,
        "largest size upwards beyond gravity, low-passed at 10 Hz (Butterworth, order 2, forward and back), of any car "
        "body, at its centre of gravity",
        shaken<V::car_body, &A::vertical>, {.limit = Limit::at_most, .may_lack = true}),
    row("car_body_lateral_10hz_m_s2", "car body, lateral acceleration", 2,
        "largest size sideways with the share of gravity that cant and roll turn there, low-passed at 10 Hz "
        "(Butterworth, order 2, forward and back), of any car body, at its centre of gravity",
        shaken<V::car_body, &A::lateral>, {.limit = Limit::at_most, .may_lack = true}),
    row("frame_vertical_100hz_m_s2", "frame, vertical acceleration", 2,
        "largest size upwards beyond gravity, low-passed at 100 Hz (Butterworth, order 2, forward and back), of any "
        "bogie frame, at its centre of gravity",
        shaken<V::frame, &A::vertical>, {.limit = Limit::at_most, .may_lack = true}),
    row("frame_lateral_100hz_m_s2", "frame, lateral acceleration", 2,
        "largest size sideways with the share of gravity that cant and roll turn there, low-passed at 100 Hz "
        "(Butterworth, order 2, forward and back), of any bogie frame, at its centre of gravity",
        shaken<V::frame, &A::lateral>, {.limit = Limit::at_most, .may_lack = true}),
    row("axle_box_vertical_500hz_m_s2", "axle box, vertical acceleration", 2,
        "largest size upwards beyond gravity, low-passed at 500 Hz (Butterworth, order 2, forward and back), of any "
        "axle box, over a wheel; on rails that bend",
        shaken<V::axle_box, &A::vertical>, {.limit = Limit::at_most, .may_lack = true}),
    row("axle_box_lateral_500hz_m_s2", "axle box, lateral acceleration", 2,
        "largest size sideways with the share of gravity that cant and roll turn there, low-passed at 500 Hz "
        "(Butterworth, order 2, forward and back), of any axle; on rails that bend",
        shaken<V::axle_box, &A::lateral>, {.limit = Limit::at_most, .may_lack = true})};

} // namespace

std::span<const Quantity> quantities() { return table; }

} // namespace wingnose::quantity
