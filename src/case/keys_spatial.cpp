// Keys of [spatial] and of files of vehicles in space.
#include "keys.hpp"

#include "wingnose/vehicle/space/model.hpp"
#include "wingnose/vehicle/space/presets.hpp"

#include <utility>

namespace wingnose::cases {
namespace {

namespace space = vehicle::space;
using File = SpaceVehicleFile;
using space::LinkDirection;
using space::LinkTurning;

Spatial& spatial(Case& c) { return c.spatial; }
std::string irregularity_csv(Case& c) { return c.spatial.irregularity_csv; }
std::string name_of_file(Case& c) { return c.spatial.table ? c.spatial.table->file : ""; }

File& file_itself(File& f) { return f; }
std::vector<File::Body>& bodies(File& f) { return f.bodies; }
std::vector<File::Wheelset>& wheelsets(File& f) { return f.wheelsets; }
std::vector<space::Link>& links(File& f) { return f.links; }
File::Body& held_body(File::Body& b) { return b; }
space::RigidBody& body(File::Body& b) { return b.body; }
File::Wheelset& held_wheelset(File::Wheelset& w) { return w; }
space::Wheelset& wheelset(File::Wheelset& w) { return w.set; }
space::WheelOfSet& wheel(File::Wheelset& w) { return w.set.wheel[0]; }
space::Link& link(space::Link& l) { return l; }
template <std::size_t axis> LinkDirection& along(space::Link& l) { return l.along[axis]; }
template <std::size_t axis> LinkTurning& about(space::Link& l) { return l.about[axis]; }

std::vector<std::string> motions() { return names_of<space::Motion>(); }

template <std::size_t axis> void add_direction(std::vector<Key>& keys, const std::string& letter) {
  using D = LinkDirection;
  const std::string across = " along " + letter;
  keys.push_back(key<along<axis>, &D::stiffness>(letter + "_stiffness_MN_m", "spring" + across));
  keys.push_back(key<along<axis>, &D::damping>(letter + "_damping_kNs_m", "damper beside it"));
  keys.push_back(key<along<axis>, &D::series_stiffness>(letter + "_series_stiffness_MN_m",
                                                        "spring in series with that damper; 0: none"));
  keys.push_back(key<along<axis>, &D::blow_off_force>(letter + "_blow_off_force_kN",
                                                      "force from which the damper gives way; 0: never"));
  keys.push_back(key<along<axis>, &D::blow_off_damping>(letter + "_blow_off_damping_kNs_m", "damping beyond it"));
  keys.push_back(key<along<axis>, &D::clearance>(letter + "_clearance_mm", "way to a stop, from rest, either way"));
  keys.push_back(
      key<along<axis>, &D::stop_stiffness>(letter + "_stop_stiffness_MN_m", "stiffness of that stop; 0: none"));
}

std::vector<Key> link_keys() {
  using L = space::Link;
  std::vector<Key> keys{
      required(key<link, &L::upper>("upper", "body above")),
      required(key<link, &L::lower>("lower", "body or wheelset below")),
      required(key<link, &L::x>("x_m", "where it acts, ahead of the leading wheelset")),
      required(key<link, &L::y>("y_m", "... across, from the middle of the track")),
      required(key<link, &L::z>("z_m", "... over the top of the rails, at rest: the middle of a spring"))};
  add_direction<0>(keys, "x");
  add_direction<1>(keys, "y");
  add_direction<2>(keys, "z");
  keys.push_back(key<about<0>, &LinkTurning::stiffness>("roll_stiffness_kNm", "a roll bar's, per radian"));
  keys.push_back(key<about<1>, &LinkTurning::stiffness>("pitch_stiffness_kNm", "against pitch, per radian"));
  keys.push_back(key<about<2>, &LinkTurning::stiffness>("yaw_stiffness_kNm", "against yaw, per radian"));
  keys.push_back(key<link, &L::axes_with_upper>(
      "axes_with_upper", "share in which the axes of a preloaded link turn with its upper body"));
  return keys;
}

Schema make_space_vehicle_schema() {
  using B = space::RigidBody;
  using W = space::Wheelset;
  Schema s;
  add(s, "", "a file of a vehicle in space: whole values, of both sides",
      {key<file_itself, &File::name>("name", "name of the vehicle"),
       key<file_itself, &File::source>("source", "where the values come from")});
  add(s, "body", "a rigid body",
      {required(key<body, &B::name>("name", "name used by links")), required(key<body, &B::mass>("mass_kg", "mass")),
       required(key<body, &B::roll_inertia>("roll_inertia_kg_m2", "inertia about x, along the track")),
       required(key<body, &B::pitch_inertia>("pitch_inertia_kg_m2", "inertia about y, across")),
       required(key<body, &B::yaw_inertia>("yaw_inertia_kg_m2", "inertia about z, upwards")),
       required(key<body, &B::x>("x_m", "centre of gravity, ahead of the leading wheelset")),
       key<body, &B::y>("y_m", "... across, from the middle of the track"),
       required(key<body, &B::z>("z_m", "... over the top of the rails, at rest")),
       key<held_body, &File::Body::held>("held", "motions in which it is held beside the track", "", motions())});
  add(s, "wheelset", "a wheelset with its axle boxes, leading one first",
      {required(key<wheelset, &W::name>("name", "name used by links")),
       required(key<wheelset, &W::mass>("mass_kg", "mass")),
       required(key<wheelset, &W::roll_inertia>("roll_inertia_kg_m2", "inertia about x, along the track")),
       required(key<wheelset, &W::spin_inertia>("spin_inertia_kg_m2", "inertia of what turns about the axle")),
       required(key<wheelset, &W::yaw_inertia>("yaw_inertia_kg_m2", "inertia about z, upwards")),
       required(key<wheelset, &W::x>("x_m", "0 for the leading one, then falling")),
       key<wheel, &space::WheelOfSet::radius>("radius_mm", "rolling radius of both wheels"),
       key<held_wheelset, &File::Wheelset::held>("held", "motions in which it is held beside the track", "",
                                                 motions())});
  add(s, "link", "springs, dampers and stops at one point between two bodies, or a body and a wheelset", link_keys());
  s.lists = {list_of<bodies>("body", "rigid bodies"), list_of<wheelsets>("wheelset", "wheelsets, leading one first"),
             list_of<links>("link", "links")};
  return s;
}

space::Freedom freedom(const std::vector<std::string>& held) {
  space::Freedom free = space::all_free;
  for (const std::string& one : held) {
    free[static_cast<std::size_t>(named<space::Motion>(one, "motion"))] = false;
  }
  return free;
}

std::vector<std::string> held_in(const space::Freedom& free) {
  std::vector<std::string> held;
  const std::vector<std::string> all = motions();
  for (std::size_t i = 0; i < free.size(); ++i) {
    if (!free[i]) {
      held.push_back(all[i]);
    }
  }
  return held;
}

} // namespace

space::SpatialVehicle vehicle_of(const SpaceVehicleFile& file) {
  space::SpatialVehicle out;
  out.name = file.name;
  out.source = file.source;
  for (const File::Body& b : file.bodies) {
    out.bodies.push_back(b.body);
    out.bodies.back().free = freedom(b.held);
  }
  for (const File::Wheelset& w : file.wheelsets) {
    out.wheelsets.push_back(w.set);
    out.wheelsets.back().free = freedom(w.held);
    out.wheelsets.back().wheel[1].radius = w.set.wheel[0].radius;
  }
  out.links = file.links;
  return out;
}

SpaceVehicleFile file_of(const space::SpatialVehicle& vehicle) {
  SpaceVehicleFile out{vehicle.name, vehicle.source, {}, {}, vehicle.links};
  for (const space::RigidBody& b : vehicle.bodies) {
    out.bodies.push_back({b, held_in(b.free)});
  }
  for (const space::Wheelset& w : vehicle.wheelsets) {
    out.wheelsets.push_back({w, held_in(w.free)});
  }
  return out;
}

void read_space_vehicle(Case& c, const Path& file, const std::string& where, Files& files) {
  const Sheet sheet = files.sheet(file, where, "vehicle in space");
  SpaceVehicleFile read;
  read.name = file.stem().string();
  fill(space_vehicle_schema(), sheet, &read, files);
  if (read.wheelsets.empty()) {
    throw InputError(sheet.file() + ": the vehicle has no wheelset; add a [[wheelset]] table for each");
  }
  space::SpatialVehicle vehicle = vehicle_of(read);
  try {
    (void)space::assemble(vehicle); // names, what carries it, order of wheelsets: told with the file's name
  } catch (const InputError& error) {
    tell_by_keys(error, space_vehicle_schema(), &read, &sheet);
  }
  c.spatial.table = SpaceVehicleTable{sheet.file(), std::move(vehicle)};
}

void add_spatial_keys(Schema& schema) {
  using S = Spatial;
  Key named_file = cases::file("vehicle_file", "bodies, wheelsets and links of a vehicle in space (see below)",
                               {name_of_file, read_space_vehicle}, "file");
  named_file.implies = "file";
  constexpr auto stiffness = &S::check_stiffness;
  add(schema, "spatial",
      "a vehicle in space, where case.rung is \"spatial\": through [turnout] on its way, at passage.speed_km_h, with "
      "the wheels of [wheel] (whose lateral_offset_mm is the shift with which the whole vehicle enters; roll and yaw "
      "it finds itself) and the friction of [damage]",
      {selecting(
           key<spatial, &S::preset>("vehicle", "a vehicle that comes with the program", "", space::preset_names())),
       named_file, key<spatial, &S::rails>("rails", "what the wheels run on"),
       key<spatial, &S::step>("step_us", "time step, also of the stored histories; on rails that bend half of "
                                         "it while a wheel is on the crossing or near the check rail"),
       key<spatial, stiffness>("check_stiffness_MN_m", "stiffness of the check rail: forces on it go with its root"),
       key<spatial, &S::least_check_stiffness, stiffness>("least_check_stiffness_MN_m",
                                                          "least end of the range stated for it; absent: half of it"),
       key<spatial, &S::most_check_stiffness, stiffness>("most_check_stiffness_MN_m",
                                                         "other end of that range; absent: twice as much"),
       key<spatial, &S::stock_friction, &body_frictions>("stock_friction",
                                                         "friction on plain rails; absent: of [damage]"),
       key<spatial, &S::wing_friction, &body_frictions>("wing_friction", "friction on the wing; absent: of [damage]"),
       key<spatial, &S::nose_friction, &body_frictions>("nose_friction", "friction on the nose; absent: of [damage]"),
       key<spatial, &S::enters_at>("enters_at_m", "station of the leading axle where the vehicle enters the through "
                                                  "route, settled; the diverging one it enters ahead of the switch"),
       key<spatial, &S::check_friction>("check_friction", "friction between check rail and the back of a wheel"),
       file("irregularity_csv",
            "track irregularity: CSV with station_m (from the theoretical intersection, along the way taken), "
            "left_height_mm, right_height_mm (+ up), left_lateral_mm, right_lateral_mm (+ to the left), how far each "
            "rail lies off where it is drawn, left and right as seen in a facing move; smooth between rows, nothing "
            "outside of them; absent: rails lie as drawn",
            {irregularity_csv, read_irregularity})});
}

const Schema& space_vehicle_schema() {
  static const Schema schema = make_space_vehicle_schema();
  return schema;
}

} // namespace wingnose::cases
