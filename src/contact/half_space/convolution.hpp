// Convolution of a field on a regular grid with an influence function, by real transforms of the zero-padded field:
// exact up to rounding (no periodic images). Field values lie at [iy * nx + ix].
//
// Every influence function of a half-space is even or odd in x and in y. Its transform is then real up to a factor i
// per odd direction, so it acts on cosine and sine parts separately and nothing complex is needed: transforms along x
// of the loaded rows, and along y transform, multiplication and way back in one pass per group of columns.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <span>
#include <vector>

namespace wingnose::contact {

enum class Parity { even, odd };

struct RowRange {
  std::size_t begin, end;
};

class Convolution {
public:
  Convolution(std::size_t nx, std::size_t ny); // both at least 1
  Convolution(const Convolution&) = delete;
  Convolution& operator=(const Convolution&) = delete;
  Convolution(Convolution&&) noexcept;
  Convolution& operator=(Convolution&&) noexcept;
  ~Convolution();

  struct Kernel {
    Parity in_x, in_y;
    std::vector<double> transform; // per column group, row of the transform and column
  };
  // value(ix, iy): influence at an offset of ix >= 0 and iy >= 0 cells from the loaded cell.
  [[nodiscard]] Kernel kernel(const std::function<double(std::size_t, std::size_t)>& value, Parity in_x,
                              Parity in_y) const;

  class Workspace {
  public:
    explicit Workspace(const Convolution& plan);

  private:
    friend class Convolution;
    std::vector<double> columns_; // transformed along x, before and after the pass along y
    std::vector<double> lane_;    // several rows or columns side by side, with room for alignment
  };

  // to = kernel * from on the whole grid. Only rows `loaded` of `from` are read, the others count as zero; only rows
  // `wanted` of `to` are written. `from` and `to` may be the same. Allocates nothing itself; the transforms take and
  // return scratch of one lane.
  void apply(const Kernel& kernel, std::span<const double> from, std::span<double> to, Workspace& workspace,
             RowRange loaded, RowRange wanted) const;
  void apply(const Kernel& kernel, std::span<const double> from, std::span<double> to, Workspace& workspace) const;

private:
  struct Plans;
  std::size_t nx_, ny_; // field
  std::size_t mx_, my_; // padded
  std::size_t groups_;  // of columns
  std::size_t stride_;  // from row to row of columns_; no power of two, which would crowd the rows into few cache sets
  std::unique_ptr<const Plans> plans_;
};

} // namespace wingnose::contact
