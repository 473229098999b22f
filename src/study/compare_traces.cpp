// What a comparison keeps of histories: forces on a common grid of stations and of nose thicknesses.
#include "compare_parts.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::study {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr float not_covered = std::numeric_limits<float>::quiet_NaN();

std::size_t parts(double length, double step) { return static_cast<std::size_t>(std::ceil(length / step - 1e-9)); }

void raise(float& value, double to) {
  if (!(value >= static_cast<float>(to))) { // also where there is none yet
    value = static_cast<float>(to);
  }
}

struct Column {
  std::vector<double> values, weights;
};

// One cell of a table [member][cell], as far as the wheels cover it.
Column column(const std::vector<float>& table, std::size_t width, std::size_t cell,
              const std::vector<std::size_t>& members, std::span<const double> weights) {
  Column c;
  for (std::size_t i = 0; i < members.size(); ++i) {
    const float value = table[members[i] * width + cell];
    if (!std::isnan(value)) {
      c.values.push_back(static_cast<double>(value));
      c.weights.push_back(weights[i]);
    }
  }
  return c;
}

} // namespace

Traces::Traces(const CompareOptions& o, std::size_t members)
    : from_(o.envelope_from), step_(o.envelope_step), thickness_step_(o.thickness_step),
      cells_(parts(o.envelope_to - o.envelope_from, o.envelope_step)), bins_(parts(o.thickness_to, o.thickness_step)),
      force_(members * cells_, not_covered), nose_mean_(members * bins_, not_covered),
      nose_max_(members * bins_, not_covered) {}

void Traces::keep(std::size_t member, const passage::History& h, const layout::Crossing& crossing) {
  const auto cell_of = [this](double station) { return std::floor((station - from_) / step_); };
  float* force = force_.data() + member * cells_;
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
    const auto bin = static_cast<std::size_t>(thickness / thickness_step_);
    if (thickness > 0.0 && bin < bins_) {
      sum[bin] += load[i];
      samples[bin] += 1.0;
      raise(nose_max_[member * bins_ + bin], load[i]);
    }
  }
  for (std::size_t bin = 0; bin < bins_; ++bin) {
    if (samples[bin] > 0.0) {
      nose_mean_[member * bins_ + bin] = static_cast<float>(sum[bin] / samples[bin]);
    }
  }
}

Envelope Traces::envelope(const std::vector<std::size_t>& members, std::span<const double> weights) const {
  Envelope e;
  for (std::size_t cell = 0; cell < cells_; ++cell) {
    const Column c = column(force_, cells_, cell, members, weights);
    if (c.values.empty() || c.values.size() < members.size()) {
      continue;
    }
    const Sorted order = sorted(c.values);
    e.station.push_back(from_ + (static_cast<double>(cell) + 0.5) * step_);
    e.low.push_back(quantile_of(order, c.values, c.weights, 0.05));
    e.middle.push_back(quantile_of(order, c.values, c.weights, 0.50));
    e.high.push_back(quantile_of(order, c.values, c.weights, 0.95));
    e.most.push_back(c.values[order.back()]);
  }
  return e;
}

NoseLoad Traces::nose_load(const std::vector<std::size_t>& members, std::span<const double> weights) const {
  NoseLoad n;
  for (std::size_t bin = 0; bin < bins_; ++bin) {
    const Column mean = column(nose_mean_, bins_, bin, members, weights);
    const Column most = column(nose_max_, bins_, bin, members, weights);
    if (mean.values.empty()) {
      continue;
    }
    n.from.push_back(static_cast<double>(bin) * thickness_step_);
    n.to.push_back(static_cast<double>(bin + 1) * thickness_step_);
    const bool counts = std::any_of(mean.weights.begin(), mean.weights.end(), [](double w) { return w > 0.0; });
    n.mean.push_back(counts ? weighted_mean(mean.values, mean.weights) : none);
    n.high.push_back(counts ? weighted_quantile(most.values, most.weights, 0.95) : none);
    n.bearing.push_back(evaluate({nullptr, Statistic::Kind::share_above_zero, 0.5, false}, most.values, most.weights));
  }
  return n;
}

} // namespace wingnose::study
