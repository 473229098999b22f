// Vehicles ready for use. Whole-vehicle data are halved here, once, into one side.
#include "checks.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"
#include "wingnose/words/range.hpp"

#include <cmath>

namespace wingnose::vehicle {
namespace {

// A vehicle on two two-axle bogies: masses and inertias whole, springs and dampers per axlebox and per side.
struct FourAxles {
  double body_mass, body_inertia;      // kg, kg m2
  double bogie_mass, bogie_inertia;    // kg, kg m2, one frame
  double wheelset_mass, radius;        // kg, m
  double axle_spacing, bogie_distance; // m, within a bogie, between bogie centres
  double primary_k, primary_c;         // N/m, N s/m per axlebox
  double secondary_k, secondary_c;     // N/m, N s/m per bogie side
};

void add_bogie(Vehicle& vehicle, const std::string& name, const FourAxles& data, double centre,
               const std::string& carried) {
  vehicle.bodies.push_back({name, data.bogie_mass / 2.0, data.bogie_inertia / 2.0, centre});
  for (const double x : {centre + data.axle_spacing / 2.0, centre - data.axle_spacing / 2.0}) {
    const std::string wheel = "wheel " + std::to_string(vehicle.wheels.size() + 1);
    vehicle.wheels.push_back({wheel, data.wheelset_mass / 2.0, x, data.radius});
    vehicle.suspensions.push_back({name, wheel, x, data.primary_k, data.primary_c});
  }
  vehicle.suspensions.push_back({carried, name, centre, data.secondary_k, data.secondary_c});
}

Vehicle four_axle_vehicle(const std::string& name, const FourAxles& data, const std::string& source) {
  Vehicle vehicle;
  vehicle.name = name;
  vehicle.source = source;
  const double front = -data.axle_spacing / 2.0;
  const double rear = front - data.bogie_distance;
  vehicle.bodies.push_back({"body", data.body_mass / 2.0, data.body_inertia / 2.0, (front + rear) / 2.0});
  add_bogie(vehicle, "front bogie", data, front, "body");
  add_bogie(vehicle, "rear bogie", data, rear, "body");
  return vehicle;
}

constexpr FourAxles coach_1998{.body_mass = 32000.0,
                               .body_inertia = 1.97e6,
                               .bogie_mass = 2615.0,
                               .bogie_inertia = 1476.0,
                               .wheelset_mass = 1813.0,
                               .radius = 0.46,
                               .axle_spacing = 2.56,
                               .bogie_distance = 19.0,
                               .primary_k = 1.22e6,
                               .primary_c = 4e3,
                               .secondary_k = 430e3,
                               .secondary_c = 20e3};
constexpr const char* coach_source =
    "Iwnicki, The Manchester benchmarks for rail vehicle simulation, Vehicle System Dynamics 30, 1998; vertical data "
    "from memory, high confidence; series springs of the dampers left out";

Vehicle coach() { return four_axle_vehicle("coach", coach_1998, coach_source); }

Vehicle bogie() {
  Vehicle vehicle;
  vehicle.name = "bogie";
  vehicle.source =
      "One bogie of the coach with a quarter of its body (half per bogie, half per side) bouncing above it. " +
      std::string(coach_source);
  const double centre = -coach_1998.axle_spacing / 2.0;
  vehicle.bodies.push_back({"body", coach_1998.body_mass / 4.0, 0.0, centre});
  add_bogie(vehicle, "bogie", coach_1998, centre, "body");
  return vehicle;
}

Vehicle wagon() {
  constexpr double axle_load = 22.5e3;      // kg
  constexpr double complete_bogie = 4700.0; // kg, with its two wheelsets
  constexpr double wheelset = 1300.0;       // kg
  constexpr FourAxles data{.body_mass = 4.0 * axle_load - 2.0 * complete_bogie,
                           .body_inertia = 1.3e6,
                           .bogie_mass = complete_bogie - 2.0 * wheelset,
                           .bogie_inertia = 1000.0,
                           .wheelset_mass = wheelset,
                           .radius = 0.46,
                           .axle_spacing = 1.8,
                           .bogie_distance = 9.0,
                           .primary_k = 2.6e6,
                           .primary_c = 30e3,
                           .secondary_k = 50e6,
                           .secondary_c = 50e3};
  return four_axle_vehicle(
      "wagon", data,
      "Laden freight wagon, 22.5 t per axle, Y25 type bogies: axle load, spacing, wheel from memory, high confidence; "
      "bogie and wheelset mass medium; springs 2.6 MN/m per axlebox, the tangent at laden load, low confidence. "
      "Assumed class values: inertias, bogie distance, viscous stand-in for the friction dampers (30 kN s/m per "
      "axlebox) and the stiff centre pivot (50 MN/m, 50 kN s/m per side)");
}

Vehicle locomotive() {
  constexpr double total = 84e3;      // kg
  constexpr double wheelset = 2800.0; // kg, with the unsprung share of the drive
  constexpr double frame = 9000.0;    // kg
  constexpr FourAxles data{.body_mass = total - 4.0 * wheelset - 2.0 * frame,
                           .body_inertia = 1.3e6,
                           .bogie_mass = frame,
                           .bogie_inertia = 12e3,
                           .wheelset_mass = wheelset,
                           .radius = 0.575,
                           .axle_spacing = 2.8,
                           .bogie_distance = 11.0,
                           .primary_k = 1.5e6,
                           .primary_c = 10e3,
                           .secondary_k = 1.3e6,
                           .secondary_c = 30e3};
  return four_axle_vehicle("locomotive", data,
                           "Four-axle locomotive, 21 t per axle: total mass from memory, medium confidence; spacings, "
                           "wheel and unsprung mass low. Assumed class values: bogie frame 9 t, inertias, all springs "
                           "and dampers");
}

// The single wheel of the track studies: 900 kg unsprung, 90 kN.
Vehicle wheel() {
  Vehicle vehicle = single_wheel(90e3, 900.0, coach_1998.primary_k, coach_1998.primary_c, coach_1998.radius);
  vehicle.source = "Class value: 900 kg unsprung mass, 90 kN static load; primary suspension and wheel radius of the "
                   "1998 benchmark coach";
  return vehicle;
}

} // namespace

Vehicle single_wheel(double static_load, double unsprung_mass, double primary_stiffness, double primary_damping,
                     double radius) {
  const double sprung_mass = static_load / gravity - unsprung_mass;
  if (!(std::isfinite(sprung_mass) && sprung_mass > 0.0)) {
    throw Contradiction("static_load", static_load, Bound::above, unsprung_mass * gravity, "unsprung_mass",
                        "The unsprung mass alone weighs that much: raise the load or lower the mass.");
  }
  Vehicle vehicle;
  vehicle.name = "wheel";
  vehicle.source = "One wheel under its primary suspension, values given by the user";
  vehicle.bodies.push_back({"sprung mass", sprung_mass, 0.0, 0.0});
  vehicle.wheels.push_back({"wheel 1", unsprung_mass, 0.0, radius});
  vehicle.suspensions.push_back({"sprung mass", "wheel 1", 0.0, primary_stiffness, primary_damping});
  check(vehicle);
  return vehicle;
}

std::vector<std::string> preset_names() { return {"wheel", "bogie", "coach", "wagon", "locomotive"}; }

Vehicle preset(std::string_view name) {
  if (name == "wheel") {
    return wheel();
  }
  if (name == "bogie") {
    return bogie();
  }
  if (name == "coach") {
    return coach();
  }
  if (name == "wagon") {
    return wagon();
  }
  if (name == "locomotive") {
    return locomotive();
  }
  std::string names;
  for (const std::string& known : preset_names()) {
    names += (names.empty() ? "" : ", ") + known;
  }
  const std::string guess = nearest_name(std::string(name), preset_names());
  throw InputError("vehicle preset", "\"" + std::string(name) + "\"", names,
                   guess.empty() ? "Name one of these or give a vehicle table." : "Did you mean \"" + guess + "\"?");
}

} // namespace wingnose::vehicle
