// Keys of [contact], [passage], [kinematics], [measures], [estimate], and the schema of a case file.
#include "keys.hpp"

namespace wingnose::cases {
namespace {

Contact& contact_of(Case& c) { return c.contact; }
contact::Elastic& material(Case& c) { return c.material; }
Passage& passage_of(Case& c) { return c.passage; }
contact::KinematicsOptions& kinematics(Case& c) { return c.kinematics; }
assess::MeasureOptions& measures(Case& c) { return c.measures; }

std::vector<Key> measure_keys() {
  using O = assess::MeasureOptions;
  return {
      key<measures, &O::p2_cut_off>("p2_cut_off_Hz", "P2: cut-off of the low-pass filter"),
      key<measures, &O::p2_order>("p2_order", "P2: order of the filter per pass (it runs forward and back)"),
      key<measures, &O::first_peak_window>("first_peak_window_ms",
                                           "first peak: time after landing in which it is sought"),
      key<measures, &O::first_peak_prominence>(
          "first_peak_prominence",
          "first peak: how far it must stand out, as a share of its rise over the force before the landing"),
      key<measures, &O::window>("window_ms", "time after landing in which peaks are sought"),
      key<measures, &O::window_length>("window_m", "... and at least over this length of travel"),
      key<measures, &O::impulse_window>("impulse_window_ms",
                                        "time after landing over which the impulse on the body landed on counts"),
      key<measures, &O::acceleration_cut_off>("acceleration_cut_off_Hz", "low-pass filter of the accelerations"),
  };
}

std::vector<Key> passage_keys() {
  using P = Passage;
  return {
      selecting(key<passage_of, &P::method>("method", "time stepping: analytic steps of the modes, or the adaptive "
                                                      "cross-check")),
      key<passage_of, &P::speed>("speed_km_h", "speed"),
      key<passage_of, &P::direction>("direction", "facing: from wing to nose; trailing: from nose to wing"),
      key<passage_of, &P::from>("from_m", "first station of the reported wheel (least x)"),
      key<passage_of, &P::to>("to_m", "last station of the reported wheel (greatest x)"),
      key<passage_of, &P::step>("step_us", "time step, also of the stored histories"),
      key<passage_of, &P::longest_step, &P::step>(
          "longest_step_us",
          "where the force is smooth: longest time step, in whole steps of step_us; "
          "about kinks and landings it stays step_us; absent: eight times step_us; on a chain no longer than 160 us"),
      key<passage_of, &P::tolerance>("tolerance", "relative tolerance", "runge-kutta"),
      key<passage_of, &P::reported_wheel>("reported_wheel", "wheel whose forces are reported, 1 = leading"),
      key<passage_of, &P::probes>(
          "probes", "record rail and bearer accelerations near the landing, what bearers feel, and sensors"),
  };
}

std::vector<std::string> set_names() {
  std::vector<std::string> names{"derived"};
  for (const auto& set : closedform::constant_sets()) {
    names.push_back(set.name);
  }
  return names;
}

Schema make_case_schema() {
  Schema s;
  s.sections = {{"", "top of the file"}};
  add(s, "case", "the case as a whole",
      {key<whole, &Case::name>("name", "name of the case; absent: the file's own name"),
       key<whole, &Case::rung>("rung",
                               "what `run` does: vertical: wheels of one rail, held in one attitude; spatial: a "
                               "whole vehicle in space on both rails of the turnout")});
  add_crossing_keys(s);
  add_wheel_keys(s);
  add_vehicle_keys(s);
  add_track_keys(s);
  add_bearer_keys(s);
  add_passage_keys(s);
  add_damage_keys(s);
  add_sensor_keys(s);
  add_turnout_keys(s);
  add_spatial_keys(s);
  return s;
}

} // namespace

void add_passage_keys(Schema& schema) {
  using E = contact::Elastic;
  using K = contact::KinematicsOptions;
  add(schema, "contact", "law of contact, material of wheel and rail",
      {key<contact_of, &Contact::law>("law",
                                      "ellipse: Hertz on each body; strips: all patches of each body, non-elliptic"),
       key<contact_of, &Contact::search>(
           "search", "path: contact is searched along the wheel path beforehand; step: under the wheel at every time "
                     "step, some hundred times slower, to check the other"),
       key<material, &E::young>("young_GPa", "modulus of elasticity"),
       key<material, &E::poisson>("poisson", "Poisson's ratio")});
  add(schema, "passage", "how the vehicle passes", passage_keys());
  add(schema, "kinematics", "how the wheel path is read",
      {key<kinematics, &K::slope_length>("slope_length_mm", "length of the straight fits before and after transfer"),
       key<kinematics, &K::zone_tolerance>("zone_tolerance_um",
                                           "height difference of the bodies within the transfer zone"),
       key<kinematics, &K::rim_margin>("rim_margin_mm", "distance from the field face that counts as rim contact")});
  add(schema, "measures", "how the force history is read", measure_keys());
  add(schema, "estimate", "closed forms",
      {key<whole, &Case::sets>("sets",
                               "constant sets of standards to report beside the track derived from [track], which "
                               "always is",
                               "", set_names())});
}

const Schema& case_schema() {
  static const Schema schema = make_case_schema();
  return schema;
}

} // namespace wingnose::cases
