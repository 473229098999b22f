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
constexpr From path{wheel_path, [](const Assessment& a) -> Maybe { return a.kinematics.*member; }};
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
constexpr From speed{passage, [](const Assessment& a) { return a.measures ? Maybe(a.speed) : Maybe(); }};
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
        "where the body landed on first carries more than the other", passed<&M::dynamic_transfer_station>,
        {.change = Change::difference}),
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
        {.compared = true})};

} // namespace

std::span<const Quantity> quantities() { return table; }

} // namespace wingnose::quantity
