// A wheel's contact at one station as a tree.
#include "tell.hpp"

#include "wingnose/study/instants.hpp"

namespace wingnose::study {
namespace {

using quantity::Columns;
using quantity::Detail;
using quantity::Filler;
using quantity::Layout;
using quantity::Tree;
constexpr Detail told = Detail::told, stored = Detail::stored;

void add_fields(Tree& tree, const contact::BodyContact& body) {
  using S = contact::Strip;
  Columns(Filler(tree, body.body + "/strips"), "strip", body.strips)
      .number({"y_mm", "mm", "y", "middle of the strip from the track centre line", 2, stored}, &S::y)
      .number({"width_mm", "mm", "width", "width across the track", 3, stored}, &S::width)
      .number({"ahead_of_axle_mm", "mm", "ahead", "middle of the strip ahead of the axle", 2, stored}, &S::dx)
      .number({"half_length_mm", "mm", "half length", "half length along the track", 2, stored}, &S::half_length)
      .number({"pressure_MPa", "MPa", "pressure", "largest pressure of the strip", 0, stored}, &S::pressure)
      .number({"normal_force_N", "N", "normal force", "normal force of the strip", 0, stored}, &S::force);
  if (!body.field) {
    return;
  }
  const contact::PressureField& f = *body.field;
  Filler field(tree, body.body + "/field");
  const std::string x = "x_mm", y = "y_mm";
  field.list({"x_mm", "mm", "ahead", "centres of the cells ahead of the axle", 2, stored}, x, f.x);
  field.list({"y_mm", "mm", "y", "centres of the rows from the track centre line", 2, stored}, y, f.y);
  field.list({"contact_angle_mrad", "mrad", "contact angle", "contact angle of each row", 1, stored}, y, f.angle);
  field.table({"pressure_MPa", "MPa", "pressure", "half-space solution", 0, stored}, {{y, f.y.size()}, {x, f.x.size()}},
              f.pressure);
}

} // namespace

Tree tell(const Case& c, const contact::StationContact& s) {
  Tree tree("contact");
  add_heading(tree, c, move_of(c));
  tree.attributes.emplace_back("law", s.law);
  tree.attributes.emplace_back("instant", s.instant.empty() ? "standing" : s.instant);
  Filler place(tree, "place");
  place.number({"station_mm", "mm", "station", "of the axle", 1, told}, s.station);
  place.number({"force_kN", "kN", "force", "vertical load on the wheel", 2, told}, s.vertical);
  place.number({"roll_mrad", "mrad", "roll", "of the wheel, + lifts its field side", 2, told}, s.roll);
  place.number({"yaw_mrad", "mrad", "yaw", "of the wheel, + turns it from x towards y", 2, told}, s.yaw);
  place.number({"wheel_height_mm", "mm", "height",
                "of the taping circle's bottom over z = 0, by the fast law that shares the load; in a passage of the "
                "body that carries most",
                4, told},
               s.height);
  place.number({"time_ms", "ms", "time", "of the instant in the passage; none: a wheel that stands", 3, told},
               s.instant.empty() ? std::nullopt : std::optional(s.time));
  place.text({"law", "law", "law of contact the patches come from", told}, s.law);
  const bool otherwise = s.roll != c.wheel.roll || s.yaw != c.wheel.yaw; // than the heading says
  using P = contact::PatchSummary;
  Columns(
      Filler(tree, "patches",
             (s.instant.empty() ? "Contact" : "Contact of the passage, " + s.instant + ",") + " at station " +
                 fixed(s.station * 1e3, 1) + " mm under " + fixed(s.vertical * 1e-3, 2) + " kN, law: " + s.law +
                 (otherwise ? "; wheel rolled " + number(s.roll * 1e3) + " and yawed " + number(s.yaw * 1e3) + " mrad"
                            : ""),
             Layout::columns),
      "patch", s.patches)
      .text({"body", "body", "body each patch lies on"}, &P::body)
      .number({"y_mm", "mm", "y", "centre of the pressure from the track centre line", 2}, &P::y)
      .number({"wheel_y_mm", "mm", "on wheel", "centre of the pressure from the wheel's taping line", 2}, &P::wheel_y)
      .number({"ahead_of_axle_mm", "mm", "ahead", "centre of the pressure ahead of the axle", 2}, &P::dx)
      .number({"contact_angle_mrad", "mrad", "angle", "slope of the common tangent across the track", 1}, &P::angle)
      .number({"normal_force_kN", "kN", "force", "normal force", 2}, &P::force)
      .number({"approach_um", "um", "approach", "normal approach at the deepest point", 1}, &P::approach)
      .number({"half_length_mm", "mm", "half length", "half length along the track", 2}, &P::half_length)
      .number({"half_width_mm", "mm", "half width", "half width across, along the surface", 2}, &P::half_width)
      .number({"area_mm2", "mm2", "area", "area of contact", 1}, &P::area)
      .number({"peak_pressure_MPa", "MPa", "peak", "largest pressure", 0}, &P::peak_pressure);
  using B = contact::BodyContact;
  Columns(Filler(tree, "bodies"), "body", s.bodies)
      .text({"body", "body", "bodies that carry", told}, &B::body)
      .number({"vertical_force_kN", "kN", "force", "vertical force on the body", 2, told}, &B::vertical)
      .number({"wheel_height_mm", "mm", "height", "of the wheel under which it carries that", 4, told}, &B::height);
  std::vector<const B*> solved;
  for (const B& body : s.bodies) {
    if (body.field) {
      solved.push_back(&body);
    }
  }
  const auto of = [](auto member) { return [member](const B* b) { return (*b->field).*member; }; };
  using F = contact::PressureField;
  Columns(Filler(tree, "half_space", "Half-space solution", Layout::columns), "solved_body", solved)
      .text({"body", "body", "bodies it was found for"}, [](const B* b) { return b->body; })
      .number({"approach_um", "um", "approach", "normal approach", 1}, of(&F::approach))
      .number({"area_mm2", "mm2", "area", "area of contact", 1}, of(&F::area))
      .number({"peak_pressure_MPa", "MPa", "peak", "largest pressure", 0}, of(&F::peak_pressure))
      .number({"change_of_angle_rad", "rad", "angle change",
               "change of the contact angle inside the contact; above 0.15 the half-space is stretched", 3},
              [](const B* b) { return b->field->turn.turn; });
  for (const B& body : s.bodies) {
    add_fields(tree, body);
  }
  quantity::add_findings(tree, s.findings);
  add_case(tree, c);
  return tree;
}

} // namespace wingnose::study
