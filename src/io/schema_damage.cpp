// Keys of [damage]: the steel, and how its damage is told from a passage. From choices by name to values.
#include "schema.hpp"
#include "wingnose/words/text.hpp"

#include "wingnose/words/error.hpp"

namespace wingnose::io {

namespace {

using assess::DamageOptions;

Key number_key(std::string name, double DamageOptions::*member, std::string unit, double to_si, double least,
               double most, std::string text, std::string only = {}) {
  return quantity(
      "damage", std::move(name), [member](Draft& d) -> double& { return d.c.damage.*member; }, std::move(unit), to_si,
      least, most, std::move(text), std::move(only));
}

Key count_key(std::string name, int DamageOptions::*member, std::string text) {
  return quantity(
      "damage", std::move(name), [member](Draft& d) -> int& { return d.c.damage.*member; }, "-", 1.0, 3, 400,
      std::move(text));
}

Key wear_key(std::string name, double assess::WearMap::*member, std::string text) {
  return quantity(
      "damage", std::move(name), [member](Draft& d) -> double& { return d.c.damage.wear.*member; }, "-", 1.0, 0, 1,
      std::move(text));
}

std::vector<Key> steel_and_friction_keys() {
  return {
      choice(
          "damage", "steel", [](Draft& d) -> std::string& { return d.grade; }, assess::steel_names(),
          "steel of wing and nose: yield in shear, hardness, work hardening"),
      number_key("friction", &DamageOptions::friction, "-", 1.0, 0, 1,
                 "coefficient of friction at no slip; dry rail 0.3 to 0.5, wet or greasy rail 0.05 to 0.2"),
      number_key("friction_ratio", &DamageOptions::friction_ratio, "-", 1.0, 0.01, 1,
                 "friction at very high slip speed over that at none (Polach 2005, A); 1: constant"),
      number_key("friction_decay_s_m", &DamageOptions::friction_decay, "s/m", 1.0, 0, 100,
                 "how fast friction falls with the slip speed (Polach 2005, B); 0: constant"),
      selecting(choice(
          "damage", "creep_law", [](Draft& d) -> std::string& { return d.creep_law; },
          {"simplified", "polach", "cubic"},
          "law of the creep force that spins the wheel up: Kalker's simplified theory, Polach's formula, or the cubic; "
          "wear and friction energy need the slip of every cell and stay with the simplified theory")),
      number_key(
          "adhesion_reduction", &DamageOptions::adhesion_reduction, "-", 1.0, 0.01, 1,
          "Polach's reduction of the slope in adhesion (kA); 1: clean rail. Below 1 wear and friction energy are told "
          "too high: the simplified theory does not know it",
          "polach"),
      number_key("slip_reduction", &DamageOptions::slip_reduction, "-", 1.0, 0.01, 1,
                 "Polach's reduction in the area of slip (kS), not above adhesion_reduction", "polach"),
      number_key("spin_inertia_kg_m2", &DamageOptions::spin_inertia, "kg m2", 1.0, 1, 10e3,
                 "inertia of one wheel with its half of the axle against spinning up; common practice"),
  };
}

std::vector<Key> map_keys() {
  return {
      number_key("before_mm", &DamageOptions::before, "mm", 1e-3, 1, 100e3,
                 "stretch before the landing, in the sense of travel, over which damage is told"),
      number_key("after_mm", &DamageOptions::after, "mm", 1e-3, 1, 100e3, "stretch after the landing"),
      number_key("least_force_N", &DamageOptions::least_force, "N", 1.0, 1e-3, 1e6,
                 "force below which a body counts as not touched"),
      count_key("strips", &DamageOptions::strips, "strips of the simplified theory across a patch"),
      count_key("cells", &DamageOptions::cells, "cells along each strip"),
      number_key("map_x_mm", &DamageOptions::spacing_x, "mm", 1e-3, 0.1, 100, "spacing of the maps along the track"),
      number_key("map_y_mm", &DamageOptions::spacing_y, "mm", 1e-3, 0.01, 50, "spacing of the maps across the track"),
      choice(
          "damage", "shakedown_shape", [](Draft& d) -> std::string& { return d.shakedown_shape; }, {"line", "circle"},
          "contact whose shakedown limits count; line is the lower of the two"),
      word(
          "damage", "run_in", [](Draft& d) -> bool& { return d.c.damage.run_in; },
          "wear at the pressure a place settles at, not above the shakedown limit"),
      wear_key("wear_mild", &assess::WearMap::mild, "Archard's coefficient of mild wear"),
      wear_key("wear_severe", &assess::WearMap::severe, "Archard's coefficient of severe wear"),
      wear_key("wear_seizure", &assess::WearMap::seizure, "Archard's coefficient of seizure"),
  };
}

} // namespace

void add_damage_keys(Schema& schema) {
  schema.sections.emplace_back("damage", "what the passage does to the steel (wingnose damage)");
  for (auto keys : {steel_and_friction_keys(), map_keys()}) {
    schema.keys.insert(schema.keys.end(), keys.begin(), keys.end());
  }
}

std::string name_of(assess::CreepTheory law) {
  switch (law) {
  case assess::CreepTheory::polach:
    return "polach";
  case assess::CreepTheory::cubic:
    return "cubic";
  case assess::CreepTheory::simplified:
    break;
  }
  return "simplified";
}

std::string name_of(assess::ContactShape shape) { return shape == assess::ContactShape::circle ? "circle" : "line"; }

void build_damage(Draft& draft) {
  auto& damage = draft.c.damage;
  draft.c.grade = assess::steel(draft.grade);
  damage.creep_law = draft.creep_law == "polach"  ? assess::CreepTheory::polach
                     : draft.creep_law == "cubic" ? assess::CreepTheory::cubic
                                                  : assess::CreepTheory::simplified;
  damage.shakedown_shape =
      draft.shakedown_shape == "circle" ? assess::ContactShape::circle : assess::ContactShape::line;
  if (damage.slip_reduction > damage.adhesion_reduction) {
    throw InputError(place(draft, "damage.slip_reduction"), plain(damage.slip_reduction),
                     "up to damage.adhesion_reduction (" + plain(damage.adhesion_reduction) + ")",
                     "The area of slip loses at least as much as the area of adhesion.");
  }
}

} // namespace wingnose::io
