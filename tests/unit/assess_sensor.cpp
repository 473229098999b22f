#include "catch.hpp"
#include "said.hpp"

#include "wingnose/assess/sensor.hpp"
#include "wingnose/numeric/butterworth.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <vector>

using namespace wingnose;
using assess::Sensor;

namespace {

constexpr double pi = std::numbers::pi, step = 4e-5;

// u = amplitude (1 - cos) so that it begins at rest.
passage::PointMotion swinging(double amplitude, double f, double seconds, int every = 1) {
  passage::PointMotion m;
  const double omega = 2 * pi * f;
  for (int i = 0; i * step <= seconds + 1e-12; i += every) {
    const double t = i * step;
    m.time.push_back(t);
    m.deflection.push_back(amplitude * (1 - std::cos(omega * t)));
    m.velocity.push_back(amplitude * omega * std::sin(omega * t));
  }
  return m;
}

Sensor sensor() {
  Sensor s;
  s.name = "a";
  return s;
}

// Of a sine, from the last tenth of its samples, where what it began with has died away.
double amplitude_later(const std::vector<double>& v) {
  double sum = 0.0;
  const std::size_t first = v.size() - v.size() / 10;
  for (std::size_t i = first; i < v.size(); ++i) {
    sum += v[i] * v[i];
  }
  return std::sqrt(2.0 * sum / static_cast<double>(v.size() - first));
}

// The chain's gain: anti-alias filter at the model's rate, band at the logger's.
double gain(const Sensor& s, double f) {
  const double rate = 1.0 / s.sampling;
  double g = std::abs(numeric::response(
      numeric::low_pass(assess::anti_alias_order, assess::anti_alias_share * s.sampling, step), f, step));
  g *= std::abs(numeric::response(numeric::low_pass(s.order, s.high, rate), f, rate));
  return s.low > 0.0 ? g * std::abs(numeric::response(numeric::high_pass(s.order, s.low, rate), f, rate)) : g;
}

} // namespace

TEST_CASE("Acceleration from displacement and velocity is exact for polynomials of degree five, whatever the steps") {
  passage::PointMotion m;
  const auto w = [](double t) { return 3 * t * t - 2 * t * t * t + std::pow(t, 4) - std::pow(t, 5); };
  const auto v = [](double t) { return 6 * t - 6 * t * t + 4 * std::pow(t, 3) - 5 * std::pow(t, 4); };
  const auto a = [](double t) { return 6 - 12 * t + 12 * t * t - 20 * std::pow(t, 3); };
  for (const double t : {0.0, 0.1, 0.2, 0.6, 0.7, 0.8}) {
    m.time.push_back(t);
    m.deflection.push_back(w(t));
    m.velocity.push_back(v(t));
  }
  const assess::Sampled s = assess::uniform(m, 0.1);
  REQUIRE(s.acceleration.size() == 9);
  for (const int k : {1, 2, 6, 7}) { // instants of the motion but the outer ones
    CHECK(s.displacement[k] == Approx(w(0.1 * k)).epsilon(1e-12));
    CHECK(s.velocity[k] == Approx(v(0.1 * k)).epsilon(1e-12));
    CHECK(s.acceleration[k] == Approx(a(0.1 * k)).epsilon(1e-9));
  }
}

TEST_CASE("The model's acceleration is told within 0.01 % at 1 kHz, and within 1 % from steps four times as long") {
  const double f = 1000.0, amplitude = 1e-5, exact = amplitude * std::pow(2 * pi * f, 2);
  const auto worst = [&](int every) {
    const assess::Sampled s = assess::uniform(swinging(amplitude, f, 0.02, every), step);
    double most = 0.0;
    for (std::size_t k = 20; k + 20 < s.acceleration.size(); ++k) {
      most = std::max(most, std::abs(s.acceleration[k] - exact * std::cos(2 * pi * f * static_cast<double>(k) * step)));
    }
    return most / exact;
  };
  CHECK(worst(1) < 1e-4);
  CHECK(worst(4) < 1e-2);
}

TEST_CASE("A sine goes through the chain of a logger with the amplitude its filters leave") {
  Sensor s = sensor();
  s.low = 5.0;
  s.high = 400.0;
  s.sampling = 2000.0;
  const double amplitude = 1e-4;
  for (const double f : {20.0, 150.0, 400.0, 700.0}) {
    const assess::SensorReading r = assess::read(s, swinging(amplitude, f, 2.0), {30.0, 1.0, 1.0, step});
    const double omega = 2 * pi * f;
    INFO(f << " Hz");
    CHECK(amplitude_later(r.displacement.record) == Approx(amplitude * gain(s, f)).epsilon(0.01));
    CHECK(amplitude_later(r.velocity.record) == Approx(amplitude * omega * gain(s, f)).epsilon(0.01));
    CHECK(amplitude_later(r.acceleration.record) == Approx(amplitude * omega * omega * gain(s, f)).epsilon(0.01));
    CHECK(r.time[1] - r.time[0] == Approx(1.0 / s.sampling));
  }
}

TEST_CASE("What a slow logger cannot sample does not come back as something slow") {
  Sensor s = sensor();
  s.sampling = 500.0;
  s.high = 150.0;
  const double f = 480.0, amplitude = 1e-4; // would come back at 20 Hz
  const assess::SensorReading r = assess::read(s, swinging(amplitude, f, 1.0), {30.0, 0.5, 0.5, step});
  CHECK(amplitude_later(r.acceleration.record) < 1e-3 * amplitude * std::pow(2 * pi * f, 2));
}

TEST_CASE("The indicator of a sine is its amplitude over root two inside the band and nothing outside") {
  const double speed = 30.0; // 30 to 150 Hz
  for (const double f : {50.0, 75.0, 100.0}) {
    const assess::SensorReading r = assess::read(sensor(), swinging(1e-4, f, 1.0), {speed, 0.4, 0.6, step});
    CHECK(r.indicator_displacement == Approx(1e-4 / std::sqrt(2.0)).epsilon(0.01));
    CHECK(r.indicator_velocity == Approx(1e-4 * 2 * pi * f / std::sqrt(2.0)).epsilon(0.01));
    CHECK(r.indicator_acceleration == Approx(1e-4 * std::pow(2 * pi * f, 2) / std::sqrt(2.0)).epsilon(0.01));
  }
  for (const double f : {10.0, 400.0}) {
    const assess::SensorReading r = assess::read(sensor(), swinging(1e-4, f, 1.0), {speed, 0.4, 0.6, step});
    CHECK(r.indicator_displacement < 0.01 * 1e-4 / std::sqrt(2.0));
  }
}

TEST_CASE("A slow displacement is quasi-static and a fast one dynamic") {
  const double speed = 30.0;
  const assess::SensorReading slow = assess::read(sensor(), swinging(1e-3, 5.0, 1.0), {speed, 0.4, 0.6, step});
  CHECK(slow.quasi_static_peak == Approx(2e-3).epsilon(0.01));
  CHECK(slow.dynamic_peak < 0.01 * 2e-3);
  const assess::SensorReading fast = assess::read(sensor(), swinging(1e-4, 120.0, 1.0), {speed, 0.4, 0.6, step});
  const auto& mean = fast.quasi_static;
  CHECK(mean[mean.size() / 2] == Approx(1e-4).epsilon(0.01)); // it swings about its mean
  std::vector<double> rest(mean.size());
  std::transform(fast.displacement.sampled.begin(), fast.displacement.sampled.end(), mean.begin(), rest.begin(),
                 std::minus<>());
  CHECK(amplitude_later(std::vector<double>(rest.begin(), rest.begin() + 8000)) == Approx(1e-4).epsilon(0.01));
}

TEST_CASE("A sensor is refused whose band is turned round, beyond its sampling, or whose name is no file's") {
  Sensor s = sensor();
  s.low = s.high = 100.0;
  CHECK_THROWS_AS(assess::check(s), InputError);
  s = sensor();
  s.sampling = 2000.0; // 1000 Hz is half of it
  CHECK_THROWS_AS(assess::check(s), InputError);
  s = sensor();
  s.name = "../a";
  CHECK_THROWS_AS(assess::check(s), InputError);
  CHECK_NOTHROW(assess::check(sensor()));
}

TEST_CASE("Records hold as far as the model of the track does, and say so where a band reaches further") {
  passage::TrackFelt lumps, bending;
  bending.coordinates = 8;
  const std::vector<Sensor> one{sensor()};
  std::vector<assess::SensorReading> reading(1);
  reading[0].trusted = assess::trusted_up_to(bending, one[0], step);
  CHECK(reading[0].trusted == 1000.0);
  CHECK(assess::sensor_findings(bending, one, reading, 30.0).front().kind == FindingKind::sensor_holds);
  reading[0].trusted = assess::trusted_up_to(lumps, one[0], step);
  CHECK(reading[0].trusted < 150.0); // the indicator's band at 30 m/s
  CHECK(assess::sensor_findings(lumps, one, reading, 30.0).front().kind == FindingKind::sensor_beyond_model);
  // Steps of 250 us show 400 Hz by ten points.
  CHECK(assess::trusted_up_to(bending, one[0], 250e-6) == Approx(400.0));
}
