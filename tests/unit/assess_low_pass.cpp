// The zero-phase Butterworth low-pass behind P2 and the accelerations.
#include "catch.hpp"

#include "wingnose/assess/measures.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <vector>

using namespace wingnose;
using assess::low_pass_zero_phase;

TEST_CASE("A constant passes the filter unchanged, at every order") {
  for (int order = 1; order <= 8; ++order) {
    for (const double x : low_pass_zero_phase(std::vector<double>(3000, 90e3), 4e-5, 150.0, order)) {
      REQUIRE(x == Approx(90e3).epsilon(1e-7));
    }
  }
  CHECK(low_pass_zero_phase({}, 4e-5, 150.0, 2).empty());
  CHECK(low_pass_zero_phase({7.0}, 4e-5, 150.0, 2) == std::vector<double>{7.0});
}

TEST_CASE("A symmetric pulse stays symmetric and stays in its place") {
  constexpr std::size_t n = 4001, middle = 2000;
  std::vector<double> pulse(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double t = (static_cast<double>(i) - middle) / 20.0; // 0.8 ms wide at 40 us
    pulse[i] = 1e5 * std::exp(-t * t);
  }
  for (const int order : {1, 2, 3, 4}) {
    const auto slow = low_pass_zero_phase(pulse, 4e-5, 150.0, order);
    REQUIRE(slow.size() == n);
    const auto top = std::max_element(slow.begin(), slow.end());
    CHECK(top - slow.begin() == static_cast<std::ptrdiff_t>(middle));
    CHECK(*top < 0.9e5);
    double area = 0.0, slow_area = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
      CHECK(std::abs(slow[i] - slow[n - 1 - i]) < 1e-6 * *top);
      area += pulse[i];
      slow_area += slow[i];
    }
    CHECK(slow_area == Approx(area).epsilon(1e-6)); // the impulse is kept
  }
}

TEST_CASE("A sine at the cut-off keeps half its amplitude, others what Butterworth's formula says for two passes") {
  constexpr double h = 4e-5, cut_off = 150.0;
  for (const int order : {1, 2, 3, 4, 8}) {
    for (const double f : {30.0, 100.0, 150.0, 200.0, 400.0}) {
      std::vector<double> sine(20001);
      for (std::size_t i = 0; i < sine.size(); ++i) {
        sine[i] = std::sin(2.0 * std::numbers::pi * f * h * static_cast<double>(i));
      }
      const auto slow = low_pass_zero_phase(sine, h, cut_off, order);
      // Amplitude and phase from the middle: whole numbers of periods (0.4 s).
      double in_phase = 0.0, out_of_phase = 0.0;
      for (std::size_t i = 5000; i < 15000; ++i) {
        const double angle = 2.0 * std::numbers::pi * f * h * static_cast<double>(i);
        in_phase += slow[i] * std::sin(angle) / 5000.0;
        out_of_phase += slow[i] * std::cos(angle) / 5000.0;
      }
      // Bilinear transform: frequencies appear as tan(pi f h).
      const double ratio = std::tan(std::numbers::pi * f * h) / std::tan(std::numbers::pi * cut_off * h);
      CAPTURE(order, f);
      CHECK(in_phase == Approx(1.0 / (1.0 + std::pow(ratio, 2 * order))).margin(1e-6));
      CHECK(std::abs(out_of_phase) < 1e-6);
      if (f == cut_off) {
        CHECK(in_phase == Approx(0.5).margin(1e-6));
      }
    }
  }
}

TEST_CASE("The filter gives the values of a general-purpose signal library, ends included") {
  // Values: scipy 1.17.1, sosfiltfilt(butter(order, cut_off, fs=1000, output="sos"), x, padtype="odd",
  // padlen=int(1.5 * 1000 / cut_off) + 1) of the signal below; independent of this code but for the choice of padding.
  std::vector<double> x;
  for (int i = 0; i < 60; ++i) {
    x.push_back(100.0 + 20.0 * std::sin(0.25 * i) + 8.0 * std::cos(1.9 * i) + 0.02 * (i - 20.0) * (i - 20.0));
  }
  struct Row {
    int order;
    double cut_off;
    std::array<double, 5> at; // samples 0, 7, 25, 42, 59
  };
  for (const Row& row : {
           Row{1,
               40.0,
               {116.00007222987155, 115.18209829228762, 100.74765741686325, 101.60035056824815, 151.1204751605095}},
           Row{2,
               40.0,
               {115.99733948450528, 114.18916319579847, 100.16918632764877, 100.15500827143363, 151.09828962173304}},
           Row{3,
               55.0,
               {115.97147340215065, 120.03133399262215, 99.94934861070197, 94.64457817994855, 151.1896277701681}},
           Row{8,
               60.0,
               {115.95052993309861, 121.87035943839004, 99.38818453601097, 91.66495693359693, 150.8747118547795}},
       }) {
    const auto slow = low_pass_zero_phase(x, 1e-3, row.cut_off, row.order);
    constexpr std::array<std::size_t, 5> place{0, 7, 25, 42, 59};
    for (std::size_t i = 0; i < place.size(); ++i) {
      CAPTURE(row.order, place[i]);
      CHECK(slow[place[i]] == Approx(row.at[i]).epsilon(1e-9));
    }
  }
}

TEST_CASE("A cut-off the sampling cannot carry, or an order out of range, is refused") {
  const std::vector<double> x(100, 1.0);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double cut_off : {0.0, -10.0, 0.46 / 4e-5, nan, std::numeric_limits<double>::infinity()}) {
    CHECK_THROWS_AS(low_pass_zero_phase(x, 4e-5, cut_off, 2), InputError);
  }
  CHECK_NOTHROW(low_pass_zero_phase(x, 4e-5, 0.44 / 4e-5, 2));
  for (const int order : {0, -1, 9}) {
    CHECK_THROWS_AS(low_pass_zero_phase(x, 4e-5, 150.0, order), InputError);
  }
}
