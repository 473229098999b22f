// Room vehicle: bodies and suspension elements, matrices, modes, presets.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/vehicle/vehicle.hpp"

#include <pybind11/eigen.h>

namespace wingnose::python {

using namespace vehicle;

void bind_vehicle(py::module_ m) {
  ranged_type<Body>(m, "Rigid body, per rail (half of the whole vehicle's values); x is its centre.",
                    needed<&Body::name>("unique name"));
  ranged_type<Suspension>(m, "Linear spring and damper between two bodies or a body and a wheel.",
                          needed<&Suspension::upper>("name"), needed<&Suspension::lower>("name"));
  ranged_type<Wheel>(m, "One wheel with its share of the unsprung mass; x is 0 for the leading one.",
                     needed<&Wheel::name>("unique name"));
  value_type<Vehicle>(m, "Vehicle in the vertical plane, per rail.", needed<&Vehicle::name>("name"),
                      field<&Vehicle::bodies>("sprung bodies"), needed<&Vehicle::wheels>("leading first"),
                      field<&Vehicle::suspensions>("springs and dampers"),
                      field<&Vehicle::source>("where the values come from"));

  result_type<VehicleModel>(m, "Matrices of a vehicle, wheels first, and its static wheel loads.",
                            field<&VehicleModel::wheel_x>("m"),
                            field<&VehicleModel::static_load>("N per wheel on level track"),
                            field<&VehicleModel::coordinate>("names of the coordinates"))
      .get("M", "kg, kg m2", [](const VehicleModel& v) -> const Eigen::MatrixXd& { return v.M; })
      .get("C", "N s/m, ...", [](const VehicleModel& v) -> const Eigen::MatrixXd& { return v.C; })
      .get("K", "N/m, ...", [](const VehicleModel& v) -> const Eigen::MatrixXd& { return v.K; })
      .get("wheels", "number of wheels", &VehicleModel::wheels);
  result_type<Mode>(m, "One damped mode.", field<&Mode::frequency>("Hz"), field<&Mode::damping_ratio>("-"),
                    field<&Mode::dominant>("coordinate that moves most"));

  m.def("assemble", &assemble, "vehicle"_a, "Matrices and static loads; raises InputError on impossible tables.");
  m.def("modes", &modes, "model"_a, "wheels_held"_a = true, "Damped modes by ascending frequency (Hz).");
  m.def(
      "undamped_frequencies",
      [](const VehicleModel& model, bool held) { return own(undamped_frequencies(model, held)); }, "model"_a,
      "wheels_held"_a = true, "Undamped natural frequencies (Hz), ascending.");
  m.def("preset", &preset, "name"_a, "A vehicle of the library; see `preset_names`.");
  m.def("preset_names", &preset_names, "Names `preset` knows.");
  m.def("single_wheel", &single_wheel, "static_load"_a, "unsprung_mass"_a, "primary_stiffness"_a, "primary_damping"_a,
        "radius"_a,
        R"(One wheel under its primary suspension that carries the rest of the load.

`static_load`: N; `unsprung_mass`: kg; `primary_stiffness`: N/m; `primary_damping`: N s/m; `radius`: m.)");
}

} // namespace wingnose::python
