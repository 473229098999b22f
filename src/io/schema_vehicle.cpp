#include "schema.hpp"

namespace wingnose::io {

namespace {

constexpr double mm = 1e-3;

void add_wheel_keys(Schema& schema) {
  schema.sections.emplace_back("wheel", "the running profile of the wheel");
  const std::vector<Key> keys{
      file_only(selecting(choice(
          "wheel", "profile", [](Draft& d) -> std::string& { return d.wheel_profile; }, {"S1002", "cone", "measured"},
          "published profile S1002, straight cone, or measured points"))),
      file_only(required(word(
          "wheel", "csv", [](Draft& d) -> FileRef& { return d.wheel_csv; },
          "measured points: CSV with y_mm (from the taping line, + to the field side), height_mm (+ to the flange "
          "tip)",
          "measured"))),
      file_only(quantity(
          "wheel", "noise_um", [](Draft& d) -> double& { return d.wheel_noise; }, "um", 1e-6, 0.01, 500,
          "measurement noise of the points (standard deviation)", "measured")),
      file_only(quantity(
          "wheel", "conicity", [](Draft& d) -> double& { return d.conicity; }, "-", 1.0, 0, 0.5,
          "slope of the cone (1:20 is 0.05)", "cone")),
      file_only(quantity(
          "wheel", "hollow_depth_mm", [](Draft& d) -> double& { return d.hollow.depth; }, "mm", mm, 0, 10,
          "depth of a hollow worn into the tread")),
      file_only(quantity(
          "wheel", "hollow_width_mm", [](Draft& d) -> double& { return d.hollow.width; }, "mm", mm, 5, 120,
          "full width of the hollow")),
      file_only(quantity(
          "wheel", "hollow_centre_mm", [](Draft& d) -> double& { return d.hollow.centre; }, "mm", mm, -40, 60,
          "centre of the hollow from the taping line")),
      file_only(quantity(
          "wheel", "radius_mm", [](Draft& d) -> std::optional<double>& { return d.wheel_radius; }, "mm", mm, 100, 1000,
          "rolling radius of all wheels; absent: as the vehicle says")),
      quantity(
          "wheel", "lateral_offset_mm", [](Draft& d) -> double& { return d.c.lateral_offset; }, "mm", mm, -30, 30,
          "shift of the wheelset, + outward over the crossing"),
      quantity(
          "wheel", "roll_mrad", [](Draft& d) -> double& { return d.c.roll; }, "mrad", 1e-3, -30, 30,
          "roll of the wheel on a crossing, + lifts its field side"),
      quantity(
          "wheel", "yaw_mrad", [](Draft& d) -> double& { return d.c.yaw; }, "mrad", 1e-3, -30, 30,
          "yaw of the wheel on a crossing, + turns it from x towards y: the end towards the nose goes outward"),
  };
  schema.keys.insert(schema.keys.end(), keys.begin(), keys.end());
}

void add_vehicle_choice(Schema& schema) {
  schema.sections.emplace_back("vehicle", "what rolls; values per rail, one wheel at a time");
  Key file = file_only(word(
      "vehicle", "file", [](Draft& d) -> FileRef& { return d.vehicle_file; },
      "table of bodies, wheels and suspensions (see below)", "file"));
  file.implies = "file";
  const auto optional = [](std::string name, std::optional<double> Draft::*member, std::string unit, double to_si,
                           double least, double most, std::string text) {
    return file_only(quantity(
        "vehicle", std::move(name), [member](Draft& d) -> std::optional<double>& { return d.*member; }, std::move(unit),
        to_si, least, most, std::move(text), "wheel"));
  };
  const std::vector<Key> keys{
      file_only(selecting(choice(
          "vehicle", "preset", [](Draft& d) -> std::string& { return d.preset; },
          {"wheel", "bogie", "coach", "wagon", "locomotive"}, "a vehicle that comes with the program"))),
      file,
      optional("static_load_kN", &Draft::static_load, "kN", 1e3, 1, 300, "load of the single wheel on the rail"),
      optional("unsprung_mass_kg", &Draft::unsprung_mass, "kg", 1.0, 50, 10e3, "unsprung mass of the single wheel"),
      optional("primary_stiffness_MN_m", &Draft::primary_stiffness, "MN/m", 1e6, 0, 100, "its primary spring"),
      optional("primary_damping_kNs_m", &Draft::primary_damping, "kN s/m", 1e3, 0, 1000, "its primary damper"),
  };
  schema.keys.insert(schema.keys.end(), keys.begin(), keys.end());
}

} // namespace

void add_wheel_and_vehicle_keys(Schema& schema) {
  add_wheel_keys(schema);
  add_vehicle_choice(schema);
}

Schema vehicle_schema() {
  Schema schema;
  schema.sections = {{"", "a vehicle file"},
                     {"body", "a rigid body: heave, and pitch where it has inertia"},
                     {"wheel", "a wheel, leading one first"},
                     {"suspension", "a spring and damper side by side between two bodies or a body and a wheel"}};
  schema.keys = {
      word(
          "", "name", [](Draft& d) -> std::string& { return d.vehicle.name; }, "name of the vehicle"),
      word(
          "", "source", [](Draft& d) -> std::string& { return d.vehicle.source; }, "where the values come from"),
      file_only(required(choice(
          "", "given_for", [](Draft& d) -> std::string& { return d.given_for; }, {"one rail", "both rails"},
          "whether masses, inertias, springs and dampers are those acting on one rail or of the whole vehicle; the "
          "latter are halved"))),
      required(word(
          "body", "name", [](Draft& d) -> std::string& { return d.body.name; }, "name used by suspensions")),
      required(quantity(
          "body", "mass_kg", [](Draft& d) -> double& { return d.body.mass; }, "kg", 1.0, 1, 500e3, "mass")),
      quantity(
          "body", "pitch_inertia_kg_m2", [](Draft& d) -> double& { return d.body.pitch_inertia; }, "kg m2", 1.0, 0,
          100e6, "inertia about the lateral axis; 0: the body cannot pitch"),
      required(quantity(
          "body", "x_m", [](Draft& d) -> double& { return d.body.x; }, "m", 1.0, -200, 50,
          "centre, ahead of the leading wheel")),
      required(word(
          "wheel", "name", [](Draft& d) -> std::string& { return d.wheel.name; }, "name used by suspensions")),
      required(quantity(
          "wheel", "unsprung_mass_kg", [](Draft& d) -> double& { return d.wheel.unsprung_mass; }, "kg", 1.0, 10, 20e3,
          "unsprung mass")),
      required(quantity(
          "wheel", "x_m", [](Draft& d) -> double& { return d.wheel.x; }, "m", 1.0, -200, 0,
          "ahead of the leading wheel: 0 for the leading one, then falling")),
      quantity(
          "wheel", "radius_mm", [](Draft& d) -> double& { return d.wheel.radius; }, "mm", mm, 100, 1000,
          "rolling radius"),
      required(word(
          "suspension", "upper", [](Draft& d) -> std::string& { return d.suspension.upper; }, "body above")),
      required(word(
          "suspension", "lower", [](Draft& d) -> std::string& { return d.suspension.lower; }, "body or wheel below")),
      required(quantity(
          "suspension", "x_m", [](Draft& d) -> double& { return d.suspension.x; }, "m", 1.0, -200, 50,
          "where it acts, ahead of the leading wheel")),
      required(quantity(
          "suspension", "stiffness_MN_m", [](Draft& d) -> double& { return d.suspension.stiffness; }, "MN/m", 1e6, 0,
          1000, "stiffness")),
      quantity(
          "suspension", "damping_kNs_m", [](Draft& d) -> double& { return d.suspension.damping; }, "kN s/m", 1e3, 0,
          10e3, "damping"),
  };
  schema.lists = {
      {"body",
       [](Draft& d) {
         d.body = {"", 0.0, 0.0, 0.0};
       },
       [](Draft& d) { d.vehicle.bodies.push_back(d.body); }, [](const Draft& d) { return d.vehicle.bodies.size(); },
       [](Draft& d, std::size_t i) { d.body = d.vehicle.bodies[i]; }, "rigid bodies"},
      {"wheel",
       [](Draft& d) {
         d.wheel = {"", 0.0, 0.0, 0.46};
       },
       [](Draft& d) { d.vehicle.wheels.push_back(d.wheel); }, [](const Draft& d) { return d.vehicle.wheels.size(); },
       [](Draft& d, std::size_t i) { d.wheel = d.vehicle.wheels[i]; }, "wheels, leading one first"},
      {"suspension",
       [](Draft& d) {
         d.suspension = {"", "", 0.0, 0.0, 0.0};
       },
       [](Draft& d) { d.vehicle.suspensions.push_back(d.suspension); },
       [](const Draft& d) { return d.vehicle.suspensions.size(); },
       [](Draft& d, std::size_t i) { d.suspension = d.vehicle.suspensions[i]; }, "springs and dampers"},
  };
  return schema;
}

} // namespace wingnose::io
