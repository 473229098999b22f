#include "section_fit.hpp"

#include "wingnose/error.hpp"

#include <cmath>
#include <vector>

namespace wingnose::crossing {
namespace {

// Natural-end-free cubic spline through values at parameters t (not-a-knot ends): second derivatives by elimination.
class Spline {
public:
  Spline(std::vector<double> t, std::vector<double> v) : t_(std::move(t)), v_(std::move(v)), m_(t_.size(), 0.0) {
    const std::size_t n = t_.size();
    std::vector<double> a(n), b(n), c(n), d(n);
    b[0] = b[n - 1] = 1.0;
    for (std::size_t i = 1; i + 1 < n; ++i) {
      const double h0 = t_[i] - t_[i - 1], h1 = t_[i + 1] - t_[i];
      a[i] = h0 / 6.0;
      b[i] = (h0 + h1) / 3.0;
      c[i] = h1 / 6.0;
      d[i] = (v_[i + 1] - v_[i]) / h1 - (v_[i] - v_[i - 1]) / h0;
    }
    // Curvature runs out level at the ends: m0 = m1, so that an arc at the edge keeps its bend.
    c[0] = -1.0;
    a[n - 1] = -1.0;
    for (std::size_t i = 1; i < n; ++i) {
      const double w = a[i] / b[i - 1];
      b[i] -= w * c[i - 1];
      d[i] -= w * d[i - 1];
    }
    m_[n - 1] = d[n - 1] / b[n - 1];
    for (std::size_t i = n - 1; i-- > 0;) {
      m_[i] = (d[i] - c[i] * m_[i + 1]) / b[i];
    }
  }
  struct Value {
    double value, slope;
  };
  [[nodiscard]] Value at(double t) const {
    const auto next = std::upper_bound(t_.begin() + 1, t_.end() - 1, t);
    const auto i = static_cast<std::size_t>(next - t_.begin()) - 1;
    const double h = t_[i + 1] - t_[i], p = (t_[i + 1] - t) / h, q = (t - t_[i]) / h;
    return {p * v_[i] + q * v_[i + 1] + ((p * p * p - p) * m_[i] + (q * q * q - q) * m_[i + 1]) * h * h / 6.0,
            (v_[i + 1] - v_[i]) / h + ((3.0 * q * q - 1.0) * m_[i + 1] - (3.0 * p * p - 1.0) * m_[i]) * h / 6.0};
  }

private:
  std::vector<double> t_, v_, m_;
};

} // namespace

FittedSection fit_section(const Section& section, double, const std::string& where) {
  std::vector<double> y = section.y, z = section.z, s(y.size(), 0.0);
  for (std::size_t i = 1; i < y.size(); ++i) {
    s[i] = s[i - 1] + std::hypot(y[i] - y[i - 1], z[i] - z[i - 1]);
    if (!(s[i] > s[i - 1])) {
      throw InputError(where, "point " + std::to_string(i + 1) + " repeats the one before", "distinct points",
                       "Remove duplicates.");
    }
  }
  const Spline spline_y(s, y), spline_z(s, z);
  FittedSection fit{y.front(), {}};
  const double length = s.back();
  for (std::size_t j = 0; j < LoftedBody::points; ++j) {
    const double at = length * static_cast<double>(j) / static_cast<double>(LoftedBody::points - 1);
    const auto py = spline_y.at(at), pz = spline_z.at(at);
    fit.curve.eta[j] = py.value - fit.edge;
    fit.curve.z[j] = pz.value;
    fit.curve.eta_t[j] = py.slope * length;
    fit.curve.z_t[j] = pz.slope * length;
  }
  return fit;
}

} // namespace wingnose::crossing
