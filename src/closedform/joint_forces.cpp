#include "wingnose/closedform/joint_forces.hpp"

#include "wingnose/words/error.hpp"

#include <boost/math/constants/constants.hpp>
#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>

namespace wingnose::closedform {
namespace {

constexpr double pi = boost::math::constants::pi<double>();

std::string text(double value, const char* unit) { return number(value) + unit; }

void check_positive(const char* what, double value, const char* unit) {
  if (!(std::isfinite(value) && value > 0.0))
    throw InputError(what, text(value, unit), "greater than 0", "Check its value and unit.");
}

void check_not_negative(const char* what, double value, const char* unit) {
  if (!(std::isfinite(value) && value >= 0.0))
    throw InputError(what, text(value, unit), "0 or more", "Check its value and unit.");
}

void check(const JointCase& joint) {
  check_positive("static wheel load", joint.static_load, " N");
  check_positive("unsprung mass per wheel", joint.unsprung_mass, " kg");
  check_not_negative("track mass m_T2", joint.track.m_T2, " kg");
  check_positive("track stiffness k_T2", joint.track.k_T2, " N/m");
  check_not_negative("track damping c_T2", joint.track.c_T2, " N s/m");
  check_positive("contact stiffness k_H", joint.k_H, " N/m");
  check_positive("effective rail mass m_e", joint.m_e, " kg");
  if (!(joint.speed >= 0.0 && joint.speed <= 150.0))
    throw InputError("speed", text(joint.speed, " m/s"), "0 to 150 m/s", "Speeds here are in m/s, not km/h.");
  if (!(joint.dip_angle >= 0.0 && joint.dip_angle <= most_dip_angle))
    throw InputError("total dip angle", text(joint.dip_angle, " rad"), "0 to 0.1 rad",
                     "Angles here are in rad, not mrad.");
}

struct Oscillator { // the joint motion of wheel and track lump
  double mass, omega, zeta, start_velocity;
};

Oscillator oscillator(const JointCase& joint) {
  const double mass = joint.unsprung_mass + joint.track.m_T2;
  return {mass, std::sqrt(joint.track.k_T2 / mass), joint.track.c_T2 / (2.0 * std::sqrt(joint.track.k_T2 * mass)),
          joint.dip_angle * joint.speed * joint.unsprung_mass / mass};
}

// exp(-zeta t* omega) at the first maximum of the displacement: tan(omega_d t*) = sqrt(1 - zeta^2)/zeta. The hyperbolic
// branch is the same function continued past critical damping; a series bridges the point where both are 0/0.
double displacement_peak_factor(double zeta) {
  if (zeta == 0.0)
    return 1.0;
  const double y2 = (1.0 - zeta * zeta) / (zeta * zeta);
  const double y = std::sqrt(std::abs(y2));
  if (y < 1e-4)
    return std::exp(-(1.0 - y2 / 3.0));
  return std::exp(-(y2 > 0.0 ? std::atan(y) : std::atanh(y)) / y);
}

// Peak of k x + c x' over m omega v0. The force is -m x'' with x'' ~ exp(-zeta omega t) sin(omega_d t + 2 phi),
// cos phi = -zeta; its slope vanishes first at omega_d t = 3 acos(zeta) - pi. From zeta = 1/2 on the force falls from
// the start, where only the damper acts: c v0 = 2 zeta m omega v0.
double total_peak_factor(double zeta) {
  if (zeta >= 0.5)
    return 2.0 * zeta;
  const double phase = 3.0 * std::acos(zeta) - pi;
  return std::exp(-zeta / std::sqrt(1.0 - zeta * zeta) * phase);
}

// (2/5) ((1+s)^2.5 - 1) - s: energy of the Hertz spring beyond its preload, over C_H d0^2.5, at approach d0 (1 + s).
double preloaded_energy(double s) {
  if (s < 1e-3) // binomial series; the closed form loses all digits to cancellation here
    return s * s * (0.75 + s * (0.125 - s * (0.015625 - s * 0.0046875)));
  return 0.4 * std::expm1(2.5 * std::log1p(s)) - s;
}

// dP2/d(2a V), N s/m.
double increment_rate(const JointForces& forces) { return forces.M * forces.C * forces.K; }

void check_limit(const JointCase& joint, double limit) {
  check_positive("P2 limit", limit, " N");
  if (joint.static_load > limit)
    throw ComputeError("No speed or dip angle is permissible: the static wheel load of " +
                       text(joint.static_load / 1e3, " kN") + " alone exceeds the P2 limit of " +
                       text(limit / 1e3, " kN") + "; lower the load or correct the limit.");
}

} // namespace

JointForces joint_forces(const JointCase& joint) {
  check(joint);
  const auto& [m_T2, k_T2, c_T2] = joint.track;
  const double M_u = joint.unsprung_mass;
  const double impact = joint.dip_angle * joint.speed; // 2 alpha V, m/s
  const Oscillator motion = oscillator(joint);
  JointForces out{};
  out.M = std::sqrt(M_u / (M_u + m_T2));
  out.C = 1.0 - pi * c_T2 / (4.0 * std::sqrt(k_T2 * (M_u + m_T2)));
  out.K = std::sqrt(k_T2 * M_u);
  out.f2 = motion.omega / (2.0 * pi);
  out.zeta = motion.zeta;
  if (!(out.C > 0.0))
    throw ComputeError("P2 cannot be estimated: the track damping c_T2 of " + text(c_T2 / 1e3, " kN s/m") +
                       " is a damping ratio of " + text(out.zeta, "") +
                       ", beyond the 0.63 where the formula's damping factor reaches zero; simulate the passage "
                       "or give a smaller c_T2.");
  out.P1 = joint.static_load + impact * std::sqrt(joint.k_H * joint.m_e / (1.0 + joint.m_e / M_u)); // Jenkins 1974
  out.P2 = joint.static_load + impact * out.M * out.C * out.K;                                      // Jenkins 1974
  return out;
}

LumpedPeaks lumped_peaks(const JointCase& joint) {
  check(joint);
  const Oscillator motion = oscillator(joint);
  const double undamped = motion.mass * motion.omega * motion.start_velocity; // = M K 2aV
  const double total = undamped * total_peak_factor(motion.zeta);
  return {joint.static_load + undamped * displacement_peak_factor(motion.zeta), joint.static_load + total,
          joint.static_load + total * joint.unsprung_mass / motion.mass};
}

double P1_hertz(const JointCase& joint, double C_H) {
  check(joint);
  check_positive("Hertz stiffness C_H", C_H, " N/m^1.5");
  const double reduced_mass = joint.unsprung_mass * joint.m_e / (joint.unsprung_mass + joint.m_e);
  const double impact = joint.dip_angle * joint.speed;
  const double d0 = std::cbrt(std::pow(joint.static_load / C_H, 2.0));
  const double energy = 0.5 * reduced_mass * impact * impact / (joint.static_load * d0); // over C_H d0^2.5 = P0 d0
  if (energy == 0.0)
    return joint.static_load;
  // The root s obeys both energy >= (2/5) s^2.5 and energy >= (3/4) s^2, so the smaller of the two inverses bounds it
  // from above; at a quarter of that bound the energy is still too small.
  const double high = std::min(std::pow(2.5 * energy, 0.4), std::sqrt(energy / 0.75)) * (1.0 + 1e-12);
  std::uintmax_t iterations = 100;
  const auto bracket =
      boost::math::tools::toms748_solve([energy](double s) { return preloaded_energy(s) / energy - 1.0; }, 0.25 * high,
                                        high, boost::math::tools::eps_tolerance<double>(50), iterations);
  const double s = 0.5 * (bracket.first + bracket.second);
  return joint.static_load * std::pow(1.0 + s, 1.5);
}

double permissible_speed(const JointCase& joint, double P2_limit) {
  JointCase still = joint;
  still.speed = 0.0;
  const double rate = increment_rate(joint_forces(still));
  check_limit(joint, P2_limit);
  if (joint.dip_angle == 0.0)
    throw InputError("total dip angle", "0 rad", "greater than 0 to 0.1 rad",
                     "Without a dip P2 equals the static load at any speed, so no speed can be solved for.");
  return (P2_limit - joint.static_load) / (joint.dip_angle * rate);
}

double permissible_dip_angle(const JointCase& joint, double P2_limit) {
  JointCase level = joint;
  level.dip_angle = 0.0;
  const double rate = increment_rate(joint_forces(level));
  check_limit(joint, P2_limit);
  if (joint.speed == 0.0)
    throw InputError("speed", "0 m/s", "greater than 0 to 150 m/s",
                     "At standstill P2 equals the static load at any dip, so no dip angle can be solved for.");
  return (P2_limit - joint.static_load) / (joint.speed * rate);
}

std::vector<std::string> assumptions(const JointCase& joint) {
  const JointForces forces = joint_forces(joint);
  std::vector<std::string> lines = {
      "P1 and P2 after Jenkins et al. 1974: one wheel, its unsprung mass only, meets a sharp kink of the total dip "
      "angle.",
      "The track is one mass on one spring and damper; the wheel and this mass share momentum at once and stay "
      "together.",
      "P2 counts damping to first order only; P1 linearises the contact at k_H and ignores damping.",
      "The effective rail mass m_e of P1 cannot be chosen independently of the rail's bending waves: P1 is an "
      "estimate."};
  const double exact = displacement_peak_factor(forces.zeta);
  if (exact - forces.C > 0.05 * exact)
    lines.push_back("Warning: at the damping ratio of " + text(forces.zeta, "") + " the P2 increment reads " +
                    text(std::round(100.0 * (1.0 - forces.C / exact)), " %") +
                    " below the exact peak of the same lumps.");
  if (forces.P1 > 2.5 * joint.static_load)
    lines.emplace_back(
        "Warning: P1 exceeds 2.5 times the static load; the linearised contact stiffness then reads low.");
  return lines;
}

} // namespace wingnose::closedform
