// P1 and P2 against worked cases: the formulas of Jenkins et al. 1974 and the exact peaks of the same lumps.
#include "published/scoreboard.hpp"
#include "wingnose/closedform/joint_forces.hpp"

#include <cmath>
#include <string>
#include <vector>

using namespace wingnose::closedform;

namespace {

struct Row {
  const char* vehicle;
  double P0, M_u, V, dip; // kN, kg, m/s, rad
  double M, C, K;         // -, -, N s/m
  double P2, spring, spring_and_damper, contact;
  double f2, zeta;
  double P1;         // k_H 1.4 GN/m, m_e 40 kg
  double k_H, P1_kH; // N/m linearised at P0, and P1 with it
  double P1_hertz;
};
// Worked independently with the British constants, forces in kN.
const std::vector<Row> rows = {
    {"coach", 54.55, 906.5, 44.7, 0.005, 0.88726, 0.83716, 237071.7, 93.906, 94.896, 95.779, 87.007, 36.93, 0.1037,
     106.310, 1.177e+09, 102.012, 105.910},
    {"coach", 54.55, 906.5, 44.7, 0.01, 0.88726, 0.83716, 237071.7, 133.263, 135.243, 137.009, 119.464, 36.93, 0.1037,
     158.070, 1.177e+09, 149.474, 163.255},
    {"coach", 54.55, 906.5, 44.7, 0.014, 0.88726, 0.83716, 237071.7, 164.748, 167.520, 169.992, 145.430, 36.93, 0.1037,
     199.478, 1.177e+09, 187.443, 212.337},
    {"coach", 54.55, 906.5, 44.7, 0.02, 0.88726, 0.83716, 237071.7, 211.976, 215.936, 219.468, 184.379, 36.93, 0.1037,
     261.590, 1.177e+09, 244.397, 290.199},
    {"freight_22.5t", 110.40, 650.0, 27.78, 0.005, 0.85221, 0.81529, 200748.6, 129.774, 130.407, 130.973, 125.342,
     41.89, 0.1176, 142.303, 1.489e+09, 143.301, 144.325},
    {"freight_22.5t", 110.40, 650.0, 27.78, 0.01, 0.85221, 0.81529, 200748.6, 149.147, 150.414, 151.547, 140.283, 41.89,
     0.1176, 174.206, 1.489e+09, 176.202, 180.078},
    {"freight_22.5t", 110.40, 650.0, 27.78, 0.014, 0.85221, 0.81529, 200748.6, 164.646, 166.420, 168.005, 152.236,
     41.89, 0.1176, 199.728, 1.489e+09, 202.522, 209.821},
    {"freight_22.5t", 110.40, 650.0, 27.78, 0.02, 0.85221, 0.81529, 200748.6, 187.895, 190.428, 192.693, 170.166, 41.89,
     0.1176, 238.011, 1.489e+09, 242.003, 256.103},
    {"loco_21t", 103.00, 1400.0, 44.44, 0.005, 0.92253, 0.86375, 294618.4, 155.165, 156.073, 156.882, 148.857, 30.90,
     0.0867, 154.847, 1.455e+09, 155.854, 158.574},
    {"loco_21t", 103.00, 1400.0, 44.44, 0.01, 0.92253, 0.86375, 294618.4, 207.329, 209.146, 210.764, 194.714, 30.90,
     0.0867, 206.693, 1.455e+09, 208.708, 218.702},
    {"loco_21t", 103.00, 1400.0, 44.44, 0.014, 0.92253, 0.86375, 294618.4, 249.061, 251.605, 253.869, 231.399, 30.90,
     0.0867, 248.171, 1.455e+09, 250.991, 269.454},
    {"loco_21t", 103.00, 1400.0, 44.44, 0.02, 0.92253, 0.86375, 294618.4, 311.658, 315.292, 318.527, 286.427, 30.90,
     0.0867, 310.387, 1.455e+09, 314.416, 349.266},
    {"six_axle_100t", 81.75, 1650.0, 44.7, 0.005, 0.93312, 0.87306, 319843.7, 139.987, 140.864, 141.645, 133.901, 28.79,
     0.0808, 134.010, 1.347e+09, 133.013, 136.172},
    {"six_axle_100t", 81.75, 1650.0, 44.7, 0.01, 0.93312, 0.87306, 319843.7, 198.223, 199.978, 201.539, 186.052, 28.79,
     0.0808, 186.270, 1.347e+09, 184.275, 195.728},
    {"six_axle_100t", 81.75, 1650.0, 44.7, 0.014, 0.93312, 0.87306, 319843.7, 244.813, 247.269, 249.455, 227.773, 28.79,
     0.0808, 228.078, 1.347e+09, 225.286, 246.271},
    {"six_axle_100t", 81.75, 1650.0, 44.7, 0.02, 0.93312, 0.87306, 319843.7, 314.697, 318.206, 321.329, 290.354, 28.79,
     0.0808, 290.790, 1.347e+09, 286.801, 326.040},
    {"loco_22.5t_fast", 110.40, 1000.0, 55.88, 0.005, 0.89622, 0.84339, 248998.0, 162.986, 164.206, 165.293, 154.491,
     35.52, 0.0997, 175.234, 1.489e+09, 177.262, 181.258},
    {"loco_22.5t_fast", 110.40, 1000.0, 55.88, 0.01, 0.89622, 0.84339, 248998.0, 215.571, 218.011, 220.187, 198.582,
     35.52, 0.0997, 240.068, 1.489e+09, 244.125, 258.642},
    {"loco_22.5t_fast", 110.40, 1000.0, 55.88, 0.014, 0.89622, 0.84339, 248998.0, 257.639, 261.056, 264.101, 233.855,
     35.52, 0.0997, 291.936, 1.489e+09, 297.615, 324.254},
    {"loco_22.5t_fast", 110.40, 1000.0, 55.88, 0.02, 0.89622, 0.84339, 248998.0, 320.742, 325.623, 329.973, 286.764,
     35.52, 0.0997, 369.737, 1.489e+09, 377.850, 427.742},
};

// Wheel R 0.46 m on rail R 0.30 m, steel: the contact the cases were worked with (N/m^1.5, to five digits).
constexpr double C_H = 9.4125e10;

JointCase joint_case(const Row& row) {
  return {row.P0 * 1e3, row.M_u, row.V, row.dip, constant_set("GM/TT0088").track};
}

std::string at(const Row& row) {
  return std::string(", ") + row.vehicle + " " + scoreboard::number(row.dip * 1e3) + " mrad";
}

// Half a unit of the last decimal of the cases (1 N).
constexpr double force_tolerance = 0.00051; // kN

} // namespace

TEST_CASE("P2 of five vehicles at four dip angles agrees with the worked cases, factor by factor") {
  const Source source{Trust::worked, "formula of Jenkins et al. 1974, recalled (high), evaluated apart"};
  for (const Row& row : rows) {
    const JointForces forces = joint_forces(joint_case(row));
    score_abs("P2, kN" + at(row), forces.P2 / 1e3, row.P2, force_tolerance, source);
    score_abs("P2 factor M" + at(row), forces.M, row.M, 0.51e-5, source);
    score_abs("P2 factor C" + at(row), forces.C, row.C, 0.51e-5, source);
    score_abs("P2 factor K, N s/m" + at(row), forces.K, row.K, 0.051, source);
    score_abs("P2 frequency, Hz" + at(row), forces.f2, row.f2, 0.0051, source);
    score_abs("P2 damping ratio" + at(row), forces.zeta, row.zeta, 0.51e-4, source);
  }
}

TEST_CASE("The exact peaks of wheel and lumped track agree with the worked cases") {
  const Source source{Trust::worked, "damped oscillator after plastic impact, solved apart"};
  for (const Row& row : rows) {
    const LumpedPeaks peaks = lumped_peaks(joint_case(row));
    score_abs("exact peak of the track spring, kN" + at(row), peaks.spring / 1e3, row.spring, force_tolerance, source);
    score_abs("exact peak of spring and damper, kN" + at(row), peaks.spring_and_damper / 1e3, row.spring_and_damper,
              force_tolerance, source);
    score_abs("exact peak of the contact force, kN" + at(row), peaks.contact / 1e3, row.contact, force_tolerance,
              source);
  }
}

TEST_CASE("P1 agrees with the worked cases, linear and Hertzian") {
  const Source source{Trust::worked, "formula of Jenkins et al. 1974, recalled (high), evaluated apart"};
  for (const Row& row : rows) {
    JointCase joint = joint_case(row);
    score_abs("P1, kN, k_H 1.4 GN/m" + at(row), joint_forces(joint).P1 / 1e3, row.P1, force_tolerance, source);
    joint.k_H = 1.5 * std::cbrt(C_H * C_H * joint.static_load); // slope of the Hertz spring at the static load
    score("k_H at the static load, N/m" + at(row), joint.k_H, row.k_H, 5.1e-4, source);
    score_abs("P1, kN, k_H at the static load" + at(row), joint_forces(joint).P1 / 1e3, row.P1_kH, force_tolerance,
              source);
    score_abs("P1, kN, Hertz spring by energy" + at(row), P1_hertz(joint, C_H) / 1e3, row.P1_hertz, force_tolerance,
              {Trust::worked, "energy of the Hertz spring, solved apart"});
  }
}

TEST_CASE("The formula's P2 stays within 3 percent of the exact track spring at the damping of the British set") {
  for (const Row& row : rows) {
    const JointCase joint = joint_case(row);
    REQUIRE(joint_forces(joint).zeta <= 0.12);
    score("P2 over exact spring peak" + at(row), joint_forces(joint).P2 / lumped_peaks(joint).spring, 1.0, 0.03,
          {Trust::worked, "first-order damping factor against the exact one"});
    CHECK(joint_forces(joint).P2 < lumped_peaks(joint).spring);
  }
}

TEST_CASE("The six-axle locomotive of the class stays just under the British limit at its top speed") {
  const ConstantSet& set = constant_set("GM/TT0088");
  const JointCase locomotive{81.75e3, 1650.0, 44.7, set.dip_angle, set.track};
  score_abs(
      "P2 of a 100 t six-axle locomotive at 100 mile/h, kN", joint_forces(locomotive).P2 / 1e3, 314.7, 0.051,
      {Trust::worked, "formula of Jenkins et al. 1974 with the set of GM/TT0088, both recalled (high), evaluated"});
  CHECK(joint_forces(locomotive).P2 < set.limit);
}
