// What a sensor on the track would read of a passage: the model's own motion at its place through the chain of a real
// logger, and what is read from such records. SI; downward positive.
//
//   model --> anti-alias low-pass --> samples of the logger --> band (high-pass, low-pass) --> record
//
// All filters of the logger are Butterworth's and causal, as a logger's are: what they delay is delayed here, too. The
// model's displacement is its own and does not drift; what integrating an accelerometer's record would make of it is
// not told.
//
// Read from the samples before the band, without delay (filters run forward and back):
//   indicator    RMS of displacement, speed or acceleration between v/1 m and v/0.2 m (Milosevic, Palsson, Nissen,
//                Nielsen and Johansson 2022, Sensors 22(3) 1012). The publication's stretch of time is not known to us:
//                here from 2 m before the first wheel reaches the sensor to 2 m after the last has passed it, cut by
//                the window of the passage.
//   quasi-static displacement in wavelengths above 1 m, v/1 m (after Milosevic et al. 2021): what the wheels' weight
//                and the support make of it (Butterworth of order 4); dynamic: the rest of it.
#pragma once

#include "wingnose/passage/history.hpp"
#include "wingnose/words/column.hpp"
#include "wingnose/words/finding.hpp"
#include "wingnose/words/range.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace wingnose::assess {

struct Sensor {
  enum class On { rail, other_rail, bearer };
  enum class Reads { all, acceleration, velocity, displacement };
  std::string name;                            // letters, digits, - and _; file and group are called after it
  On on = On::bearer;                          // rail: the one the reported wheels run on
  double station = 0.0;                        // m; on a bearer the nearest one
  std::optional<double> across = std::nullopt; // m, y on a bearer that bends; nullopt: under the rail
  Reads quantity = Reads::all;                 // what its record holds
  double low = 0.0;       // Hz, high-pass of the band; 0: none, the model's motion has no drift to be freed of
  double high = 1000.0;   // Hz, low-pass of the band; up to there bearers of eight coordinates hold within 2 %
  int order = 4;          // of either filter
  double sampling = 10e3; // Hz, of the logger
  [[nodiscard]] friend bool operator==(const Sensor&, const Sensor&) = default;
};
constexpr auto names(Sensor::On) {
  return std::array{Name{Sensor::On::rail, "rail", "the rail that carries the wheels, at the station"},
                    Name{Sensor::On::other_rail, "other_rail", "the rail beside it, of a track of two rails"},
                    Name{Sensor::On::bearer, "bearer", "the bearer nearest to the station"}};
}
constexpr auto names(Sensor::Reads) {
  using enum Sensor::Reads;
  return std::array{Name{all, "all"}, Name{acceleration, "acceleration"}, Name{velocity, "velocity"},
                    Name{displacement, "displacement"}};
}
constexpr auto ranges(const Sensor*) {
  using S = Sensor;
  return std::array{InRange{&S::station, "station", "m", -50, 50}, InRange{&S::low, "low", "Hz", 0, 1000},
                    InRange{&S::high, "high", "Hz", 5, 5000}, InRange{&S::order, "order", 1, 8},
                    InRange{&S::sampling, "sampling", "Hz", 100, 20e3}};
}
inline constexpr Range sensor_across{-3.0, 3.0}; // m
// Share of the sampling rate where the anti-alias filter has taken 3 dB; its order.
inline constexpr double anti_alias_share = 0.4;
inline constexpr int anti_alias_order = 8;
// Throws InputError for a name that is none, ranges, a band turned round or beyond the anti-alias filter.
// where: how it is called in errors.
void check(const Sensor& sensor, const std::string& where = "sensor");

// One quantity at the logger's samples.
struct Signal {
  std::vector<double> sampled, record; // before and behind the band
};
struct SensorReading {
  std::string name;
  Sensor::On on = Sensor::On::bearer;
  Sensor::Reads quantity = Sensor::Reads::all;
  std::string chain;        // what it went through, in words
  double station = 0.0;     // m, of the bearer where it is on one
  std::vector<double> time; // s, as the history's
  using Signal = assess::Signal;
  Signal acceleration, velocity, displacement;
  std::vector<double> quasi_static; // m, displacement above 1 m of wavelength
  // Largest sizes and RMS of the records; the indicator, RMS of the samples in its band; shares of the displacement.
  double peak_acceleration = 0.0, peak_velocity = 0.0, peak_displacement = 0.0; // m/s2, m/s, m
  double rms_acceleration = 0.0, rms_velocity = 0.0;                            // m/s2, m/s
  double indicator_acceleration = 0.0, indicator_velocity = 0.0, indicator_displacement = 0.0;
  double quasi_static_peak = 0.0, dynamic_peak = 0.0; // m, largest sizes
  double trusted = 0.0;                               // Hz, up to where the model of the track holds there
  void forget_records() { time = quasi_static = {}, acceleration = velocity = displacement = {}; }
};
inline constexpr auto reading_columns = std::to_array<Column<SensorReading>>(
    {{"station_mm", "station", "station of the sensor", &SensorReading::station, 0},
     {"peak_acceleration_m_s2", "acceleration", "largest size of the record", &SensorReading::peak_acceleration, 1},
     {"rms_acceleration_m_s2", "RMS", "of the record while wheels are near", &SensorReading::rms_acceleration, 2},
     {"peak_velocity_mm_s", "velocity", "largest size of the record", &SensorReading::peak_velocity, 1},
     {"rms_velocity_mm_s", "RMS", "of the record while wheels are near", &SensorReading::rms_velocity, 2},
     {"peak_displacement_mm", "displacement", "largest size of the record", &SensorReading::peak_displacement, 3},
     {"indicator_acceleration_m_s2", "C(1-0.2 m)", "indicator of crossing geometry, RMS of acceleration",
      &SensorReading::indicator_acceleration, 3},
     {"indicator_velocity_mm_s", "C(1-0.2 m)", "indicator of crossing geometry, RMS of velocity",
      &SensorReading::indicator_velocity, 3},
     {"indicator_displacement_um", "C(1-0.2 m)", "indicator of crossing geometry, RMS of displacement",
      &SensorReading::indicator_displacement, 2},
     {"quasi_static_mm", "quasi-static", "largest displacement in wavelengths above 1 m",
      &SensorReading::quasi_static_peak, 3},
     {"dynamic_mm", "dynamic", "largest size of the rest of the displacement", &SensorReading::dynamic_peak, 3},
     {"trusted_to_hz", "holds to", "frequency up to which the model of the track holds there", &SensorReading::trusted,
      0}});

struct Passing {
  double speed = 0.0;             // m/s
  double first = 0.0, last = 0.0; // s, when the first and the last wheel are at the sensor
  double step = 0.0;              // s, the shortest between two instants of the motion
};
// Throws InputError as check(), and for a motion of fewer than ten instants.
[[nodiscard]] SensorReading read(const Sensor& sensor, const passage::PointMotion& motion, const Passing& passing);

// Motion at uniform instants `step` apart from that at any others: the acceleration at an instant from displacement and
// velocity there and at both neighbours (exact for polynomials of degree 5), between them Hermite's cubics.
struct Sampled {
  std::vector<double> displacement, velocity, acceleration;
};
[[nodiscard]] Sampled uniform(const passage::PointMotion& motion, double step);

// RMS of a signal sampled every `step` seconds between two frequencies (Hz; Butterworth of order 8 forward and back,
// high-pass and low-pass), over samples [first, last); NaN where the band lies above what is sampled.
[[nodiscard]] double rms_between(std::span<const double> signal, double step, double low, double high,
                                 std::size_t first, std::size_t last);

// Up to which frequency the model of the track holds at a sensor, and whether its band stays within.
[[nodiscard]] double trusted_up_to(const passage::TrackFelt& track, const Sensor& sensor, double step);
[[nodiscard]] Findings sensor_findings(const passage::TrackFelt& track, std::span<const Sensor> sensors,
                                       std::span<const SensorReading> readings, double speed);
// Comment lines of a record: the chain in words.
[[nodiscard]] std::string chain_words(const Sensor& sensor);

} // namespace wingnose::assess
