// Room assess: measures of a history.
#include "rooms.hpp"
#include "value.hpp"

#include "wingnose/assess/measures.hpp"

namespace wingnose::python {

using namespace assess;

void bind_assess(py::module_ m) {
  using O = MeasureOptions;
  value_type<O>(
      m, "MeasureOptions", "Definitions behind the measures.", field("p2_cut_off", &O::p2_cut_off, "Hz"),
      field("p2_order", &O::p2_order, "order per pass, applied forward and back"),
      field("first_peak_window", &O::first_peak_window, "s after landing"),
      field("first_peak_prominence", &O::first_peak_prominence, "-, of its rise over the force before the landing"),
      field("window", &O::window, "s after landing in which peaks are sought"),
      field("acceleration_cut_off", &O::acceleration_cut_off, "Hz"));
  using M = Measures;
  result_type<M>(
      m, "Measures", "What a history means.",
      field("landing_body", &M::landing_body, "\"nose\" facing, \"wing\" trailing, \"path\" for prescribed paths"),
      field("landing_time", &M::landing_time, "s"), field("landing_station", &M::landing_station, "m"),
      field("first_peak", &M::first_peak, "N, or None where no peak stands out"),
      field("first_peak_delay", &M::first_peak_delay, "s after landing, or None"), field("p2", &M::p2, "N"),
      field("p2_delay", &M::p2_delay, "s after landing"), field("p2_cut_off", &M::p2_cut_off, "Hz"),
      field("peak_total", &M::peak_total, "N"), field("peak_total_station", &M::peak_total_station, "m"),
      field("peak_nose", &M::peak_nose, "N, or None"), field("peak_wing", &M::peak_wing, "N, or None"),
      field("dynamic_transfer_station", &M::dynamic_transfer_station,
            "m, where the body landed on first carries more, or None"),
      field("overlap_length", &M::overlap_length, "m, both bodies loaded at once"),
      field("lost_contact", &M::lost_contact, "s, without any contact"), field("minimum_force", &M::minimum_force, "N"),
      field("impulse", &M::impulse, "N s, above the static load after landing"),
      field("force_before_landing", &M::force_before_landing, "N"), field("static_load", &M::static_load, "N"),
      field("dynamic_factor", &M::dynamic_factor, "-, peak_total / static_load"),
      field("p2_dynamic_factor", &M::p2_dynamic_factor, "-, p2 / static_load"),
      field("rail_acceleration", &M::rail_acceleration, "m/s2, or None"),
      field("bearer_acceleration", &M::bearer_acceleration, "m/s2, or None"),
      field("notes", &M::notes, "what to know about these numbers"));

  m.def("measure", &measure, py::arg("history"), py::arg("landing_station"), py::arg_v("options", O{}, "..."),
        "Measures of a history whose wheel lands near `landing_station` (m).");
  m.def(
      "low_pass_zero_phase",
      [](const Array& signal, double step, double cut_off, int order) {
        return own(low_pass_zero_phase(to_vector(signal), step, cut_off, order));
      },
      py::arg("signal"), py::arg("step"), py::arg("cut_off"), py::arg("order") = 2,
      R"(Butterworth low pass, forward and back (no phase shift).

Parameters
----------
signal : array_like
    Uniform samples.
step : float
    s between samples.
cut_off : float
    Hz, per pass.
order : int
    Order per pass.)");
}

} // namespace wingnose::python
