// Rails and bearers of a track that is stepped as a chain, and stiffness that varies from bearer to bearer. Across the
// track y is counted from its middle, + outward over the crossing.
#pragma once

#include "wingnose/words/names.hpp"
#include "wingnose/words/range.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace wingnose::cases {

// two: the crossing, and the other rail of the same route, which carries the partners of its wheels.
enum class Rails { as_needed, one, two };
constexpr auto names(Rails) {
  return std::array{Name{Rails::as_needed, "auto", "one on lumped bearers, two on bending ones"},
                    Name{Rails::one, "one", "the rail with the crossing"},
                    Name{Rails::two, "two", "both rails of a route, each wheel with its partner abreast"}};
}

// lumped: a mass under each rail, whose rails do not feel each other. bending: beams under both rails.
enum class BearerKind { lumped, bending };
constexpr auto names(BearerKind) {
  return std::array{Name{BearerKind::lumped, "lumped", "a mass under each rail"},
                    Name{BearerKind::bending, "bending", "a beam on its ballast, under both rails"}};
}

// One bearer, beside what its seats say. Masses and ballast of a seat are those of half a bearer of the length that
// [track.bearers] gives; a bending bearer has them spread over its own.
struct Bearer {
  double length = 2.6; // m, of a bending one ...
  double offset = 0.0; // m, y of its middle
  double EI = 6.4e6;   // N m2
  double depth = 0.22; // m, for the strain of its lower fibre
  double width = 0.28; // m, along the track; of any
  // Shortening (m) beyond which a pad and the ballast have another stiffness (N/m per seat); absent: linear.
  std::optional<double> pad_knee = std::nullopt, ballast_knee = std::nullopt;
  double pad_beyond = 0.0, ballast_beyond = 0.0;
  std::optional<double> clip_load = std::nullopt;         // N, the most a fastening pulls the rail down; absent: any
  std::optional<double> under_sleeper_pad = std::nullopt; // N/m3, bedding modulus; absent: there is none
  double under_sleeper_damping = 0.0;                     // N s/m3
  bool unilateral = false;                                // the ballast lets go of a bearer that lifts
  [[nodiscard]] friend bool operator==(const Bearer&, const Bearer&) = default;
};
constexpr auto ranges(const Bearer*) {
  using B = Bearer;
  return std::array{InRange{&B::length, "length", "m", 1.0, 8.0},
                    InRange{&B::offset, "offset", "m", -3.0, 3.0},
                    InRange{&B::EI, "EI", "N m2", 0.1e6, 1e9},
                    InRange{&B::depth, "depth", "m", 0.05, 0.6},
                    InRange{&B::width, "width", "m", 0.05, 1.0},
                    InRange{&B::pad_beyond, "pad_beyond", "N/m", 0, 1e10},
                    InRange{&B::ballast_beyond, "ballast_beyond", "N/m", 0, 1e10},
                    InRange{&B::under_sleeper_damping, "under_sleeper_damping", "N s/m3", 0, 1e7}};
}
inline constexpr Range knee_range{1e-5, 0.02};           // m
inline constexpr Range clip_range{1e3, 200e3};           // N
inline constexpr Range under_sleeper_range{0.01e9, 5e9}; // N/m3

// All bearers, and those that differ: the one nearest to the station.
struct OtherBearer {
  double station = 0.0; // m
  Bearer bearer;
  [[nodiscard]] friend bool operator==(const OtherBearer&, const OtherBearer&) = default;
};
constexpr auto ranges(const OtherBearer*) {
  return std::array{InRange{&OtherBearer::station, "station", "m", -200, 200}};
}
// A bearer at a place of its own, from a list; absent values are those of the track there.
struct PlacedBearer {
  double station = 0.0;                                                              // m
  std::optional<double> length, offset, pad_stiffness, ballast_stiffness, mass, gap; // m, m, N/m, N/m, kg a seat, m
  [[nodiscard]] friend bool operator==(const PlacedBearer&, const PlacedBearer&) = default;
};
struct Bearers {
  BearerKind kind = BearerKind::lumped;
  Bearer all;
  std::vector<OtherBearer> other;
  std::string csv; // the list as named
  std::vector<PlacedBearer> placed;
  [[nodiscard]] friend bool operator==(const Bearers& a, const Bearers& b) {
    return a.kind == b.kind && a.all == b.all && a.other == b.other && a.placed == b.placed;
  }
};

// A bearer, or the part of a bending one from .. to, that hangs over its ballast until the gap closes.
struct VoidBelow {
  double station = 0.0;                                         // m, the bearer nearest to it
  double gap = 1e-3;                                            // m, before the track's own weight acts
  std::optional<double> from = std::nullopt, to = std::nullopt; // m, in y; absent: to the end of the bearer
  [[nodiscard]] friend bool operator==(const VoidBelow&, const VoidBelow&) = default;
};
constexpr auto ranges(const VoidBelow*) {
  return std::array{InRange{&VoidBelow::station, "station", "m", -200, 200},
                    InRange{&VoidBelow::gap, "gap", "m", 0, 0.05}};
}
inline constexpr Range across_range{-7.0, 7.0}; // m

// Stiffness that varies along the track: a factor per bearer, lognormal with mean 1, drawn with a seed. Two bearers a
// distance d apart are correlated (in the logarithm) by exp(-(d / correlation)^2). What is drawn at a station does not
// depend on how much of the track is modelled.
struct SeatScatter {
  double ballast = 0.0, pad = 0.0; // -, coefficients of variation; 0: none. Damping follows stiffness.
  double correlation = 1.5;        // m
  int seed = 1;
  [[nodiscard]] friend bool operator==(const SeatScatter&, const SeatScatter&) = default;
};
constexpr auto ranges(const SeatScatter*) {
  using V = SeatScatter;
  return std::array{InRange{&V::ballast, "ballast", "-", 0, 1}, InRange{&V::pad, "pad", "-", 0, 1},
                    InRange{&V::correlation, "correlation", "m", 0.05, 100}, InRange{&V::seed, "seed", 0, 1e9}};
}
// The factors of the seats at these stations, evenly spaced multiples of `spacing` from `first_seat` (m).
struct Factors {
  double ballast = 1.0, pad = 1.0;
};
[[nodiscard]] Factors drawn(const SeatScatter& variation, double station, double first_seat, double spacing);

} // namespace wingnose::cases
