#include "sound.hpp"

#include "checks.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <set>

namespace wingnose::vehicle::space {
namespace {

std::string quoted(const std::string& name) { return "\"" + name + "\""; }

void check_names(const std::vector<std::string>& names) {
  std::set<std::string> seen;
  for (const std::string& name : names) {
    if (name.empty()) {
      throw InputError("name of a body or wheelset", "an empty name", "any word", "Name every body and wheelset.");
    }
    if (!seen.insert(name).second) {
      throw InputError("name of a body or wheelset", quoted(name) + " used twice", "names used once",
                       "Rename one of the two; bodies and wheelsets share one list of names.");
    }
  }
}

void check_wheelsets(const std::vector<Wheelset>& wheelsets) {
  if (wheelsets.empty()) {
    throw InputError("wheelsets of the vehicle", "none", "one or more", "Add a wheelset at x = 0.");
  }
  for (const Wheelset& wheelset : wheelsets) {
    demand_ranges(wheelset, "wheelset " + quoted(wheelset.name));
    for (const WheelOfSet& wheel : wheelset.wheel) {
      demand_ranges(wheel, "wheel of wheelset " + quoted(wheelset.name));
    }
  }
  if (wheelsets.front().x != 0.0) {
    throw InputError("x of wheelset[1]", number(wheelsets.front().x) + " m", "0",
                     "The leading wheelset stands at 0; every other x is measured from it.");
  }
  for (std::size_t i = 1; i < wheelsets.size(); ++i) {
    if (!(wheelsets[i].x < wheelsets[i - 1].x)) {
      throw InputError("x of wheelset[" + std::to_string(i + 1) + "]", number(wheelsets[i].x) + " m",
                       "less than " + number(wheelsets[i - 1].x) + " m, the wheelset before it",
                       "List the wheelsets from the leading one backwards; x is negative behind it.");
    }
  }
}

void check_direction(const LinkDirection& one, const std::string& where) {
  demand_ranges(one, where);
  if (one.series_stiffness > 0.0 && one.damping == 0.0) {
    throw InputError(where + " series_stiffness", number(one.series_stiffness) + " N/m", "0 where damping is 0",
                     "A spring in series needs the damper it holds.");
  }
  if (one.blow_off_force > 0.0 && one.blow_off_damping >= one.damping) {
    throw InputError(where + " blow_off_damping", number(one.blow_off_damping) + " N s/m",
                     "below damping, " + number(one.damping) + " N s/m",
                     "A damper gives way beyond its blow-off force: it is softer there.");
  }
  if (one.blow_off_force > 0.0 && one.series_stiffness > 0.0 && one.blow_off_damping == 0.0) {
    throw InputError(where + " blow_off_damping", "0 N s/m", "above 0 where the damper has a spring in series",
                     "Without it the speed of the damper is unknown once it gives way.");
  }
  if (one.clearance > 0.0 && one.stop_stiffness == 0.0) {
    throw InputError(where + " stop_stiffness", "0 N/m", "above 0 where there is a clearance",
                     "Give the stiffness of the stop, or no clearance.");
  }
}

void check_links(const SpatialVehicle& vehicle) {
  for (std::size_t i = 0; i < vehicle.links.size(); ++i) {
    const Link& link = vehicle.links[i];
    const std::string where = "link[" + std::to_string(i + 1) + "]";
    (void)part_called(vehicle, link.upper, where + ".upper");
    (void)part_called(vehicle, link.lower, where + ".lower");
    if (link.upper == link.lower) {
      throw InputError(where + ".upper", quoted(link.upper) + " joined to itself", "two different names",
                       "Name the body above and the body or wheelset below.");
    }
    demand_ranges(link, where);
    bool acts = false;
    for (const Motion axis : {Motion::x, Motion::y, Motion::z}) {
      const auto k = static_cast<std::size_t>(axis);
      check_direction(link.along[k], where + " along " + std::string(name(axis)));
      demand_ranges(link.about[k], where + " about " + std::string(name(axis)));
      acts = acts || link.along[k].acts() || link.about[k].stiffness > 0.0 || link.about[k].damping > 0.0;
    }
    if (!acts) {
      throw InputError(where, "a link that does nothing", "a stiffness, a damping or a stop in some direction",
                       "Give it a value or remove it.");
    }
  }
}

} // namespace

std::vector<std::string> part_names(const SpatialVehicle& vehicle) {
  std::vector<std::string> names;
  for (const Wheelset& wheelset : vehicle.wheelsets) {
    names.push_back(wheelset.name);
  }
  for (const RigidBody& body : vehicle.bodies) {
    names.push_back(body.name);
  }
  return names;
}

int part_called(const SpatialVehicle& vehicle, const std::string& name, const std::string& where) {
  const std::vector<std::string> names = part_names(vehicle);
  const auto found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) {
    std::string list;
    for (const std::string& known : names) {
      list += (list.empty() ? "" : ", ") + known;
    }
    const std::string guess = nearest_name(name, names);
    throw InputError(where, "unknown name " + quoted(name), list,
                     guess.empty() ? "Name a body or a wheelset." : "Did you mean " + quoted(guess) + "?");
  }
  return static_cast<int>(found - names.begin());
}

void check(const SpatialVehicle& vehicle) {
  check_names(part_names(vehicle));
  check_wheelsets(vehicle.wheelsets);
  for (const RigidBody& body : vehicle.bodies) {
    demand_ranges(body, "body " + quoted(body.name));
  }
  check_links(vehicle);
}

} // namespace wingnose::vehicle::space
