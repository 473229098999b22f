// Room assess: measures of a history.
#include "rooms.hpp"
#include "tree.hpp"

#include "wingnose/assess/measures.hpp"

namespace wingnose::python {

using namespace assess;

void bind_assess(py::module_ m) {
  using O = MeasureOptions;
  ranged_type<O>(m, "MeasureOptions", "Definitions behind the measures.");
  m.def(
      "measure",
      [](const passage::History& history, double landing_station, const O& options) {
        Assessment a;
        a.measures = measure(history, landing_station, options);
        a.speed =
            std::abs(history.station.back() - history.station.front()) / (history.time.back() - history.time.front());
        return numbers_of(a, {quantity::Section::passage});
      },
      "history"_a, "landing_station"_a, usual<O>("options"),
      "Numbers of a history whose wheel lands near `landing_station` (m), by the keys of `wingnose.quantities`, in "
      "their units; None where there is none.");
  m.def(
      "low_pass_zero_phase",
      [](const Array& signal, double step, double cut_off, int order) {
        return own(low_pass_zero_phase(to_vector(signal), step, cut_off, order));
      },
      "signal"_a, "step"_a, "cut_off"_a, "order"_a = 2,
      R"(Butterworth low pass, forward and back (no phase shift).

`signal`: uniform samples; `step`: s between samples; `cut_off`: Hz, per pass; `order`: order per pass.)");
}

} // namespace wingnose::python
