// Numbers that follow from the modes of a track at an instant: Re sum S z + f Re sum D theta, with the modal
// coordinates z and the wheels' forces f, folded with the scaling of the step table.
#pragma once

#include "wingnose/passage/state.hpp"

#include <array>
#include <complex>
#include <vector>

namespace wingnose::passage {

using ModalShape = std::vector<std::complex<double>>; // [modes]

class ModalRows {
public:
  // rows: S and D of each, D may be empty; an even number.
  struct Row {
    ModalShape S, D;
  };
  ModalRows(const Passage& passage, const StepTable& table, const std::vector<Row>& rows);
  // Of a state in the scaling of the table; into the first values of out. No allocation.
  void evaluate(const State& state, double* out);

private:
  // What a wheel adds is a cubic along each element: its coefficients for the element each wheel is on.
  struct OfWheels {
    AlignedVector re, im;
    std::vector<std::array<double, 4>> cubic; // [wheel]
  };
  const Passage* passage_;
  const StepTable* table_;
  std::vector<AlignedVector> re_, im_; // [row][modes]
  std::vector<OfWheels> wheels_;       // [row]
  std::vector<int> element_;           // of each wheel
};

} // namespace wingnose::passage
