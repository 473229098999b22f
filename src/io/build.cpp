// From a draft to a case: choices become values, named files are read, keys are checked against each other.
#include "checksum.hpp"
#include "draft.hpp"
#include "wingnose/words/text.hpp"

#include "wingnose/profile/rail.hpp"
#include "wingnose/words/error.hpp"

#include <cmath>

namespace wingnose::io {

std::string place(const Draft& draft, const std::string& key) {
  const auto found = draft.where.find(key);
  return (found == draft.where.end() ? draft.document : found->second) + ": " + key;
}

void add_input(study::Case& c, std::string role, const std::filesystem::path& file, std::string_view text,
               const std::filesystem::path& folder) {
  const auto relative = file.lexically_relative(folder.empty() ? "." : folder);
  c.inputs.push_back({std::move(role), (relative.empty() ? file : relative).generic_string(), sha256(text)});
}

void build_track(Draft& draft) {
  auto& track = draft.c.track;
  const auto section = profile::rail_section(draft.rail);
  track.rail = track::steel_rail(section.area, section.inertia, section.mass_per_m);
  track.rail.EI = draft.EI.value_or(track.rail.EI);
  track.rail.kappa_GA = draft.kappa_GA.value_or(track.rail.kappa_GA);
  track.rail.rho_A = draft.rho_A.value_or(track.rail.rho_A);
  track.rail.rho_I = draft.rho_I.value_or(track.rail.rho_I);
  for (const auto& casting : draft.castings) {
    if (casting.begin >= casting.end) {
      throw InputError(draft.document + ": track.casting.begin_m", plain(casting.begin) + " m",
                       "less than end_m (" + plain(casting.end) + " m)", "Stations grow from wing to nose.");
    }
    track::RailZone zone{casting.begin, casting.end, track.rail};
    zone.rail.EI *= casting.EI_factor;
    zone.rail.rho_I *= casting.EI_factor;
    zone.rail.rho_A *= casting.mass_factor;
    zone.rail.kappa_GA *= casting.shear_factor.value_or(casting.mass_factor);
    track.zones.push_back(zone);
  }
}

namespace {

// A joint or a given path has no surface to be searched, which a turned wheel would meet elsewhere.
void check_surface(const Draft& draft) {
  if (draft.kind != "joint" && draft.kind != "path") {
    return;
  }
  const std::string kind = "with kind = \"" + draft.kind + "\"";
  const std::string advice =
      "It has no surface to search or to turn a wheel on; remove the key or run over a crossing.";
  for (const auto& [key, value] :
       {std::pair{"wheel.roll_mrad", draft.c.roll}, std::pair{"wheel.yaw_mrad", draft.c.yaw}}) {
    if (value != 0.0) {
      throw InputError(place(draft, key), plain(value * 1e3) + " mrad", "0 " + kind, advice);
    }
  }
  if (draft.c.contact_search == contact::SearchAt::step) {
    throw InputError(place(draft, "contact.search"), "\"step\"", "\"path\" " + kind, advice);
  }
}

} // namespace

void build_passage(Draft& draft) {
  auto& passage = draft.c.passage;
  passage.direction = draft.direction == "facing" ? Direction::facing : Direction::trailing;
  passage.method =
      draft.method == "runge-kutta" ? passage::Method::adaptive_runge_kutta : passage::Method::modal_exponential;
  passage.reported_wheel = draft.reported_wheel - 1;
  draft.c.normal_law = named<contact::NormalLaw>(draft.normal_law, "contact law");
  draft.c.contact_search = named<contact::SearchAt>(draft.contact_search, "search for contact");
  check_surface(draft);
  if (draft.c.contact_search == contact::SearchAt::step && passage.method != passage::Method::modal_exponential) {
    throw InputError(place(draft, "contact.search"), "\"step\"",
                     "\"path\" with passage.method = \"" + draft.method + "\"", "Remove one of the two keys.");
  }
  draft.c.kinematics.direction = passage.direction;
  if (passage.from >= passage.to) {
    throw InputError(place(draft, "passage.from_m"), plain(passage.from) + " m",
                     "less than passage.to_m (" + plain(passage.to) + " m)",
                     "Stations grow from wing to nose, whatever the direction of travel.");
  }
  const auto wheels = draft.c.vehicle.wheels.size();
  if (draft.reported_wheel > static_cast<int>(wheels)) {
    throw InputError(place(draft, "passage.reported_wheel"), std::to_string(draft.reported_wheel),
                     "1 to " + std::to_string(wheels), "The vehicle has no more wheels on one rail.");
  }
}

// The track derived from the case is always reported; only sets of standards are listed in the case.
void build_estimate(Draft& draft) {
  for (const auto& name : draft.sets) {
    if (name != "derived") {
      draft.c.lumped.push_back(closedform::constant_set(name));
    }
  }
}

study::Case build(Draft draft, const std::filesystem::path& folder) {
  build_excitation(draft, folder);
  build_vehicle(draft, folder);
  build_wheel(draft, folder);
  build_track(draft);
  build_passage(draft);
  build_estimate(draft);
  build_damage(draft);
  return std::move(draft.c);
}

} // namespace wingnose::io
