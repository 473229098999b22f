#include "catch.hpp"
#include "wingnose/contact/stress/subsurface_hertz.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>
#include <string>
#include <vector>

using namespace wingnose;
using namespace wingnose::contact;

namespace {

template <class Work> std::string refusal(Work&& work) {
  try {
    work();
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

bool says(const std::string& message, const std::string& part) {
  INFO(message);
  return message.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("Equivalent stresses of pulling, shearing and even pressure are the textbook ones") {
  const Stress pull{.xx = 10.0};
  CHECK(von_mises(pull) == Approx(10.0));
  CHECK(max_shear(pull) == Approx(5.0));
  const Stress shear{.xy = 10.0};
  CHECK(von_mises(shear) == Approx(10.0 * std::sqrt(3.0)));
  CHECK(max_shear(shear) == Approx(10.0));
  const Stress even{.xx = -10.0, .yy = -10.0, .zz = -10.0};
  CHECK(von_mises(even) == 0.0);
  CHECK(max_shear(even) == Approx(0.0).margin(1e-12));
}

TEST_CASE("The worst depth is found between the depths asked for") {
  const HalfSpaceGrid grid(32, 32, 0.1e-3, 0.1e-3);
  std::vector<double> pressure(grid.cells());
  for (std::size_t i = 0; i < grid.cells(); ++i) {
    const double r = std::hypot(grid.x(i % 32), grid.y(i / 32)) / 1.2e-3;
    pressure[i] = r < 1.0 ? 1e9 * std::sqrt(1.0 - r * r) : 0.0;
  }
  const std::vector<double> coarse = {0.0, 0.3e-3, 0.5e-3, 0.75e-3, 1.0e-3};
  std::vector<double> fine;
  for (int k = 0; k <= 40; ++k) {
    fine.push_back(0.025e-3 * k);
  }
  const auto rough = subsurface_stress(grid, {pressure, {}, {}}, coarse);
  const auto exact = subsurface_stress(grid, {pressure, {}, {}}, fine);
  CHECK(rough.depth == coarse);
  CHECK(rough.von_mises.size() == coarse.size());
  CHECK(rough.worst_shear.depth == Approx(exact.worst_shear.depth).epsilon(0.1));
  CHECK(rough.worst_shear.value == Approx(exact.worst_shear.value).epsilon(0.01));
  CHECK(rough.worst_shear.value > rough.max_shear[2]);
  CHECK(std::hypot(exact.worst_shear.x, exact.worst_shear.y) < 0.1e-3);
}

TEST_CASE("Subsurface input that cannot be right is refused with the value and the range") {
  const HalfSpaceGrid grid(8, 8, 1e-3, 1e-3);
  const std::vector<double> pressure(64, 1e8), few(10, 0.0), depths = {0.0, 1e-3}, falling = {1e-3, 1e-3}, none;
  const auto ask = [&](const Tractions& tractions, const std::vector<double>& z, double poisson = 0.3) {
    return refusal([&] { (void)subsurface_stress(grid, tractions, z, poisson); });
  };
  CHECK(ask({pressure, {}, {}}, depths) == "accepted");
  CHECK(says(ask({few, {}, {}}, depths), "values of the pressure field: 10 is not allowed; allowed: 64"));
  CHECK(says(ask({pressure, few, {}}, depths), "values of the shear field along x: 10"));
  CHECK(says(ask({pressure, {}, {}}, falling), "depths: 0.001 m after 0.001 m is not allowed; allowed: increasing"));
  CHECK(says(ask({pressure, {}, {}}, none), "depths: none"));
  CHECK(says(ask({pressure, {}, {}}, {-1e-3}), "depth: -0.001 m is not allowed; allowed: 0 or more"));
  CHECK(says(ask({pressure, {}, {}}, depths, 0.7), "Poisson's ratio: 0.7"));
  CHECK(says(refusal([] { (void)line_contact_stress(1e9, 0.0, 0.0, 0.0); }), "half width of the patch: 0 m"));
  CHECK(says(refusal([] { (void)circular_contact_axis_stress(-1.0, 1e-3, 0.0); }), "peak pressure: -1 Pa"));
  CHECK(says(refusal([] { (void)circular_contact_surface_stress(1e9, 1e-3, -1.0); }), "depth or radius: -1 m"));
}
