#include "checks.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

namespace wingnose::vehicle {
namespace {

std::string text(double value, const char* unit) { return number(value) + ' ' + unit; }

std::string join(const std::vector<std::string>& names) {
  std::string out;
  for (const std::string& name : names) {
    out += (out.empty() ? "" : ", ") + name;
  }
  return out;
}

void require_positive(const std::string& what, double value, const char* unit) {
  if (!(std::isfinite(value) && value > 0.0)) {
    throw InputError(what, text(value, unit), "greater than 0", "Correct the value in the vehicle table.");
  }
}

void require_not_negative(const std::string& what, double value, const char* unit) {
  if (!(std::isfinite(value) && value >= 0.0)) {
    throw InputError(what, text(value, unit), "0 or more", "Correct the value in the vehicle table.");
  }
}

void require_finite(const std::string& what, double value, const char* unit) {
  if (!std::isfinite(value)) {
    throw InputError(what, text(value, unit), "a finite number", "Correct the value in the vehicle table.");
  }
}

// Edit distance after Levenshtein (1966): insertions, deletions and replacements that turn one word into the other.
std::size_t edit_distance(const std::string& from, const std::string& to) {
  std::vector<std::size_t> row(to.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= from.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= to.size(); ++j) {
      const std::size_t replaced = diagonal + (from[i - 1] == to[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({replaced, row[j] + 1, row[j - 1] + 1});
    }
  }
  return row.back();
}

void check_names(const Vehicle& vehicle) {
  std::set<std::string> seen;
  const auto visit = [&seen](const std::string& kind, const std::string& name) {
    if (name.empty()) {
      throw InputError("name of a " + kind, "an empty name", "any word", "Name every body and wheel.");
    }
    if (!seen.insert(name).second) {
      throw InputError("name of a " + kind, "\"" + name + "\" used twice", "names used once",
                       "Rename one of the two; bodies and wheels share one list of names.");
    }
  };
  for (const Wheel& wheel : vehicle.wheels) {
    visit("wheel", wheel.name);
  }
  for (const Body& body : vehicle.bodies) {
    visit("body", body.name);
  }
}

void check_wheels(const std::vector<Wheel>& wheels) {
  if (wheels.empty()) {
    throw InputError("wheels of the vehicle", "none", "one or more", "Add a wheel at x = 0.");
  }
  for (const Wheel& wheel : wheels) {
    require_positive("unsprung mass of wheel \"" + wheel.name + "\"", wheel.unsprung_mass, "kg");
    require_positive("radius of wheel \"" + wheel.name + "\"", wheel.radius, "m");
    require_finite("x of wheel \"" + wheel.name + "\"", wheel.x, "m");
  }
  if (wheels.front().x != 0.0) {
    throw InputError("wheel[1].x_m", text(wheels.front().x, "m"), "0",
                     "The leading wheel stands at 0; body.x_m and suspension.x_m are measured from it.");
  }
  for (std::size_t i = 1; i < wheels.size(); ++i) {
    if (!(wheels[i].x < wheels[i - 1].x)) {
      throw InputError("wheel[" + std::to_string(i + 1) + "].x_m", text(wheels[i].x, "m"),
                       "less than " + text(wheels[i - 1].x, "m") + ", the wheel before it",
                       "List the wheels from the leading one backwards; x is negative behind it.");
    }
  }
}

const Wheel* find_wheel(const Vehicle& vehicle, const std::string& name) {
  const auto found = std::find_if(vehicle.wheels.begin(), vehicle.wheels.end(),
                                  [&name](const Wheel& wheel) { return wheel.name == name; });
  return found == vehicle.wheels.end() ? nullptr : &*found;
}

// where: the suspension; end: which of its two.
void check_end(const Vehicle& vehicle, const std::vector<std::string>& names, const std::string& where,
               const std::string& end, const std::string& name, double x) {
  if (std::find(names.begin(), names.end(), name) == names.end()) {
    const std::string guess = nearest_name(name, names);
    throw InputError(where + end, "unknown name \"" + name + "\"", join(names),
                     guess.empty() ? "Name a body or a wheel." : "Did you mean \"" + guess + "\"?");
  }
  if (const Wheel* wheel = find_wheel(vehicle, name); wheel != nullptr && std::abs(x - wheel->x) > wheel->radius) {
    throw InputError(where + "x_m", text(x, "m"),
                     "within wheel.radius_mm of wheel.x_m = " + text(wheel->x, "m") + " of the wheel \"" + name + "\"",
                     "A wheel cannot pitch, so its suspension must act close to it.");
  }
}

void check_suspensions(const Vehicle& vehicle) {
  std::vector<std::string> names;
  for (const Wheel& wheel : vehicle.wheels) {
    names.push_back(wheel.name);
  }
  for (const Body& body : vehicle.bodies) {
    names.push_back(body.name);
  }

  for (std::size_t i = 0; i < vehicle.suspensions.size(); ++i) {
    const Suspension& element = vehicle.suspensions[i];
    const std::string where = "suspension[" + std::to_string(i + 1) + "].";
    require_finite(where + "x_m", element.x, "m");
    check_end(vehicle, names, where, "upper", element.upper, element.x);
    check_end(vehicle, names, where, "lower", element.lower, element.x);
    if (element.upper == element.lower) {
      throw InputError(where + "upper", "\"" + element.upper + "\" joined to itself", "two different names",
                       "Name the body above and the body or wheel below.");
    }
    require_not_negative(where + "stiffness", element.stiffness, "N/m");
    require_not_negative(where + "damping", element.damping, "N s/m");
    if (element.stiffness == 0.0 && element.damping == 0.0) {
      throw InputError(where + "stiffness_MN_m", "0 MN/m", "above 0 where suspension.damping_kNs_m is 0",
                       "Give the element a value or remove it.");
    }
  }
}

} // namespace

std::string nearest_name(const std::string& name, const std::vector<std::string>& known) {
  std::string best;
  std::size_t best_distance = std::max<std::size_t>(2, name.size() / 3) + 1; // farther than this is no typing slip
  for (const std::string& candidate : known) {
    if (const std::size_t distance = edit_distance(name, candidate); distance < best_distance) {
      best = candidate;
      best_distance = distance;
    }
  }
  return best;
}

void check(const Vehicle& vehicle) {
  check_names(vehicle);
  check_wheels(vehicle.wheels);
  for (const Body& body : vehicle.bodies) {
    require_positive("mass of body \"" + body.name + "\"", body.mass, "kg");
    require_not_negative("pitch inertia of body \"" + body.name + "\"", body.pitch_inertia, "kg m2");
    require_finite("x of body \"" + body.name + "\"", body.x, "m");
  }
  check_suspensions(vehicle);
}

} // namespace wingnose::vehicle
