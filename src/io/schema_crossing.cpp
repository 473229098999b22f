#include "schema.hpp"

namespace wingnose::io {

namespace {

constexpr double mm = 1e-3;
constexpr double mrad = 1e-3;
constexpr auto generated = "generated";

Key length(std::string name, double layout::CrossingShape::*member, double least, double most, std::string text,
           std::string only = generated) {
  return quantity(
      "crossing", std::move(name), [member](Draft& d) -> double& { return d.shape.*member; }, "mm", mm, least, most,
      std::move(text), std::move(only));
}

std::vector<Key> wing_keys() {
  using Shape = layout::CrossingShape;
  return {
      length("flangeway_mm", &Shape::flangeway, 20, 120, "width of the flangeway between wing and nose"),
      length("wing_knuckle_radius_mm", &Shape::wing_knuckle_radius, 10, 200e3, "rounding of the knuckle in plan"),
      length("wing_run_mm", &Shape::wing_run, 0, 10e3,
             "length of the wing behind the knuckle; 0 = until the nose is 76 mm thick"),
      length("wing_edge_radius_mm", &Shape::wing_edge_radius, 1, 50, "rounding of the running edge"),
      quantity(
          "crossing", "wing_cross_slope", [](Draft& d) -> double& { return d.shape.wing_cross_slope; }, "-", 1.0, -0.2,
          0.2, "cross slope of the wing head, negative falls to the field side", generated),
      choice(
          "crossing", "wing_head", [](Draft& d) -> std::string& { return d.shape.wing_head; },
          {"flat", "60E1", "60E2", "54E1", "56E1", "49E1"}, "shape of the wing head: flat, or a rail head", generated),
      quantity(
          "crossing", "wing_inclination_mrad", [](Draft& d) -> double& { return d.shape.wing_inclination; }, "mrad",
          mrad, 0, 100, "inclination of a sectioned wing head (1:40 is 25)", generated),
      length("wing_lift_mm", &Shape::wing_lift, 0, 20, "lift of the wing over the stock-rail level"),
      length("wing_lift_begin_mm", &Shape::wing_lift_begin, -5e3, 5e3, "station where the lift starts"),
      length("wing_lift_run_mm", &Shape::wing_lift_run, 10, 5e3, "length over which the lift is reached"),
      length("wing_begin_mm", &Shape::wing_begin, -50e3, -100, "station where the modelled run-in begins"),
      length("wing_run_in_edge_radius_mm", &Shape::wing_run_in_edge_radius, 1, 50,
             "rounding of the edge on the run-in; fades into wing_edge_radius_mm"),
      length("wing_crown_radius_mm", &Shape::wing_crown_radius, 0, 10e3,
             "crown of the run-in head; 0: flat from the start"),
      length("wing_flat_offset_mm", &Shape::wing_flat_offset, 0, 500,
             "run-out of the edge at which the crown has faded into the flat head"),
  };
}

std::vector<Key> nose_keys() {
  using Shape = layout::CrossingShape;
  return {
      length("nose_point_thickness_mm", &Shape::nose_point_thickness, 0, 50,
             "thickness between the gauge lines where the nose begins"),
      length("nose_start_depth_mm", &Shape::nose_start_depth, 0, 40,
             "highest point of the nose below rail level at the start of the ramp"),
      length("nose_ramp_start_thickness_mm", &Shape::nose_ramp_start_thickness, 0, 100,
             "nose thickness where the height ramp begins"),
      length("nose_ramp_end_thickness_mm", &Shape::nose_ramp_end_thickness, 5, 200,
             "nose thickness where the height ramp ends"),
      length("nose_ramp_rounding_mm", &Shape::nose_ramp_rounding, 0, 2e3,
             "length over which the ramp ends are rounded"),
      length("nose_setback_mm", &Shape::nose_setback, 0, 20, "nose faces behind the gauge lines"),
      length("nose_shoulder_radius_mm", &Shape::nose_shoulder_radius, 1, 100, "rounding of the nose shoulders"),
      length("nose_crown_radius_mm", &Shape::nose_crown_radius, 20, 10e3, "radius of the nose crown"),
      length("nose_length_mm", &Shape::nose_length, 100, 20e3, "modelled length behind the theoretical point"),
      length("nose_ramp_end_depth_mm", &Shape::nose_ramp_end_depth, 0, 40,
             "highest point of the nose below rail level at the end of the ramp"),
      length("nose_full_thickness_mm", &Shape::nose_full_thickness, 5, 400,
             "nose thickness where the rest of the height is reached"),
      length("crown_place_mm", &Shape::crown_place, 0, 100,
             "highest line of run-in and full nose, from the gauge line"),
      length("head_width_mm", &Shape::head_width, 30, 150, "width of the running head of wing and nose"),
  };
}

std::vector<Key> other_kinds() {
  return {
      file_only(required(word(
          "crossing", "wing_csv", [](Draft& d) -> FileRef& { return d.wing_csv; },
          "sections of the wing rail: CSV with station_mm, y_mm, z_mm", "sections"))),
      file_only(required(word(
          "crossing", "nose_csv", [](Draft& d) -> FileRef& { return d.nose_csv; },
          "sections of the nose: CSV with station_mm, y_mm, z_mm", "sections"))),
      quantity(
          "crossing", "noise_um", [](Draft& d) -> double& { return d.section_noise; }, "um", 1e-6, 0.01, 500,
          "measurement noise of the section points (standard deviation)", "sections"),
      required(quantity(
          "crossing", "dip_angle_mrad", [](Draft& d) -> double& { return d.joint.dip_angle; }, "mrad", mrad, 0.01, 100,
          "total dip angle of the joint, the sum of both ramps", "joint")),
      quantity(
          "crossing", "half_length_m", [](Draft& d) -> double& { return d.joint.half_length; }, "m", 1.0, 0.01, 100,
          "length of the ramp on each side of the joint", "joint"),
      quantity(
          "crossing", "at_mm", [](Draft& d) -> double& { return d.joint.at; }, "mm", mm, -10e3, 10e3,
          "station of the joint", "joint"),
      choice(
          "crossing", "shape", [](Draft& d) -> std::string& { return d.joint_shape; }, {"kink", "quadratic"},
          "two straight ramps meeting in a kink, or two parabolas", "joint"),
      file_only(required(word(
          "crossing", "path_csv", [](Draft& d) -> FileRef& { return d.path_csv; },
          "path of the wheel: CSV with station_mm, height_mm", "path"))),
      choice(
          "crossing", "rail_head", [](Draft& d) -> std::string& { return d.c.rail_head; },
          {"60E1", "60E2", "54E1", "56E1", "49E1"}, "rail the wheel runs on, for the contact stiffness", "joint|path"),
      quantity(
          "crossing", "rail_inclination_mrad", [](Draft& d) -> double& { return d.c.rail_inclination; }, "mrad", mrad,
          0, 100, "inclination of that rail (1:40 is 25)", "joint|path"),
  };
}

std::vector<Key> modifier_keys() {
  using layout::Modifier;
  const auto part = [](std::string name, double Modifier::*member, double least, double most, std::string text) {
    return quantity(
        "crossing.modifier", std::move(name), [member](Draft& d) -> double& { return d.modifier.*member; }, "mm", mm,
        least, most, std::move(text));
  };
  return {
      required(choice(
          "crossing.modifier", "body", [](Draft& d) -> std::string& { return d.modifier.body; }, {"wing", "nose"},
          "the body that is changed")),
      required(part("station_mm", &Modifier::station, -10e3, 20e3, "centre along the track")),
      required(part("length_mm", &Modifier::length, 10, 10e3, "full length along the track")),
      required(part("depth_mm", &Modifier::depth, -20, 20, "removed at the centre; negative adds material")),
      part("eta_mm", &Modifier::eta, -20, 150, "centre across, from the running edge; used with a width"),
      part("width_mm", &Modifier::width, 0, 300, "full width across; 0 changes the whole width"),
  };
}

} // namespace

void add_crossing_keys(Schema& schema) {
  schema.sections.emplace_back("crossing", "what the wheel runs over");
  auto& keys = schema.keys;
  const auto add = [&keys](std::vector<Key> more) { keys.insert(keys.end(), more.begin(), more.end()); };
  add({
      selecting(choice(
          "crossing", "kind", [](Draft& d) -> std::string& { return d.kind; },
          {"generated", "sections", "joint", "path"},
          "crossing from drawing numbers, crossing from measured sections, dipped rail joint, or given wheel path")),
      word(
          "crossing", "name", [](Draft& d) -> std::string& { return d.shape.name; }, "name of the crossing",
          "generated|sections"),
      quantity(
          "crossing", "rate", [](Draft& d) -> double& { return d.shape.rate; }, "-", 1.0, 4, 60,
          "N of a 1:N crossing (right-angle method)", "generated|sections"),
      length("gauge_mm", &layout::CrossingShape::gauge, 600, 1700, "track gauge", "generated|sections"),
  });
  add(wing_keys());
  add(nose_keys());
  add(other_kinds());
  schema.sections.emplace_back("crossing.modifier", "smooth change of a running surface: wear, plastic flow, repair");
  add(modifier_keys());
  schema.lists.push_back({"crossing.modifier", [](Draft& d) { d.modifier = {}; },
                          [](Draft& d) { d.shape.modifiers.push_back(d.modifier); },
                          [](const Draft& d) { return d.shape.modifiers.size(); },
                          [](Draft& d, std::size_t i) { d.modifier = d.shape.modifiers[i]; },
                          "smooth change of a running surface", "generated"});
}

} // namespace wingnose::io
