#include "convolution.hpp"

#define POCKETFFT_NO_MULTITHREADING
#include "pocketfft_hdronly.h"

#include <algorithm>
#include <cstring>

namespace wingnose::contact {
namespace {

namespace fft = pocketfft::detail;
constexpr std::size_t lanes = fft::VLEN<double>::val;
using Lane = fft::vtype_t<double>;

// Half-complex order of a real transform of length m: r0 r1 i1 r2 i2 ... Frequency of entry k.
std::size_t frequency(std::size_t k) { return (k + 1) / 2; }

// Multiplication by i * value in half-complex order: (r, i) becomes (-i, r). Entries without partner (mean, and the
// last of an even length) have no sine part; an odd influence function has nothing there either.
void quarter_turn(Lane* entries, std::size_t length) {
  entries[0] = Lane{};
  for (std::size_t k = 1; k + 1 < length; k += 2) {
    const Lane real = entries[k];
    entries[k] = -entries[k + 1];
    entries[k + 1] = real;
  }
  if (length % 2 == 0) {
    entries[length - 1] = Lane{};
  }
}

// The entry of `transform` that an influence function of this parity has at a frequency.
double part(const std::vector<double>& transform, std::size_t frequency, Parity parity) {
  const std::size_t entry = parity == Parity::odd ? 2 * frequency : (frequency == 0 ? 0 : 2 * frequency - 1);
  const bool none = parity == Parity::odd && frequency == 0;
  return none || entry >= transform.size() ? 0.0 : transform[entry];
}

// The transform of an even or odd function given at offsets 0 to n - 1.
template <class Value>
void transform_line(const fft::pocketfft_r<double>& plan, std::vector<double>& line, std::size_t n, Parity parity,
                    const Value& value) {
  std::fill(line.begin(), line.end(), 0.0);
  line[0] = parity == Parity::odd ? 0.0 : value(0);
  for (std::size_t i = 1; i < n; ++i) {
    line[i] = value(i);
    line[line.size() - i] = parity == Parity::odd ? -line[i] : line[i];
  }
  plan.exec(line.data(), 1.0, true);
}

Lane* aligned(std::vector<double>& storage) {
  void* start = storage.data();
  std::size_t room = storage.size() * sizeof(double);
  return static_cast<Lane*>(std::align(alignof(Lane), room - 64, start, room));
}

} // namespace

struct Convolution::Plans {
  Plans(std::size_t mx, std::size_t my) : along_x(mx), along_y(my) {}
  fft::pocketfft_r<double> along_x, along_y;
};

Convolution::Convolution(std::size_t nx, std::size_t ny)
    : nx_(nx), ny_(ny), mx_(fft::util::good_size_real(2 * nx - 1)), my_(fft::util::good_size_real(2 * ny - 1)),
      groups_((mx_ + lanes - 1) / lanes), stride_(groups_ * lanes + 8),
      plans_(std::make_unique<const Plans>(mx_, my_)) {}
Convolution::Convolution(Convolution&&) noexcept = default;
Convolution& Convolution::operator=(Convolution&&) noexcept = default;
Convolution::~Convolution() = default;

Convolution::Workspace::Workspace(const Convolution& plan)
    : columns_(plan.ny_ * plan.stride_), lane_(std::max(plan.mx_, plan.my_) * lanes + 8) {}

Convolution::Kernel Convolution::kernel(const std::function<double(std::size_t, std::size_t)>& value, Parity in_x,
                                        Parity in_y) const {
  // Rows dy and -dy are alike, and so are the columns that share a frequency: ny + mx/2 + 1 short transforms suffice.
  const std::size_t frequencies = frequency(mx_ - 1) + 1;
  std::vector<double> by_row(ny_ * frequencies);
  std::vector<double> line(mx_);
  for (std::size_t iy = 0; iy < ny_; ++iy) {
    transform_line(plans_->along_x, line, nx_, in_x, [&](std::size_t ix) { return value(ix, iy); });
    for (std::size_t f = 0; f < frequencies; ++f) {
      by_row[iy * frequencies + f] = part(line, f, in_x);
    }
  }
  Kernel result{in_x, in_y, std::vector<double>(groups_ * lanes * my_, 0.0)};
  std::vector<double> column(my_);
  for (std::size_t f = 0; f < frequencies; ++f) {
    transform_line(plans_->along_y, column, ny_, in_y, [&](std::size_t iy) { return by_row[iy * frequencies + f]; });
    for (const std::size_t kx : {2 * f - 1, 2 * f}) { // the cosine and the sine entry
      if (kx < mx_) {
        for (std::size_t ky = 0; ky < my_; ++ky) {
          result.transform[(kx / lanes * my_ + ky) * lanes + kx % lanes] = part(column, frequency(ky), in_y);
        }
      }
    }
  }
  return result;
}

void Convolution::apply(const Kernel& kernel, std::span<const double> from, std::span<double> to, Workspace& workspace,
                        RowRange loaded, RowRange wanted) const {
  Lane* const lane = aligned(workspace.lane_);
  double* const columns = workspace.columns_.data();

  for (std::size_t row = loaded.begin; row < loaded.end; row += lanes) {
    const std::size_t count = std::min(lanes, loaded.end - row);
    std::fill(lane, lane + mx_, Lane{});
    for (std::size_t j = 0; j < count; ++j) {
      for (std::size_t i = 0; i < nx_; ++i) {
        lane[i][j] = from[(row + j) * nx_ + i];
      }
    }
    plans_->along_x.exec(lane, 1.0, true);
    if (kernel.in_x == Parity::odd) {
      quarter_turn(lane, mx_);
    }
    for (std::size_t j = 0; j < count; ++j) {
      for (std::size_t i = 0; i < mx_; ++i) {
        columns[(row + j) * stride_ + i] = lane[i][j];
      }
    }
  }

  const double scale = 1.0 / (static_cast<double>(mx_) * static_cast<double>(my_));
  const double* transform = kernel.transform.data();
  for (std::size_t group = 0; group < groups_; ++group, transform += my_ * lanes) {
    double* const column = columns + group * lanes;
    std::fill(lane, lane + my_, Lane{});
    for (std::size_t row = loaded.begin; row < loaded.end; ++row) {
      std::memcpy(lane + row, column + row * stride_, sizeof(Lane));
    }
    plans_->along_y.exec(lane, scale, true);
    if (kernel.in_y == Parity::odd) {
      quarter_turn(lane, my_);
    }
    for (std::size_t k = 0; k < my_; ++k) {
      Lane factor;
      std::memcpy(&factor, transform + k * lanes, sizeof(Lane));
      lane[k] *= factor;
    }
    plans_->along_y.exec(lane, 1.0, false);
    for (std::size_t row = wanted.begin; row < wanted.end; ++row) {
      std::memcpy(column + row * stride_, lane + row, sizeof(Lane));
    }
  }

  for (std::size_t row = wanted.begin; row < wanted.end; row += lanes) {
    const std::size_t count = std::min(lanes, wanted.end - row);
    for (std::size_t j = 0; j < count; ++j) {
      for (std::size_t i = 0; i < mx_; ++i) {
        lane[i][j] = columns[(row + j) * stride_ + i];
      }
    }
    plans_->along_x.exec(lane, 1.0, false);
    for (std::size_t j = 0; j < count; ++j) {
      for (std::size_t i = 0; i < nx_; ++i) {
        to[(row + j) * nx_ + i] = lane[i][j];
      }
    }
  }
}

void Convolution::apply(const Kernel& kernel, std::span<const double> from, std::span<double> to,
                        Workspace& workspace) const {
  apply(kernel, from, to, workspace, {0, ny_}, {0, ny_});
}

} // namespace wingnose::contact
