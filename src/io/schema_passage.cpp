#include "schema.hpp"

#include "wingnose/closedform/joint_forces.hpp"

namespace wingnose::io {

namespace {

std::vector<Key> passage_keys() {
  return {
      selecting(choice(
          "passage", "method", [](Draft& d) -> std::string& { return d.method; }, {"modal-exponential", "runge-kutta"},
          "time stepping: analytic steps of the modes, or the adaptive cross-check")),
      quantity(
          "passage", "speed_km_h", [](Draft& d) -> double& { return d.c.passage.speed; }, "km/h", 1 / 3.6, 1, 500,
          "speed"),
      choice(
          "passage", "direction", [](Draft& d) -> std::string& { return d.direction; }, {"facing", "trailing"},
          "facing: from wing to nose; trailing: from nose to wing"),
      quantity(
          "passage", "from_m", [](Draft& d) -> double& { return d.c.passage.from; }, "m", 1.0, -50, 50,
          "first station of the reported wheel (least x)"),
      quantity(
          "passage", "to_m", [](Draft& d) -> double& { return d.c.passage.to; }, "m", 1.0, -50, 50,
          "last station of the reported wheel (greatest x)"),
      quantity(
          "passage", "step_us", [](Draft& d) -> double& { return d.c.passage.step; }, "us", 1e-6, 1, 500,
          "time step, also of the stored histories"),
      quantity(
          "passage", "tolerance", [](Draft& d) -> double& { return d.c.passage.tolerance; }, "-", 1.0, 1e-13, 1e-3,
          "relative tolerance", "runge-kutta"),
      quantity(
          "passage", "reported_wheel", [](Draft& d) -> int& { return d.reported_wheel; }, "-", 1.0, 1, 100,
          "wheel whose forces are reported, 1 = leading"),
      word(
          "passage", "probes", [](Draft& d) -> bool& { return d.c.passage.probes; },
          "record rail and bearer accelerations near the landing"),
  };
}

std::vector<Key> measure_keys() {
  using assess::MeasureOptions;
  const auto part = [](std::string name, double MeasureOptions::*member, std::string unit, double to_si, double least,
                       double most, std::string text) {
    return quantity(
        "measures", std::move(name), [member](Draft& d) -> double& { return d.c.measures.*member; }, std::move(unit),
        to_si, least, most, std::move(text));
  };
  return {
      part("p2_cut_off_Hz", &MeasureOptions::p2_cut_off, "Hz", 1.0, 20, 2000, "P2: cut-off of the low-pass filter"),
      quantity(
          "measures", "p2_order", [](Draft& d) -> int& { return d.c.measures.p2_order; }, "-", 1.0, 1, 8,
          "P2: order of the filter per pass (it runs forward and back)"),
      part("first_peak_window_ms", &MeasureOptions::first_peak_window, "ms", 1e-3, 0.1, 50,
           "first peak: time after landing in which it is sought"),
      part("first_peak_prominence", &MeasureOptions::first_peak_prominence, "-", 1.0, 0, 10,
           "first peak: how far it must stand out, as a share of its rise over the force before the landing"),
      part("window_ms", &MeasureOptions::window, "ms", 1e-3, 1, 1000, "time after landing in which peaks are sought"),
      part("acceleration_cut_off_Hz", &MeasureOptions::acceleration_cut_off, "Hz", 1.0, 20, 10e3,
           "low-pass filter of the accelerations"),
  };
}

std::vector<Key> kinematics_keys() {
  using contact::KinematicsOptions;
  return {
      quantity(
          "kinematics", "slope_length_mm", [](Draft& d) -> double& { return d.c.kinematics.slope_length; }, "mm", 1e-3,
          1, 500, "length of the straight fits before and after transfer"),
      quantity(
          "kinematics", "zone_tolerance_um", [](Draft& d) -> double& { return d.c.kinematics.zone_tolerance; }, "um",
          1e-6, 1, 2000, "height difference of the bodies within the transfer zone"),
      quantity(
          "kinematics", "rim_margin_mm", [](Draft& d) -> double& { return d.c.kinematics.rim_margin; }, "mm", 1e-3, 0,
          50, "distance from the field face that counts as rim contact"),
  };
}

std::vector<std::string> set_names() {
  std::vector<std::string> names{"derived"};
  for (const auto& set : closedform::constant_sets()) {
    names.push_back(set.name);
  }
  return names;
}

} // namespace

void add_passage_keys(Schema& schema) {
  const auto add = [&schema](std::vector<Key> more) {
    schema.keys.insert(schema.keys.end(), more.begin(), more.end());
  };
  schema.sections.emplace_back("contact", "law of contact, material of wheel and rail");
  add({choice(
           "contact", "law", [](Draft& d) -> std::string& { return d.normal_law; }, {"ellipse", "strips"},
           "ellipse: Hertz on each body; strips: all patches of each body, non-elliptic"),
       choice(
           "contact", "search", [](Draft& d) -> std::string& { return d.contact_search; }, {"path", "step"},
           "path: contact is searched along the wheel path beforehand; step: under the wheel at every time step, some "
           "hundred times slower, to check the other"),
       quantity(
           "contact", "young_GPa", [](Draft& d) -> double& { return d.c.steel.young; }, "GPa", 1e9, 1, 1000,
           "modulus of elasticity"),
       quantity(
           "contact", "poisson", [](Draft& d) -> double& { return d.c.steel.poisson; }, "-", 1.0, 0, 0.499,
           "Poisson's ratio")});
  schema.sections.emplace_back("passage", "how the vehicle passes");
  add(passage_keys());
  schema.sections.emplace_back("kinematics", "how the wheel path is read");
  add(kinematics_keys());
  schema.sections.emplace_back("measures", "how the force history is read");
  add(measure_keys());
  schema.sections.emplace_back("estimate", "closed forms");
  add({choice(
      "estimate", "sets", [](Draft& d) -> std::vector<std::string>& { return d.sets; }, set_names(),
      "constant sets of standards to report beside the track derived from [track], which always is")});
}

Schema case_schema() {
  Schema schema;
  schema.sections = {{"", "top of the file"}, {"case", "the case as a whole"}};
  schema.keys = {word(
      "case", "name", [](Draft& d) -> std::string& { return d.c.name; },
      "name of the case; absent: the file's own name")};
  add_crossing_keys(schema);
  add_wheel_and_vehicle_keys(schema);
  add_track_keys(schema);
  add_passage_keys(schema);
  add_damage_keys(schema);
  return schema;
}

} // namespace wingnose::io
