// Crossings measured every 50 to 100 mm: what the wheel's path loses, and what smoothing must not take.
#include "catch.hpp"
#include "path_samples.hpp"

using namespace samples;

namespace {

// Shoulders of 10 mm: where the nose is 27 mm thick they stop growing and a plateau begins, just where wheels transfer.
Crossing with_plateau() {
  CrossingShape shape;
  shape.nose_shoulder_radius = 0.010;
  return generate(shape);
}

// Sections at phase + k spacing; the nose from where it is 15 mm thick.
SectionedShape every(double spacing, double phase, const Crossing& c) {
  SectionedShape s = sectioned(c, 0.5, 160, -1.4, 1.3); // for what is said beside the sections
  for (std::size_t b = 0; b < c.bodies.size(); ++b) {
    std::vector<Section>& sections = s.bodies[b].sections;
    sections.clear();
    for (double x = (b == 0 ? -1.4 : 0.225) + phase * spacing; x < 1.3; x += spacing) {
      sections.push_back(section_of(c.bodies[b], x, 160));
    }
  }
  return s;
}

void round_to(double step, SectionedShape& s) { // m
  for (SectionedBody& body : s.bodies) {
    for (Section& section : body.sections) {
      for (auto* column : {&section.y, &section.z}) {
        for (double& value : *column) {
          value = step * std::round(value / step);
        }
      }
    }
  }
}

const PathOptions here{.from = -0.6, .to = 1.1};

} // namespace

TEST_CASE("A plateau that begins between two sections costs less than 0.5 mrad of dip angle up to 100 mm apart") {
  const Crossing drawn = with_plateau();
  const WheelPath a = roll(drawn, profile::s1002(), here);
  const Kinematics ka = kinematics(a, &drawn, profile::s1002(), {});
  const std::vector<double> top = combined(a);
  for (const double spacing : {0.05, 0.075, 0.1}) {
    double height = 0.0;
    for (const double phase : {0.0, 0.25, 0.5, 0.75}) {
      const Crossing lofted = from_sections(every(spacing, phase, drawn));
      const WheelPath b = roll(lofted, profile::s1002(), here);
      const Kinematics kb = kinematics(b, &lofted, profile::s1002(), {});
      CAPTURE(spacing, phase, *kb.transfer_station, kb.dip_angle);
      CHECK(std::abs(kb.dip_angle - ka.dip_angle) < 0.5e-3);
      CHECK(std::abs(*kb.transfer_station - *ka.transfer_station) < 2e-3);
      CHECK(kb.findings == ka.findings);
      const std::vector<double> found = combined(b);
      for (double x = -0.5; x < 0.6; x += 0.003) { // the end of the ramp, at 0.675 m, is another matter
        height = std::max(height, std::abs(read(a, top, x) - read(b, found, x)));
      }
    }
    CAPTURE(spacing, height);
    CHECK(height < 1e-5 * std::pow(spacing / 0.05, 2)); // 0.01 mm at 50 mm
  }
}

TEST_CASE("Noise stated but not there moves a clean transfer by less than 0.1 mm, rounded points by no more") {
  for (const Crossing& drawn : {generate({}), with_plateau()}) {
    for (const double step : {1e-9, 1e-7, 1e-6}) { // m, of the last digit in the file
      SectionedShape s = every(0.05, 0.25, drawn);
      const auto transfer = [&] {
        const Crossing lofted = from_sections(s);
        return *kinematics(roll(lofted, profile::s1002(), here), &lofted, profile::s1002(), {}).transfer_station;
      };
      s.noise = 0.0;
      const double exact = transfer();
      round_to(step, s);
      s.noise = SectionedShape{}.noise;
      CAPTURE(step, exact, transfer());
      CHECK(std::abs(transfer() - exact) < 1e-4);
    }
  }
}

TEST_CASE("What must be told of sections is among the findings of the wheel path") {
  const Crossing drawn = with_plateau();
  SectionedShape s = every(0.05, 0.25, drawn);
  Section& cut = s.bodies[1].sections[4];
  cut.y.erase(cut.y.begin(), cut.y.begin() + 40);
  cut.z.erase(cut.z.begin(), cut.z.begin() + 40);
  const Crossing lofted = from_sections(s);
  const Findings found = kinematics(roll(lofted, profile::s1002(), here), &lofted, profile::s1002(), {}).findings;
  CHECK(std::any_of(found.begin(), found.end(),
                    [](const Finding& f) { return f.kind == FindingKind::sections_by_arc_length; }));
}
