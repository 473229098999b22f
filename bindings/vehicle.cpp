// Room vehicle: bodies and suspension elements, matrices, modes, presets.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/vehicle/vehicle.hpp"

#include <pybind11/eigen.h>

namespace wingnose::python {

using namespace vehicle;

void bind_vehicle(py::module_ m) {
  ranged_type<Body>(m, "Body", "Rigid body, per rail (half of the whole vehicle's values); x is its centre.",
                    needed("name", &Body::name, "unique name"));
  ranged_type<Suspension>(m, "Suspension", "Linear spring and damper between two bodies or a body and a wheel.",
                          needed("upper", &Suspension::upper, "name"), needed("lower", &Suspension::lower, "name"));
  ranged_type<Wheel>(m, "Wheel", "One wheel with its share of the unsprung mass; x is 0 for the leading one.",
                     needed("name", &Wheel::name, "unique name"));
  value_type<Vehicle>(m, "Vehicle", "Vehicle in the vertical plane, per rail.", needed("name", &Vehicle::name, "name"),
                      field("bodies", &Vehicle::bodies, "sprung bodies"),
                      needed("wheels", &Vehicle::wheels, "leading first"),
                      field("suspensions", &Vehicle::suspensions, "springs and dampers"),
                      field("source", &Vehicle::source, "where the values come from"));

  result_type<VehicleModel>(m, "VehicleModel", "Matrices of a vehicle, wheels first, and its static wheel loads.",
                            field("wheel_x", &VehicleModel::wheel_x, "m"),
                            field("static_load", &VehicleModel::static_load, "N per wheel on level track"),
                            field("coordinate", &VehicleModel::coordinate, "names of the coordinates"))
      .get("M", "kg, kg m2", [](const VehicleModel& v) -> const Eigen::MatrixXd& { return v.M; })
      .get("C", "N s/m, ...", [](const VehicleModel& v) -> const Eigen::MatrixXd& { return v.C; })
      .get("K", "N/m, ...", [](const VehicleModel& v) -> const Eigen::MatrixXd& { return v.K; })
      .get("wheels", "number of wheels", &VehicleModel::wheels);
  result_type<Mode>(m, "Mode", "One damped mode.", field("frequency", &Mode::frequency, "Hz"),
                    field("damping_ratio", &Mode::damping_ratio, "-"),
                    field("dominant", &Mode::dominant, "coordinate that moves most"));

  m.def("assemble", &assemble, py::arg("vehicle"),
        "Matrices and static loads; raises InputError on impossible tables.");
  m.def("modes", &modes, py::arg("model"), py::arg("wheels_held") = true, "Damped modes by ascending frequency (Hz).");
  m.def(
      "undamped_frequencies",
      [](const VehicleModel& model, bool held) { return own(undamped_frequencies(model, held)); }, py::arg("model"),
      py::arg("wheels_held") = true, "Undamped natural frequencies (Hz), ascending.");
  m.def("preset", &preset, py::arg("name"), "A vehicle of the library; see `preset_names`.");
  m.def("preset_names", &preset_names, "Names `preset` knows.");
  m.def("single_wheel", &single_wheel, py::arg("static_load"), py::arg("unsprung_mass"), py::arg("primary_stiffness"),
        py::arg("primary_damping"), py::arg("radius"),
        R"(One wheel under its primary suspension that carries the rest of the load.

`static_load`: N; `unsprung_mass`: kg; `primary_stiffness`: N/m; `primary_damping`: N s/m; `radius`: m.)");
}

} // namespace wingnose::python
