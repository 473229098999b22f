// Room track: description, matrices, modes, static and frequency answers.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/track/modal.hpp"

#include <pybind11/complex.h>

#include <complex>

namespace wingnose::python {

using namespace track;

namespace {

void bind_description(py::module_& m) {
  ranged_type<RailProperties>(m, "Timoshenko beam properties of one rail.");
  m.def("steel_rail", &steel_rail, "area"_a, "inertia"_a, "mass_per_m"_a, "kappa"_a = 0.40,
        "Properties of a steel rail from its area (m2), inertia (m4), mass (kg/m) and shear coefficient (-).");

  value_type<RailZone>(m, "A stretch where the rail differs, such as the casting of a crossing.",
                       needed<&RailZone::begin>("m"), needed<&RailZone::end>("m"),
                       field<&RailZone::rail>("its properties"));
  ranged_type<Seat>(m, "One rail seat: pad, bearer (half a sleeper), ballast; losses in the frequency domain.");
  value_type<SeatOverride>(m, "A seat that differs from the others.",
                           needed<&SeatOverride::station>("m, the nearest seat is replaced"),
                           field<&SeatOverride::seat>("what it becomes"));
  ranged_type<Track>(m, "Track under one rail.", field<&Track::rail>("the rail"),
                     field<&Track::zones>("stretches where the rail differs"), field<&Track::seat>("every rail seat"),
                     field<&Track::overrides>("seats that differ"), field<&Track::centre>("m, middle of the model"));
}

} // namespace

void bind_track(py::module_ m) {
  bind_description(m);

  Told<Assembly>(m, "Assembly", "Finite-element matrices of a track.")
      .field<&Assembly::node>("m, stations of the rail nodes")
      .field<&Assembly::seat_station>("m, stations of the rail seats")
      .get("dofs", "number of degrees of freedom", &Assembly::dofs)
      .def("__repr__", [](const Assembly& a) {
        return py::str("Assembly(dofs={}, seats={})").format(a.dofs(), a.seat_station.size());
      });
  m.def("assemble", &assemble, "track"_a, "Matrices of a track; raises InputError on impossible values.");
  m.def(
      "static_deflection",
      [](const Assembly& assembly, double load, double x_load, const Array& at) {
        return own(freely([&, x = to_vector(at)] { return static_deflection(assembly, load, x_load, x); }));
      },
      "assembly"_a, "load"_a, "x_load"_a, "at"_a,
      R"(Static deflection of the rail.

`assembly`: from `assemble`; `load`: N, downward; `x_load`: m, where it acts; `at`: m, where the deflection is wanted.
Returns m, downward positive.)");
  m.def(
      "receptance",
      [](const Assembly& assembly, double x, const Array& frequency) {
        const auto answer = freely([&, f = to_vector(frequency)] { return receptance(assembly, x, f); });
        return py::array_t<std::complex<double>>(static_cast<py::ssize_t>(answer.size()), answer.data());
      },
      "assembly"_a, "x"_a, "frequency"_a,
      R"(Point receptance of the rail, direct solution with loss factors.

`assembly`: from `assemble`; `x`: m, station of force and answer; `frequency`: Hz. Returns m/N.)");

  Told<ModalTrack>(m, "ModalTrack",
                   "Complex modes of a track with residual compliance; built once and shared by all passages.")
      .get("assembly", "the matrices it came from", [](const ModalTrack& t) -> const Assembly& { return t.assembly; })
      .field<&ModalTrack::modes>("number of complex modes")
      .field<&ModalTrack::highest_frequency>("Hz, highest mode kept")
      .field<&ModalTrack::bilinearity_error>("-, largest relative error of the modal static compliance")
      .get("begin", "m, first station", &ModalTrack::begin)
      .get("end", "m, last station", &ModalTrack::end)
      .get("decay", "rad/s, real parts of the eigenvalues (padded)",
           [](const py::object& self) { return view(self.cast<const ModalTrack&>().lambda_re, self); })
      .def("residual_at", &ModalTrack::residual_at, "x"_a, "Residual compliance (m/N) at station `x` (m).")
      .def("__repr__", [](const ModalTrack& t) {
        return py::str("ModalTrack(modes={}, begin={!r}, end={!r}, highest_frequency={:.0f})")
            .format(t.modes, t.begin(), t.end(), t.highest_frequency);
      });
  m.def(
      "modal_track", [](const Track& t) { return std::const_pointer_cast<ModalTrack>(modal_track(t)); }, "track"_a,
      Release(), "Modes of a track for time stepping; takes some tenths of a second, so build it once per track.");
  m.def("modal_receptance", &modal_receptance, "track"_a, "x"_a, "frequency"_a,
        "Point receptance (m/N, complex) at `x` (m) and one frequency (Hz) from the modes; viscous damping only.");
}

} // namespace wingnose::python
