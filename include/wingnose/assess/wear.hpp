// Wear: volume from sliding, by two published laws. SI.
//
// Archard (1953, doi:10.1063/1.1721448): V = K N s / H, N normal force, s distance slid, H hardness of the softer body.
// K after the map of Jendel (2002, doi:10.1016/S0043-1648(02)00087-X) over slip speed and pressure: mild below 0.2 m/s
// and again above 0.7 m/s, severe between, seizure where the pressure exceeds 0.8 H. Published are bands (mild 1 to 10,
// severe 30 to 40, seizure 300 to 400, all 1e-4, from memory with high trust); the defaults are the middles of the
// bands, so the depth is known no better than by a factor of two in severe and five in mild wear. Dry steel: lubricated
// or wet contacts wear much less.
#pragma once

namespace wingnose::assess {

struct WearMap {
  double mild = 5.5e-4;      // -, >= 0
  double severe = 35e-4;     // -
  double seizure = 350e-4;   // -
  double mild_up_to = 0.2;   // m/s, > 0
  double mild_from = 0.7;    // m/s, > mild_up_to
  double seizure_from = 0.8; // -, pressure over hardness, > 0
  [[nodiscard]] friend bool operator==(const WearMap&, const WearMap&) = default;
};
void check(const WearMap& map); // throws InputError

// slip_speed: m/s, >= 0; pressure, hardness: Pa.
[[nodiscard]] double wear_coefficient(double slip_speed, double pressure, double hardness, const WearMap& map = {});
// m3. force: N, distance: m, hardness: Pa. Why less friction can wear more: beside its definition in wear.cpp.
[[nodiscard]] double archard_volume(double coefficient, double force, double distance, double hardness);

// Mass lost per distance rolled and contact area (kg/m/m2) over T-gamma / A (N/m2), twin-disc fit of Braghin et al.
// (2006, doi:10.1016/j.wear.2006.03.025): 5.3 x below 10.4 N/mm2, 55.1 up to 77.2, 55.1 + 61.9 (x - 77.2) above, in
// ug/m/mm2. From memory, high trust; the first corner of the published numbers leaves a step of 0.02.
[[nodiscard]] double energy_wear_rate(double t_gamma_over_area);

} // namespace wingnose::assess
