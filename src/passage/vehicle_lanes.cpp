// Steps of eight vehicles side by side, or of one. Compiled without contraction of products and sums
// (src/CMakeLists.txt): which of two products a compiler contracts may depend on what lies side by side.
#include "kernels.hpp"

#include "wingnose/numeric/clones.hpp"

#include <cstddef>

namespace wingnose::passage::kernels {
namespace {

template <int lanes>
[[gnu::always_inline]] inline void begin(const Vehicles& v, const double* __restrict now,
                                         const double* __restrict force, double* __restrict next) {
  double change[lanes];
  for (int j = 0; j < lanes; ++j) {
    change[j] = force[j] - v.static_load[j];
  }
  for (std::ptrdiff_t row = 0; row < v.motions; ++row) {
    double sum[lanes];
    for (int j = 0; j < lanes; ++j) {
      sum[j] = v.input_begin[row * lanes + j] * change[j];
    }
    for (std::ptrdiff_t k = 0; k < v.motions; ++k) {
      for (int j = 0; j < lanes; ++j) {
        sum[j] += v.transition[(row * v.motions + k) * lanes + j] * now[k * lanes + j];
      }
    }
    for (int j = 0; j < lanes; ++j) {
      next[row * lanes + j] = sum[j];
    }
  }
}
template <int lanes>
[[gnu::always_inline]] inline void end(const Vehicles& v, const double* __restrict next, const double* __restrict force,
                                       double* __restrict now) {
  for (std::ptrdiff_t row = 0; row < v.motions; ++row) {
    for (int j = 0; j < lanes; ++j) {
      now[row * lanes + j] = next[row * lanes + j] + v.input_end[row * lanes + j] * (force[j] - v.static_load[j]);
    }
  }
}

} // namespace

WINGNOSE_CLONES
void begin_vehicle(const Vehicles& vehicles, const double* now, const double* force, double* next) {
  begin<1>(vehicles, now, force, next);
}
WINGNOSE_CLONES
void begin_vehicles8(const Vehicles& vehicles, const double* now, const double* force, double* next) {
  begin<8>(vehicles, now, force, next);
}
WINGNOSE_CLONES
void end_vehicle(const Vehicles& vehicles, const double* next, const double* force, double* now) {
  end<1>(vehicles, next, force, now);
}
WINGNOSE_CLONES
void end_vehicles8(const Vehicles& vehicles, const double* next, const double* force, double* now) {
  end<8>(vehicles, next, force, now);
}

} // namespace wingnose::passage::kernels
