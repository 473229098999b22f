// What a sensor's numbers rest on: checks, how far the model can be trusted, the chain in words.
#include "wingnose/assess/sensor.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/number.hpp"

#include <algorithm>

namespace wingnose::assess {
namespace {

// First bending on ballast of a long bearer, 4.4 m, which bearers that are lumps cannot show.
constexpr double lumps_hold = 86.0; // Hz
constexpr double steps_a_period = 10.0;

std::string hertz(double f) { return number(f) + " Hz"; }

bool good_name(const std::string& name) {
  return !name.empty() && name.size() <= 60 && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  });
}

// Why it holds no further.
std::string reason(const passage::TrackFelt& track, const Sensor& sensor) {
  if (track.coordinates > 0) {
    return "bearers of " + std::to_string(track.coordinates) + " coordinates hold " +
           (track.coordinates >= 12  ? "to 1 kHz (0.4 %) and 2 kHz (3 %)"
            : track.coordinates >= 8 ? "to 500 Hz (0.2 %) and 1 kHz (2 %)"
                                     : "to some 500 Hz");
  }
  return sensor.on == Sensor::On::bearer ? "bearers are lumps, and long ones bend from 86 Hz on (4.4 m on ballast)"
                                         : "rails between bearers hold within 1 % of receptance";
}

} // namespace

void check(const Sensor& s, const std::string& where) {
  if (!good_name(s.name)) {
    throw InputError(where + ".name", "\"" + s.name + "\"", "1 to 60 letters, digits, - and _",
                     "The record is called after it.");
  }
  demand_ranges(s, where);
  if (s.across) {
    demand_within(where + " across", *s.across, sensor_across, "m");
  }
  if (s.low >= s.high) {
    throw InputError(where + ".low_Hz", hertz(s.low), "less than " + where + ".high_Hz (" + hertz(s.high) + ")",
                     "The band runs from low_Hz to high_Hz.");
  }
  const double most = anti_alias_share * s.sampling;
  if (s.high > most) {
    throw InputError(where + ".high_Hz", hertz(s.high),
                     "up to " + hertz(most) + " with " + where + ".sampling_Hz = " + hertz(s.sampling),
                     "A logger that samples so has filtered away what is above; sample faster or end the band lower.");
  }
}

double trusted_up_to(const passage::TrackFelt& track, const Sensor& sensor, double step) {
  double most = 1.0 / (steps_a_period * step);
  if (track.top_mode > 0.0) { // modes left out answer as at rest: within (f / f_top)^2 of their share
    most = std::min(most, 0.5 * track.top_mode);
  }
  const bool lumps = track.coordinates == 0;
  const double bearers = lumps                     ? (sensor.on == Sensor::On::bearer ? lumps_hold : 1000.0)
                         : track.coordinates >= 12 ? 2000.0
                         : track.coordinates >= 8  ? 1000.0
                                                   : 500.0;
  return std::min(most, bearers);
}

Findings sensor_findings(const passage::TrackFelt& track, std::span<const Sensor> sensors,
                         std::span<const SensorReading> readings, double speed) {
  Findings findings;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const double trusted = readings[i].trusted, indicator = speed / 0.2;
    const bool beyond = sensors[i].high > trusted;
    std::string what = "its numbers hold up to " + hertz(trusted) + ": " + reason(track, sensors[i]);
    if (beyond) {
      what += "; its band reaches " + hertz(sensors[i].high);
    }
    if (indicator > trusted) {
      what += "; the band of the indicator C(1-0.2 m) reaches " + hertz(indicator);
    }
    const double logged = anti_alias_share * sensors[i].sampling;
    if (indicator > logged) {
      what += "; the logger keeps " + hertz(logged) + " of the " + hertz(indicator) + " the indicator's band reaches";
    }
    findings.push_back({beyond || indicator > trusted || indicator > logged ? FindingKind::sensor_beyond_model
                                                                            : FindingKind::sensor_holds,
                        what, "sensor \"" + readings[i].name + "\""});
  }
  return findings;
}

std::string chain_words(const Sensor& s) {
  const std::string of_order = ", order " + std::to_string(s.order) + ")";
  return "anti-alias low-pass " + hertz(anti_alias_share * s.sampling) + " (Butterworth, order " +
         std::to_string(anti_alias_order) + "), sampled at " + hertz(s.sampling) +
         (s.low > 0.0 ? ", high-pass " + hertz(s.low) + " (Butterworth" + of_order : ", no high-pass") + ", low-pass " +
         hertz(s.high) + " (Butterworth" + of_order + "; all causal, run once";
}

} // namespace wingnose::assess
