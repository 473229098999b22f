#include "csv.hpp"
#include "document.hpp"
#include "draft.hpp"
#include "reader.hpp"
#include "wingnose/words/text.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>

namespace wingnose::io {

namespace {

profile::WheelProfile measured(Draft& draft, const std::filesystem::path& folder) {
  const FileRef& file = draft.wheel_csv;
  const std::string text = read_text(file.path, file.where);
  add_input(draft.c, "wheel profile", file.path, text, folder);
  Csv csv = parse_csv(text, file.path.generic_string(), {"y_mm", "height_mm"});
  for (auto& column : csv.columns) {
    for (double& value : column) {
      value *= 1e-3;
    }
  }
  try {
    return profile::measured_wheel(csv.columns[0], csv.columns[1], draft.wheel_noise, file.path.stem().string());
  } catch (const InputError& error) {
    throw InputError(csv.name + ": " + error.what());
  }
}

vehicle::Vehicle vehicle_from_file(Draft& draft, const std::filesystem::path& folder) {
  const Document document = load_document(draft.vehicle_file.path, draft.vehicle_file.where);
  for (const auto& layer : document.layers) {
    add_input(draft.c, "vehicle", layer.file, layer.text, folder);
  }
  Draft table;
  table.vehicle.name = draft.vehicle_file.path.stem().string();
  read_document(document, vehicle_schema(), table);
  if (table.vehicle.wheels.empty()) {
    throw InputError(document.top().name + ": the vehicle has no wheel; add a [[wheel]] table for each");
  }
  if (table.given_for == "both rails") {
    for (auto& body : table.vehicle.bodies) {
      body.mass /= 2;
      body.pitch_inertia /= 2;
    }
    for (auto& wheel : table.vehicle.wheels) {
      wheel.unsprung_mass /= 2;
    }
    for (auto& suspension : table.vehicle.suspensions) {
      suspension.stiffness /= 2;
      suspension.damping /= 2;
    }
  }
  try {
    (void)vehicle::assemble(table.vehicle); // names, supports, order of wheels: told with the file's name
  } catch (const InputError& error) {
    throw InputError(document.top().name + ": " + error.what());
  }
  return table.vehicle;
}

// The single wheel with some of its values replaced; the others are read off the preset so that they stand once only.
vehicle::Vehicle single_wheel(const Draft& draft, const vehicle::Vehicle& preset) {
  const auto& wheel = preset.wheels.front();
  const double load = vehicle::assemble(preset).static_load.front();
  const double stiffness = preset.suspensions.empty() ? 0.0 : preset.suspensions.front().stiffness;
  const double damping = preset.suspensions.empty() ? 0.0 : preset.suspensions.front().damping;
  try {
    return vehicle::single_wheel(draft.static_load.value_or(load), draft.unsprung_mass.value_or(wheel.unsprung_mass),
                                 draft.primary_stiffness.value_or(stiffness), draft.primary_damping.value_or(damping),
                                 draft.wheel_radius.value_or(wheel.radius));
  } catch (const InputError& error) {
    throw InputError(draft.document + ": [vehicle]: " + error.what());
  }
}

} // namespace

void build_wheel(Draft& draft, const std::filesystem::path& folder) {
  auto& wheel = draft.c.wheel;
  if (draft.wheel_profile == "S1002") {
    wheel = profile::s1002();
  } else if (draft.wheel_profile == "cone") {
    wheel = profile::cone(draft.conicity);
  } else {
    wheel = measured(draft, folder);
  }
  if (draft.hollow.depth > 0.0) {
    wheel = profile::hollow_worn(wheel, draft.hollow);
  }
  if (draft.wheel_radius) {
    for (auto& each : draft.c.vehicle.wheels) {
      each.radius = *draft.wheel_radius;
    }
  }
}

void build_vehicle(Draft& draft, const std::filesystem::path& folder) {
  if (draft.vehicle_file.given()) {
    draft.c.vehicle = vehicle_from_file(draft, folder);
    return;
  }
  draft.c.vehicle = vehicle::preset(draft.preset);
  if (draft.static_load || draft.unsprung_mass || draft.primary_stiffness || draft.primary_damping) {
    draft.c.vehicle = single_wheel(draft, draft.c.vehicle);
  }
}

} // namespace wingnose::io
