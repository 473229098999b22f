// Crossings from sections: the loft keeps what the sections say and nothing else; bad input is named.
#include "catch.hpp"
#include "crossing_samples.hpp"

#include <algorithm>
#include <random>
#include <string>

using namespace samples;

namespace {

bool refused(const SectionedShape& s, const char* word) {
  try {
    (void)from_sections(s);
  } catch (const InputError& e) {
    INFO(e.what());
    CHECK(std::string(e.what()).find(word) != std::string::npos);
    return true;
  }
  return false;
}

} // namespace

TEST_CASE("A straight ramp given as sections stays straight to a nanometre between the stations") {
  const Crossing c = from_sections(two_strips(0.005));
  const auto& wing = std::get<LoftedBody>(c.bodies[0].surface);
  const double eta = 0.025;
  const double z0 = wing.height(0.0, eta);
  for (double x = -0.2; x <= 0.5; x += 0.0137) {
    CAPTURE(x);
    CHECK(wing.height(x, eta) - z0 == Approx(0.005 * x).margin(1e-9));
    CHECK(wing.edge(x) - wing.edge(0.0) == Approx(x / 15.0).margin(1e-9));
  }
}

TEST_CASE("Points may run from the field side to the edge as well") {
  SectionedShape turned = two_strips(0.005);
  for (Section& s : turned.bodies[0].sections) {
    std::reverse(s.y.begin(), s.y.end());
    std::reverse(s.z.begin(), s.z.end());
  }
  const Crossing a = from_sections(two_strips(0.005)), b = from_sections(turned);
  const auto& wa = std::get<LoftedBody>(a.bodies[0].surface);
  const auto& wb = std::get<LoftedBody>(b.bodies[0].surface);
  CHECK(wa.edge(0.1) == Approx(wb.edge(0.1)).margin(1e-9));
  CHECK(wa.height(0.1, 0.02) == Approx(wb.height(0.1, 0.02)).margin(1e-9));
}

TEST_CASE("Mistakes in sections are named one by one") {
  const SectionedShape good = two_strips(0.0);
  const auto with = [&](auto change) {
    SectionedShape s = good;
    change(s);
    return s;
  };
  REQUIRE_NOTHROW(from_sections(good));
  CHECK(refused(with([](auto& s) { s.bodies.pop_back(); }), "nose"));
  CHECK(refused(with([](auto& s) { s.bodies.erase(s.bodies.begin()); }), "wing"));
  CHECK(refused(with([](auto& s) { s.bodies[1].name = "frog"; }), "frog"));
  CHECK(refused(with([](auto& s) { s.bodies[0].sections.resize(1); }), "at least 2 sections"));
  CHECK(refused(with([](auto& s) { std::swap(s.bodies[0].sections[1], s.bodies[0].sections[2]); }), "increasing"));
  CHECK(refused(with([](auto& s) {
                  s.bodies[0].sections[1].y.resize(5);
                  s.bodies[0].sections[1].z.resize(5);
                }),
                "at least 8 points"));
  CHECK(refused(with([](auto& s) { s.bodies[0].sections[1].z.pop_back(); }), "as many y as z"));
  CHECK(refused(with([](auto& s) { s.bodies[0].sections[1].z[4] = std::nan(""); }), "finite"));
  CHECK(refused(with([](auto& s) { s.bodies[0].sections[1].station = std::nan(""); }), "station"));
  CHECK(refused(with([](auto& s) {
                  for (double& y : s.bodies[0].sections[1].y) {
                    y *= 1000.0; // metres read as millimetres of millimetres
                  }
                }),
                "unit"));
  CHECK(refused(with([](auto& s) {
                  for (double& y : s.bodies[0].sections[1].y) {
                    y -= 0.7535; // measured from the rail axis
                  }
                }),
                "track centre line"));
  CHECK(refused(with([](auto& s) {
                  s.bodies[0].sections[1].y[4] = s.bodies[0].sections[1].y[3];
                  s.bodies[0].sections[1].z[4] = s.bodies[0].sections[1].z[3];
                }),
                "repeats"));
  CHECK(refused(with([](auto& s) {
                  for (Section& section : s.bodies[1].sections) {
                    for (double& y : section.y) {
                      y += 0.045;
                    }
                  }
                }),
                "overlap"));
  CHECK(refused(with([](auto& s) { s.rate = 1.0; }), "rate"));
  CHECK(refused(with([](auto& s) { s.noise = -1.0; }), "noise"));
}

TEST_CASE("A section that stands off its neighbours is found with its place and size, a ramp that begins is not") {
  // A nose 20 mm wide every 25 mm: level, then rising at 1:50 from station 0.5 m.
  const auto nose = [](double raised, double at) {
    SectionedBody body{"nose", {}};
    for (int i = 0; i <= 40; ++i) {
      const double x = 0.025 * i;
      Section s{x, {}, {}};
      for (int k = 0; k <= 20; ++k) {
        s.y.push_back(0.720 + 0.001 * k);
        s.z.push_back(-0.01 + std::max(0.0, x - 0.5) / 50.0 + (std::abs(x - at) < 1e-9 ? raised : 0.0));
      }
      body.sections.push_back(s);
    }
    SectionedShape shape;
    shape.bodies = {body};
    return section_findings(shape);
  };
  CHECK(nose(0.0, 0.7).empty());
  const Findings up = nose(0.001, 0.7);
  REQUIRE(up.size() == 1);
  CHECK(up[0].kind == FindingKind::section_off);
  CHECK(up[0].where == "nose, station 700 mm");
  CHECK(up[0].what.find("1 mm above") != std::string::npos);
  REQUIRE(nose(-0.0005, 0.2).size() == 1);
  CHECK(nose(-0.0005, 0.2)[0].what.find("0.5 mm below") != std::string::npos);
  CHECK(nose(0.0001, 0.7).empty()); // a tenth is no mistake
}

TEST_CASE("Sections whose points scatter more than stated are told with their body and the scatter") {
  const auto told = [](double scatter, double stated, double pitch) {
    SectionedShape s = sectioned(generate({}), 0.1, static_cast<int>(0.06 / pitch), 0.2, 1.5);
    std::mt19937 random(11);
    std::normal_distribution<double> noise(0.0, 1.0);
    for (Section& section : s.bodies[1].sections) {
      for (double& z : section.z) {
        z += scatter * noise(random);
      }
    }
    s.noise = stated;
    return from_sections(s).findings;
  };
  const auto is = [](const Finding& f) { return f.kind == FindingKind::noise_understated; };
  const Findings all = told(0.1e-3, 2e-6, 2e-3);
  const auto found = std::find_if(all.begin(), all.end(), is);
  REQUIRE(found != all.end());
  CHECK(found->where == "nose");
  CHECK(std::stod(found->what.substr(std::string("the points scatter by ").size())) ==
        Approx(0.1).epsilon(0.5));                        // mm: its size
  CHECK(std::count_if(all.begin(), all.end(), is) == 1);  // not the wing
  for (const double pitch : {0.5e-3, 1e-3, 3e-3, 5e-3}) { // clean points, however far apart
    const Findings clean = told(0.0, 2e-6, pitch);
    CHECK(std::none_of(clean.begin(), clean.end(), is));
  }
  const Findings honest = told(0.1e-3, 0.1e-3, 2e-3);
  CHECK(std::none_of(honest.begin(), honest.end(), is));
}
