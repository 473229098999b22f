// What belongs together on neighbouring sections: edge, shoulder, crown; and what is told where they do not match.
#include "catch.hpp"
#include "crossing_samples.hpp"

using namespace samples;

namespace {

constexpr double radius = 0.012, level = -0.003, begins = 0.42; // m: roundings, height of the plateau, where it begins

// A nose with equal roundings on both sides and, from `begins` on, a level plateau that widens at 1:15: between two
// sections behind that it consists of straight lines.
double plateau(double x) { return std::max(0.0, (x - begins) / 15.0); }
double drop(double from_face) {
  const double a = std::max(0.0, radius - from_face);
  return radius - std::sqrt(std::max(0.0, radius * radius - a * a));
}
double nose_height(double x, double eta) { return level - drop(eta) - drop(2.0 * radius + plateau(x) - eta); }

SectionedShape widening(double spacing, double from) {
  SectionedShape shape = two_strips(0.0);
  SectionedBody& nose = shape.bodies[1];
  nose.sections.clear();
  for (double x = from; x < 1.0; x += spacing) {
    Section s{x, {}, {}};
    const double width = 2.0 * radius + plateau(x);
    constexpr int points = 240;
    for (int k = 0; k <= points; ++k) {
      const double eta = 0.5 * width * (1.0 - std::cos(std::numbers::pi * k / points));
      s.y.push_back(0.7205 + eta);
      s.z.push_back(nose_height(x, eta));
    }
    nose.sections.push_back(s);
  }
  for (Section& s : shape.bodies[0].sections) { // far enough aside
    for (double& y : s.y) {
      y += 0.15;
    }
  }
  return shape;
}

} // namespace

TEST_CASE("A nose of straight lines between shoulders comes back from sections every 100 mm to half a micrometre") {
  for (const double spacing : {0.05, 0.075, 0.1}) {
    for (const double phase : {0.2, 0.7}) { // the plateau begins between two sections
      const double from = begins - phase * spacing;
      const auto nose = std::get<LoftedBody>(from_sections(widening(spacing, from)).bodies[1].surface);
      double worst = 0.0;
      for (double x = from + 2.0 * spacing; x < nose.x_end(); x += 0.0093) { // behind the section after its beginning
        const double offset = nose.edge(x) - 0.7205, far = 2.0 * radius + plateau(x) - 0.002;
        for (double eta = 0.002; eta < far; eta += 0.0007) {
          worst = std::max(worst, std::abs(nose.height(x, eta - offset) - nose_height(x, eta)));
        }
      }
      CAPTURE(spacing, phase, worst);
      CHECK(worst < 0.5e-6);
    }
  }
}

TEST_CASE("A section that begins on the rounding among others that begin at the face is told with its station") {
  SectionedShape shape = widening(0.05, 0.40);
  CHECK(from_sections(shape).findings.empty());
  Section& cut = shape.bodies[1].sections[3];
  const auto first =
      std::find_if(cut.z.begin(), cut.z.end(), [](double z) { return z > level - 0.004; }) - cut.z.begin();
  cut.y.erase(cut.y.begin(), cut.y.begin() + first);
  cut.z.erase(cut.z.begin(), cut.z.begin() + first);
  const Findings findings = from_sections(shape).findings;
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].kind == FindingKind::sections_by_arc_length);
  CHECK(findings[0].where == "nose, station 550 mm");
  CHECK(findings[0].what.find("1 of 12 sections begin on the rounding") == 0);
}

TEST_CASE("A nose of which some sections show no rounded edge is matched by arc length, and they are told") {
  SectionedShape shape = widening(0.05, 0.40);
  for (std::size_t i : {std::size_t{5}, std::size_t{6}}) { // sheared off to a head without an edge
    Section& s = shape.bodies[1].sections[i];
    for (std::size_t k = 0; k < s.y.size(); ++k) {
      s.z[k] = level - 0.02 * std::pow((s.y[k] - 0.7205) / 0.05, 2);
    }
  }
  const Findings findings = from_sections(shape).findings;
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].kind == FindingKind::sections_by_arc_length);
  CHECK(findings[0].where == "nose, stations 650 to 700 mm");
}
