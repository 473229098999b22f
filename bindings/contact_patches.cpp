// Room contact: search for patches, normal laws, half-space pressure fields.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/contact/normal/loaded_wheel.hpp"
#include "wingnose/words/error.hpp"
#include "wingnose/words/frame.hpp"

namespace wingnose::python {

using namespace contact;

namespace {

void bind_results(py::module_& m) {
  using N = NormalContact;
  result_type<N>(m, "NormalContact", "What a normal law says about one body.", field("force", &N::force, "N, normal"),
                 field("vertical", &N::vertical, "N, its vertical part"),
                 field("approach", &N::approach, "m, normal, at the deepest point"),
                 field("stiffness", &N::stiffness, "N/m, slope of force over approach"),
                 field("peak_pressure", &N::peak_pressure, "Pa"), field("area", &N::area, "m2"),
                 field("half_length", &N::half_length, "m, along the track"),
                 field("half_width", &N::half_width, "m, across"),
                 field("y", &N::y, "m, centre of the pressure from the track centre line"));

  using F = PressureField;
  result_type<F>(m, "PressureField", "Half-space solution of one body: pressure without assuming a shape.",
                 field("x", &F::x, "m, centres of the cells ahead of the axle"),
                 field("y", &F::y, "m, centres of the rows from the track centre line"),
                 field("angle", &F::angle, "rad, contact angle of each row"), field("force", &F::force, "N, normal"),
                 field("vertical", &F::vertical, "N"), field("approach", &F::approach, "m, normal"),
                 field("peak_pressure", &F::peak_pressure, "Pa"), field("area", &F::area, "m2"),
                 field("half_length", &F::half_length, "m"), field("half_width", &F::half_width, "m"),
                 field("mean_y", &F::mean_y, "m, centre of the pressure"))
      .get("pressure", "Pa, [y, x]",
           [](const F& f) {
             py::array_t<double> p({f.y.size(), f.x.size()});
             std::copy(f.pressure.begin(), f.pressure.end(), p.mutable_data());
             return p;
           })
      .get("turn", "rad, change of the contact angle inside the contact; above 0.15 the half-space is stretched",
           [](const F& f) { return f.turn.turn; });

  using D = LawDeviation;
  result_type<D>(m, "LawDeviation", "Both fast laws beside the half-space solution for one lateral place.",
                 field("lateral", &D::lateral, "m, of the wheel's taping line"),
                 field("ellipse", &D::ellipse, "one Hertz ellipse of the closed width"),
                 field("strips", &D::strips, "strips solved together"),
                 field("half_space", &D::half_space, "the yardstick"));

  using P = PatchSummary;
  result_type<P>(m, "PatchSummary", "One contact patch.", field("body", &P::body, "name of the body"),
                 field("y", &P::y, "m, from the track centre line"),
                 field("wheel_y", &P::wheel_y, "m, from the wheel's taping line"),
                 field("dx", &P::dx, "m, ahead of the axle"), field("angle", &P::angle, "rad, contact angle"),
                 field("force", &P::force, "N, normal"), field("approach", &P::approach, "m, normal"),
                 field("half_length", &P::half_length, "m, along the track"),
                 field("half_width", &P::half_width, "m, across"), field("area", &P::area, "m2"),
                 field("peak_pressure", &P::peak_pressure, "Pa"),
                 field("turn", &P::turn, "rad, change of the contact angle over what carries"));

  result_type<Strip>(
      m, "Strip", "A strip of a patch along the rolling direction.",
      field("y", &Strip::y, "m, its middle from the track centre line"), field("width", &Strip::width, "m, along y"),
      field("dx", &Strip::dx, "m, its middle ahead of the axle"),
      field("half_length", &Strip::half_length, "m, along the track"),
      field("pressure", &Strip::pressure, "Pa, in its middle"), field("force", &Strip::force, "N, normal"));
  using B = BodyContact;
  result_type<B>(m, "BodyContact", "What one body carries.", field("body", &B::body, "name of the body"),
                 field("vertical", &B::vertical, "N, its share of the load or its force in the passage"),
                 field("height", &B::height, "m, of the taping circle's bottom under which it carries that"),
                 field("strips", &B::strips, "pressure over the width"),
                 field("field", &B::field, "half-space pressure field, or None"));
  using S = StationContact;
  result_type<S>(
      m, "StationContact", "A wheel standing at one station under a given load.",
      field("station", &S::station, "m, of the axle"), field("lateral", &S::lateral, "m, of the taping line"),
      field("roll", &S::roll, "rad, as the wheel was held"), field("yaw", &S::yaw, "rad, likewise"),
      field("height", &S::height, "m, of the taping circle's bottom over z = 0"),
      field("vertical", &S::vertical, "N, load"), field("law", &S::law, "law used"),
      field("instant", &S::instant, "of a passage; empty: a wheel that stands"),
      field("time", &S::time, "s, of that instant"), field("patches", &S::patches, "patches, by body, then across"),
      field("bodies", &S::bodies, "bodies that carry"),
      field("findings", &S::findings, "where the half-space is stretched"))
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

StationContact stand(const layout::Crossing& crossing, const profile::WheelProfile& wheel, double station, double force,
                     const std::string& law, double lateral_offset, double roll, double yaw, double wheel_radius,
                     std::size_t cells, const Elastic& material) {
  StationOptions options;
  options.half_space = law == "half-space";
  if (law != "ellipse" && law != "strips" && law != "half-space") {
    throw InputError("contact law", "\"" + law + "\"", "\"ellipse\", \"strips\" or \"half-space\"",
                     "Choose one of these.");
  }
  if (!options.half_space) {
    options.law = named<NormalLaw>(law, "contact law");
  }
  options.fields = cells > 0;
  if (cells > 0) {
    options.cells = {cells, cells};
  }
  const WheelPlace place{station, taping_line_y + lateral_offset, roll, yaw};
  return contact_at(WheelSurface(wheel, wheel_radius), crossing.bodies, place, force, material, options);
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
  m.def("contact_at", &stand, py::arg("crossing"), py::arg("wheel"), py::arg("station"), py::arg("force"),
        py::kw_only(), py::arg("law") = "strips", py::arg("lateral_offset") = 0.0, py::arg("roll") = 0.0,
        py::arg("yaw") = 0.0, py::arg("wheel_radius") = 0.46, py::arg("cells") = 0,
        py::arg_v("material", Elastic{}, "..."),
        R"(Patches of a wheel that stands at one station of a crossing.

`crossing`: bodies to stand on; `wheel`: wheel profile; `station`: m, of the axle; `force`: N, vertical load, > 0;
`law`: "ellipse", "strips" or "half-space"; `lateral_offset`: m, shift of the wheelset, + towards the crossing; `roll`,
`yaw`: rad, of the wheel, up to 0.1; `wheel_radius`: m, at the taping line; `cells`: cells of the half-space pressure
fields on either side (0: none beside a fast law); `material`: steel by default. Returns patches and, where asked
for, pressure fields.)");
  m.def("law_deviations", &deviations, py::arg("wheel"), py::arg("rail"), py::arg("lateral_offset"), py::arg("force"),
        py::kw_only(), py::arg("wheel_radius") = 0.46, py::arg("cells") = 64, py::arg_v("material", Elastic{}, "..."),
        R"(Both fast normal laws beside the half-space solution over lateral shifts of a wheel on plain rail.

`wheel`: wheel profile; `rail`: rail head as it lies, its gauge point at half the gauge; `lateral_offset`: m, shifts
of the wheelset, + towards the field side; `force`: N, vertical, > 0; `wheel_radius`: m, at the taping line; `cells`:
cells of the half-space grid on either side; `material`: steel by default. Returns one per shift.)");
}

} // namespace wingnose::python
