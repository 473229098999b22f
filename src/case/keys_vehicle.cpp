// Keys of [vehicle] and of vehicle files.
#include "keys.hpp"

namespace wingnose::cases {
namespace {

Vehicle& chosen(Case& c) { return c.vehicle; }
SingleWheel& single(Case& c) { return c.vehicle.single; }
vehicle::Vehicle& table(VehicleFile& f) { return f.vehicle; }
VehicleFile& file_itself(VehicleFile& f) { return f; }
std::vector<vehicle::Body>& bodies(VehicleFile& f) { return f.vehicle.bodies; }
std::vector<vehicle::Wheel>& wheels(VehicleFile& f) { return f.vehicle.wheels; }
std::vector<vehicle::Suspension>& suspensions(VehicleFile& f) { return f.vehicle.suspensions; }
vehicle::Body& body(vehicle::Body& b) { return b; }
vehicle::Wheel& wheel(vehicle::Wheel& w) { return w; }
vehicle::Suspension& suspension(vehicle::Suspension& s) { return s; }

std::string name_of_file(Case& c) { return c.vehicle.table ? c.vehicle.table->file : ""; }

// What a single wheel of a railway has.
constexpr Range load{1e3, 300e3}, mass{50, 10e3}, stiffness{0, 100e6}, damping{0, 1e6};

Schema make_vehicle_schema() {
  using vehicle::Body;
  using vehicle::Suspension;
  using W = vehicle::Wheel;
  Schema s;
  add(s, "", "a vehicle file",
      {key<table, &vehicle::Vehicle::name>("name", "name of the vehicle"),
       key<table, &vehicle::Vehicle::source>("source", "where the values come from"),
       required(key<file_itself, &VehicleFile::given_for>(
           "given_for",
           "whether masses, inertias, springs and dampers are those acting on one rail or of the whole vehicle; the "
           "latter are halved",
           "", {"one rail", "both rails"}))});
  add(s, "body", "a rigid body: heave, and pitch where it has inertia",
      {required(key<body, &Body::name>("name", "name used by suspensions")),
       required(key<body, &Body::mass>("mass_kg", "mass")),
       key<body, &Body::pitch_inertia>("pitch_inertia_kg_m2",
                                       "inertia about the lateral axis; 0: the body cannot pitch"),
       required(key<body, &Body::x>("x_m", "centre, ahead of the leading wheel"))});
  add(s, "wheel", "a wheel, leading one first",
      {required(key<wheel, &W::name>("name", "name used by suspensions")),
       required(key<wheel, &W::unsprung_mass>("unsprung_mass_kg", "unsprung mass")),
       required(key<wheel, &W::x>("x_m", "ahead of the leading wheel: 0 for the leading one, then falling")),
       key<wheel, &W::radius>("radius_mm", "rolling radius")});
  add(s, "suspension", "a spring and damper side by side between two bodies or a body and a wheel",
      {required(key<suspension, &Suspension::upper>("upper", "body above")),
       required(key<suspension, &Suspension::lower>("lower", "body or wheel below")),
       required(key<suspension, &Suspension::x>("x_m", "where it acts, ahead of the leading wheel")),
       required(key<suspension, &Suspension::stiffness>("stiffness_MN_m", "stiffness")),
       key<suspension, &Suspension::damping>("damping_kNs_m", "damping")});
  s.lists = {list_of<bodies>("body", "rigid bodies"), list_of<wheels>("wheel", "wheels, leading one first"),
             list_of<suspensions>("suspension", "springs and dampers")};
  return s;
}

} // namespace

void add_vehicle_keys(Schema& schema) {
  using S = SingleWheel;
  Key named_file =
      file("file", "table of bodies, wheels and suspensions (see below)", {name_of_file, read_vehicle}, "file");
  named_file.implies = "file";
  add(schema, "vehicle", "what rolls; values per rail, one wheel at a time",
      {selecting(key<chosen, &Vehicle::preset>("preset", "a vehicle that comes with the program", "",
                                               vehicle::preset_names())),
       named_file,
       key<single, &S::static_load, &load>("static_load_kN", "load of the single wheel on the rail", "wheel"),
       key<single, &S::unsprung_mass, &mass>("unsprung_mass_kg", "unsprung mass of the single wheel", "wheel"),
       key<single, &S::primary_stiffness, &stiffness>("primary_stiffness_MN_m", "its primary spring", "wheel"),
       key<single, &S::primary_damping, &damping>("primary_damping_kNs_m", "its primary damper", "wheel")});
}

const Schema& vehicle_schema() {
  static const Schema schema = make_vehicle_schema();
  return schema;
}

} // namespace wingnose::cases
