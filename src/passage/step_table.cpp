#include "wingnose/passage/step_table.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <cmath>
#include <complex>

namespace wingnose::passage {
namespace {

using Complex = std::complex<double>;

// Weights of the first-order hold, int_0^1 of exp(u (1 - s)) times (1 - s) and s. The closed forms lose digits for
// small |u|, where their Taylor series are used instead.
struct Hold {
  Complex alpha, beta;
};
Hold first_order_hold(Complex u, double h) {
  if (std::abs(u) < 0.05) {
    Complex alpha = 0.0, beta = 0.0, term = 1.0; // term = u^n / n!
    for (int n = 0; n < 12; ++n) {
      // int_0^1 exp(u r) r dr = sum u^n / (n! (n + 2)); int_0^1 exp(u r) (1 - r) dr = sum u^n / (n + 2)!
      alpha += term / static_cast<double>(n + 2);
      beta += term / static_cast<double>((n + 1) * (n + 2));
      term *= u / static_cast<double>(n + 1);
    }
    return {h * alpha, h * beta};
  }
  const Complex e = std::exp(u);
  const Complex beta = (e - 1.0 - u) / (u * u);
  return {h * ((e - 1.0) / u - beta), h * beta};
}

} // namespace

double StepTable::compliance_at(int element, double s) const {
  // Parabola through three neighbouring points: straight lines would add a ripple of some 20 N at the grid's passing
  // frequency.
  const double position = s * (grid - 1);
  const int i = std::clamp(static_cast<int>(position) & ~1, 0, grid - 3);
  const double* c = compliance.data() + element * grid + i;
  const double r = position - i;
  return c[0] + r * (c[1] - c[0]) + 0.5 * r * (r - 1.0) * (c[2] - 2.0 * c[1] + c[0]);
}

std::shared_ptr<const StepTable> step_table(std::shared_ptr<const track::ModalTrack> track, double step) {
  if (step * track->highest_frequency > 0.8) {
    throw InputError("time step", number(step) + " s",
                     "below 0.8 / (highest track frequency) = " + number(0.8 / track->highest_frequency) + " s",
                     "Shorten the step or lower the track's cut-off.");
  }
  return long_step_table(std::move(track), step);
}

std::shared_ptr<const StepTable> long_step_table(std::shared_ptr<const track::ModalTrack> track, double step) {
  if (!(step > 0.0 && step < 1e-2)) {
    throw InputError("time step", number(step) + " s", "above 0 and below 0.01 s", "Use about 2.5e-5 s.");
  }
  auto table = std::make_shared<StepTable>();
  StepTable& t = *table;
  const track::ModalTrack& m = *track;
  const int n = m.padded;
  t.step = step;
  t.modes = n;
  for (AlignedVector* v : {&t.decay_re, &t.decay_im, &t.scale_re, &t.scale_im, &t.lag_re, &t.lag_im}) {
    v->resize(n);
  }
  std::vector<Complex> beta(n), scale(n);
  for (int k = 0; k < n; ++k) {
    const Complex lambda(m.lambda_re[k], m.lambda_im[k]);
    const Complex e = std::exp(lambda * step);
    const Hold hold = first_order_hold(lambda * step, step);
    beta[k] = hold.beta;
    scale[k] = std::sqrt(e * hold.beta + hold.alpha);
    const Complex lag = hold.beta / scale[k];
    t.decay_re[k] = e.real();
    t.decay_im[k] = e.imag();
    t.scale_re[k] = scale[k].real();
    t.scale_im[k] = scale[k].imag();
    t.lag_re[k] = lag.real();
    t.lag_im[k] = lag.imag();
  }

  const int rows = m.elements() * 4;
  t.shape_re.resize(static_cast<std::size_t>(rows) * n);
  t.shape_im.resize(static_cast<std::size_t>(rows) * n);
  for (int row = 0; row < rows; ++row) {
    const std::size_t at = static_cast<std::size_t>(row) * n;
    for (int k = 0; k < n; ++k) {
      const Complex shape = scale[k] * Complex(m.theta_re[at + k], m.theta_im[at + k]);
      t.shape_re[at + k] = shape.real();
      t.shape_im[at + k] = shape.imag();
    }
  }

  t.grid = 17; // odd: intervals are used in pairs
  t.compliance.resize(static_cast<std::size_t>(m.elements()) * t.grid);
  for (int e = 0; e < m.elements(); ++e) {
    const double x0 = m.assembly.node[e];
    const double length = m.assembly.node[e + 1] - x0;
    for (int i = 0; i < t.grid; ++i) {
      const double s = static_cast<double>(i) / (t.grid - 1);
      double sum = 0.0;
      for (int k = 0; k < n; ++k) {
        const Complex theta = m.shape({e, s}, k);
        sum += (theta * theta * beta[k]).real();
      }
      t.compliance[static_cast<std::size_t>(e) * t.grid + i] = sum + m.residual_at(x0 + s * length);
    }
  }
  t.track = std::move(track);
  return table;
}

} // namespace wingnose::passage
