// Room contact: half-space solver and subsurface stress.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/contact/half_space/half_space_gap.hpp"
#include "wingnose/contact/stress/subsurface_hertz.hpp"
#include "wingnose/words/error.hpp"

namespace wingnose::python {

using namespace contact;

namespace {

// A field of the grid as NumPy has it: ny rows (across) of nx values (along the track).
std::vector<double> field_values(const Array& array, const HalfSpaceGrid& grid, const char* what) {
  if (array.ndim() != 2 || static_cast<std::size_t>(array.shape(0)) != grid.ny() ||
      static_cast<std::size_t>(array.shape(1)) != grid.nx())
    throw py::value_error(std::string(what) + " needs the shape (" + std::to_string(grid.ny()) + ", " +
                          std::to_string(grid.nx()) + "), rows across and columns along the track");
  return {array.data(), array.data() + array.size()};
}

py::array_t<double> field_array(std::vector<double>&& values, const HalfSpaceGrid& grid) {
  return own(std::move(values)).reshape({static_cast<py::ssize_t>(grid.ny()), static_cast<py::ssize_t>(grid.nx())});
}

// What a solution looks like from Python: the pressure as a two-dimensional array beside the numbers.
struct Solution : HalfSpaceContact {
  HalfSpaceGrid grid;
};

// Asked by a force, or by an approach of distant points.
template <auto solve>
Solution solved(const HalfSpaceGrid& grid, const Array& gap, double given, const Elastic& material,
                const HalfSpaceSettings& settings, const std::optional<Array>& initial) {
  const std::vector<double> values = field_values(gap, grid, "gap");
  const std::vector<double> start = initial ? field_values(*initial, grid, "initial_pressure") : std::vector<double>{};
  const py::gil_scoped_release release;
  HalfSpaceWorkspace workspace(grid);
  return {solve(grid, workspace, values, given, material, settings, start), grid};
}

struct Fields { // tractions that keep their values
  std::vector<double> pressure, shear_x, shear_y;
  [[nodiscard]] Tractions view() const { return {pressure, shear_x, shear_y}; }
};
Fields fields(const HalfSpaceGrid& grid, const Array& pressure, const std::optional<Array>& shear_x,
              const std::optional<Array>& shear_y) {
  const auto optional_values = [&](const std::optional<Array>& array, const char* what) {
    return array ? field_values(*array, grid, what) : std::vector<double>{};
  };
  return {field_values(pressure, grid, "pressure"), optional_values(shear_x, "shear_x"),
          optional_values(shear_y, "shear_y")};
}

void bind_grid(py::module_& m) {
  const auto axis = [](const HalfSpaceGrid& grid, bool along) {
    std::vector<double> values(along ? grid.nx() : grid.ny());
    for (std::size_t i = 0; i < values.size(); ++i)
      values[i] = along ? grid.x(i) : grid.y(i);
    return own(std::move(values));
  };
  Told<HalfSpaceGrid>(m, "HalfSpaceGrid",
                      R"(Grid of cells and its influence coefficients (Love 1929), centred on the origin.

`nx`, `ny`: cells along and across the track, 4 to 4096; `dx`, `dy`: m, pitches. Fields have the shape (ny, nx).)")
      .def(py::init<std::size_t, std::size_t, double, double>(), "nx"_a, "ny"_a, "dx"_a, "dy"_a)
      .get("nx", "Cells along the track.", &HalfSpaceGrid::nx)
      .get("ny", "Cells across.", &HalfSpaceGrid::ny)
      .get("dx", "m, pitch along the track", &HalfSpaceGrid::dx)
      .get("dy", "m, pitch across", &HalfSpaceGrid::dy)
      .get("x", "m, cell centres along the track", [axis](const HalfSpaceGrid& grid) { return axis(grid, true); })
      .get("y", "m, cell centres across", [axis](const HalfSpaceGrid& grid) { return axis(grid, false); })
      .shows({"nx", "ny", "dx", "dy"});

  m.def("grid_for_hertz", &grid_for_hertz, "nx"_a, "ny"_a, "patch"_a, "margin"_a = 4.0 / 3.0,
        "Grid `margin` times as long and wide as a Hertz patch.");
  m.def(
      "quadratic_gap",
      [](const HalfSpaceGrid& grid, double curvature_x, double curvature_y) {
        return field_array(quadratic_gap(grid, curvature_x, curvature_y), grid);
      },
      "grid"_a, "curvature_x"_a, "curvature_y"_a,
      "Gap (m) of two bodies whose curvatures (1/m) along and across add up to these.");
  m.def(
      "rolling_gap",
      [](const HalfSpaceGrid& grid, const Array& lateral, double rolling_radius) {
        return field_array(rolling_gap(grid, to_vector(lateral), rolling_radius), grid);
      },
      "grid"_a, "lateral"_a, "rolling_radius"_a,
      "Gap (m) of a wheel of `rolling_radius` (m) over cross-sections `lateral` (m, one value per row) apart.");
}

void bind_solver(py::module_& m) {
  value_type<HalfSpaceSettings>(
      m, "When the half-space solver stops.",
      field<&HalfSpaceSettings::tolerance>("-, change of the pressure in a step, sum |dp| / sum p"),
      field<&HalfSpaceSettings::max_iterations>("on the finest grid"));

  Told<Solution>(m, "HalfSpaceContact", "Contact of two half-spaces.")
      .get("pressure", "Pa, shape (ny, nx)",
           [](const Solution& s) { return field_array(std::vector<double>(s.pressure), s.grid); })
      .field<&Solution::force>("N")
      .field<&Solution::approach>("m, from the datum of the gap")
      .field<&Solution::peak_pressure>("Pa, largest cell value")
      .field<&Solution::area>("m2, cells under pressure")
      .field<&Solution::smooth_area>("m2, edge drawn through the cells")
      .field<&Solution::iterations>("on the finest grid")
      .field<&Solution::residual>("-, change of the pressure in the last step")
      .field<&Solution::mismatch>("m, largest gap or overlap left")
      .field<&Solution::touches_edge>("True when the grid is too small and the result is not to be used");

  m.def("solve_for_force", &solved<&solve_for_force>, "grid"_a, "gap"_a, "force"_a, usual<Elastic>("material"),
        usual<HalfSpaceSettings>("settings"), "initial_pressure"_a = py::none(),
        R"(Pressure between two bodies with any gap under a given force (Polonsky and Keer 1999).

`gap`: m, undeformed distance of the surfaces, any datum; `force`: N, > 0; `material`: steel by default, both bodies;
`initial_pressure`: Pa, a first guess.)");
  m.def("solve_for_approach", &solved<&solve_for_approach>, "grid"_a, "gap"_a, "approach"_a, usual<Elastic>("material"),
        usual<HalfSpaceSettings>("settings"), "initial_pressure"_a = py::none(),
        "As `solve_for_force`, at a given approach (m) of distant points, counted from the datum of the gap.");
}

void bind_subsurface(py::module_& m) {
  value_type<Stress>(m, "Stresses in one point, tension positive; z is the depth.", field<&Stress::xx>("Pa"),
                     field<&Stress::yy>("Pa"), field<&Stress::zz>("Pa"), field<&Stress::xy>("Pa"),
                     field<&Stress::yz>("Pa"), field<&Stress::zx>("Pa"));
  result_type<StressPeak>(m, "Largest value and where it is.", field<&StressPeak::value>("Pa"),
                          field<&StressPeak::x>("m"), field<&StressPeak::y>("m"), field<&StressPeak::depth>("m"));
  result_type<Subsurface>(m, "Equivalent stresses with depth.", field<&Subsurface::depth>("m"),
                          field<&Subsurface::von_mises>("Pa, largest at each depth"),
                          field<&Subsurface::max_shear>("Pa, largest at each depth"),
                          field<&Subsurface::worst_von_mises>("largest of all"),
                          field<&Subsurface::worst_shear>("largest of all"));
  m.def("von_mises", &von_mises, "stress"_a, "Equivalent stress (Pa) after von Mises.");
  m.def("max_shear", &max_shear, "stress"_a, "Largest shear stress (Pa) in any plane.");
  m.def(
      "subsurface_stress",
      [](const HalfSpaceGrid& grid, const Array& pressure, const Array& depths, const std::optional<Array>& shear_x,
         const std::optional<Array>& shear_y, double poisson) {
        const Fields tractions = fields(grid, pressure, shear_x, shear_y);
        const std::vector<double> z = to_vector(depths);
        const py::gil_scoped_release release;
        return subsurface_stress(grid, tractions.view(), z, poisson);
      },
      "grid"_a, "pressure"_a, "depths"_a, "shear_x"_a = py::none(), "shear_y"_a = py::none(), "poisson"_a = 0.3,
      R"(Largest equivalent stresses with depth under pressure and shear.

`pressure`: Pa, pushing into the body; `depths`: m, increasing, >= 0; `shear_x`, `shear_y`: Pa, acting on the body
along +x and +y; `poisson`: Poisson's ratio.)");
  m.def(
      "stress_at",
      [](const HalfSpaceGrid& grid, const Array& pressure, double x, double y, double z,
         const std::optional<Array>& shear_x, const std::optional<Array>& shear_y,
         double poisson) { return stress_at(grid, fields(grid, pressure, shear_x, shear_y).view(), x, y, z, poisson); },
      "grid"_a, "pressure"_a, "x"_a, "y"_a, "z"_a, "shear_x"_a = py::none(), "shear_y"_a = py::none(),
      "poisson"_a = 0.3, "Stress in one point (m), z >= 0 the depth.");
  m.def("line_contact_stress", &line_contact_stress, "peak_pressure"_a, "half_width"_a, "x"_a, "z"_a, "poisson"_a = 0.3,
        "Stress under a line contact: McEwen (1949), Johnson (1985) eq. 4.49.");
  m.def("circular_contact_axis_stress", &circular_contact_axis_stress, "peak_pressure"_a, "radius"_a, "z"_a,
        "poisson"_a = 0.3, "Stress on the axis of a circular contact: Johnson (1985) eq. 3.45.");
  m.def("circular_contact_surface_stress", &circular_contact_surface_stress, "peak_pressure"_a, "radius"_a, "r"_a,
        "poisson"_a = 0.3,
        "Stress on the surface of a circular contact, xx radial: Johnson (1985) eqs. 3.42 and 3.43.");
}

} // namespace

void bind_contact_half_space(py::module_ m) {
  bind_grid(m);
  bind_solver(m);
  bind_subsurface(m);
}

} // namespace wingnose::python
