#include "wingnose/assess/sensor.hpp"

#include "wingnose/numeric/butterworth.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/number.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::assess {
namespace {

constexpr int indicator_order = 8, share_order = 4;       // of one run; two are made
constexpr double near_sensor = 2.0;                       // m
constexpr double longest_wave = 1.0, shortest_wave = 0.2; // m, lambda_1 and lambda_2 of the indicator
constexpr double most_of_rate = 0.45;                     // of the sampling rate a cut-off may reach

// Hermite's cubic at s in [0, 1] of an interval of length h: value, and its derivative.
double cubic(double a, double slope_a, double b, double slope_b, double h, double s) {
  const double r = 1.0 - s;
  return a * (1.0 + 2.0 * s) * r * r + b * (3.0 - 2.0 * s) * s * s + h * s * r * (slope_a * r - slope_b * s);
}
double cubic_slope(double a, double slope_a, double b, double slope_b, double h, double s) {
  return 6.0 * s * (1.0 - s) * (b - a) / h + slope_a * (1.0 - s) * (1.0 - 3.0 * s) + slope_b * s * (3.0 * s - 2.0);
}

// With e(t) = (w(t) - w - v t) / t^2, which is half the acceleration at t = 0: its cubic through values and slopes at
// both neighbours.
double acceleration_at(const passage::PointMotion& m, std::size_t i) {
  const auto side = [&](std::size_t j, double& value, double& slope) {
    const double t = m.time[j] - m.time[i];
    value = (m.deflection[j] - m.deflection[i] - m.velocity[i] * t) / (t * t);
    slope = (m.velocity[j] - m.velocity[i] - 2.0 * t * value) / (t * t);
    return t;
  };
  double before = 0.0, slope_before = 0.0, after = 0.0, slope_after = 0.0;
  const double left = side(i - 1, before, slope_before), right = side(i + 1, after, slope_after);
  return 2.0 * cubic(before, slope_before, after, slope_after, right - left, -left / (right - left));
}

// At sample position x (a whole number and a share), by the cubic through four samples.
double between(const std::vector<double>& v, double x) {
  const auto last = static_cast<std::ptrdiff_t>(v.size()) - 1;
  const auto i = std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(std::floor(x)), 1, last - 2);
  const double s = x - static_cast<double>(i);
  return -s * (s - 1.0) * (s - 2.0) / 6.0 * v[i - 1] + (s + 1.0) * (s - 1.0) * (s - 2.0) / 2.0 * v[i] -
         (s + 1.0) * s * (s - 2.0) / 2.0 * v[i + 1] + (s + 1.0) * s * (s - 1.0) / 6.0 * v[i + 2];
}

Signal through_chain(std::vector<double> signal, double step, const Sensor& sensor) {
  const double alias = anti_alias_share * sensor.sampling, rate = 1.0 / sensor.sampling;
  if (alias * step < most_of_rate) { // otherwise the model itself has nothing above
    numeric::run(numeric::low_pass(anti_alias_order, alias, step), signal);
  }
  Signal out;
  const double length = static_cast<double>(signal.size() - 1) * step;
  const auto samples = static_cast<std::size_t>(std::floor(length / rate + 1e-9)) + 1;
  out.sampled.reserve(samples);
  for (std::size_t k = 0; k < samples; ++k) {
    out.sampled.push_back(between(signal, static_cast<double>(k) * rate / step));
  }
  out.record = out.sampled;
  if (sensor.low > 0.0) {
    numeric::run(numeric::high_pass(sensor.order, sensor.low, rate), out.record);
  }
  numeric::run(numeric::low_pass(sensor.order, sensor.high, rate), out.record);
  return out;
}

double largest_size(std::span<const double> v) {
  double most = 0.0;
  for (const double value : v) {
    most = std::max(most, std::abs(value));
  }
  return most;
}

double rms(std::span<const double> v, std::size_t first, std::size_t last) {
  double sum = 0.0;
  for (std::size_t i = first; i < last; ++i) {
    sum += v[i] * v[i];
  }
  return last > first ? std::sqrt(sum / static_cast<double>(last - first)) : 0.0;
}

std::vector<double> both_ways(const numeric::Filter& filter, std::span<const double> signal, double cut_off,
                              double step) {
  // Continued over three periods of the cut-off, longer than the filter's memory.
  return numeric::run_both_ways(filter, signal, static_cast<std::size_t>(3.0 / (cut_off * step)) + 1);
}

} // namespace

Sampled uniform(const passage::PointMotion& m, double step) {
  const std::size_t n = m.time.size();
  std::vector<double> a(n, 0.0);
  for (std::size_t i = 1; i + 1 < n; ++i) {
    a[i] = acceleration_at(m, i);
  }
  a.front() = a[1];
  a.back() = a[n - 2];
  Sampled s;
  const double from = m.time.front(), length = m.time.back() - from;
  const auto samples = static_cast<std::size_t>(std::floor(length / step + 1e-6)) + 1;
  std::size_t i = 0;
  for (std::size_t k = 0; k < samples; ++k) {
    const double t = from + static_cast<double>(k) * step;
    while (i + 2 < n && m.time[i + 1] <= t) {
      ++i;
    }
    const double h = m.time[i + 1] - m.time[i], at = std::clamp((t - m.time[i]) / h, 0.0, 1.0);
    s.displacement.push_back(cubic(m.deflection[i], m.velocity[i], m.deflection[i + 1], m.velocity[i + 1], h, at));
    s.velocity.push_back(cubic(m.velocity[i], a[i], m.velocity[i + 1], a[i + 1], h, at));
    s.acceleration.push_back(cubic_slope(m.velocity[i], a[i], m.velocity[i + 1], a[i + 1], h, at));
  }
  return s;
}

double rms_between(std::span<const double> signal, double step, double low, double high, std::size_t first,
                   std::size_t last) {
  if (low * step >= most_of_rate) { // none of the band is in the signal
    return std::numeric_limits<double>::quiet_NaN();
  }
  std::vector<double> band(signal.begin(), signal.end());
  band = both_ways(numeric::high_pass(indicator_order, low, step), band, low, step);
  if (high * step < most_of_rate) {
    band = both_ways(numeric::low_pass(indicator_order, high, step), band, high, step);
  }
  return rms(band, first, std::min(last, band.size()));
}

SensorReading read(const Sensor& sensor, const passage::PointMotion& motion, const Passing& p) {
  check(sensor);
  if (motion.time.size() < 10) {
    throw InputError("motion of a sensor", std::to_string(motion.time.size()) + " instants", "10 or more",
                     "Lengthen the window or shorten the step.");
  }
  const Sampled model = uniform(motion, p.step);
  const double rate = 1.0 / sensor.sampling;
  SensorReading r;
  r.name = sensor.name;
  r.on = sensor.on;
  r.quantity = sensor.quantity;
  r.chain = chain_words(sensor);
  r.station = motion.station;
  r.acceleration = through_chain(model.acceleration, p.step, sensor);
  r.velocity = through_chain(model.velocity, p.step, sensor);
  r.displacement = through_chain(model.displacement, p.step, sensor);
  const std::size_t samples = r.displacement.record.size();
  for (std::size_t k = 0; k < samples; ++k) {
    r.time.push_back(motion.time.front() + static_cast<double>(k) * rate);
  }
  const auto sample = [&](double t) {
    return static_cast<std::size_t>(std::clamp((t - motion.time.front()) / rate, 0.0, static_cast<double>(samples)));
  };
  const double margin = near_sensor / p.speed;
  const std::size_t first = sample(p.first - margin), last = sample(p.last + margin);
  r.peak_acceleration = largest_size(r.acceleration.record);
  r.peak_velocity = largest_size(r.velocity.record);
  r.peak_displacement = largest_size(r.displacement.record);
  r.rms_acceleration = rms(r.acceleration.record, first, last);
  r.rms_velocity = rms(r.velocity.record, first, last);
  const double low = p.speed / longest_wave, high = p.speed / shortest_wave;
  const auto indicator = [&](const Signal& s) { return rms_between(s.sampled, rate, low, high, first, last); };
  r.indicator_acceleration = indicator(r.acceleration);
  r.indicator_velocity = indicator(r.velocity);
  r.indicator_displacement = indicator(r.displacement);
  r.quasi_static = low * rate < most_of_rate
                       ? both_ways(numeric::low_pass(share_order, low, rate), r.displacement.sampled, low, rate)
                       : r.displacement.sampled;
  r.quasi_static_peak = largest_size(r.quasi_static);
  for (std::size_t k = 0; k < samples; ++k) {
    r.dynamic_peak = std::max(r.dynamic_peak, std::abs(r.displacement.sampled[k] - r.quasi_static[k]));
  }
  return r;
}

} // namespace wingnose::assess
