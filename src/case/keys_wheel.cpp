// Keys of [wheel].
#include "keys.hpp"

namespace wingnose::cases {
namespace {

Wheel& wheel(Case& c) { return c.wheel; }
profile::Hollow& hollow(Case& c) { return c.wheel.hollow; }
Cone& cone(Case& c) { return std::get<Cone>(c.wheel.shape); }
MeasuredWheel& measured(Case& c) { return std::get<MeasuredWheel>(c.wheel.shape); }

std::string csv(Case& c) { return measured(c).csv; }

} // namespace

void add_wheel_keys(Schema& schema) {
  Key profile = selecting(key<wheel, &Wheel::shape>("profile", "published profile S1002, straight cone, or measured "
                                                               "points"));
  profile.choices.pop_back(); // a profile given by a program is in no file
  add(schema, "wheel", "the running profile of the wheel, and how it is held",
      {profile,
       required(file("csv",
                     "measured points: CSV with y_mm (from the taping line, + to the field side), "
                     "height_mm (+ to the flange tip)",
                     {csv, read_points}, "measured")),
       key<measured, &MeasuredWheel::noise>("noise_um", "measurement noise of the points (standard deviation)",
                                            "measured"),
       key<cone, &Cone::conicity>("conicity", "slope of the cone (1:20 is 0.05)", "cone"),
       key<hollow, &profile::Hollow::depth>("hollow_depth_mm", "depth of a hollow worn into the tread"),
       key<hollow, &profile::Hollow::width>("hollow_width_mm", "full width of the hollow"),
       key<hollow, &profile::Hollow::centre>("hollow_centre_mm", "centre of the hollow from the taping line"),
       key<wheel, &Wheel::radius, &vehicle::Wheel::radius>("radius_mm",
                                                           "rolling radius of all wheels; absent: as the vehicle says"),
       key<wheel, &Wheel::lateral_offset>("lateral_offset_mm", "shift of the wheelset, + outward over the crossing"),
       key<wheel, &Wheel::roll>("roll_mrad", "roll of the wheel on a crossing, + lifts its field side"),
       key<wheel, &Wheel::yaw>("yaw_mrad",
                               "yaw of the wheel on a crossing, + turns it from x towards y: the end towards the "
                               "nose goes outward")});
}

} // namespace wingnose::cases
