// A wheel's contact at one station as a tree.
#include "tell.hpp"

#include "wingnose/study/instants.hpp"

namespace wingnose::study {
namespace {

void add_fields(Tree& tree, const contact::BodyContact& body) {
  add_columns(Filler(tree, body.body + "/strips"), "strip", body.strips, contact::strip_columns, stored);
  if (!body.field) {
    return;
  }
  const contact::PressureField& f = *body.field;
  Filler field(tree, body.body + "/field");
  const std::string x = "x_mm", y = "y_mm";
  field.list({"x_mm", "ahead", "centres of the cells ahead of the axle", 2, stored}, x, f.x);
  field.list({"y_mm", "y", "centres of the rows from the track centre line", 2, stored}, y, f.y);
  field.list({"contact_angle_mrad", "contact angle", "contact angle of each row", 1, stored}, y, f.angle);
  field.table({"pressure_MPa", "pressure", "half-space solution", 0, stored}, {{y, f.y.size()}, {x, f.x.size()}},
              f.pressure);
}

std::string title_of(const Case& c, const contact::StationContact& s) {
  const bool otherwise = s.roll != c.wheel.roll || s.yaw != c.wheel.yaw; // than the heading says
  return (s.instant.empty() ? "Contact" : "Contact of the passage, " + s.instant + ",") + " at station " +
         fixed(s.station * 1e3, 1) + " mm under " + fixed(s.vertical * 1e-3, 2) + " kN, law: " + s.law +
         (otherwise ? "; wheel rolled " + number(s.roll * 1e3) + " and yawed " + number(s.yaw * 1e3) + " mrad" : "");
}

} // namespace

Tree tell(const Case& c, const contact::StationContact& s) {
  Tree tree("contact");
  add_heading(tree, c, move_of(c));
  tree.attributes.emplace_back("law", s.law);
  tree.attributes.emplace_back("instant", s.instant.empty() ? "standing" : s.instant);
  Filler place(tree, "place");
  add_values(place, &s, contact::station_columns, told);
  place.text({"law", "law", "law of contact the patches come from", told}, s.law);
  Filler patches(tree, "patches", title_of(c, s), Layout::columns);
  Columns(patches, "patch", s.patches).text({"body", "body", "body each patch lies on"}, &contact::PatchSummary::body);
  add_columns(patches, "patch", s.patches, contact::patch_columns);
  Filler bodies(tree, "bodies");
  Columns(bodies, "body", s.bodies).text({"body", "body", "bodies that carry", told}, &contact::BodyContact::body);
  add_columns(bodies, "body", s.bodies, contact::body_columns, told);
  auto solved = s.bodies;
  std::erase_if(solved, [](const contact::BodyContact& b) { return !b.field; });
  Filler half_space(tree, "half_space", "Half-space solution", Layout::columns);
  Columns(half_space, "solved_body", solved)
      .text({"body", "body", "bodies it was found for"}, &contact::BodyContact::body);
  add_columns(half_space, "solved_body", solved, contact::field_columns, Detail::printed,
              [](const contact::BodyContact& b) -> const contact::PressureField& { return *b.field; });
  for (const contact::BodyContact& body : s.bodies) {
    add_fields(tree, body);
  }
  add_end(tree, s.findings, c);
  return tree;
}

} // namespace wingnose::study
