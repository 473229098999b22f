#include "catch.hpp"

#include "wingnose/profile/curve.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <limits>

using namespace wingnose::profile;
using wingnose::InputError;
using Kind = Piece::Kind;

namespace {

Curve line_then_arc() { // a 1:10 ramp, then a quarter circle of 20 mm that runs out into a vertical tangent
  return Curve({{-0.050, 0.0, Kind::polynomial, {0.020, 0.1}}, {0.0, 0.020, Kind::arc_upper, {0.0, 0.0, 0.020}}});
}

std::string refusal(std::vector<Piece> pieces, std::vector<Bump> bumps = {}) {
  try {
    const Curve curve(std::move(pieces), std::move(bumps));
  } catch (const InputError& e) {
    return e.what();
  }
  return "accepted";
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_CASE("A curve gives value, slope and curvature of the piece that holds the point") {
  const Curve curve = line_then_arc();
  CHECK(curve.front() == -0.050);
  CHECK(curve.back() == 0.020);
  CHECK(curve.value(-0.010) == Approx(0.019).epsilon(1e-14));
  CHECK(curve.at(-0.010).slope == Approx(0.1).epsilon(1e-14));
  CHECK(curve.at(-0.010).curvature == 0.0);
  const CurvePoint p = curve.at(0.012); // 3-4-5 triangle
  CHECK(p.value == Approx(0.016).epsilon(1e-14));
  CHECK(p.slope == Approx(-0.75).epsilon(1e-14));
  CHECK(p.curvature == Approx(-50.0).epsilon(1e-13));
  CHECK(curve.value(0.012) == Approx(p.value).epsilon(1e-15));
}

TEST_CASE("At a joint the piece that starts there counts") {
  const Curve curve({{0.0, 1.0, Kind::polynomial, {1.0}}, {1.0, 2.0, Kind::polynomial, {2.0}}});
  CHECK(curve.value(1.0) == 2.0);
  CHECK(curve.value(std::nextafter(1.0, 0.0)) == 1.0);
}

TEST_CASE("Beyond its ends a curve keeps the value of the end") {
  const Curve curve = line_then_arc();
  CHECK(curve.value(-1.0) == curve.value(curve.front()));
  CHECK(curve.value(1.0) == curve.value(curve.back()));
  CHECK(curve.value(std::numeric_limits<double>::infinity()) == curve.value(curve.back()));
  CHECK(curve.at(-1.0).slope == curve.at(curve.front()).slope);
}

TEST_CASE("At the vertical tangent of an arc slope and curvature stay finite") {
  const CurvePoint p = line_then_arc().at(0.020);
  CHECK(p.value == Approx(0.0).epsilon(0).margin(1e-12));
  CHECK(p.slope == -steepest_slope);
  CHECK(p.curvature == Approx(-50.0).epsilon(1e-12));
}

TEST_CASE("A position that is not a number, or a curve that holds nothing, gives no number") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(std::isnan(line_then_arc().value(nan)));
  CHECK(std::isnan(line_then_arc().at(nan).value));
  CHECK(std::isnan(line_then_arc().at(nan).slope));
  CHECK(std::isnan(line_then_arc().value(nan) + line_then_arc().at(0.0).value));
  CHECK(std::isnan(Curve{}.value(0.0)));
  CHECK(std::isnan(Curve{}.at(0.0).curvature));
}

TEST_CASE("Every piece is found, however unequal the pieces are") {
  std::vector<Piece> pieces; // a staircase whose steps shrink from 0.5 m to a millionth of that, then grow again
  double from = 0.0, width = 0.5;
  for (int k = 0; k < 41; ++k) {
    pieces.push_back({from, from + width, Kind::polynomial, {static_cast<double>(k)}});
    from += width;
    width *= k < 20 ? 0.5 : 2.0;
  }
  const Curve curve(pieces);
  int wrong = 0;
  for (std::size_t k = 0; k < pieces.size(); ++k) {
    for (const double part : {0.0, 1e-9, 0.3, 0.999}) {
      if (curve.value(pieces[k].from + part * (pieces[k].to - pieces[k].from)) != static_cast<double>(k)) {
        ++wrong;
      }
    }
  }
  CHECK(wrong == 0);
}

TEST_CASE("A smooth addition removes its depth at its centre and nothing outside its width") {
  const Curve flat({{-0.1, 0.1, Kind::polynomial, {0.0}}});
  const Curve worn = flat.with({0.002, 0.060, 0.010});
  CHECK(worn.value(0.010) == Approx(-0.002).epsilon(1e-15));
  CHECK(worn.value(-0.020) == 0.0);
  CHECK(worn.value(0.040) == 0.0);
  CHECK(worn.at(0.040 + 1e-6).slope == 0.0);
  CHECK(worn.at(0.010).slope == 0.0);
  CHECK(worn.at(0.010).curvature == Approx(24.0 * 0.002 / (0.060 * 0.060)).epsilon(1e-12));
  CHECK(worn.with({-0.002, 0.060, 0.010}).value(0.005) == Approx(0.0).epsilon(0).margin(1e-18)); // a repair undoes it
}

TEST_CASE("A curve refuses pieces that do not make a curve, and says which") {
  const Piece good{0.0, 1.0, Kind::polynomial, {1.0}};
  CHECK(says(refusal({}), "no pieces"));
  CHECK(says(refusal({good, {1.5, 2.0, Kind::polynomial, {1.0}}}), "piece 2 of a curve: start at 1.5"));
  CHECK(says(refusal({{1.0, 0.0, Kind::polynomial, {1.0}}}), "from < to"));
  CHECK(says(refusal({{0.0, 1.0, Kind::polynomial, {std::nan("")}}}), "not finite"));
  CHECK(says(refusal({{0.0, 1.0, Kind::arc_upper, {0.0, 0.0, 0.5}}}), "radius"));
  CHECK(says(refusal({good}, {{0.001, 0.0, 0.5}}), "width > 0"));
  CHECK(refusal({good, {1.0, 2.0, Kind::polynomial, {1.0}}}, {{0.001, 0.5, 0.5}}) == "accepted");
}
