// Room contact: Hertz.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/contact/normal/hertz.hpp"

namespace wingnose::python {

using namespace contact;

void bind_contact(py::module_ m) {
  ranged_type<Elastic>(m, "Elastic", "Elastic constants of wheel and rail (both of this material).")
      .def("combined", &Elastic::combined, "Combined modulus E* (Pa) of two bodies of this material.");

  result_type<HertzShape>(m, "HertzShape", "Shape of a Hertz patch, independent of the load.",
                          field<&HertzShape::ratio>("-, minor over major semi-axis, in (0, 1]"),
                          field<&HertzShape::m>("-, coefficient of the major axis"),
                          field<&HertzShape::n>("-, coefficient of the minor axis"),
                          field<&HertzShape::r>("-, coefficient of the approach"));
  result_type<HertzPatch>(m, "HertzPatch", "Elliptic contact patch.", field<&HertzPatch::a_x>("m, semi-axis along x"),
                          field<&HertzPatch::a_y>("m, semi-axis across"), field<&HertzPatch::peak_pressure>("Pa"),
                          field<&HertzPatch::approach>("m"));

  m.def("hertz_shape", &hertz_shape, "A"_a, "B"_a,
        "Shape for half the relative curvatures `A`, `B` (1/m, > 0) in the two principal directions.");
  m.def("hertz_patch", &hertz_patch, "force"_a, "curvature_x"_a, "curvature_y"_a, usual<Elastic>("material"),
        R"(Contact patch of two smooth bodies after Hertz (1881).

`force`: N, >= 0; `curvature_x`, `curvature_y`: 1/m, sum of both bodies' curvatures along and across, > 0; `material`:
steel by default.)");
  m.def("hertz_stiffness", &hertz_stiffness, "curvature_x"_a, "curvature_y"_a, usual<Elastic>("material"),
        "C_H (N/m^1.5) in F = C_H approach^1.5.");
}

} // namespace wingnose::python
