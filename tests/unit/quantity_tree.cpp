// Answers as named arrays.
#include "catch.hpp"

#include "wingnose/quantity/tree.hpp"

#include <cmath>
#include <limits>
#include <string>
#include <vector>

using namespace wingnose;
using namespace wingnose::quantity;

TEST_CASE("Arrays are found by their path, and what is not there is no number, no text, nothing") {
  Tree tree("run");
  Filler measures(tree, "measures", "Measures", Layout::rows);
  measures.number({"p2_kN", "P2", "largest low-passed force"}, 200e3);
  measures.number({"p1_kN", "P1", "first peak"}, std::nullopt);
  measures.text({"landing_on", "lands on", "body landed on"}, "nose");
  Filler(tree, "").texts({"crossing", "crossing", "crossings"}, "crossing", {"designed", "worn"});
  Filler(tree, "path/wing").list({"height_mm", "height", "of the wheel"}, "station", {0.001, -0.002});
  tree.attributes.emplace_back("name", "demo");
  CHECK(tree.number("measures/p2_kN") == Approx(200.0));
  CHECK(std::isnan(tree.number("measures/p1_kN")));
  CHECK(std::isnan(tree.number("measures/none_kN")));
  CHECK(std::isnan(tree.number("none/p2_kN")));
  CHECK(tree.text("measures/landing_on") == "nose");
  CHECK(tree.text("measures/none").empty());
  CHECK(tree.texts("crossing").size() == 2);
  CHECK(tree.numbers("path/wing/height_mm")[1] == Approx(-2.0));
  CHECK(tree.numbers("height_mm").empty());
  CHECK(tree.attribute("name") == "demo");
  CHECK(tree.attribute("none").empty());
  CHECK(tree.group("measures").title == "Measures");
  CHECK(tree.groups().size() == 3);
  const Array& p2 = *tree.find("measures/p2_kN");
  CHECK(p2.unit == "kN");
  CHECK(p2.label == "P2");
  CHECK(p2.dims.empty());
  CHECK(p2.shape.empty());
}

TEST_CASE("What does not exist is not a number where it is told: a wheel over no body has no height") {
  Tree tree;
  constexpr double inf = std::numeric_limits<double>::infinity();
  Filler(tree, "path").list({"height_mm", "", ""}, "station", {-inf, 0.001, std::nan("")});
  const auto heights = tree.numbers("path/height_mm");
  CHECK(std::isnan(heights[0]));
  CHECK(heights[1] == 1.0);
  CHECK(std::isnan(heights[2]));
}

TEST_CASE("Tables hold their dimensions in order, columns what they are made of") {
  Tree tree;
  Filler(tree, "t").table({"force_kN", "", ""}, {{"crossing", 2}, {"wheel", 3}}, {1e3, 2e3, 3e3, 4e3, 5e3, 6e3});
  const Array& a = *tree.find("t/force_kN");
  CHECK(a.dims == std::vector<std::string>{"crossing", "wheel"});
  CHECK(a.shape == std::vector<std::size_t>{2, 3});
  CHECK(a.numbers[1 * 3 + 2] == Approx(6.0));
  struct Wheel {
    std::string name;
    double load;
  };
  const std::vector<Wheel> wheels{{"first", 90e3}, {"second", 55e3}};
  Columns(Filler(tree, "wheels"), "wheel", wheels)
      .text({"name", "wheel", "name"}, &Wheel::name)
      .number({"load_kN", "load", "static"}, &Wheel::load);
  CHECK(tree.texts("wheels/name")[1] == "second");
  CHECK(tree.numbers("wheels/load_kN")[1] == Approx(55.0));
}

TEST_CASE("Measures of one passage and of many are the quantities of the table") {
  assess::Assessment a, b;
  a.kinematics.dip_angle = 0.010;
  b.kinematics.dip_angle = 0.012;
  b.kinematics.transfer_station = 0.4;
  Tree tree;
  add_measures(tree, b, Section::wheel_path, "Wheel path");
  CHECK(tree.number("measures/dip_angle_mrad") == Approx(12.0));
  CHECK(tree.number("measures/transfer_station_mm") == Approx(400.0));
  CHECK(tree.find("measures/p2_kN") == nullptr); // another section
  CHECK(tree.find("measures/dip_angle_mrad")->block == "Wheel path");
  const std::vector<const assess::Assessment*> passages{&a, &b};
  const std::vector<const Quantity*> told{find("dip_angle_mrad"), find("transfer_station_mm")};
  const std::vector<std::string_view> printed{"dip_angle_mrad"};
  add_measures(tree, "speeds", "speed", passages, told, printed);
  CHECK(tree.numbers("speeds/dip_angle_mrad")[1] == Approx(12.0));
  CHECK(std::isnan(tree.numbers("speeds/transfer_station_mm")[0]));
  CHECK(tree.find("speeds/dip_angle_mrad")->detail == Detail::printed);
  CHECK(tree.find("speeds/transfer_station_mm")->detail == Detail::told);
}

TEST_CASE("Findings of every kind come back from a tree as they were put in") {
  Findings findings;
  for (const FindingWords& words : finding_kinds()) {
    findings.push_back({words.kind, "what of " + std::string(words.key), "where of " + std::string(words.key)});
    findings.push_back({words.kind, "everywhere", ""});
  }
  Tree tree;
  add_findings(tree, findings);
  CHECK(findings_of(tree) == findings);
  CHECK(findings_of(Tree{}).empty());
}
