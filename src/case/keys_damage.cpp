// Keys of [damage]: the steel, and how its damage is told from a passage.
#include "keys.hpp"

namespace wingnose::cases {
namespace {

using assess::DamageOptions;
using assess::WearMap;

DamageOptions& damage(Case& c) { return c.damage; }
WearMap& wear(Case& c) { return c.damage.wear; }

} // namespace

void add_damage_keys(Schema& schema) {
  using D = DamageOptions;
  add(schema, "damage", "what the passage does to the steel (wingnose damage)",
      {key<whole, &Case::steel>("steel", "steel of wing and nose: yield in shear, hardness, work hardening", "",
                                assess::steel_names()),
       key<damage, &D::friction>(
           "friction", "coefficient of friction at no slip; dry rail 0.3 to 0.5, wet or greasy rail 0.05 to 0.2"),
       key<damage, &D::friction_ratio>(
           "friction_ratio", "friction at very high slip speed over that at none (Polach 2005, A); 1: constant"),
       key<damage, &D::friction_decay>("friction_decay_s_m",
                                       "how fast friction falls with the slip speed (Polach 2005, B); 0: constant"),
       selecting(key<damage, &D::creep_law>(
           "creep_law", "law of the creep force that spins the wheel up: Kalker's simplified theory, Polach's formula, "
                        "or the cubic; wear and friction energy need the slip of every cell and stay with the "
                        "simplified theory")),
       key<damage, &D::adhesion_reduction>(
           "adhesion_reduction",
           "Polach's reduction of the slope in adhesion (kA); 1: clean rail. Below 1 wear and friction energy are told "
           "too high: the simplified theory does not know it",
           "polach"),
       key<damage, &D::slip_reduction>(
           "slip_reduction", "Polach's reduction in the area of slip (kS), not above adhesion_reduction", "polach"),
       key<damage, &D::spin_inertia>(
           "spin_inertia_kg_m2", "inertia of one wheel with its half of the axle against spinning up; common practice"),
       key<damage, &D::before>("before_mm",
                               "stretch before the landing, in the sense of travel, over which damage is told"),
       key<damage, &D::after>("after_mm", "stretch after the landing"),
       key<damage, &D::least_force>("least_force_N", "force below which a body counts as not touched"),
       key<damage, &D::strips>("strips", "strips of the simplified theory across a patch"),
       key<damage, &D::cells>("cells", "cells along each strip"),
       key<damage, &D::spacing_x>("map_x_mm", "spacing of the maps along the track"),
       key<damage, &D::spacing_y>("map_y_mm", "spacing of the maps across the track"),
       key<damage, &D::wear_depth_limit>("wear_depth_limit_mm",
                                         "depth at which the wear of a traffic stops being told: a deeper one changes "
                                         "the shape it is told for"),
       key<damage, &D::shakedown_shape>("shakedown_shape",
                                        "contact whose shakedown limits count; line is the lower of the two"),
       key<damage, &D::run_in>("run_in", "wear at the pressure a place settles at, not above the shakedown limit"),
       key<wear, &WearMap::mild>("wear_mild", "Archard's coefficient of mild wear"),
       key<wear, &WearMap::severe>("wear_severe", "Archard's coefficient of severe wear"),
       key<wear, &WearMap::seizure>("wear_seizure", "Archard's coefficient of seizure")});
}

} // namespace wingnose::cases
