#include "modal_rows.hpp"

#include "kernels.hpp"

namespace wingnose::passage {

using Complex = std::complex<double>;

ModalRows::ModalRows(const Passage& passage, const StepTable& t, const std::vector<Row>& rows)
    : passage_(&passage), table_(&t), element_(passage.wheels(), -1) {
  for (const Row& row : rows) {
    AlignedVector re(t.modes, 0.0), im(t.modes, 0.0);
    OfWheels of{AlignedVector(t.modes, 0.0), AlignedVector(t.modes, 0.0),
                std::vector<std::array<double, 4>>(passage.wheels())};
    for (int k = 0; k < t.modes; ++k) { // z = scale y + lag (scale theta) f
      const Complex scale(t.scale_re[k], t.scale_im[k]), lag(t.lag_re[k], t.lag_im[k]);
      const Complex own = row.S[k] * scale;
      const Complex wheel = row.S[k] * lag + (row.D.empty() ? Complex(0.0, 0.0) : row.D[k] / scale);
      re[k] = own.real();
      im[k] = own.imag();
      of.re[k] = wheel.real();
      of.im[k] = wheel.imag();
    }
    re_.push_back(std::move(re));
    im_.push_back(std::move(im));
    wheels_.push_back(std::move(of));
  }
}

void ModalRows::evaluate(const State& state, double* out) {
  const StepTable& t = *table_;
  const std::vector<double>& node = passage_->plan->track->assembly.node;
  for (std::size_t r = 0; r + 1 < re_.size(); r += 2) {
    const std::array<double, 2> own = kernels::probe_pair(t.modes, state.y_re.data(), state.y_im.data(), re_[r].data(),
                                                          im_[r].data(), re_[r + 1].data(), im_[r + 1].data());
    out[r] = own[0];
    out[r + 1] = own[1];
  }
  for (int w = 0; w < passage_->wheels(); ++w) {
    const int e = state.element[w];
    const double s = (passage_->wheel_station(w, state.station) - node[e]) / (node[e + 1] - node[e]);
    for (std::size_t r = 0; r < wheels_.size(); ++r) {
      OfWheels& of = wheels_[r];
      for (int power = 0; power < 4 && element_[w] != e; ++power) {
        of.cubic[w][power] = kernels::dot(t.modes, t.element_shape_re(e) + power * t.modes,
                                          t.element_shape_im(e) + power * t.modes, of.re.data(), of.im.data());
      }
      out[r] += state.force[w] * track::shape_at(of.cubic[w].data(), 1, 0, s);
    }
    element_[w] = e;
  }
}

} // namespace wingnose::passage
