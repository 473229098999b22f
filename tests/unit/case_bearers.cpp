// Rails, bearers and voids of a case become those of a chain.
#include "catch.hpp"
#include "folder.hpp"
#include "said.hpp"

#include "wingnose/io/case_file.hpp"

#include <cmath>
#include <string>
#include <vector>

using namespace wingnose;
using said::has;
namespace chain = track::chain;

namespace {

cases::Track track_in(const std::string& text, const std::filesystem::path& folder = ".") {
  return io::parse_case("[crossing]\nkind = \"joint\"\ndip_angle_mrad = 10\n[track]\nmethod = \"chain\"\n" + text,
                        "test.toml", folder)
      .track;
}
chain::Model model_in(const std::string& text) { return cases::chain_of(track_in(text), -3.0, 3.0); }

const chain::Bearer& at(const chain::Model& m, double station) {
  return *std::min_element(m.bearers.begin(), m.bearers.end(), [&](const auto& a, const auto& b) {
    return std::abs(a.x - station) < std::abs(b.x - station);
  });
}
const chain::BeamBearer& beam(const chain::Bearer& b) { return std::get<chain::BeamBearer>(b.body); }

} // namespace

TEST_CASE("A bending bearer has the mass and ballast of its seats spread over its length, a longer one alike") {
  const chain::Model m = model_in("bearer_mass_kg = 130\nballast_stiffness_MN_m = 52\nballast_damping_kNs_m = 26\n"
                                  "[track.bearers]\nkind = \"bending\"\nlength_mm = 2600\nwidth_mm = 300\n"
                                  "[[track.bearer]]\nstation_m = 0.6\nlength_mm = 4500\noffset_mm = 800\n");
  CHECK(m.rails.size() == 2); // both rails load it
  const chain::Bearer &usual = at(m, 0.0), &longer = at(m, 0.6);
  CHECK(beam(usual).mass_per_m == Approx(100.0));
  CHECK(usual.ballast.stiffness == Approx(40e6));
  CHECK(usual.ballast.damping == Approx(20e3));
  CHECK(beam(usual).from == Approx(-1.3));
  CHECK(beam(usual).to == Approx(1.3));
  CHECK(usual.width == Approx(0.3));
  CHECK(beam(longer).mass_per_m == Approx(100.0));
  CHECK(longer.ballast.stiffness == Approx(40e6));
  CHECK(beam(longer).from == Approx(-1.45));
  CHECK(beam(longer).to == Approx(3.05));
  CHECK(longer.width == Approx(0.3));       // of [track.bearers]
  CHECK(usual.seat[0].y == Approx(0.7535)); // the crossing is outward
  CHECK(usual.seat[1].y == Approx(-0.7535));
}

TEST_CASE("Castings stiffen the rail with the crossing and leave the other one as it is") {
  const chain::Model m = model_in("rails = \"two\"\n[[track.casting]]\nbegin_m = -1\nend_m = 1\nEI_factor = 2\n");
  REQUIRE(m.rails.size() == 2);
  REQUIRE(m.rails[0].zones.size() == 1);
  CHECK(m.rails[0].zones[0].rail.EI == Approx(2 * m.rails[1].section.EI));
  CHECK(m.rails[1].zones.empty());
}

TEST_CASE("Pads and ballast with knees, clips, under-sleeper pads and ballast that lets go reach their bearers") {
  const chain::Model m =
      model_in("[track.bearers]\nunder_sleeper_pad_N_mm3 = 0.2\nclip_load_kN = 18\n"
               "[[track.bearer]]\nstation_m = 0\npad_knee_mm = 0.5\npad_stiffness_beyond_MN_m = 400\n"
               "ballast_knee_mm = 1\nballast_stiffness_beyond_MN_m = 150\nunilateral = true\n");
  const chain::Bearer &here = at(m, 0.0), &there = at(m, 0.6);
  REQUIRE(there.under_sleeper_pad);
  CHECK(there.under_sleeper_pad->stiffness == Approx(0.2e9 * 0.28 * 1.3)); // a seat's share of the bearer
  CHECK(there.seat[0].pad.clip_load == Approx(18e3));
  CHECK_FALSE(there.seat[0].pad.knee);
  CHECK(here.seat[0].pad.clip_load == Approx(18e3));
  CHECK(here.seat[0].pad.knee == Approx(0.5e-3));
  CHECK(here.seat[0].pad.stiffness_beyond == Approx(400e6));
  CHECK(here.ballast.knee == Approx(1e-3));
  CHECK(here.ballast.stiffness_beyond == Approx(150e6));
  CHECK(here.ballast.unilateral);
}

TEST_CASE("Bearers of a list lie where it says, with even spacing before and behind") {
  const Folder folder;
  folder.write("bearers.csv", "station_mm,length_mm,ballast_stiffness_MN_m,gap_mm\n-620,2600,60,0\n-40,3200,45,0\n"
                              "510,3800,30,1.5\n");
  const cases::Track t =
      track_in("spacing_mm = 600\n[track.bearers]\nkind = \"bending\"\ncsv = \"bearers.csv\"\n", folder.path);
  const chain::Model m = cases::chain_of(t, -3.0, 3.0);
  CHECK(at(m, -0.6).x == Approx(-0.62));
  CHECK(at(m, 0.0).x == Approx(-0.04));
  CHECK(at(m, 0.5).x == Approx(0.51));
  CHECK(at(m, 1.1).x == Approx(1.11)); // one spacing behind the last
  CHECK(at(m, -1.2).x == Approx(-1.22));
  CHECK(beam(at(m, 0.5)).to - beam(at(m, 0.5)).from == Approx(3.8));
  CHECK(at(m, 0.5).ballast.stiffness == Approx(30e6 / 1.3));
  REQUIRE(at(m, 0.5).voids.size() == 1);
  CHECK(at(m, 0.5).voids[0].gap == Approx(1.5e-3));
  CHECK(at(m, 0.0).voids.empty());
  CHECK_NOTHROW(chain::check(m));
}

TEST_CASE("A list of bearers none of which lies on the modelled track is refused") {
  const Folder folder;
  folder.write("bearers.csv", "station_mm\n60000\n60600\n");
  const cases::Track t = track_in("[track.bearers]\ncsv = \"bearers.csv\"\n", folder.path);
  const std::string told = said::refusal<InputError>([&] { (void)cases::chain_of(t, -3.0, 3.0); });
  CHECK(has(told, "bearers from 60 to 60.6 m"));
  CHECK(has(told, "on the modelled track"));
}

TEST_CASE("A void lies under the part of a bending bearer that its keys say") {
  const chain::Model m = model_in("[track.bearers]\nkind = \"bending\"\n"
                                  "[[track.void]]\nstation_m = 0\ngap_mm = 1\nfrom_mm = 200\n"
                                  "[[track.void]]\nstation_m = 0\ngap_mm = 2\nfrom_mm = -1300\nto_mm = -500\n");
  const std::vector<chain::Void>& voids = at(m, 0.0).voids;
  REQUIRE(voids.size() == 2);
  CHECK(voids[0].from == Approx(0.2));
  CHECK(voids[0].to == Approx(1.3));
  CHECK(voids[1].to == Approx(-0.5));
  const std::string twice = said::refusal<InputError>([] {
    (void)model_in("[track.bearers]\nkind = \"bending\"\n[[track.void]]\nstation_m = 0\ngap_mm = 1\n"
                   "[[track.void]]\nstation_m = 0\ngap_mm = 2\nfrom_mm = 0\nto_mm = 500\n");
  });
  CHECK(has(twice, "one void under a place of a bearer"));
}

TEST_CASE(
    "Stiffness drawn from bearer to bearer has the scatter and correlation asked for, wherever the track begins") {
  const cases::SeatScatter v{.ballast = 0.3, .pad = 0.0, .correlation = 2.4, .seed = 7};
  constexpr int n = 6000;
  constexpr double spacing = 0.6;
  std::vector<double> log(n);
  double mean = 0.0, squares = 0.0;
  for (int i = 0; i < n; ++i) {
    const double factor = cases::drawn(v, i * spacing, 0.0, spacing).ballast;
    mean += factor / n;
    squares += factor * factor / n;
    log[i] = std::log(factor);
  }
  // Some n / 7 independent values: three standard errors.
  CHECK(mean == Approx(1.0).margin(3 * 0.3 / std::sqrt(n / 7.0)));
  CHECK(std::sqrt(squares - mean * mean) == Approx(0.3).epsilon(0.1));
  double average = 0.0;
  for (const double value : log) {
    average += value / n;
  }
  const auto covariance = [&](int apart) {
    double sum = 0.0;
    for (int i = 0; i + apart < n; ++i) {
      sum += (log[i] - average) * (log[i + apart] - average) / (n - apart);
    }
    return sum;
  };
  CHECK(covariance(4) / covariance(0) == Approx(std::exp(-1.0)).margin(0.1)); // 2.4 m
  CHECK(covariance(20) / covariance(0) == Approx(0.0).margin(0.12));
  // The same seat of a longer track has the same factor, and another seed another.
  const cases::Track t = track_in("[track.variation]\nballast = 0.3\nseed = 7\n");
  const chain::Model narrow = cases::chain_of(t, -3.0, 3.0), wide = cases::chain_of(t, -9.0, 5.0);
  CHECK(at(narrow, 1.2).ballast == at(wide, 1.2).ballast);
  CHECK_FALSE(at(narrow, 1.2).ballast == at(narrow, 1.8).ballast);
  const cases::Track other = track_in("[track.variation]\nballast = 0.3\nseed = 8\n");
  CHECK_FALSE(at(cases::chain_of(other, -3.0, 3.0), 1.2).ballast == at(narrow, 1.2).ballast);
}
