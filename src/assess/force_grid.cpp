#include "wingnose/assess/force_grid.hpp"

#include "wingnose/numeric/weighted.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::assess {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr float not_covered = std::numeric_limits<float>::quiet_NaN();

std::size_t parts(double length, double step) { return static_cast<std::size_t>(std::ceil(length / step - 1e-9)); }

void raise(float& value, double to) {
  if (!(value >= static_cast<float>(to))) { // also where there is none yet
    value = static_cast<float>(to);
  }
}

struct WeightedColumn {
  std::vector<double> values, weights;
};

// One cell of a table [member][cell], as far as the wheels cover it.
WeightedColumn column(const std::vector<float>& table, std::size_t width, std::size_t cell,
                      std::span<const std::size_t> passages, std::span<const double> weights) {
  WeightedColumn c;
  for (std::size_t i = 0; i < passages.size(); ++i) {
    const float value = table[passages[i] * width + cell];
    if (!std::isnan(value)) {
      c.values.push_back(static_cast<double>(value));
      c.weights.push_back(weights[i]);
    }
  }
  return c;
}

} // namespace

void check(const ForceGrid& g) {
  if (g.envelope_to < g.envelope_from + g.envelope_step) {
    throw Contradiction("envelope_to", g.envelope_to, Bound::at_least, g.envelope_from + g.envelope_step,
                        "envelope_from", "It lies behind the first one.");
  }
  if (g.thickness_to < g.thickness_step) {
    throw Contradiction("thickness_to", g.thickness_to, Bound::at_least, g.thickness_step, "thickness_step",
                        "80 mm holds every transfer.");
  }
}

ForcesOfMany::ForcesOfMany(const ForceGrid& g, std::size_t passages)
    : grid_(g), cells_(parts(g.envelope_to - g.envelope_from, g.envelope_step)),
      bins_(parts(g.thickness_to, g.thickness_step)), force_(passages * cells_, not_covered),
      nose_mean_(passages * bins_, not_covered), nose_max_(passages * bins_, not_covered) {}

void ForcesOfMany::keep(std::size_t passage, const passage::History& h, const layout::Crossing& crossing) {
  const auto cell_of = [this](double station) {
    return std::floor((station - grid_.envelope_from) / grid_.envelope_step);
  };
  float* force = force_.data() + passage * cells_;
  const auto raise_cell = [&](double cell, double to) {
    if (cell >= 0.0 && cell < static_cast<double>(cells_)) {
      raise(force[static_cast<std::size_t>(cell)], to);
    }
  };
  for (std::size_t i = 0; i < h.station.size(); ++i) {
    const double cell = cell_of(h.station[i]);
    raise_cell(cell, h.force[i]);
    if (i > 0) { // steps shorter than a sample
      const double before = cell_of(h.station[i - 1]);
      for (double between = std::min(before, cell) + 1.0; between < std::max(before, cell); ++between) {
        raise_cell(between, std::max(h.force[i - 1], h.force[i]));
      }
    }
  }
  const auto nose = std::find(h.bodies.begin(), h.bodies.end(), "nose");
  if (nose == h.bodies.end()) {
    return;
  }
  const auto& load = h.body_force[static_cast<std::size_t>(nose - h.bodies.begin())];
  std::vector<double> sum(bins_, 0.0), samples(bins_, 0.0);
  for (std::size_t i = 0; i < h.station.size(); ++i) {
    const double thickness = crossing.nose_thickness(h.station[i]);
    const auto bin = static_cast<std::size_t>(thickness / grid_.thickness_step);
    if (thickness > 0.0 && bin < bins_) {
      sum[bin] += load[i];
      samples[bin] += 1.0;
      raise(nose_max_[passage * bins_ + bin], load[i]);
    }
  }
  for (std::size_t bin = 0; bin < bins_; ++bin) {
    if (samples[bin] > 0.0) {
      nose_mean_[passage * bins_ + bin] = static_cast<float>(sum[bin] / samples[bin]);
    }
  }
}

Envelope ForcesOfMany::envelope(std::span<const std::size_t> passages, std::span<const double> weights) const {
  Envelope e;
  for (std::size_t cell = 0; cell < cells_; ++cell) {
    const WeightedColumn c = column(force_, cells_, cell, passages, weights);
    if (c.values.empty() || c.values.size() < passages.size()) {
      continue;
    }
    const RisingOrder order = rising_order(c.values);
    e.station.push_back(grid_.envelope_from + (static_cast<double>(cell) + 0.5) * grid_.envelope_step);
    e.low.push_back(weighted_quantile(order, c.values, c.weights, 0.05));
    e.middle.push_back(weighted_quantile(order, c.values, c.weights, 0.50));
    e.high.push_back(weighted_quantile(order, c.values, c.weights, 0.95));
    e.most.push_back(c.values[order.back()]);
  }
  return e;
}

NoseLoad ForcesOfMany::nose_load(std::span<const std::size_t> passages, std::span<const double> weights) const {
  NoseLoad n;
  for (std::size_t bin = 0; bin < bins_; ++bin) {
    const WeightedColumn mean = column(nose_mean_, bins_, bin, passages, weights);
    const WeightedColumn most = column(nose_max_, bins_, bin, passages, weights);
    if (mean.values.empty()) {
      continue;
    }
    n.from.push_back(static_cast<double>(bin) * grid_.thickness_step);
    n.to.push_back(static_cast<double>(bin + 1) * grid_.thickness_step);
    const bool counts = std::any_of(mean.weights.begin(), mean.weights.end(), [](double w) { return w > 0.0; });
    n.mean.push_back(counts ? weighted_mean(mean.values, mean.weights) : none);
    n.high.push_back(counts ? weighted_quantile(most.values, most.weights, 0.95) : none);
    n.bearing.push_back(weighted_share_above(most.values, most.weights, 0.0));
  }
  return n;
}

std::pair<double, double> mean_and_high(const NoseLoad& load, double from, double to) {
  double sum = 0.0, count = 0.0, high = 0.0;
  for (std::size_t i = 0; i < load.from.size(); ++i) {
    const double middle = 0.5 * (load.from[i] + load.to[i]);
    if (middle > from && middle < to && !std::isnan(load.mean[i])) {
      sum += load.mean[i];
      count += 1.0;
      high = std::max(high, load.high[i]);
    }
  }
  return count > 0.0 ? std::pair{sum / count, high} : std::pair{none, none};
}

} // namespace wingnose::assess
