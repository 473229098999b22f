// Keys of [crossing] and [[crossing.modifier]].
#include "keys.hpp"

namespace wingnose::cases {
namespace {

using layout::CrossingShape;
using layout::DippedJoint;
using layout::Modifier;
using layout::SectionedShape;

CrossingShape& shape(Case& c) { return std::get<CrossingShape>(c.excitation); }
SectionedShape& sections(Case& c) { return std::get<SectionedShape>(c.excitation); }
DippedJoint& joint(Case& c) { return std::get<DippedJoint>(c.excitation); }
PlainRail& plain(Case& c) { return c.plain_rail; }
Modifier& one(Modifier& m) { return m; }
std::vector<Modifier>& modifiers(Case& c) { return shape(c).modifiers; }

// Generated or from sections: the same three values.
template <auto of_shape, auto of_sections> auto& either(void* of) {
  auto& e = static_cast<Case*>(of)->excitation;
  auto* generated = std::get_if<CrossingShape>(&e);
  return generated != nullptr ? generated->*of_shape : std::get<SectionedShape>(e).*of_sections;
}

std::string unnamed(Case&) { return ""; } // the points are in the case

template <auto member> Key length(std::string name, std::string meaning) {
  return key<shape, member>(std::move(name), std::move(meaning), "generated");
}

std::vector<Key> common_keys() {
  using S = CrossingShape;
  const std::string crossings = "generated|sections";
  Key name = key<shape, &S::name>("name", "name of the crossing", crossings);
  name.slot = TextSlot{&either<&S::name, &SectionedShape::name>};
  Key rate = key<shape, &S::rate>("rate", "N of a 1:N crossing (right-angle method)", crossings);
  rate.slot = NumberSlot{&either<&S::rate, &SectionedShape::rate>};
  Key gauge = key<shape, &S::gauge>("gauge_mm", "track gauge", crossings);
  gauge.slot = NumberSlot{&either<&S::gauge, &SectionedShape::gauge>};
  return {selecting(key<whole, &Case::excitation>(
              "kind", "crossing from drawing numbers, crossing from measured sections, dipped rail joint, or given "
                      "wheel path")),
          name, rate, gauge};
}

std::vector<std::string> wing_heads() {
  auto heads = profile::rail_head_names();
  heads.insert(heads.begin(), "flat");
  return heads;
}

std::vector<Key> wing_keys() {
  using S = CrossingShape;
  return {
      length<&S::flangeway>("flangeway_mm", "width of the flangeway between wing and nose"),
      length<&S::wing_knuckle_radius>("wing_knuckle_radius_mm", "rounding of the knuckle in plan"),
      length<&S::wing_run>("wing_run_mm", "length of the wing behind the knuckle, at least 100; 0 = until the nose is "
                                          "76 mm thick"),
      length<&S::wing_edge_radius>("wing_edge_radius_mm", "rounding of the running edge"),
      key<shape, &S::wing_cross_slope>("wing_cross_slope",
                                       "cross slope of the wing head, negative falls to the field side", "generated"),
      key<shape, &S::wing_head>("wing_head", "shape of the wing head: flat, or a rail head", "generated", wing_heads()),
      key<shape, &S::wing_inclination>("wing_inclination_mrad", "inclination of a sectioned wing head (1:40 is 25)",
                                       "generated"),
      length<&S::wing_lift>("wing_lift_mm", "lift of the wing over the stock-rail level"),
      length<&S::wing_lift_begin>("wing_lift_begin_mm", "station where the lift starts"),
      length<&S::wing_lift_run>("wing_lift_run_mm", "length over which the lift is reached"),
      length<&S::wing_begin>("wing_begin_mm", "station where the modelled run-in begins"),
      length<&S::wing_run_in_edge_radius>("wing_run_in_edge_radius_mm",
                                          "rounding of the edge on the run-in; fades into wing_edge_radius_mm"),
      length<&S::wing_crown_radius>("wing_crown_radius_mm",
                                    "crown of the run-in head, at least 50; 0: flat from the start"),
      length<&S::wing_flat_offset>("wing_flat_offset_mm",
                                   "run-out of the edge at which the crown has faded into the flat head"),
  };
}

std::vector<Key> nose_keys() {
  using S = CrossingShape;
  return {
      length<&S::nose_point_thickness>("nose_point_thickness_mm",
                                       "thickness between the gauge lines where the nose begins"),
      length<&S::nose_start_depth>("nose_start_depth_mm",
                                   "highest point of the nose below rail level at the start of the ramp"),
      length<&S::nose_ramp_start_thickness>("nose_ramp_start_thickness_mm",
                                            "nose thickness where the height ramp begins"),
      length<&S::nose_ramp_end_thickness>("nose_ramp_end_thickness_mm", "nose thickness where the height ramp ends"),
      length<&S::nose_ramp_rounding>("nose_ramp_rounding_mm", "length over which the ramp ends are rounded"),
      length<&S::nose_setback>("nose_setback_mm", "nose faces behind the gauge lines"),
      length<&S::nose_shoulder_radius>("nose_shoulder_radius_mm", "rounding of the nose shoulders"),
      length<&S::nose_crown_radius>("nose_crown_radius_mm", "radius of the nose crown"),
      length<&S::nose_length>("nose_length_mm", "modelled length behind the theoretical point"),
      length<&S::nose_ramp_end_depth>("nose_ramp_end_depth_mm",
                                      "highest point of the nose below rail level at the end of the ramp"),
      length<&S::nose_full_thickness>("nose_full_thickness_mm",
                                      "nose thickness where the rest of the height is reached"),
      length<&S::crown_place>("crown_place_mm", "highest line of run-in and full nose, from the gauge line"),
      length<&S::head_width>("head_width_mm", "width of the running head of wing and nose"),
  };
}

std::vector<Key> other_kinds() {
  return {
      required(file("wing_csv", "sections of the wing rail: CSV with station_mm, y_mm, z_mm", {unnamed, read_wing},
                    "sections")),
      required(
          file("nose_csv", "sections of the nose: CSV with station_mm, y_mm, z_mm", {unnamed, read_nose}, "sections")),
      key<sections, &SectionedShape::noise>("noise_um",
                                            "measurement noise of the section points (standard deviation); points that "
                                            "scatter far less are smoothed less",
                                            "sections"),
      required(key<joint, &DippedJoint::dip_angle>("dip_angle_mrad",
                                                   "total dip angle of the joint, the sum of both ramps", "joint")),
      key<joint, &DippedJoint::half_length>("half_length_m", "length of the ramp on each side of the joint", "joint"),
      key<joint, &DippedJoint::at>("at_mm", "station of the joint", "joint"),
      key<joint, &DippedJoint::shape>(
          "shape", "two straight ramps meeting in a kink, two parabolas, or two quarters of a sine", "joint"),
      required(file("path_csv", "path of the wheel: CSV with station_mm, height_mm", {unnamed, read_path}, "path")),
      key<plain, &PlainRail::head>("rail_head",
                                   "rail the wheel runs on, for the contact stiffness; beside a generated crossing: of "
                                   "plain rails under a vehicle in space",
                                   "joint|path|generated", profile::rail_head_names()),
      key<plain, &PlainRail::inclination>("rail_inclination_mrad", "inclination of that rail (1:40 is 25)",
                                          "joint|path|generated"),
  };
}

std::vector<Key> modifier_keys() {
  return {
      required(key<one, &Modifier::body>("body", "the body that is changed", "", {"wing", "nose"})),
      required(key<one, &Modifier::station>("station_mm", "centre along the track")),
      required(key<one, &Modifier::length>("length_mm", "full length along the track")),
      required(key<one, &Modifier::depth>("depth_mm", "removed at the centre; negative adds material")),
      key<one, &Modifier::eta>("eta_mm", "centre across, from the running edge; used with a width"),
      key<one, &Modifier::width>("width_mm", "full width across; 0 changes the whole width"),
  };
}

} // namespace

void add_crossing_keys(Schema& schema) {
  add(schema, "crossing", "what the wheel runs over", common_keys());
  for (auto keys : {wing_keys(), nose_keys(), other_kinds()}) {
    add(schema, "crossing", "", std::move(keys));
  }
  add(schema, "crossing.modifier", "smooth change of a running surface: wear, plastic flow, repair", modifier_keys());
  schema.lists.push_back(list_of<modifiers>("crossing.modifier", "smooth change of a running surface", "generated"));
}

} // namespace wingnose::cases
