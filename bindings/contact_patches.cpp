// Room contact: search for patches, normal laws, half-space pressure fields.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/contact/normal/loaded_wheel.hpp"
#include "wingnose/study/instants.hpp"
#include "wingnose/words/frame.hpp"

namespace wingnose::python {

using namespace contact;

namespace {

void bind_results(py::module_& m) {
  using N = NormalContact;
  result_type<N>(m, "What a normal law says about one body.", field<&N::force>("N, normal"),
                 field<&N::vertical>("N, its vertical part"), field<&N::approach>("m, normal, at the deepest point"),
                 field<&N::stiffness>("N/m, slope of force over approach"), field<&N::peak_pressure>("Pa"),
                 field<&N::area>("m2"), field<&N::half_length>("m, along the track"),
                 field<&N::half_width>("m, across"),
                 field<&N::y>("m, centre of the pressure from the track centre line"));

  using F = PressureField;
  columns_type<F, field_columns>(m, "Half-space solution of one body: pressure without assuming a shape.",
                                 field<&F::x>("m, centres of the cells ahead of the axle"),
                                 field<&F::y>("m, centres of the rows from the track centre line"),
                                 field<&F::angle>("rad, contact angle of each row"), field<&F::force>("N, normal"),
                                 field<&F::vertical>("N"), field<&F::half_length>("m"), field<&F::half_width>("m"),
                                 field<&F::mean_y>("m, centre of the pressure"))
      .get("pressure", "Pa, [y, x]",
           [](const F& f) -> py::array_t<double> {
             return own(std::vector(f.pressure)).reshape({f.y.size(), f.x.size()});
           })
      .get("turn", "rad, change of the contact angle inside the contact; above 0.15 the half-space is stretched",
           [](const F& f) { return f.turn.turn; });

  using D = LawDeviation;
  result_type<D>(m, "Both fast laws beside the half-space solution for one lateral place.",
                 field<&D::lateral>("m, of the wheel's taping line"),
                 field<&D::ellipse>("one Hertz ellipse of the closed width"),
                 field<&D::strips>("strips solved together"), field<&D::half_space>("the yardstick"));

  using P = PatchSummary;
  columns_type<P, patch_columns>(m, "One contact patch.", field<&P::body>("name of the body"),
                                 field<&P::turn>("rad, change of the contact angle over what carries"));

  columns_type<Strip, strip_columns>(m, "A strip of a patch along the rolling direction.");
  using B = BodyContact;
  result_type<B>(m, "What one body carries.", field<&B::body>("name of the body"),
                 field<&B::vertical>("N, its share of the load or its force in the passage"),
                 field<&B::height>("m, of the taping circle's bottom under which it carries that"),
                 field<&B::strips>("pressure over the width"), field<&B::field>("half-space pressure field, or None"));
  using S = StationContact;
  columns_type<S, station_columns>(
      m, "A wheel standing at one station under a given load.", field<&S::lateral>("m, of the taping line"),
      field<&S::law>("law used"), field<&S::instant>("of a passage; empty: a wheel that stands"),
      field<&S::time>("s, of that instant"), field<&S::patches>("patches, by body, then across"),
      field<&S::bodies>("bodies that carry"), field<&S::findings>("where the half-space is stretched"))
      .get("fields", "pressure fields by body, where asked for", [](const S& s) {
        py::typing::Dict<py::str, PressureField> fields;
        for (const BodyContact& body : s.bodies) {
          if (body.field) {
            fields[py::str(body.body)] = *body.field;
          }
        }
        return fields;
      });
}

} // namespace

StationOptions contact_options(const std::string& law, std::size_t cells) {
  StationOptions options = study::station_options(law, "contact law");
  options.fields = cells > 0;
  if (cells > 0) {
    options.cells = {cells, cells};
  }
  return options;
}

namespace {

StationContact stand(const layout::Crossing& crossing, const profile::WheelProfile& wheel, double station, double force,
                     const std::string& law, double lateral_offset, double roll, double yaw, double wheel_radius,
                     std::size_t cells, const Elastic& material) {
  const WheelPlace place{station, taping_line_y + lateral_offset, roll, yaw};
  return contact_at(WheelSurface(wheel, wheel_radius), crossing.bodies, place, force, material,
                    contact_options(law, cells));
}

std::vector<LawDeviation> deviations(const profile::WheelProfile& wheel, const profile::RailHead& rail,
                                     const Array& lateral_offset, double force, double wheel_radius, std::size_t cells,
                                     const Elastic& material) {
  std::vector<double> lateral = to_vector(lateral_offset);
  for (double& y : lateral) {
    y += taping_line_y;
  }
  return law_deviations(WheelSurface(wheel, wheel_radius), layout::plain_rail(rail), 0.0, lateral, force, material,
                        {cells, cells});
}

} // namespace

void bind_contact_patches(py::module_ m) {
  bind_results(m);
  m.def("contact_at", &stand, "crossing"_a, "wheel"_a, "station"_a, "force"_a, py::kw_only(), "law"_a = "strips",
        "lateral_offset"_a = 0.0, "roll"_a = 0.0, "yaw"_a = 0.0, "wheel_radius"_a = 0.46, "cells"_a = 0,
        usual<Elastic>("material"),
        R"(Patches of a wheel that stands at one station of a crossing.

`crossing`: bodies to stand on; `wheel`: wheel profile; `station`: m, of the axle; `force`: N, vertical load, > 0;
`law`: "ellipse", "strips" or "half-space"; `lateral_offset`: m, shift of the wheelset, + towards the crossing; `roll`,
`yaw`: rad, of the wheel, up to 0.1; `wheel_radius`: m, at the taping line; `cells`: cells of the half-space pressure
fields on either side (0: none beside a fast law); `material`: steel by default. Returns patches and, where asked
for, pressure fields.)");
  m.def("law_deviations", &deviations, "wheel"_a, "rail"_a, "lateral_offset"_a, "force"_a, py::kw_only(),
        "wheel_radius"_a = 0.46, "cells"_a = 64, usual<Elastic>("material"),
        R"(Both fast normal laws beside the half-space solution over lateral shifts of a wheel on plain rail.

`wheel`: wheel profile; `rail`: rail head as it lies, its gauge point at half the gauge; `lateral_offset`: m, shifts
of the wheelset, + towards the field side; `force`: N, vertical, > 0; `wheel_radius`: m, at the taping line; `cells`:
cells of the half-space grid on either side; `material`: steel by default. Returns one per shift.)");
}

} // namespace wingnose::python
