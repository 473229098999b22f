// Input errors and small print of the creep laws.
#include "catch.hpp"
#include "wingnose/contact/tangential/rolling.hpp"
#include "wingnose/contact/tangential/saturation.hpp"
#include "wingnose/words/error.hpp"

#include <vector>

using namespace wingnose::contact;

TEST_CASE("Friction falls with the slip speed from its value at rest towards its floor") {
  const Friction f = polach_dry.friction;
  double before = friction_coefficient(f, 0.0);
  CHECK(before == f.mu0);
  for (double w = 0.1; w < 30.0; w *= 1.5) {
    const double mu = friction_coefficient(f, w);
    CHECK(mu < before);
    CHECK(mu > f.A * f.mu0);
    before = mu;
  }
  CHECK(friction_coefficient({0.3, 1.0, 0.6}, 5.0) == 0.3);
  CHECK(friction_coefficient({0.3, 0.4, 0.0}, 5.0) == 0.3);
}

TEST_CASE("Creep laws with impossible parameters are refused with advice") {
  CHECK_THROWS_WITH(check(CreepLaw{Cubic{{0.0}}}),
                    Catch::Contains("friction coefficient mu0") && Catch::Contains("1.5"));
  CHECK_THROWS_WITH(check(CreepLaw{Cubic{{0.3, 0.0, 0.0}}}), Catch::Contains("friction ratio A"));
  CHECK_THROWS_WITH(check(CreepLaw{Cubic{{0.3, 0.5, -1.0}}}), Catch::Contains("friction decrease B"));
  CHECK_THROWS_WITH(check(CreepLaw{Polach{{0.3}, 0.0, 0.0}}), Catch::Contains("kA"));
  CHECK_THROWS_WITH(check(CreepLaw{Polach{{0.3}, 0.3, 0.4}}), Catch::Contains("up to kA = 0.3"));
  CHECK_THROWS_WITH(check(CreepLaw{Simplified{{0.3}, 2, 20}}),
                    Catch::Contains("strips") && Catch::Contains("3 to 400"));
  CHECK_THROWS_WITH(check(CreepLaw{Simplified{{0.3}, 20, 401}}), Catch::Contains("cells per strip"));
  CHECK_NOTHROW(check(CreepLaw{polach_wet}));
}

TEST_CASE("Patches of strips that do not fit together are refused, naming the strip") {
  StripPatch patch = elliptic_strips(rolling_contact(5e-3, 5e-3, 1e5), 5);
  CHECK_NOTHROW(check(patch));
  patch.lead[2] = patch.trail[2];
  CHECK_THROWS_WITH(check(patch), Catch::Contains("strip 3 of the patch"));
  patch.lead.pop_back();
  CHECK_THROWS_WITH(check(patch), Catch::Contains("equal length"));
  CHECK_THROWS_AS(check(StripPatch{}), wingnose::InputError);
}

TEST_CASE("A wheel without load has no creep force") {
  const RollingContact contact = rolling_contact(5e-3, 5e-3, 0.0);
  const Creepage creep{1e-3, 2e-3, 0.3};
  for (const CreepLaw& law : {CreepLaw{Cubic{}}, CreepLaw{Polach{}}, CreepLaw{Simplified{}}}) {
    StripWorkspace ws = make_workspace(law);
    CHECK(creep_force(law, contact, creep, 30.0, ws) == CreepForce{});
  }
}

TEST_CASE("Rolling problems that cannot be solved are refused with advice") {
  CHECK_THROWS_WITH(elliptic_mesh(0.0, 5e-3, 1e5, 8, 8), Catch::Contains("semi-axis in the rolling direction"));
  CHECK_THROWS_WITH(elliptic_mesh(5e-3, 5e-3, 0.0, 8, 8), Catch::Contains("normal force"));
  CHECK_THROWS_WITH(elliptic_mesh(5e-3, 5e-3, 1e5, 1, 8), Catch::Contains("2 to 200"));
  CHECK_THROWS_AS(plane_mesh(5e-3, -1.0, 8), wingnose::InputError);
  CHECK_THROWS_WITH(rolling_matrix(elliptic_mesh(5e-3, 5e-3, 1e5, 80, 80)), Catch::Contains("coarser grid"));
  CHECK_THROWS_WITH(rolling_matrix(plane_mesh(5e-3, 1e6, 8), {}, Sliding::shift), Catch::Contains("no stiffness"));
  CHECK_THROWS_AS(rolling_matrix(plane_mesh(5e-3, 1e6, 8), {210e9, 0.7}), wingnose::InputError);
  const RollingMatrix matrix = rolling_matrix(elliptic_mesh(5e-3, 5e-3, 1e5, 4, 4));
  CHECK_THROWS_WITH(rolling_contact_field(matrix, 0.0, {1e-3, 0, 0}), Catch::Contains("friction coefficient"));
  CHECK_THROWS_AS(rolling_contact_field(matrix, 0.3, {1e-3, 0, 0}, {1e-7, 1}), wingnose::ComputeError);
  const std::vector<double> nothing(6, 0.0), tension(6, -1.0);
  CHECK_THROWS_WITH(grid_mesh(nothing, 2, 3, 0, 0, 1e-3, 1e-3), Catch::Contains("zero everywhere"));
  CHECK_THROWS_WITH(grid_mesh(tension, 2, 3, 0, 0, 1e-3, 1e-3), Catch::Contains("only press"));
  CHECK_THROWS_WITH(grid_mesh(nothing, 2, 2, 0, 0, 1e-3, 1e-3), Catch::Contains("6 values"));
}
